//! Where letters lie: even gaps to the nanometre, optical gaps by the shapes, lines that keep apart.
//!
//! Must not know the page.

use oddment::letter::{Face, Turn};
use oddment::measure::Length;
use oddment::plan::{History, Plan, PlanEdit};
use oddment::stash::{Form, Stash};
use oddment::title::{
    Edit, Joint, Layout, LetterBox, LineUp, Role, Setting, Spacing, Sticker, Stood, Strip, Wording,
};

use super::drawn::{Case, stash, wording};
use crate::draw::{Draw, filled};

/// Scan lines that two letters are compared at.
const SCANS: i64 = 32;

/// A strip of capitals and small letters, some empty, set by `setting`.
fn strip(seed: u64, setting: Setting) -> (Strip, Stash) {
    let Case { stash, plan, .. } = Case::new(seed);
    let mut strip = plan.strips()[0].clone();
    strip.setting = setting;
    (strip, stash)
}

fn gaps(draw: &mut Draw) -> Setting {
    let nm = |draw: &mut Draw, most: usize| Length::from_nm(i64::try_from(draw.below(most)).unwrap());
    let (gap, word_gap, line_gap) = (nm(draw, 4_000_000), nm(draw, 12_000_000), nm(draw, 9_000_000));
    Setting { gap, word_gap, line_gap, ..Setting::default() }
}

#[test]
fn even_gaps_are_exact() {
    for seed in 0..800 {
        let setting = gaps(&mut Draw::new(seed + 5_000));
        let (strip, stash) = strip(seed, setting);
        let layout = Layout::of(&strip, &stash);
        for line in strip.wording().lines() {
            assert_eq!(layout.letters[line.start].left, Length::ZERO, "seed {seed}: a line starts at 0");
        }
        for slot in 1..strip.len() {
            let between = layout.letters[slot].left - layout.letters[slot - 1].right();
            match strip.wording().joint(slot - 1) {
                Some(Joint::Word) => assert_eq!(between, setting.gap, "seed {seed}, slot {slot}"),
                Some(Joint::Gap) => assert_eq!(between, setting.word_gap, "seed {seed}, slot {slot}"),
                _ => {}
            }
        }
        for line in &layout.lines {
            let last = &layout.letters[line.slots.end - 1];
            assert_eq!(line.length, last.right(), "seed {seed}");
        }
    }
}

/// Left and right edge of what stands in `slot` at `y` over its feet line, from the strip's left end, in mm: a
/// die-cut's from the reference face, stretched to its width; of anything else the box.
fn edges(strip: &Strip, stash: &Stash, slot: usize, lies: &LetterBox, y: Length) -> Option<(f64, f64)> {
    let (left, right) = (lies.left.mm(), lies.right().mm());
    if y < lies.bottom || y > lies.top() {
        return None;
    }
    let chip =
        strip.letter(slot).and_then(Stood::chip).and_then(|id| stash.find(id)).map(|ix| stash.chip(ix));
    let Some(chip) = chip.filter(|chip| chip.sheet.make.form == Form::DieCut && lies.turn != Turn::Quarter)
    else {
        return Some((left, right));
    };
    let ink = Face::reference().silhouette(&chip.letter.character);
    let half = lies.turn == Turn::Half;
    let up = if half { lies.top() + lies.bottom - y } else { y };
    let (from, to) = ink.at(up.mm() / chip.face_scale().mm())?;
    let (from, to) = (from / ink.width() * (right - left), to / ink.width() * (right - left));
    Some(if half { (right - to, right - from) } else { (left + from, left + to) })
}

#[test]
fn optical_gaps_look_alike() {
    let (mut even, mut held) = (0, 0);
    for seed in 0..600 {
        let mut setting = gaps(&mut Draw::new(seed + 5_000));
        setting.spacing = Spacing::Optical;
        let (strip, stash) = strip(seed, setting);
        let layout = Layout::of(&strip, &stash);
        let gap = setting.gap.mm();
        for slot in 1..strip.len() {
            let (before, here) = (&layout.letters[slot - 1], &layout.letters[slot]);
            let joint = strip.wording().joint(slot - 1);
            if joint != Some(Joint::Word) {
                let told =
                    if joint == Some(Joint::Gap) { here.left - before.right() } else { setting.word_gap };
                assert_eq!(told, setting.word_gap, "seed {seed}: words stay box to box");
                continue;
            }
            // Heights are compared from the feet line; both stand on it.
            let feet = before.feet;
            let flat = |one: &LetterBox| LetterBox { bottom: one.bottom - feet, ..*one };
            let (a, b) = (flat(before), flat(here));
            let (low, high) = (a.bottom.max(b.bottom), a.top().min(b.top()));
            let clear: Vec<f64> = (0..SCANS)
                .map(|scan| low + (high - low) * (2 * scan + 1) / (2 * SCANS))
                .filter_map(|y| {
                    let right = edges(&strip, &stash, slot - 1, &a, y)?.1;
                    Some(edges(&strip, &stash, slot, &b, y)?.0 - right)
                })
                .collect();
            if clear.is_empty() {
                assert_eq!(
                    here.left - before.right(),
                    setting.gap,
                    "seed {seed}, slot {slot}: no shared line"
                );
                continue;
            }
            let mean = clear.iter().map(|one| one.min(3.0 * gap)).sum::<f64>()
                / f64::from(u32::try_from(clear.len()).unwrap());
            let least = clear.iter().copied().fold(f64::INFINITY, f64::min);
            assert!(
                least >= gap / 2.0 - 0.001,
                "seed {seed}, slot {slot}: {least} mm apart for a gap of {gap}"
            );
            if least > gap / 2.0 + 0.001 {
                assert!((mean - gap).abs() <= 0.05, "seed {seed}, slot {slot}: a mean of {mean} for {gap}");
                even += 1;
            } else {
                assert!(
                    mean >= gap - 0.05,
                    "seed {seed}, slot {slot}: held apart, yet a mean of {mean} for {gap}"
                );
                held += 1;
            }
        }
    }
    assert!(even > 300 && held > 30, "{even} even, {held} held apart");
}

#[test]
fn letters_line_up_by_their_feet_or_by_their_middles() {
    for seed in 0..400 {
        for line_up in [LineUp::Feet, LineUp::Middle] {
            let (strip, stash) = strip(seed, Setting { line_up, ..Setting::default() });
            let layout = Layout::of(&strip, &stash);
            for line in &layout.lines {
                let tiles: Vec<(usize, &LetterBox)> = line
                    .slots
                    .clone()
                    .filter(|&slot| is_box(&strip, &stash, slot))
                    .map(|slot| (slot, &layout.letters[slot]))
                    .collect();
                for (slot, lies) in &tiles {
                    match line_up {
                        LineUp::Feet => assert_eq!(lies.bottom, line.feet, "seed {seed}, slot {slot}"),
                        LineUp::Middle => {
                            let middle = |one: &LetterBox| (one.bottom + one.height / 2 - line.feet).nm();
                            let apart = (middle(lies) - middle(tiles[0].1)).abs();
                            assert!(apart <= 2, "seed {seed}, slot {slot}: {apart} nm off the middle");
                        }
                    }
                }
                let ink = line.slots.clone().filter(|&slot| !is_box(&strip, &stash, slot));
                for slot in ink.filter(|_| line_up == LineUp::Feet) {
                    assert_eq!(layout.letters[slot].feet, line.feet, "seed {seed}, slot {slot}");
                }
            }
        }
    }
}

/// A tile or a thing by hand: its box is what is seen of it.
fn is_box(strip: &Strip, stash: &Stash, slot: usize) -> bool {
    strip.letter(slot).is_some_and(|stood| match &stood.sticker {
        Sticker::Hand(_) => true,
        Sticker::Chip { id, .. } => {
            stash.find(id).is_some_and(|chip| stash.chip(chip).sheet.make.form == Form::Tile)
        }
    })
}

/// A strip of two lines of capitals from `stash`, as far as it has them.
fn two_lines(stash: &Stash, line_gap: Length, line_up: LineUp) -> Strip {
    let mut strip = Strip::new(Role::title(), Wording::new("MAWN\nSEVEN PIE").unwrap());
    strip.setting = Setting { line_gap, line_up, ..Setting::default() };
    let stood = |slot: usize| {
        let chip = *stash.carrying(&strip.wording().slots()[slot].character).last()?;
        Some(Stood::straight(Sticker::Chip { id: stash.chip(chip).id(), stands_in: None }))
    };
    let letters = (0..strip.len()).map(stood).collect();
    filled(strip, letters)
}

#[test]
fn two_lines_of_capitals_do_not_overlap() {
    for seed in 0..400 {
        let mut draw = Draw::new(seed);
        let stash = stash(&mut draw);
        for line_up in [LineUp::Feet, LineUp::Middle] {
            // Round letters reach a little over a capital's height and under its feet: up to 2 % each.
            let line_gap = draw.mm(2, 6);
            let strip = two_lines(&stash, line_gap, line_up);
            let layout = Layout::of(&strip, &stash);
            let (first, second) = (layout.lines[0].slots.clone(), layout.lines[1].slots.clone());
            let lowest = layout.letters[first].iter().map(|one| one.bottom).min();
            let highest = layout.letters[second].iter().map(LetterBox::top).max();
            assert!(lowest > highest, "seed {seed}: {lowest:?} over {highest:?}");
        }
    }
}

#[test]
fn a_nudge_a_raise_or_a_tilt_moves_only_its_letter() {
    for seed in 0..400 {
        let mut draw = Draw::new(seed + 9_000);
        let spacing = *draw.pick(Spacing::ALL);
        let (strip, stash) = strip(seed, Setting { spacing, ..Setting::default() });
        let filled: Vec<usize> = (0..strip.len()).filter(|&slot| strip.letter(slot).is_some()).collect();
        if filled.is_empty() {
            continue;
        }
        let slot = *draw.pick(&filled);
        let mut stood = strip.letter(slot).unwrap().clone();
        (stood.nudge, stood.raise) = (draw.mm(1, 9) - Length::from_mm(5), draw.mm(0, 4));
        let mut plan = Plan::new(None, oddment::page::Page::default(), vec![strip.clone()]).unwrap();
        let edit = Edit::Letter { slot, stood: Some(stood.clone()) };
        History::default().make(&mut plan, PlanEdit::Strip(0, edit));
        let (before, after) = (Layout::of(&strip, &stash), Layout::of(&plan.strips()[0], &stash));
        for (other, (was, is)) in before.letters.iter().zip(&after.letters).enumerate() {
            if other == slot {
                assert_eq!(is.left, was.left + stood.nudge, "seed {seed}");
                assert_eq!(is.bottom, was.bottom + stood.raise, "seed {seed}");
                assert_eq!((is.width, is.height), (was.width, was.height), "seed {seed}");
            } else {
                assert_eq!(is, was, "seed {seed}: slot {slot} was moved, slot {other} moved with it");
            }
        }
    }
}

#[test]
fn an_empty_strip_keeps_room_for_every_slot() {
    for seed in 0..300 {
        let strip = Strip::new(Role::title(), wording(&mut Draw::new(seed)));
        let layout = Layout::of(&strip, &Stash::default());
        assert_eq!(layout.letters.len(), strip.len());
        assert!(layout.letters.iter().all(|one| one.width > Length::ZERO && !one.filled), "seed {seed}");
    }
}
