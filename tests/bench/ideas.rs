//! A benchmark of looking through the English list for words that can be spelled now.
//!
//! The rival counts a word's letters in a map and holds them against a map of letters for each height there is, which knows
//! nothing of stand-ins, nor of letters of unlike but neighbouring heights. Must not know how a word is judged.

use std::collections::HashMap;
use std::hint::black_box;
use std::time::{Duration, Instant};

use oddment::app::asking_of;
use oddment::files::StashFolder;
use oddment::stash::Stash;
use oddment::supply::{Demand, IdeaRules, Ideas, Supply, WordList};
use tempfile::TempDir;

use super::{made, millis, ratio};

/// Measures for each size of stash.
pub(crate) fn ideas() {
    let list = WordList::english();
    println!("\nwords to spell, of {} English ones, against a map of letters for each height", list.len());
    for &(name, sheets) in &made::SIZES {
        let folder = TempDir::new().unwrap();
        made::write(folder.path(), sheets, 0).unwrap();
        let loaded = StashFolder::at(folder.path()).load().unwrap();
        let begun = Instant::now();
        let supply = Supply::new(&loaded.stash, asking_of(&loaded.taste), |_| 0);
        let laid_out = begun.elapsed();
        let (plain, found) = search(&supply, &list, false);
        let (free, found_free) = search(&supply, &list, true);
        let rival = rival(&loaded.stash, &list);
        println!(
            "{name:>3}  laid out{}  its own letters{} ({found})  stand-ins{} ({found_free})  map{}  {}",
            millis(laid_out),
            millis(plain),
            millis(free),
            millis(rival),
            ratio(rival, plain),
        );
    }
}

fn search(supply: &Supply, list: &WordList<'_>, stand_ins: bool) -> (Duration, usize) {
    let rules = IdeaRules { least: 1, most: 30, with: Vec::new(), scarce: None, stand_ins };
    let mut ideas = Ideas::new(rules, Demand::default());
    let begun = Instant::now();
    while !ideas.run(supply, list, 1_000) {}
    (begun.elapsed(), black_box(&ideas).found().len())
}

fn rival(stash: &Stash, list: &WordList<'_>) -> Duration {
    let begun = Instant::now();
    let mut bands: HashMap<i64, HashMap<char, u16>> = HashMap::new();
    for chip in stash.chips().map(|chip| stash.chip(chip)) {
        let band = bands.entry(chip.shown_height().nm()).or_default();
        *band.entry(chip.letter.character.base()).or_default() += chip.on_hand();
    }
    let mut found = 0;
    for word in list.words() {
        let mut capitals: Vec<char> = word.chars().collect();
        capitals[0].make_ascii_uppercase();
        let tried = [word.to_uppercase(), capitals.into_iter().collect(), word.to_owned()];
        let is_there = tried.iter().any(|text| {
            let mut wanted: HashMap<char, u16> = HashMap::new();
            text.chars().for_each(|c| *wanted.entry(c).or_default() += 1);
            bands
                .values()
                .any(|band| wanted.iter().all(|(c, times)| band.get(c).is_some_and(|left| left >= times)))
        });
        found += usize::from(is_there);
    }
    black_box(found);
    begun.elapsed()
}
