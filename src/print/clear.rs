//! Small words in a drawing, set where they cover nothing that must be seen.
//!
//! Must not know what is drawn.

use crate::measure::Extent;

use super::clip::{Dot, grown, holds, meet};
use super::face::{Face, wrap};
use super::sheet::{Mark, Piece, Sense, Words};

/// What words keep clear of what is around them, in mm.
const CLEAR: f64 = 0.5;

/// A drawing's room, and what of it is taken.
#[derive(Debug, Clone)]
pub(super) struct Clear {
    within: Extent,
    taken: Vec<Extent>,
}

impl Clear {
    /// Nothing of it taken.
    pub(super) const fn new(within: Extent) -> Self {
        Self { within, taken: Vec::new() }
    }

    /// No words shall lie on `extent`.
    pub(super) fn take(&mut self, extent: Extent) {
        self.taken.push(extent);
    }

    /// Whether words with these bounds cover nothing.
    pub(super) fn is_free(&self, bounds: Extent) -> bool {
        holds(self.within, bounds) && !self.taken.iter().any(|&taken| meet(grown(bounds, CLEAR), taken))
    }

    /// Sets `text` in a face of `size` mm about the first of `middles` where it covers nothing.
    pub(super) fn set(
        &mut self,
        text: &str,
        size: f64,
        middles: impl IntoIterator<Item = Dot>,
    ) -> Option<Mark> {
        let text = Face::legible(text);
        let width = Face::Plain.width(&text, size);
        let place = |(x, y): Dot| (x - width / 2.0, y + size * RISE / 2.0);
        let at = middles.into_iter().map(place).find(|&at| self.is_free(bounds(at, width, size)))?;
        self.take(bounds(at, width, size));
        Some(Mark::Words(Words { at, size, face: Face::Plain, text }))
    }
}

/// How high capitals and figures of the faces are, over their size.
pub(super) const RISE: f64 = 0.73;
/// How deep tails reach, over the size.
const TAIL: f64 = 0.24;
/// How high accents on capitals reach, over the size.
const ACCENT: f64 = 0.95;

/// The box that words take, whatever they are.
pub(super) fn bounds(at: Dot, width: f64, size: f64) -> Extent {
    Extent { left: at.0, top: at.1 - size * ACCENT, right: at.0 + width, bottom: at.1 + size * TAIL }
}

/// `text` on one line of at most `room` mm: what does not fit is cut and ends in two full stops.
pub(super) fn cut_to(text: &str, face: Face, size: f64, room: f64) -> String {
    lines(text, face, size, room, 1).concat()
}

/// `text` on at most `most` lines of `room` mm; the last ends in two full stops where something is cut.
pub(super) fn lines(text: &str, face: Face, size: f64, room: f64, most: usize) -> Vec<String> {
    let mut lines = wrap(&Face::legible(text), face, size, room);
    if lines.len() > most {
        lines.truncate(most);
        if let Some(last) = lines.last_mut() {
            while !last.is_empty() && face.width(&format!("{last}.."), size) > room {
                last.pop();
            }
            last.truncate(last.trim_end().len());
            last.push_str("..");
        }
    }
    lines
}

/// From one line of words to the next, over their size.
const LEADING: f64 = 1.36;

/// A piece of `lines` under each other, the upper left corner of its room at `at`; and how high that is.
pub(super) fn block(sense: Sense, lines: &[String], face: Face, size: f64, at: Dot) -> (Piece, f64) {
    let mut y = at.1 + size * (RISE + LEADING - 1.0);
    let mut marks = Vec::with_capacity(lines.len());
    for text in lines {
        marks.push(Mark::Words(Words { at: (at.0, y), size, face, text: text.clone() }));
        y += size * LEADING;
    }
    (Piece { sense, marks }, y - at.1 - size * RISE)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_set_where_they_cover_nothing() {
        let mut clear = Clear::new(Extent { left: 0.0, top: 0.0, right: 40.0, bottom: 20.0 });
        clear.take(Extent { left: 0.0, top: 0.0, right: 20.0, bottom: 20.0 });
        let spots = [(10.0, 10.0), (39.0, 10.0), (30.0, 10.0)];
        let set = clear.set("12", 3.0, spots);
        let middle = |mark: &Mark| match mark {
            Mark::Words(words) => words.at.0 + words.width() / 2.0,
            Mark::Shape(_) | Mark::Line { .. } => f64::NAN,
        };
        assert!(set.as_ref().map(middle).is_some_and(|x| (x - 30.0).abs() < 1e-9), "{set:?}");
        assert_eq!(clear.set("12", 3.0, spots), None, "it is taken now");
    }

    #[test]
    fn what_does_not_fit_ends_in_dots() {
        let cut = cut_to("lantern walk along the quay", Face::Plain, 3.0, 25.0);
        assert!(cut.ends_with("..") && Face::Plain.width(&cut, 3.0) <= 25.0, "{cut}");
        assert_eq!(cut_to("quay", Face::Plain, 3.0, 25.0), "quay");
    }
}
