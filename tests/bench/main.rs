//! Benchmarks: what a user waits for, each against a named rival in the same run.
//!
//! `cargo bench` prints a table; `cargo bench -- places` only what follows a strip's place, so `start`, `stick`, `typed`,
//! `spell`, `ideas`, `together`, `order`, and `looks` at the files. Nothing here passes or fails: it measures.
#![expect(
    clippy::unwrap_used,
    clippy::print_stdout,
    reason = "a benchmark prints, and stops at the first surprise"
)]

mod ideas;
mod made;
mod order;
mod places;
mod spell;
mod stick;
mod together;
mod typed;

use std::fs;
use std::hint::black_box;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use oddment::app::{Colours, Input, Key, Keys, PlanFile, Shelf, State, update};
use oddment::files::{Access, PlanSlug, StashFolder};
use oddment::screen::draw;
use ratatui::Terminal;
use ratatui::backend::TestBackend;
use tempfile::TempDir;
use toml::de::DeTable;

/// Entries of a stash's ledger.
const ENTRIES: u32 = 1_000;

fn looks() {
    for &(name, sheets) in &made::SIZES {
        let folder = TempDir::new().unwrap();
        made::write(folder.path(), sheets, ENTRIES).unwrap();
        look(name, folder.path());
    }
}

fn main() {
    let asked = |word: &str| std::env::args().any(|one| one == word);
    if asked("looks") {
        return looks();
    }
    if asked("places") {
        return places::places();
    }
    if asked("stick") {
        return stick::stick();
    }
    if asked("ideas") {
        return ideas::ideas();
    }
    if asked("spell") {
        return spell::spell();
    }
    if asked("together") {
        return together::together();
    }
    if asked("order") {
        return order::order();
    }
    let folders: Vec<(&str, TempDir)> = made::SIZES
        .iter()
        .map(|&(name, sheets)| {
            let folder = TempDir::new().unwrap();
            made::write(folder.path(), sheets, ENTRIES).unwrap();
            (name, folder)
        })
        .collect();
    if asked("typed") {
        return typed_all(&folders);
    }
    println!(
        "start to first frame at 140x45, against toml parsing the same files, a ledger of {ENTRIES} entries too"
    );
    for (name, folder) in &folders {
        start(name, folder.path());
    }
    println!("the same without a ledger");
    for (name, sheets) in [("L", 200), ("XL", 1_000)] {
        let folder = TempDir::new().unwrap();
        made::write(folder.path(), sheets, 0).unwrap();
        start(name, folder.path());
    }
    if asked("start") {
        return;
    }
    println!(
        "\na look for files that another hand changed, against asking the system for each file's length and time"
    );
    for (name, folder) in &folders {
        look(name, folder.path());
    }
    println!("\none key to its frame, against drawing the same screen again");
    for (name, folder) in &folders {
        for size in [(80, 24), (140, 45)] {
            keys(name, folder.path(), size);
        }
    }
    println!("\none key on the page to its frame: strips and things carried");
    for (name, folder) in &folders {
        for size in [(80, 24), (140, 45)] {
            carried(name, folder.path(), size);
        }
    }
    typed_all(&folders);
    places::places();
    stick::stick();
    ideas::ideas();
    spell::spell();
    together::together();
    order::order();
}

fn typed_all(folders: &[(&str, TempDir)]) {
    println!(
        "\none key of a wording to its frame, 40 wishes beside it, against drawing the same screen again"
    );
    for (name, folder) in folders {
        typed::typed(name, folder.path(), (80, 24));
    }
}

/// Median and 99th percentile.
fn figures(times: &mut [Duration]) -> (Duration, Duration) {
    times.sort_unstable();
    (times[times.len() / 2], times[(times.len() * 99 / 100).min(times.len() - 1)])
}

fn millis(time: Duration) -> String {
    format!("{:8.3} ms", time.as_secs_f64() * 1e3)
}

fn ratio(a: Duration, b: Duration) -> String {
    format!("{:5.2} x", a.as_secs_f64() / b.as_secs_f64())
}

fn open(folder: &Path, (columns, rows): (u16, u16)) -> State {
    let folder = StashFolder::at(folder);
    let Access::Writer(lock) = folder.ask_to_write().unwrap() else { unreachable!("nobody else is here") };
    let mut loaded = folder.load().unwrap();
    assert!(loaded.problems.is_empty() && folder.complete(&lock, &loaded).unwrap().is_empty());
    let file = folder.plan_called(&PlanSlug::new("page-00").unwrap());
    let plan = loaded.plans.iter().find(|entry| entry.file == file).unwrap().plan.clone().unwrap();
    let others: Vec<_> = loaded
        .plans
        .drain(..)
        .filter(|entry| entry.file != file)
        .filter_map(|entry| Some((entry.file.slug().to_string(), entry.plan?)))
        .collect();
    let shelf = Shelf::new(loaded.stash, loaded.taste, loaded.colours, &others);
    let file = PlanFile { slug: Some("page-00".into()), ..PlanFile::default() };
    let mut state = State::new(shelf, plan, file, Colours::True, Keys::default());
    update(&mut state, Input::Resize { columns, rows });
    state
}

fn files(folder: &Path) -> Vec<PathBuf> {
    let within = |name: &str| fs::read_dir(folder.join(name)).unwrap().map(|entry| entry.unwrap().path());
    within("sheets")
        .chain(within("pages"))
        .chain(["taste.toml", "ledger.toml"].map(|name| folder.join(name)))
        .collect()
}

/// From the folder to the first frame; the rival reads the same files and has `toml` parse them.
fn start(name: &str, folder: &Path) {
    let (mut ours, mut rival) = (Vec::new(), Vec::new());
    for _ in 0..15 {
        let begun = Instant::now();
        let state = open(folder, (140, 45));
        let mut terminal = Terminal::new(TestBackend::new(140, 45)).unwrap();
        terminal.draw(|frame| draw(&state, frame)).unwrap();
        black_box(&state);
        ours.push(begun.elapsed());
        let begun = Instant::now();
        for path in files(folder) {
            let text = fs::read_to_string(path).unwrap();
            black_box(DeTable::parse(&text).unwrap());
        }
        rival.push(begun.elapsed());
    }
    let ((ours, slow), (rival, _)) = (figures(&mut ours), figures(&mut rival));
    println!(
        "  {name:<3} {} (p99 {})  toml {}  {}",
        millis(ours),
        millis(slow),
        millis(rival),
        ratio(ours, rival)
    );
}

/// What an idle program does once a second: nothing has changed, first with files of just now, then with older ones.
fn look(name: &str, folder: &Path) {
    let stash = StashFolder::at(folder);
    let plan = stash.plan_called(&PlanSlug::new("page-00").unwrap());
    let mut seen = stash.load().unwrap().seen;
    let mut looks = || {
        let mut times: Vec<Duration> = (0..15)
            .map(|_| {
                let begun = Instant::now();
                assert_eq!(stash.changes_since(&mut seen, &plan).unwrap(), []);
                begun.elapsed()
            })
            .collect();
        figures(&mut times)
    };
    let (young, _) = looks();
    while files(folder).iter().any(|path| {
        let age = fs::metadata(path).unwrap().modified().unwrap().elapsed();
        age.is_ok_and(|age| age < Duration::from_secs(4))
    }) {
        std::thread::yield_now();
    }
    let ((ours, slow), mut rival) = (looks(), Vec::new());
    for _ in 0..15 {
        let begun = Instant::now();
        for path in files(folder) {
            black_box(fs::metadata(path).unwrap());
        }
        rival.push(begun.elapsed());
    }
    let (rival, _) = figures(&mut rival);
    println!(
        "  {name:<3} {} (p99 {}; files of just now {})  asking {}  {}",
        millis(ours),
        millis(slow),
        millis(young),
        millis(rival),
        ratio(ours, rival)
    );
}

/// A session of keys on the page, each drawn: strips and things carried, turned, made larger, looked at from near.
fn carried(name: &str, folder: &Path, size: (u16, u16)) {
    const SESSION: [&str; 16] = [
        "right", "down", "left", "up", "]", "J", "right", "[", "K", "down", "tab", "right", "+", "z", "u",
        "tab",
    ];
    let mut state = open(folder, size);
    let mut terminal = Terminal::new(TestBackend::new(size.0, size.1)).unwrap();
    update(&mut state, Input::Key(Key::parse("2").unwrap()));
    let (mut all, mut still) = (Vec::new(), Vec::new());
    for round in 0..480 {
        let key = Input::Key(Key::parse(SESSION[round % SESSION.len()]).unwrap());
        let begun = Instant::now();
        update(&mut state, key);
        terminal.draw(|frame| draw(&state, frame)).unwrap();
        all.push(begun.elapsed());
        let begun = Instant::now();
        terminal.draw(|frame| draw(&state, frame)).unwrap();
        still.push(begun.elapsed());
    }
    let ((median, slow), (still, _)) = (figures(&mut all), figures(&mut still));
    println!(
        "  {name:<3} {:>3}x{:<2} {} p99 {}   still {}  {}",
        size.0,
        size.1,
        millis(median),
        millis(slow),
        millis(still),
        ratio(median, still)
    );
}

/// A session of keys, each drawn; the rival draws the screen that is there once more.
fn keys(name: &str, folder: &Path, size: (u16, u16)) {
    const SESSION: [&str; 22] = [
        "down", "down", "up", "right", "down", ".", "]", "left", "down", "d", "u", "u", "tab", "down", "g",
        "right", "tab", "down", "tab", "f", "f", "k",
    ];
    let mut state = open(folder, size);
    let mut terminal = Terminal::new(TestBackend::new(size.0, size.1)).unwrap();
    let (mut all, mut still) = (Vec::new(), Vec::new());
    let mut swaps = Vec::new();
    let mut dice = made::Dice::new(7);
    for round in 0..600 {
        let word = SESSION[if round % 3 == 0 { dice.below(6) } else { dice.below(SESSION.len()) }];
        let key = Input::Key(Key::parse(word).unwrap());
        let begun = Instant::now();
        update(&mut state, key);
        terminal.draw(|frame| draw(&state, frame)).unwrap();
        let took = begun.elapsed();
        all.push(took);
        if matches!(word, "down" | "up") {
            swaps.push(took);
        }
        let begun = Instant::now();
        terminal.draw(|frame| draw(&state, frame)).unwrap();
        still.push(begun.elapsed());
    }
    let ((median, slow), (swap, slow_swap), (still, _)) =
        (figures(&mut all), figures(&mut swaps), figures(&mut still));
    println!(
        "  {name:<3} {:>3}x{:<2} {} p99 {}   swaps {} p99 {}   still {}  {}",
        size.0,
        size.1,
        millis(median),
        millis(slow),
        millis(swap),
        millis(slow_swap),
        millis(still),
        ratio(median, still)
    );
}
