//! A benchmark of the most wishes together: how many, whether that is proven, and how long it takes.
//!
//! The wishes are words of the English list, one after the other until there are 8 to 16 letters. Must not know how wishes are chosen.

use std::path::Path;
use std::time::{Duration, Instant};

use oddment::app::asking_of;
use oddment::files::StashFolder;
use oddment::supply::{Demand, Supply, Together, WordList};
use oddment::title::Wording;
use tempfile::TempDir;

use super::{made, millis};

/// So many seeded lists of wishes of each length.
const SEEDS: u64 = 3;
const WISHES: [usize; 3] = [12, 40, 100];
/// No longer than this for one list.
const MOST: Duration = Duration::from_secs(10);
/// Between two looks at the clock.
const STEPS: u64 = 5_000;

/// Measures on the sample stash and on seeded ones.
pub(crate) fn together() {
    println!("\nthe most of so many wishes together: made..at most, within {MOST:?}");
    lists("sample", Path::new("sample-stash"));
    for &(name, sheets) in made::SIZES.iter().filter(|size| size.1 <= 200) {
        let folder = TempDir::new().unwrap();
        made::write(folder.path(), sheets, 0).unwrap();
        lists(name, folder.path());
    }
}

fn lists(name: &str, folder: &Path) {
    let loaded = StashFolder::at(folder).load().unwrap();
    assert!(loaded.problems.is_empty());
    let supply = Supply::new(&loaded.stash, asking_of(&loaded.taste), |_| 0);
    for (count, seed) in WISHES.iter().flat_map(|&count| (1..=SEEDS).map(move |seed| (count, seed))) {
        let wishes = wishes(&mut made::Dice::new(seed), count);
        let demands: Vec<Demand> = wishes.iter().map(|wish| supply.demand(wish)).collect();
        measure(&format!("{name:<6} {count:>3} wishes, seed {seed}"), &supply, &demands);
    }
}

fn wishes(dice: &mut made::Dice, count: usize) -> Vec<Wording> {
    let english = WordList::english();
    let words: Vec<&str> = english.words().filter(|word| word.len() <= 9).collect();
    let wish = |_| {
        let (least, mut text, mut letters) = (8 + dice.below(9), String::new(), 0);
        while letters < 8 {
            let word = words[dice.below(words.len())];
            if letters + word.len() <= 16.min(least + 4) {
                text.push_str(&word.to_uppercase());
                text.push(' ');
                letters += word.len();
            }
        }
        Wording::new(text.trim()).unwrap()
    };
    (0..count).map(wish).collect()
}

fn measure(list: &str, supply: &Supply, demands: &[Demand]) {
    let begun = Instant::now();
    let mut together = Together::new(supply, demands, &[]);
    let (mut steps, mut slowest) = (0, Duration::ZERO);
    while !together.is_proven() && begun.elapsed() < MOST {
        let slice = Instant::now();
        together.advance(STEPS);
        slowest = slowest.max(slice.elapsed());
        steps += STEPS;
    }
    println!(
        "  {list}  {:>3}..{:<3} {} {}  {steps:>9} steps, the slowest {STEPS} in {}",
        together.best().len(),
        together.bound(),
        if together.is_proven() { "proven in  " } else { "stopped at " },
        millis(begun.elapsed()),
        millis(slowest),
    );
}
