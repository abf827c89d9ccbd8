//! Letters counted as they are read off a sheet, one after the other, lot by lot.
//!
//! Must not know keys, nor what becomes of the counts.

use std::collections::BTreeMap;

use crate::letter::{Character, CharacterError, characters};
use crate::measure::Tint;

use super::{ChipId, Letter, MOST_LEFT, Mark, Sheet, SheetId};

/// Letters of a sheet that share a mark: the plain ones, or those of another colour.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lot {
    /// Their mark; none: the plain ones.
    pub mark: Option<Mark>,
    /// Their colours, the main one first.
    pub colours: Vec<Tint>,
}

/// Letters counted so far.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Tally {
    /// The plain letters first.
    lots: Vec<Lot>,
    chosen: usize,
    /// The letters that the sheet has in colours of their own without a mark, and only so.
    unmarked: Vec<(Character, Vec<Tint>)>,
    /// Each letter as it was read off, and its lot.
    run: Vec<(Character, usize)>,
}

/// Why a letter is not counted.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum TallyError {
    /// It is no letter.
    #[error(transparent)]
    Character(#[from] CharacterError),
    /// There are too many.
    #[error("that would be more than {MOST_LEFT} of {0}; a sheet counts no further")]
    TooMany(Character),
}

impl Tally {
    /// Nothing counted yet of `sheet`: a lot for its plain letters, and one for each mark.
    #[must_use]
    pub fn of(sheet: &Sheet) -> Self {
        let mut lots = vec![Lot { mark: None, colours: sheet.paint.colours.clone() }];
        for letter in sheet.letters.iter().filter(|letter| letter.mark.is_some()) {
            if !lots.iter().any(|lot| lot.mark == letter.mark) {
                let own = if letter.colours.is_empty() { &sheet.paint.colours } else { &letter.colours };
                lots.push(Lot { mark: letter.mark.clone(), colours: own.clone() });
            }
        }
        let is_marked_too = |letter: &Letter| {
            let others = sheet.letters.iter().filter(|one| one.character == letter.character);
            let mut marked = others.filter(|one| one.mark.is_some());
            marked.any(|one| Tint::are_alike(&one.colours, &letter.colours))
        };
        let own =
            |letter: &&Letter| letter.mark.is_none() && !letter.colours.is_empty() && !is_marked_too(letter);
        let unmarked = sheet.letters.iter().filter(own);
        let unmarked = unmarked.map(|letter| (letter.character.clone(), letter.colours.clone())).collect();
        Self { lots, chosen: 0, unmarked, run: Vec::new() }
    }

    /// The lots, the plain letters first.
    #[must_use]
    pub fn lots(&self) -> &[Lot] {
        &self.lots
    }

    /// The lot that is counted now.
    #[must_use]
    pub const fn chosen(&self) -> usize {
        self.chosen
    }

    /// Goes `by` lots on, or back; after the last comes the first.
    pub fn walk(&mut self, by: isize) {
        let count = self.lots.len();
        let by = by.rem_euclid(isize::try_from(count).unwrap_or(1));
        self.chosen = (self.chosen + by.unsigned_abs()) % count;
    }

    /// The plain letters have these colours.
    pub fn paint(&mut self, colours: Vec<Tint>) {
        self.lots[0].colours = colours;
    }

    /// Goes on with letters of this colour: a lot that has it, or a new one, marked by the colour's name.
    pub fn take_up(&mut self, tint: Tint) {
        let is_it = |lot: &Lot| lot.colours.len() == 1 && lot.colours[0].colour == tint.colour;
        if let Some(place) = self.lots.iter().position(is_it) {
            self.chosen = place;
            return;
        }
        // A number behind it must not be cut off.
        let name: String = tint.name().chars().take(50).collect();
        let numbered = (2..).map(|number| format!("{name} {number}"));
        let mut marks =
            std::iter::once(name.clone()).chain(numbered).filter_map(|name| Mark::from_name(&name));
        let mark = marks.find(|mark| self.lots.iter().all(|lot| lot.mark.as_ref() != Some(mark)));
        self.lots.push(Lot { mark, colours: vec![tint] });
        self.chosen = self.lots.len() - 1;
    }

    /// Counts one letter; a combining mark joins the letter before it. White space is nothing.
    ///
    /// # Errors
    /// When it is no letter, or there would be too many.
    pub fn add(&mut self, text: &str) -> Result<(), TallyError> {
        if text.trim().is_empty() {
            return Ok(());
        }
        if let Some((last, lot)) = self.run.last().filter(|(_, lot)| *lot == self.chosen) {
            let joined = format!("{last}{text}");
            if characters(&joined).count() == 1 {
                let whole = (Character::new(&joined)?, *lot);
                self.run.pop();
                self.run.push(whole);
                return Ok(());
            }
        }
        let character = Character::new(text)?;
        if self.count(self.chosen, &character) >= MOST_LEFT {
            return Err(TallyError::TooMany(character));
        }
        self.run.push((character, self.chosen));
        Ok(())
    }

    /// Counts these letters, as they were counted before: each in the lot that has its mark or its colours.
    pub fn resume(&mut self, letters: &[Letter]) {
        for letter in letters {
            let is_it = |lot: &Lot| match &letter.mark {
                None if letter.colours.is_empty() => true,
                None => Tint::are_alike(&lot.colours, &letter.colours),
                mark => lot.mark == *mark,
            };
            let place = self.lots.iter().position(is_it).unwrap_or_else(|| {
                let colours = if letter.colours.is_empty() { &self.lots[0].colours } else { &letter.colours };
                self.lots.push(Lot { mark: letter.mark.clone(), colours: colours.clone() });
                self.lots.len() - 1
            });
            self.run.extend((0..letter.left).map(|_| (letter.character.clone(), place)));
            self.chosen = place;
        }
    }

    /// Takes the last letter back, if there is one; its lot is counted again.
    pub fn take_back(&mut self) {
        if let Some((_, lot)) = self.run.pop() {
            self.chosen = lot;
        }
    }

    /// The letters as they were read off, the newest last, each with its lot.
    #[must_use]
    pub fn run(&self) -> &[(Character, usize)] {
        &self.run
    }

    /// How many of a character there are in a lot.
    #[must_use]
    pub fn count(&self, lot: usize, character: &Character) -> u16 {
        let count = self.run.iter().filter(|(other, of)| *of == lot && other == character).count();
        u16::try_from(count).unwrap_or(u16::MAX)
    }

    /// The letters of a lot with their counts, in the order in which characters stand.
    #[must_use]
    pub fn in_lot(&self, lot: usize) -> Vec<(&Character, u16)> {
        let mut counts: BTreeMap<_, (&Character, u16)> = BTreeMap::new();
        for (character, _) in self.run.iter().filter(|(_, of)| *of == lot) {
            counts.entry(character.in_order()).or_insert((character, 0)).1 += 1;
        }
        counts.into_values().collect()
    }

    /// The letters as a new sheet has them.
    #[must_use]
    pub fn letters(&self) -> Vec<Letter> {
        let lots = self.lots.iter().enumerate();
        lots.flat_map(|(place, lot)| {
            let colours = if place == 0 { Vec::new() } else { lot.colours.clone() };
            self.in_lot(place).into_iter().map(move |(character, left)| Letter {
                colours: colours.clone(),
                ..Letter::plain(character.clone(), self.mark_of(character, place), left)
            })
        })
        .collect()
    }

    /// How many of each chip of the sheet called `sheet`.
    #[must_use]
    pub fn chips(&self, sheet: &SheetId) -> BTreeMap<ChipId, i32> {
        let mut chips = BTreeMap::new();
        for (character, lot) in &self.run {
            let (sheet, character) = (sheet.clone(), character.clone());
            *chips.entry(ChipId { sheet, mark: self.mark_of(&character, *lot), character }).or_default() += 1;
        }
        chips
    }

    /// The mark of a character in a lot: the lot's, but none where the sheet has the character in these colours without one.
    fn mark_of(&self, character: &Character, lot: usize) -> Option<Mark> {
        let Lot { mark, colours } = &self.lots[lot];
        let mut unmarked = self.unmarked.iter();
        let is_unmarked = unmarked.any(|(other, own)| other == character && Tint::are_alike(own, colours));
        mark.clone().filter(|_| !is_unmarked)
    }
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
mod tests {
    use super::*;
    use crate::measure::Colour;

    /// As a table makes a sheet: its only S is of another colour, and needs no mark.
    #[test]
    fn a_letter_of_another_colour_without_a_mark_is_counted_as_itself() {
        let mut tally = tally();
        tally.unmarked.push((Character::new("S").unwrap(), vec![tint("coral")]));
        tally.add("A").unwrap();
        tally.take_up(tint("coral"));
        tally.add("S").unwrap();
        tally.add("E").unwrap();
        assert_eq!(told(&tally), "kelp/A 1, kelp/E:coral 1, kelp/S 1");
        assert!(tally.letters().iter().all(|one| one.mark.is_none() || one.character.as_str() == "E"));
    }

    fn tally() -> Tally {
        Tally {
            unmarked: Vec::new(),
            lots: vec![Lot { mark: None, colours: vec![tint("teal")] }],
            chosen: 0,
            run: Vec::new(),
        }
    }

    fn tint(name: &str) -> Tint {
        Tint::called(name, Colour::named(name).unwrap())
    }

    fn told(tally: &Tally) -> String {
        let chips = tally.chips(&SheetId::new("kelp").unwrap());
        chips.iter().map(|(chip, count)| format!("{chip} {count}")).collect::<Vec<_>>().join(", ")
    }

    #[test]
    fn letters_are_counted_lot_by_lot() {
        let mut tally = tally();
        for c in ["A", "E", "A", " "] {
            tally.add(c).unwrap();
        }
        tally.take_up(tint("coral"));
        tally.add("A").unwrap();
        tally.take_up(tint("teal"));
        tally.add("&").unwrap();
        assert_eq!(told(&tally), "kelp/& 1, kelp/A 2, kelp/A:coral 1, kelp/E 1");
        tally.walk(-1);
        tally.add("O").unwrap();
        let letters = tally.letters();
        assert_eq!(letters.len(), 5);
        assert_eq!(letters.last().unwrap().colours, [tint("coral")]);
        assert!(letters[0].colours.is_empty());
    }

    #[test]
    fn what_is_taken_back_is_the_last_letter_of_its_own_lot() {
        let mut tally = tally();
        tally.add("A").unwrap();
        tally.take_up(tint("coral"));
        tally.take_back();
        assert_eq!((tally.chosen(), tally.run().len()), (0, 0));
        tally.take_back();
        assert_eq!((tally.chosen(), tally.run().len()), (0, 0));
    }

    #[test]
    fn a_combining_mark_joins_its_letter() {
        let mut tally = tally();
        for c in ["e", "\u{301}", "e"] {
            tally.add(c).unwrap();
        }
        assert_eq!(told(&tally), "kelp/e 1, kelp/é 1");
        assert!(tally.add("\u{7}").is_err());
    }

    #[test]
    fn colours_of_one_name_get_marks_of_their_own() {
        let mut tally = tally();
        tally.take_up(tint("coral"));
        tally.take_up(Tint::called("coral", Colour::BLACK));
        let marks: Vec<_> =
            tally.lots().iter().filter_map(|lot| lot.mark.as_ref()).map(Mark::as_str).collect();
        assert_eq!(marks, ["coral", "coral-2"]);
    }
}
