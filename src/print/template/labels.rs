//! Words beside a spot of a drawing, with a line to it where they stand further off; and what carrier lines are called.
//!
//! Must not know what stands on the strip.

use crate::measure::Extent;
use crate::print::clear::{Clear, RISE, off};
use crate::print::clip::Dot;
use crate::print::face::Face;
use crate::print::sheet::{Mark, Pen};

use super::joins::ARM;

/// The size of numbers and names, in mm.
pub(super) const SIZE: f64 = 2.6;

/// What the line of feet is called, and the spots that are measured from the page's edges.
const CALLED: &str = "carrier line";
const MEASURED: &str = "measure to here";
const HALVES: [&str; 2] = ["measure", "to here"];

const LEADER: Pen = Pen { width: 0.1, dash: None, grey: 0.0 };
/// The furthest that words stand from their spot.
const FAR: f64 = 30.0;
/// What a line from words to their spot keeps off them.
const SPACE: f64 = 0.4;

/// That it is measured to the cross mark at `at`: beside it, in two halves where there is less room, or with a line to it.
pub(super) fn measured(at: Dot, clear: &mut Clear) -> Vec<Mark> {
    let close = ARM + 1.0;
    let one = spots(MEASURED, at)
        .into_iter()
        .find(|&(far, spot)| far <= close && clear.has_room(MEASURED, SIZE, spot));
    match one.and_then(|(_, spot)| clear.set(MEASURED, SIZE, [spot])) {
        Some(words) => vec![words],
        None => halves(at, clear).unwrap_or_else(|| led(MEASURED, at, close, clear)),
    }
}

/// Half of the words over the carrier line and half under it, on the left of the cross mark.
fn halves((x, y): Dot, clear: &mut Clear) -> Option<Vec<Mark>> {
    let half = |text: &str| Face::Plain.width(text, SIZE) / 2.0;
    let row = off(SIZE) + 0.2;
    [0.8, ARM + 0.6].into_iter().find_map(|aside| {
        let (over, under) = HALVES.map(|text| x - aside - half(text)).into();
        let spots = [(over, y - row), (under, y + row)];
        let fit = HALVES.iter().zip(spots).all(|(text, spot)| clear.has_room(text, SIZE, spot));
        fit.then(|| {
            HALVES.iter().zip(spots).filter_map(|(text, spot)| clear.set(text, SIZE, [spot])).collect()
        })
    })
}

/// The name of the carrier line from `from` to `to`: along it from its right end, or as near to that as can be.
pub(super) fn carrier(from: Dot, to: Dot, clear: &mut Clear) -> Vec<Mark> {
    let half = Face::Plain.width(CALLED, SIZE) / 2.0;
    let columns =
        (0..60_u8).map(|step| to.0 - half - 3.0 * f64::from(step)).take_while(|&x| x > from.0 + half);
    let columns: Vec<f64> = columns.collect();
    let rows = [off(SIZE) + 0.2, -off(SIZE) - 0.2];
    let spots = rows.into_iter().flat_map(|row| columns.iter().map(move |&x| (x, to.1 + row)));
    match clear.set(CALLED, SIZE, spots) {
        Some(words) => vec![words],
        None => led(CALLED, to, 1.5, clear),
    }
}

/// `text` as near to `at` as it covers nothing, below it sooner than above; with a line to it from further off than `close`,
/// which crosses nothing if it can be helped.
pub(super) fn led(text: &str, at: Dot, close: f64, clear: &mut Clear) -> Vec<Mark> {
    let half = half(text);
    let leader = |(x, y): Dot| {
        let words = Extent { left: x - half.0, top: y - half.1, right: x + half.0, bottom: y + half.1 };
        let from = (at.0.clamp(words.left, words.right), at.1.clamp(words.top, words.bottom));
        let long = libm::hypot(at.0 - from.0, at.1 - from.1);
        let share = if long > SPACE { SPACE / long } else { 0.0 };
        ((from.0 + share * (at.0 - from.0), from.1 + share * (at.1 - from.1)), at)
    };
    // What is at the spot itself is not in the way.
    let straight = |&(far, spot): &(f64, Dot)| {
        let (from, to) = leader(spot);
        let share = ((far - close) / far).clamp(0.0, 1.0);
        let end = (from.0 + share * (to.0 - from.0), from.1 + share * (to.1 - from.1));
        far <= close || !clear.is_crossed(from, end)
    };
    let spots = spots(text, at);
    let has_room = |&&(_, spot): &&(f64, Dot)| clear.has_room(text, SIZE, spot);
    let best = spots.iter().find(|spot| has_room(spot) && straight(spot));
    let Some(&(far, spot)) = best.or_else(|| spots.iter().find(has_room)) else { return Vec::new() };
    let (from, to) = leader(spot);
    let line = (far > close).then_some(Mark::Line { from, to, pen: LEADER });
    line.into_iter().chain(clear.set(text, SIZE, [spot])).collect()
}

/// Half of how wide and high words are.
fn half(text: &str) -> (f64, f64) {
    (Face::Plain.width(text, SIZE) / 2.0, SIZE * RISE / 2.0)
}

/// Spots for the middle of `text` around `at`, the nearest first, each with how far the words are from it there.
fn spots(text: &str, at: Dot) -> Vec<(f64, Dot)> {
    let half = half(text);
    let mut spots = Vec::new();
    for down in -30..=30_i8 {
        for over in -40..=40_i8 {
            let (over, down) = (f64::from(over) * (FAR + half.0) / 40.0, f64::from(down) * FAR / 30.0);
            let far = libm::hypot((over.abs() - half.0).max(0.0), (down.abs() - half.1).max(0.0));
            spots.push((far, (at.0 + over, at.1 + down)));
        }
    }
    let worse = |&(far, (_, y)): &(f64, Dot)| far + if y < at.1 { 0.5 } else { 0.0 };
    spots.sort_by(|a, b| worse(a).total_cmp(&worse(b)));
    spots
}
