//! Where letters lie: exact where gaps are even, and as defined where they are optical.
//!
//! Must not know how a line is set.
#![expect(clippy::unwrap_used, reason = "a made-up case that cannot be made fails the test")]

use oddment::measure::Length;
use oddment::title::{Edit, Joint, Layout, LineUp, Setting, Spacing, Stood};

use super::dice::Dice;
use super::made;

#[test]
fn even_gaps_are_exact_and_a_nudge_moves_only_its_letter() {
    for seed in 0..1_000 {
        let mut dice = Dice::new(seed);
        let stash = made::stash(&mut dice);
        let mut strip = made::plan(&mut dice, &stash).strips()[0].clone();
        let setting = Setting { spacing: Spacing::Even, line_up: LineUp::Feet, ..strip.setting };
        let _ = Edit::Setting(setting).apply(&mut strip);
        let layout = Layout::of(&strip, &stash);
        for slot in 1..strip.len() {
            let gap = layout.letters[slot].left - layout.letters[slot - 1].right();
            match strip.wording().joint(slot - 1).unwrap() {
                Joint::Word => assert_eq!(gap, setting.gap, "seed {seed}"),
                Joint::Gap => assert_eq!(gap, setting.word_gap, "seed {seed}"),
                Joint::Line => assert_eq!(layout.letters[slot].left, Length::ZERO, "seed {seed}"),
            }
        }
        if let Some(slot) = (0..strip.len()).find(|&slot| strip.letter(slot).is_some()) {
            let by = Length::from_mm(3);
            let stood = strip.letter(slot).map(|stood| Stood { nudge: by, ..stood.clone() });
            let _ = Edit::Letter { slot, stood }.apply(&mut strip);
            let nudged = Layout::of(&strip, &stash);
            for (place, (now, was)) in nudged.letters.iter().zip(&layout.letters).enumerate() {
                assert_eq!(now.left - was.left, if place == slot { by } else { Length::ZERO });
            }
        }
    }
}

#[test]
fn the_second_line_hangs_below_the_first() {
    for seed in 0..1_000 {
        let mut dice = Dice::new(seed);
        let stash = made::stash(&mut dice);
        let strip = made::plan(&mut dice, &stash).strips()[0].clone();
        let layout = Layout::of(&strip, &stash);
        if let [first, second] = layout.lines.as_slice() {
            assert_eq!(first.feet, Length::ZERO);
            assert!(second.feet < -strip.setting.line_gap);
        }
    }
}

/// Letters lined up by their middles share them, but for what hangs below a descender's line.
#[test]
fn middles_share_a_line() {
    for seed in 0..1_000 {
        let mut dice = Dice::new(seed);
        let stash = made::stash(&mut dice);
        let mut strip = made::plan(&mut dice, &stash).strips()[0].clone();
        let _ = Edit::Setting(Setting { line_up: LineUp::Middle, ..strip.setting }).apply(&mut strip);
        let middle = Layout::of(&strip, &stash);
        let _ = Edit::Setting(Setting { line_up: LineUp::Feet, ..strip.setting }).apply(&mut strip);
        let feet = Layout::of(&strip, &stash);
        for (a, b) in middle.letters.iter().zip(&feet.letters) {
            assert!(a.feet >= b.feet, "seed {seed}");
            assert_eq!(a.bottom - a.feet, b.bottom - b.feet, "seed {seed}");
        }
    }
}
