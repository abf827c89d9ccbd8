//! Which chips the grid shows: plain words for a letter, a colour, a band of heights, a form.
//!
//! Must not know how they are shown.

use crate::checks::Palette;
use crate::letter::Character;
use crate::measure::{ColourNames, Lab, Length, Tint, Unit};
use crate::stash::{Chip, Form};

/// What a chip must be to be shown; all that is given must hold.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Filter {
    /// As it was typed.
    pub text: String,
    characters: Vec<Character>,
    colours: Vec<Tint>,
    heights: Option<(Length, Length)>,
    form: Option<Form>,
}

impl Filter {
    /// Reads words: single letters (`E`, `&`), a form (`tile`, `die-cut`), a band of heights (`20-26`,
    /// `0.75-1in`), colour names; anything else is told.
    ///
    /// # Errors
    /// The word that could not be read, in a sentence.
    pub fn read(text: &str, names: &ColourNames, unit: Unit) -> Result<Self, String> {
        let mut filter = Self { text: text.trim().to_owned(), ..Self::default() };
        for word in text.split_whitespace() {
            if let Ok(character) = Character::new(word) {
                filter.characters.push(character);
            } else if let Some(form) = Form::parse(word) {
                filter.form = Some(form);
            } else if let Some(heights) = read_heights(word, unit) {
                filter.heights = Some(heights);
            } else if let Ok(tint) = names.read(word) {
                filter.colours.push(tint);
            } else {
                let word = word.escape_debug();
                return Err(format!(
                    "\"{word}\" is no letter, form, height band (20-26) or colour; the filter stays as it was"
                ));
            }
        }
        Ok(filter)
    }

    /// Whether it lets everything through.
    #[must_use]
    pub fn is_open(&self) -> bool {
        self.characters.is_empty() && self.colours.is_empty() && self.heights.is_none() && self.form.is_none()
    }

    /// Whether `chip` is to be shown. A colour lets through what would be taken for it on a page.
    #[must_use]
    pub fn lets(&self, chip: Chip<'_>) -> bool {
        let character = self.characters.is_empty() || self.characters.contains(&chip.letter.character);
        let form = self.form.is_none_or(|form| form == chip.sheet.make.form);
        let height = self.heights.is_none_or(|(least, most)| (least..=most).contains(&chip.shown_height()));
        character && form && height && self.lets_colour(chip)
    }

    fn lets_colour(&self, chip: Chip<'_>) -> bool {
        let wanted: Vec<Lab> = self.colours.iter().map(|tint| tint.colour.lab()).collect();
        let near = |tint: &Tint| wanted.iter().any(|lab| lab.difference(tint.colour.lab()) <= Palette::ALIKE);
        wanted.is_empty() || chip.colours().iter().any(near)
    }
}

/// Reads the least and the greatest height as in `20-26`, in `unit` unless it says `mm`, `cm` or `in`.
#[must_use]
pub fn read_heights(word: &str, unit: Unit) -> Option<(Length, Length)> {
    let (least, most) = word.split_once('-')?;
    let (least, most) = (least.trim(), most.trim());
    let most_length = Length::parse(most, unit).ok()?;
    let suffix = most.trim_start_matches(|c: char| c.is_ascii_digit() || c == '.');
    // The unit may be said once, at the end.
    let suffix = if least.ends_with(|c: char| c.is_ascii_digit()) { suffix } else { "" };
    let least = Length::parse(&format!("{least}{suffix}"), unit).ok()?;
    (least <= most_length).then_some((least, most_length))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_heights_in_one_unit_or_each_in_its_own() {
        let mm = |least, most| Some((Length::from_mm(least), Length::from_mm(most)));
        for text in ["18-26", "18 - 26", "18-26mm", "18 - 26 mm", "18.0mm-26.0mm", "1.8cm-26 mm"] {
            assert_eq!(read_heights(text, Unit::Millimetre), mm(18, 26), "{text}");
        }
        for text in ["26-18", "18", "a-b", "18-26 ells", ""] {
            assert_eq!(read_heights(text, Unit::Millimetre), None, "{text}");
        }
    }
}
