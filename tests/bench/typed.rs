//! A wording typed key by key: each judged in every band of heights, and drawn.
//!
//! Must not know how it is judged.

use std::hint::black_box;
use std::path::Path;
use std::time::{Duration, Instant};

use oddment::app::{Input, Key, KeyCode, update};
use oddment::screen::draw;
use oddment::title::{Wish, Wording};
use ratatui::Terminal;
use ratatui::backend::TestBackend;

use super::{figures, made, millis, open, ratio};

/// Wordings that are typed: easy ones, ones that need stand-ins, ones that no stash can spell.
const TYPED: [&str; 5] = [
    "HARBOUR LIGHTS",
    "THE SEVENTEEN STEEP STEPS TO THE SEA",
    "ZZZZZZZZZZ QUIZZICAL JAZZ",
    "Last lamp home, 1961 & 1962!",
    "ÊÊÊ LA FÊTE DU PORT",
];

/// How many wishes there are.
const WISHES: usize = 40;

/// Goes to the wordings, then types; the rival draws the screen that is there once more.
pub(super) fn typed(name: &str, folder: &Path, size: (u16, u16)) {
    let mut state = open(folder, size);
    let mut dice = made::Dice::new(11);
    let wish = |_| {
        let words = ["LANTERN", "HARBOUR", "QUAY", "SISTERS", "EVENING", "PIER", "LAMPS", "SONGS"];
        let text = format!("{} {}", words[dice.below(words.len())], words[dice.below(words.len())]);
        Wish { wording: Wording::new(&text).unwrap(), note: None }
    };
    state.shelf.wishes = (0..WISHES).map(wish).collect();
    let mut terminal = Terminal::new(TestBackend::new(size.0, size.1)).unwrap();
    let begun = Instant::now();
    update(&mut state, Input::Key(Key::parse("4").unwrap()));
    terminal.draw(|frame| draw(&state, frame)).unwrap();
    let there = begun.elapsed();
    let (mut all, mut still) = (Vec::new(), Vec::new());
    let mut press = |key: Key| -> (Duration, Duration) {
        let begun = Instant::now();
        update(&mut state, Input::Key(key));
        terminal.draw(|frame| draw(&state, frame)).unwrap();
        let took = begun.elapsed();
        let begun = Instant::now();
        terminal.draw(|frame| draw(&state, frame)).unwrap();
        (took, begun.elapsed())
    };
    for text in TYPED {
        press(Key::parse("w").unwrap());
        for c in text.chars() {
            let (took, again) = press(Key::plain(KeyCode::Char(c)));
            all.push(took);
            still.push(again);
        }
        press(Key::parse("enter").unwrap());
    }
    black_box(&state);
    let ((median, slow), (still, _)) = (figures(&mut all), figures(&mut still));
    println!(
        "  {name:<3} {:>3}x{:<2} going there {}   a key {} p99 {}   still {}  {}",
        size.0,
        size.1,
        millis(there),
        millis(median),
        millis(slow),
        millis(still),
        ratio(median, still)
    );
}
