//! The headings as a viewer lists them beside the pages.
//!
//! Must not know how headings are found.

use pdf_writer::{Pdf, Ref, TextStr};

use crate::print::{Mark, Piece, Sheet};

use super::points::{points, side};
use super::reach::reach;
use super::tags::Heading;

/// Writes a bookmark for every heading, each under the one before it of a lesser level, and returns where they begin;
/// `None` without headings.
pub(super) fn write(
    headings: &[Heading],
    sheets: &[Sheet],
    pages: &[Ref],
    pdf: &mut Pdf,
    next: &mut Ref,
) -> Option<Ref> {
    if headings.is_empty() {
        return None;
    }
    let root = next.bump();
    let ids: Vec<Ref> = headings.iter().map(|_| next.bump()).collect();
    let parents = parents(headings);
    let children = |of: Option<usize>| {
        (0..ids.len()).filter(|&place| parents[place] == of).map(|place| ids[place]).collect::<Vec<_>>()
    };
    let top = children(None);
    let mut outline = pdf.outline(root);
    outline.count(count(headings.len()));
    if let (Some(&first), Some(&last)) = (top.first(), top.last()) {
        outline.first(first).last(last);
    }
    drop(outline);
    for (place, heading) in headings.iter().enumerate() {
        let (under, beside) = (children(Some(place)), children(parents[place]));
        let mut item = pdf.outline_item(ids[place]);
        item.title(TextStr(&words(heading.piece)));
        item.parent(parents[place].map_or(root, |parent| ids[parent]));
        let at = beside.iter().position(|&id| id == ids[place]).unwrap_or(0);
        if let Some(&before) = at.checked_sub(1).and_then(|at| beside.get(at)) {
            item.prev(before);
        }
        if let Some(&after) = beside.get(at + 1) {
            item.next(after);
        }
        if let (Some(&first), Some(&last)) = (under.first(), under.last()) {
            item.first(first).last(last).count(count(below(headings, place)));
        }
        let top = reach(heading.piece).map_or(0.0, |reach| reach.top);
        let up = side(sheets[heading.sheet].size.height) - top;
        item.dest().page(pages[heading.sheet]).xyz(0.0, points(up), None);
    }
    Some(root)
}

/// What each heading is under.
fn parents(headings: &[Heading]) -> Vec<Option<usize>> {
    let above =
        |place: usize| headings[..place].iter().rposition(|earlier| earlier.level < headings[place].level);
    (0..headings.len()).map(above).collect()
}

/// How many headings are under one, at any depth.
fn below(headings: &[Heading], place: usize) -> usize {
    headings[place + 1..].iter().take_while(|later| later.level > headings[place].level).count()
}

fn count(number: usize) -> i32 {
    i32::try_from(number).unwrap_or(i32::MAX)
}

/// The words of a heading on one line.
fn words(piece: &Piece) -> String {
    let lines = piece.marks.iter().filter_map(|mark| match mark {
        Mark::Words(words) => Some(words.text.trim()),
        Mark::Shape(_) | Mark::Line { .. } => None,
    });
    lines.collect::<Vec<_>>().join(" ")
}
