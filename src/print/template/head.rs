//! The words over a template: what it is of, how its carrier is lined up, how it is used.
//!
//! Must not know where the parts end.

use crate::measure::Unit;
use crate::order::{Order, StripOrder};
use crate::print::clear::{block, lines};
use crate::print::clip::Dot;
use crate::print::face::Face;
use crate::print::sheet::{Piece, Sense};
use crate::print::told::STAND;

/// What is said over every part of a template.
#[derive(Debug, Clone)]
pub(super) struct Head {
    /// `the title`.
    role: String,
    /// The wording, lines parted by a stroke, and the page it is for.
    wording: String,
    sentences: Vec<String>,
}

/// How large the words are set: smaller where a sheet has little room.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Hand {
    /// As on every other sheet.
    Usual,
    /// As small as can be read well.
    Small,
    /// Small, and all but the wording on a sheet before.
    Before,
}

const MISPLACED: &str = "Do not stick it down where it lies: see sheet 1.";

/// How the parts are joined: two, and more.
const JOIN: &str = "Join the parts first: measure the check bars, then cut part 2 with scissors along its bold dashed line, from edge to \
                    edge of the paper. Lay that edge on the black line of part 1 so that both cross marks come whole again, and \
                    tape it down.";
const JOIN_ALL: &str = "Join the parts first, joint by joint from joint 1: measure the check bars, then cut with scissors along the bold \
                        dashed line, from edge to edge of the paper. Lay that edge on the black line of the same joint so that both \
                        cross marks come whole again, and tape it down.";

impl Head {
    /// Of `strip` in so many `parts`; lengths in `unit`.
    pub(super) fn of(order: &Order, strip: &StripOrder, unit: Unit, parts: usize) -> Self {
        let wording = strip.wording.lines().collect::<Vec<_>>().join(" / ");
        let page = order.name.as_ref().map_or_else(String::new, |name| format!(" (page: {name})"));
        let misplaced = order.is_misplaced(strip).then(|| MISPLACED.to_owned());
        let mut sentences: Vec<String> =
            misplaced.into_iter().chain(strip.lined_up(unit).iter().map(ToString::to_string)).collect();
        if sentences.is_empty() {
            sentences.push(format!("The {} has no place on the page yet.", strip.role));
        }
        sentences.extend(missing_told(strip));
        let join = match parts {
            0 | 1 => None,
            2 => Some(JOIN),
            _ => Some(JOIN_ALL),
        };
        sentences.extend(join.map(str::to_owned));
        sentences.push(STAND.to_owned());
        Self { role: Face::legible(strip.role.as_str()), wording: format!("{wording}{page}"), sentences }
    }

    /// What a sheet with part `number` of `of` holds, in a few words.
    pub(super) fn told(&self, number: usize, of: usize) -> String {
        let part = if of > 1 { format!(", part {number} of {of}") } else { String::new() };
        format!("template of the {}{part}", self.role)
    }

    /// The heading of part `number` of `of`, `width` wide, its upper left corner at `at`; and how high it is.
    pub(super) fn heading(&self, number: usize, of: usize, hand: Hand, at: Dot, width: f64) -> (Piece, f64) {
        let (size, most) = match hand {
            Hand::Usual => (4.6, 2),
            Hand::Small | Hand::Before => (3.6, 1),
        };
        let told = self.told(number, of).replacen('t', "T", 1);
        let told = lines(&told, Face::Strong, size, width, most);
        let (piece, high) = block(Sense::Heading, &told, Face::Strong, size, at);
        (piece, high + 0.3)
    }

    /// The heading of the sheet before the parts, where there is one; and how high it is.
    pub(super) fn heading_of_words(&self, at: Dot, width: f64) -> (Piece, f64) {
        let told =
            lines(&format!("Template of the {}, how it is used", self.role), Face::Strong, 3.6, width, 2);
        let (piece, high) = block(Sense::Heading, &told, Face::Strong, 3.6, at);
        (piece, high + 0.3)
    }

    /// The words under the heading, which all parts share; and how high they are.
    pub(super) fn body(&self, hand: Hand, at: Dot, width: f64) -> (Vec<Piece>, f64) {
        let (size, most) = match hand {
            Hand::Usual => (3.2, 2),
            Hand::Small | Hand::Before => (2.4, 1),
        };
        let (mut pieces, mut down) = (Vec::new(), 0.0);
        let mut add = |text: &str, size: f64, most: usize, space: f64| {
            let lines = lines(text, Face::Plain, size, width, most);
            let (piece, high) = block(Sense::Paragraph, &lines, Face::Plain, size, (at.0, at.1 + down));
            pieces.push(piece);
            down += high + space;
        };
        add(&self.wording, size * 1.15, most, 0.6);
        let sentences = if hand == Hand::Before { &[] } else { self.sentences.as_slice() };
        for sentence in sentences {
            add(sentence, size, usize::MAX, 0.2);
        }
        (pieces, down)
    }
}

/// Missing letters that are named one by one at most: more would fill the sheet.
const NAMED: usize = 12;

/// What the outlines in fine dashes are; `None` where nothing is missing.
fn missing_told(strip: &StripOrder) -> Option<String> {
    let missing: Vec<String> =
        strip.missing().map(|step| format!("{} ({})", step.wanted.spoken(), step.number)).collect();
    match missing.len() {
        0 => None,
        all if all == strip.steps.len() => {
            Some("Every letter is missing: their outlines are in fine dashes.".into())
        }
        many if many > NAMED => {
            Some(format!("Outlines in fine dashes are missing: {many} of {}.", strip.steps.len()))
        }
        _ => Some(format!("Outlines in fine dashes are missing: {}.", missing.join(", "))),
    }
}
