//! Small words in a drawing, set where they cover nothing that must be seen.
//!
//! Must not know what is drawn.

use crate::measure::Extent;

use super::clip::{self, Dot, grown, holds, meet};
use super::face::{Face, wrap};
use super::sheet::{Mark, Piece, Sense, Words};

/// What words keep clear of what is around them, in mm; and a name of the words on the same line, so that it does not run together
/// with a number.
const CLEAR: f64 = 0.5;
const APART: f64 = 2.0;

/// A drawing's room, and what of it is taken.
#[derive(Debug, Clone)]
pub(super) struct Clear {
    within: Extent,
    taken: Vec<Extent>,
    words: Vec<Placed>,
}

/// Words that are set.
#[derive(Debug, Clone, Copy)]
struct Placed {
    bounds: Extent,
    is_name: bool,
}

/// Whether `text` is more than a number or a single letter.
fn is_name(text: &str) -> bool {
    text.chars().nth(1).is_some() && text.chars().any(char::is_alphabetic)
}

impl Clear {
    /// Nothing of it taken.
    pub(super) const fn new(within: Extent) -> Self {
        Self { within, taken: Vec::new(), words: Vec::new() }
    }

    /// No words shall lie on `extent`.
    pub(super) fn take(&mut self, extent: Extent) {
        self.taken.push(extent);
    }

    /// No words shall lie across the line from `from` to `to`: its room is taken in boxes that are small where it is steep.
    pub(super) fn take_line(&mut self, from: Dot, to: Dot) {
        let steps = ((to.0 - from.0).abs().min((to.1 - from.1).abs()) / 2.0).ceil().clamp(1.0, 200.0);
        let mut step = 0.0;
        while step < steps {
            let at = |share: f64| (from.0 + share * (to.0 - from.0), from.1 + share * (to.1 - from.1));
            let (a, b) = (at(step / steps), at((step + 1.0) / steps));
            let (left, right) = (a.0.min(b.0), a.0.max(b.0));
            let (top, bottom) = (a.1.min(b.1), a.1.max(b.1));
            self.take(Extent { left, top, right, bottom });
            step += 1.0;
        }
    }

    /// Whether words with these bounds cover nothing.
    pub(super) fn is_free(&self, bounds: Extent) -> bool {
        self.is_free_but_for(None, Placed { bounds, is_name: false })
    }

    fn is_free_but_for(&self, own: Option<Extent>, placed: Placed) -> bool {
        let room = grown(placed.bounds, CLEAR);
        let wide = Extent { left: room.left + CLEAR - APART, right: room.right - CLEAR + APART, ..room };
        let hits = |words: &Placed| {
            let apart = if placed.is_name || words.is_name { wide } else { room };
            meet(apart, words.bounds)
        };
        holds(self.within, placed.bounds)
            && !self.taken.iter().any(|&taken| Some(taken) != own && meet(room, taken))
            && !self.words.iter().any(hits)
    }

    /// Whether the line from `from` to `to` runs through anything.
    pub(super) fn is_crossed(&self, from: Dot, to: Dot) -> bool {
        let taken = self.taken.iter().copied().chain(self.words.iter().map(|words| words.bounds));
        taken.into_iter().any(|taken| clip::line(from, to, taken).is_some())
    }

    /// Whether `text` in a face of `size` mm about `middle` covers nothing.
    pub(super) fn has_room(&self, text: &str, size: f64, middle: Dot) -> bool {
        let width = Face::Plain.width(text, size);
        let bounds = bounds(corner(middle, width, size), width, size);
        self.is_free_but_for(None, Placed { bounds, is_name: is_name(text) })
    }

    /// Sets `text` in a face of `size` mm about the first of `middles` where it covers nothing.
    pub(super) fn set(
        &mut self,
        text: &str,
        size: f64,
        middles: impl IntoIterator<Item = Dot>,
    ) -> Option<Mark> {
        self.set_but_for(None, text, size, middles)
    }

    /// The same for words that may lie on their `own` place, which is taken.
    pub(super) fn set_on(
        &mut self,
        own: Extent,
        text: &str,
        size: f64,
        middles: impl IntoIterator<Item = Dot>,
    ) -> Option<Mark> {
        self.set_but_for(Some(own), text, size, middles)
    }

    fn set_but_for(
        &mut self,
        own: Option<Extent>,
        text: &str,
        size: f64,
        middles: impl IntoIterator<Item = Dot>,
    ) -> Option<Mark> {
        let text = Face::legible(text);
        let width = Face::Plain.width(&text, size);
        let is_name = is_name(&text);
        let placed = |at: Dot| Placed { bounds: bounds(at, width, size), is_name };
        let free = |&at: &Dot| self.is_free_but_for(own, placed(at));
        let at = middles.into_iter().map(|middle| corner(middle, width, size)).find(free)?;
        self.words.push(placed(at));
        Some(Mark::Words(Words { at, size, face: Face::Plain, text }))
    }
}

/// The left end of the line that words of `width` about `middle` stand on.
fn corner((x, y): Dot, width: f64, size: f64) -> Dot {
    (x - width / 2.0, y + size * RISE / 2.0)
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

/// Spots for the middle of `text` beside lines: from their middles outward, first close to them.
pub(super) fn beside(text: &str, size: f64, lines: &[(Dot, Dot)]) -> Vec<Dot> {
    let half = Face::Plain.width(text, size) / 2.0;
    let mut spots = Vec::new();
    for far in [0.2, 1.5, 3.0, 5.0, 8.0, 11.0] {
        for &(from, to) in lines {
            for share in [0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9, 0.02, 0.98] {
                let (x, y) = (from.0 + share * (to.0 - from.0), from.1 + share * (to.1 - from.1));
                let (down, over) = (off(size) + far, half + 0.8 + far);
                spots.extend([(x, y + down), (x, y - down), (x + over, y), (x - over, y)]);
            }
        }
    }
    spots
}

/// From the middle of words to what they stand over or under, at the least.
pub(super) const fn off(size: f64) -> f64 {
    0.61 * size + CLEAR + 0.1
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
