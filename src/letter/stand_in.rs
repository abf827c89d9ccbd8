//! Which characters serve for which others: one curated table.
//!
//! What a stand-in costs by kind is taste: turned 3.0, look-alike 4.0, other case 2.0 (0 where both cases have one shape),
//! trimmed 8.0 unless `taste.toml` says otherwise. Must not know sheets or strips.

use super::Character;
use crate::words::words;

words! {
    /// How a letter stands in for another.
    StandInKind {
        /// Rotated by 180 or 90 degrees, or moved off its line (a comma for an apostrophe).
        Turned = "turned",
        /// Another character of nearly the same shape.
        LookAlike = "look-alike",
        /// The same letter in the other case.
        OtherCase = "other-case",
        /// A part cut off with a craft knife.
        Trimmed = "trimmed",
    }
}

/// How far a sticker is turned to stand in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Turn {
    /// Upright.
    #[default]
    None,
    /// By 90 degrees: it lies on its side.
    Quarter,
    /// By 180 degrees: it stands on its head.
    Half,
}

impl Turn {
    /// Whether width and height change places.
    #[must_use]
    pub const fn is_sideways(self) -> bool {
        matches!(self, Self::Quarter)
    }

    /// Whether it is not upright.
    #[must_use]
    pub const fn is_turned(self) -> bool {
        !matches!(self, Self::None)
    }

    /// In degrees.
    #[must_use]
    pub const fn degrees(self) -> u16 {
        match self {
            Self::None => 0,
            Self::Quarter => 90,
            Self::Half => 180,
        }
    }
}

/// Why a row is believed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Evidence {
    /// The outlines in the reference face, turned and centred, overlap by at least this share of their union.
    Overlap(f64),
    /// Both are confusable by Unicode Technical Standard #39.
    Confusable,
    /// Common practice in the craft, no source.
    Practice,
}

/// A character that serves for another.
#[derive(Debug, Clone, PartialEq)]
pub struct StandIn {
    /// The character on the sticker.
    pub used: Character,
    /// How it serves.
    pub kind: StandInKind,
    /// How far it is turned.
    pub turn: Turn,
    /// Two cases of one shape: it costs nothing.
    pub same_shape: bool,
    /// Why it is believed.
    pub evidence: Evidence,
}

/// A row of the table: the character wanted, the character used, and how.
#[derive(Debug, Clone, Copy)]
pub struct Row {
    /// The character wanted.
    pub wanted: &'static str,
    /// The character on the sticker.
    pub used: &'static str,
    /// How it serves.
    pub kind: StandInKind,
    /// How far it is turned.
    pub turn: Turn,
    /// Why it is believed.
    pub evidence: Evidence,
}

const fn half(wanted: &'static str, used: &'static str, evidence: Evidence) -> Row {
    Row { wanted, used, kind: StandInKind::Turned, turn: Turn::Half, evidence }
}

const fn quarter(wanted: &'static str, used: &'static str) -> Row {
    Row { wanted, used, kind: StandInKind::Turned, turn: Turn::Quarter, evidence: Evidence::Practice }
}

const fn moved(wanted: &'static str, used: &'static str) -> Row {
    Row { wanted, used, kind: StandInKind::Turned, turn: Turn::None, evidence: Evidence::Practice }
}

const fn alike(wanted: &'static str, used: &'static str, evidence: Evidence) -> Row {
    Row { wanted, used, kind: StandInKind::LookAlike, turn: Turn::None, evidence }
}

const fn trimmed(wanted: &'static str, used: &'static str) -> Row {
    Row { wanted, used, kind: StandInKind::Trimmed, turn: Turn::None, evidence: Evidence::Practice }
}

use Evidence::{Confusable, Overlap, Practice};

/// The curated table. A high overlap alone does not make a stand-in (b and h), nor does a low one rule it out (M and W):
/// so rows are chosen by hand, and each says why it is believed.
pub const STAND_INS: &[Row] = &[
    half("M", "W", Practice),
    half("W", "M", Practice),
    half("m", "w", Practice),
    half("w", "m", Practice),
    half("n", "u", Overlap(0.97)),
    half("u", "n", Overlap(0.97)),
    half("b", "q", Overlap(0.95)),
    half("q", "b", Overlap(0.95)),
    half("d", "p", Overlap(0.95)),
    half("p", "d", Overlap(0.95)),
    half("6", "9", Overlap(0.97)),
    half("9", "6", Overlap(0.97)),
    half("A", "V", Overlap(0.83)),
    half("V", "A", Overlap(0.83)),
    quarter("N", "Z"),
    quarter("Z", "N"),
    quarter("-", "I"),
    quarter("-", "l"),
    moved("'", ","),
    alike("O", "0", Confusable),
    alike("0", "O", Confusable),
    alike("I", "l", Confusable),
    alike("l", "I", Confusable),
    alike("I", "1", Confusable),
    alike("1", "I", Confusable),
    alike("l", "1", Confusable),
    alike("1", "l", Confusable),
    alike("S", "5", Practice),
    alike("5", "S", Practice),
    alike("Z", "2", Practice),
    alike("2", "Z", Practice),
    alike("B", "8", Practice),
    alike("8", "B", Practice),
    alike("O", "♥", Practice),
    alike("O", "★", Practice),
    alike("O", "○", Practice),
    alike("o", "♥", Practice),
    alike("o", "★", Practice),
    alike("o", "○", Practice),
    trimmed("O", "Q"),
    trimmed("P", "R"),
    trimmed("F", "E"),
    trimmed("C", "G"),
    trimmed("P", "B"),
];

/// Letters whose two cases have one shape.
const SAME_SHAPE: &str = "cosvwxz";

/// Every character that serves for `wanted`, in the order of the table, the other case first.
#[must_use]
pub fn stand_ins(wanted: &Character) -> Vec<StandIn> {
    let table = STAND_INS.iter().filter(|row| row.wanted == wanted.as_str()).filter_map(Row::stand_in);
    other_case(wanted).into_iter().chain(table).collect()
}

/// How `used` serves for `wanted` by `kind`; `None` where it does not.
#[must_use]
pub fn find_stand_in(wanted: &Character, used: &Character, kind: StandInKind) -> Option<StandIn> {
    if kind == StandInKind::OtherCase {
        return other_case(wanted).filter(|one| one.used == *used);
    }
    let asked = |row: &&Row| row.wanted == wanted.as_str() && row.used == used.as_str() && row.kind == kind;
    STAND_INS.iter().find(asked)?.stand_in()
}

impl Row {
    fn stand_in(&self) -> Option<StandIn> {
        Some(StandIn {
            used: Character::new(self.used).ok()?,
            kind: self.kind,
            turn: self.turn,
            same_shape: false,
            evidence: self.evidence,
        })
    }
}

fn other_case(wanted: &Character) -> Option<StandIn> {
    let [upper, lower] = [wanted.to_upper()?, wanted.to_lower()?];
    let used = if *wanted == lower { upper } else { lower };
    let same_shape = SAME_SHAPE.contains(used.to_lower()?.as_str());
    let (kind, turn, evidence) = (StandInKind::OtherCase, Turn::None, Evidence::Practice);
    (used != *wanted).then_some(StandIn { used, kind, turn, same_shape, evidence })
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
mod tests {
    use super::*;

    #[test]
    fn each_row_stands_once_and_names_characters() {
        for (place, row) in STAND_INS.iter().enumerate() {
            assert!(Character::new(row.wanted).is_ok() && Character::new(row.used).is_ok());
            let same =
                |other: &&Row| (other.wanted, other.used, other.kind) == (row.wanted, row.used, row.kind);
            assert_eq!(STAND_INS[..place].iter().filter(same).count(), 0, "{row:?}");
        }
    }

    #[test]
    fn the_other_case_is_found_and_same_shapes_are_known() {
        let other = |text: &str| stand_ins(&Character::new(text).unwrap()).into_iter().next().unwrap();
        assert_eq!(other("S").used.as_str(), "s");
        assert!(other("S").same_shape);
        assert!(!other("a").same_shape);
        assert_eq!(other("é").used.as_str(), "É");
        assert!(stand_ins(&Character::new("&").unwrap()).is_empty());
    }

    #[test]
    fn each_that_serves_is_found_by_its_kind_alone() {
        for wanted in STAND_INS.iter().map(|row| Character::new(row.wanted).unwrap()) {
            for one in stand_ins(&wanted) {
                assert_eq!(find_stand_in(&wanted, &one.used, one.kind), Some(one.clone()));
                let by = |kind: &&StandInKind| find_stand_in(&wanted, &one.used, **kind).is_some();
                assert_eq!(StandInKind::ALL.iter().filter(by).count(), 1, "{wanted} {one:?}");
            }
        }
    }
}
