//! A benchmark of spelling: how many wordings a second, one core, against reading the list of them alone.
//!
//! Must not know how a wording is judged.

use std::fmt::Write as _;
use std::hint::black_box;
use std::path::Path;
use std::time::{Duration, Instant};

use oddment::files::StashFolder;
use oddment::measure::Points;
use oddment::stash::Stash;
use oddment::supply::{Asking, Costs, Demand, Speller, Supply, Verdict, WordList};
use tempfile::TempDir;

use super::{figures, made, millis};

const WORDINGS: usize = 100_000;

/// A list of wordings, one a line.
struct List {
    name: &'static str,
    text: String,
}

/// Measures spelling on stashes of all sizes.
pub(crate) fn spell() {
    println!(
        "\nspelling of {WORDINGS} wordings, one a line, against reading the lines and counting their bytes"
    );
    let lists = [
        List { name: "words", text: list(1, str::to_uppercase) },
        List { name: "as written", text: list(1, str::to_owned) },
        List { name: "three words", text: list(3, str::to_uppercase) },
    ];
    for &(name, sheets) in &made::SIZES {
        let folder = TempDir::new().unwrap();
        made::write(folder.path(), sheets, 0).unwrap();
        let stash = load(folder.path());
        let (supply, built) = build(&stash);
        println!("  {name:<3} laid out in {}, {} bands of heights", millis(built), supply.bands().len());
        for list in &lists {
            judge(list, &supply);
            slowly(list, &supply);
        }
    }
}

/// The words of the list that the program carries, so many a line.
fn list(words: usize, written: impl Fn(&str) -> String) -> String {
    let english = WordList::english();
    let all: Vec<String> = english.words().map(written).collect();
    let mut text = String::new();
    for line in (0..WORDINGS).map(|place| place * words) {
        let words: Vec<&str> = (line..line + words).map(|place| all[place % all.len()].as_str()).collect();
        let _ = writeln!(text, "{}", words.join(" "));
    }
    text
}

fn load(folder: &Path) -> Stash {
    let loaded = StashFolder::at(folder).load().unwrap();
    assert!(loaded.problems.is_empty());
    loaded.stash
}

fn build(stash: &Stash) -> (Supply, Duration) {
    let [turned, look_alike, other_case, trimmed] = [30, 40, 20, 80].map(Points::from_tenths);
    let asking = Asking::any(Costs { turned, look_alike, other_case, trimmed });
    let mut times = Vec::new();
    let mut supply = Supply::new(stash, asking.clone(), |_| 0);
    for _ in 0..5 {
        let begun = Instant::now();
        supply = Supply::new(stash, asking.clone(), |_| 0);
        times.push(begun.elapsed());
    }
    (supply, figures(&mut times).0)
}

/// How quickly a list is judged, and what that leaves in memory.
fn judge(list: &List, supply: &Supply) {
    let mut speller = Speller::new(supply);
    let mut counts = [0_usize; Verdict::ALL.len()];
    for line in list.text.lines() {
        let (verdict, _) = speller.judge(line).unwrap();
        counts[Verdict::ALL.iter().position(|one| *one == verdict).unwrap()] += 1;
    }
    let (mut ours, mut rival) = (Vec::new(), Vec::new());
    let before = resident();
    for _ in 0..5 {
        let begun = Instant::now();
        for line in list.text.lines() {
            black_box(speller.judge(line).unwrap());
        }
        ours.push(begun.elapsed());
        let begun = Instant::now();
        black_box(black_box(&list.text).lines().map(str::len).sum::<usize>());
        rival.push(begun.elapsed());
    }
    let grown = resident().saturating_sub(before);
    let ((ours, _), (rival, _)) = (figures(&mut ours), figures(&mut rival));
    println!(
        "    {:<12} {} a second   reading alone {} a second   {} now, {} stand-ins, {} mixed, {} short   {grown} pages more",
        list.name,
        rate(WORDINGS, ours),
        rate(WORDINGS, rival),
        counts[0],
        counts[1],
        counts[2],
        counts[3]
    );
}

/// How quickly those wordings go that are not spelled by their own letters: the verdict, and the whole answer.
fn slowly(list: &List, supply: &Supply) {
    for kind in [Verdict::StandIns, Verdict::MixedHeights, Verdict::Short] {
        let mut speller = Speller::new(supply);
        let lines: Vec<&str> =
            list.text.lines().filter(|line| speller.judge(line).unwrap().0 == kind).collect();
        if lines.is_empty() {
            continue;
        }
        let begun = Instant::now();
        for line in &lines {
            black_box(speller.judge(line).unwrap());
        }
        let judged = begun.elapsed();
        let some = lines.len().min(5_000);
        let mut demand = Demand::default();
        let begun = Instant::now();
        for line in &lines[..some] {
            supply.read(line, &mut demand).unwrap();
            black_box(supply.answer(&demand));
        }
        let answered = begun.elapsed();
        println!(
            "      {:<14} {:>6}: {} a second, {} whole answers a second",
            kind.as_str(),
            lines.len(),
            rate(lines.len(), judged),
            rate(some, answered)
        );
    }
}

fn rate(wordings: usize, took: Duration) -> String {
    #[expect(clippy::cast_precision_loss, reason = "a hundred thousand at most")]
    let rate = wordings as f64 / took.as_secs_f64();
    format!("{rate:>11.0}")
}

/// Pages of memory in use, as the system counts them; 0 where it does not tell.
fn resident() -> usize {
    let told = std::fs::read_to_string("/proc/self/statm").unwrap_or_default();
    told.split_whitespace().nth(1).and_then(|pages| pages.parse().ok()).unwrap_or(0)
}
