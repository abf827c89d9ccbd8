//! The words of an order: sheets, colours, stand-ins and cautions as a reader is told them. Names are as the owner wrote
//! them: whoever shows them sees to control characters.
//!
//! Must not know columns or paper.

use std::fmt;

use crate::letter::{Character, StandInKind, Turn};
use crate::measure::{Angle, Tint};
use crate::page::Side;
use crate::stash::Mark;

use super::{Carrier, Caution, Contact, PulledLetter, Serves, SheetName, Stance, UsedLetter};

impl fmt::Display for SheetName {
    /// `37: Harbour blocks`; with the id behind it where nothing else tells it from another sheet.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some(tag) = &self.tag {
            write!(f, "{tag}: ")?;
        }
        f.write_str(&self.name)?;
        if self.alike { write!(f, " ({})", self.id) } else { Ok(()) }
    }
}

impl UsedLetter {
    /// The names of its colours: `teal and white`.
    #[must_use]
    pub fn colour(&self) -> String {
        colours(&self.colours)
    }

    /// The character on it, and its mark where it has one: `S (coral)`.
    #[must_use]
    pub fn called(&self) -> String {
        called(&self.character, self.mark.as_ref())
    }

    /// How it stands in for `wanted`, in words; `None` where it is itself.
    #[must_use]
    pub fn stand_in(&self, wanted: &Character) -> Option<String> {
        self.serves.map(|serves| serves.told(&self.character, wanted))
    }
}

impl PulledLetter {
    /// The names of its colours: `teal and white`.
    #[must_use]
    pub fn colour(&self) -> String {
        colours(&self.colours)
    }

    /// The character on it, and its mark where it has one: `S (coral)`.
    #[must_use]
    pub fn called(&self) -> String {
        called(&self.character, self.mark.as_ref())
    }
}

impl Serves {
    /// What is done to `used` so that it reads as `wanted`.
    #[must_use]
    pub fn told(self, used: &Character, wanted: &Character) -> String {
        let (used, wanted) = (used.spoken(), wanted.spoken());
        match (self.kind, self.turn) {
            (StandInKind::Turned, Turn::Half) => format!("{used} turned upside down for {wanted}"),
            (StandInKind::Turned, Turn::Quarter) => format!("{used} laid on its side for {wanted}"),
            (StandInKind::Turned, Turn::None) => format!("{used} set so that it reads as {wanted}"),
            (StandInKind::LookAlike, _) => format!("{used} as a look-alike for {wanted}"),
            (StandInKind::OtherCase, _) => format!("{used} in the other case for {wanted}"),
            (StandInKind::Trimmed, _) => format!("{used} trimmed with a craft knife to {wanted}"),
        }
    }
}

impl Contact {
    /// Where the letters are: `at the top edge of harbour mat`, `on paper lantern`.
    #[must_use]
    pub fn told(&self) -> String {
        let edge = self.side.map(|side| match side {
            Side::Top => "top",
            Side::Bottom => "lower",
            Side::Left => "left",
            Side::Right => "right",
        });
        match (edge, self.over) {
            (Some(edge), false) => format!("at the {edge} edge of {}", self.name),
            (Some(edge), true) => format!("over the {edge} edge of {}", self.name),
            (None, true) => format!("on {}", self.name),
            (None, false) => format!("at the edge of {}", self.name),
        }
    }
}

impl Stance {
    /// Its tilt in words; `None` where it stands straight.
    #[must_use]
    pub fn tilt_told(&self) -> Option<String> {
        (self.tilt != Angle::ZERO).then(|| format!("tilted {}", turned(self.tilt)))
    }
}

impl fmt::Display for Caution {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Knife => f.write_str(
                "Trim a letter while it is still on its backing, before it is pulled: with a fresh blade, on a cutting \
                 mat, and cut away from the fingers. Cap the knife when it is laid down.",
            ),
            Self::OnOriginal { role, photo, numbers } => {
                let (lie, them) = if numbers.len() == 1 { ("lies", "it") } else { ("lie", "them") };
                write!(
                    f,
                    "{} of the {role} {lie} on {photo}, which cannot be reprinted: do not stick {them} there. Find the \
                     strip another place first.",
                    letters(numbers)
                )
            }
            Self::BeyondPage { role, numbers } => {
                let reach = if numbers.len() == 1 { "reaches" } else { "reach" };
                let numbers = letters(numbers);
                write!(f, "{numbers} of the {role} {reach} beyond the page. Find the strip another place first.")
            }
            Self::Originals(photos) => write!(
                f,
                "Nothing adhesive goes over an original photo. It cannot be reprinted: {}.",
                photos.join(", ")
            ),
            Self::PhotoSafe => f.write_str("Near photos use only adhesives that are safe for photos."),
        }
    }
}

/// `Letter 3`, `Letters 1, 2 and 4`.
fn letters(numbers: &[usize]) -> String {
    let numbers: Vec<String> = numbers.iter().map(ToString::to_string).collect();
    match numbers.split_last() {
        Some((last, before)) if !before.is_empty() => format!("Letters {} and {last}", before.join(", ")),
        _ => format!("Letter {}", numbers.join("")),
    }
}

/// An angle in words: `3.5 degrees clockwise`.
#[must_use]
pub(super) fn turned(angle: Angle) -> String {
    let sense = if angle < Angle::ZERO { "anticlockwise" } else { "clockwise" };
    let size = angle.number();
    let size = size.trim_start_matches('-');
    format!("{size} {} {sense}", if size == "1" { "degree" } else { "degrees" })
}

impl Carrier {
    /// How it is turned, in words; `None` where it lies straight.
    #[must_use]
    pub fn turn_told(&self) -> Option<String> {
        (self.turn != Angle::ZERO).then(|| turned(self.turn))
    }
}

fn colours(tints: &[Tint]) -> String {
    tints.iter().map(Tint::name).collect::<Vec<_>>().join(" and ")
}

fn called(character: &Character, mark: Option<&Mark>) -> String {
    let spoken = character.spoken();
    mark.map_or_else(|| spoken.clone(), |mark| format!("{spoken} ({})", mark.as_str()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn angles_are_told_with_their_sense() {
        assert_eq!(turned(Angle::from_thousandths(-3_500)), "3.5 degrees anticlockwise");
        assert_eq!(turned(Angle::from_thousandths(1_000)), "1 degree clockwise");
    }

    #[test]
    fn one_letter_on_an_original_is_told_as_one() {
        let caution = |numbers| {
            Caution::OnOriginal { role: crate::title::Role::title(), photo: "quay".into(), numbers }
                .to_string()
        };
        assert!(caution(vec![3]).starts_with("Letter 3 of the title lies on quay"));
        assert!(caution(vec![3, 4]).starts_with("Letters 3 and 4 of the title lie on quay"));
        assert_eq!(letters(&[1, 2, 4]), "Letters 1, 2 and 4");
    }
}
