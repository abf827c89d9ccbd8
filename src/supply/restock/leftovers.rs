//! Sheets that are spent or nearly so, and what could still be made of the last letters of one alone.
//!
//! Must not know where the words come from.

use std::borrow::Cow;
use std::collections::BTreeSet;

use crate::letter::{characters, normalise};
use crate::stash::{ChipIx, Sheet, Stash};
use crate::supply::group::Group;
use crate::supply::written::Written;
use crate::supply::{Asking, Speller, Supply, Verdict};
use crate::title::Wording;

/// A sheet with so many letters left, or fewer, is nearly spent: a short title's worth (house choice).
pub const NEARLY_SPENT: u32 = 12;
/// So many things that could be made are told.
const TOLD: usize = 3;
/// What has fewer letters is not worth telling.
const SHORTEST: usize = 3;
/// The bits beside the counts in [`Counts`].
const GUARD: u128 = 0x88_8888_8888_8888_8888_8888_8888;
/// More of a letter are not counted.
const MOST: u32 = 7;

/// How many there are of A to Z, both cases alike, four bits each; of which the fourth is left free, so that all can be compared at
/// once.
type Counts = u128;

/// A sheet that is spent or nearly so.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Leftover {
    /// Its place among the stash's sheets.
    pub sheet: usize,
    /// Letters left; 0: it is spent.
    pub left: u32,
    /// What could be made of it alone: at most three, those that use the most letters first, wishes before words, then the
    /// commonest.
    pub possible: Vec<Possible>,
}

/// Something that could be made of one sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Possible {
    /// As it would be made, in the case that the sheet has.
    pub text: String,
    /// Its place among the wishes, if it is one.
    pub wish: Option<usize>,
    /// How many letters it uses.
    pub letters: usize,
    /// Whether with stand-ins or without.
    pub verdict: Verdict,
}

/// A text that may be made.
struct Wanted<'w> {
    /// As [`Wording::text`] has it.
    text: Cow<'w, str>,
    wish: Option<usize>,
    counts: Counts,
}

/// The sheets of `stash` that are spent, or have no more than `most` letters left; and what of `wishes` and `words`, the commonest
/// first, could be made of each alone. Sheets that are set aside count only when they are spent. `spare` says how many of a chip are
/// kept for something else: they are left on the sheet, but make nothing.
#[must_use]
pub fn leftovers<'w>(
    stash: &Stash,
    asking: &Asking,
    spare: impl Fn(ChipIx) -> u16,
    most: u32,
    words: impl Iterator<Item = &'w str>,
    wishes: &'w [Wording],
) -> Vec<Leftover> {
    let by_length = by_length(most, words, wishes);
    let is_low = |sheet: &Sheet| sheet.left() == 0 || (sheet.left() <= most && !sheet.label.aside);
    let low =
        stash.sheets().iter().enumerate().filter(|(_, sheet)| !sheet.letters.is_empty() && is_low(sheet));
    low.map(|(place, sheet)| {
        let spare: Vec<u16> = stash.chips_of(place).map(&spare).collect();
        let alone = Stash::new(vec![sheet.clone()]);
        let supply = Supply::new(&alone, asking.clone(), |chip| spare[chip.get()]);
        Leftover { sheet: place, left: sheet.left(), possible: possible(sheet, &supply, &by_length) }
    })
    .collect()
}

/// The texts by how many letters they have.
fn by_length<'w>(
    most: u32,
    words: impl Iterator<Item = &'w str>,
    wishes: &'w [Wording],
) -> Vec<Vec<Wanted<'w>>> {
    let most = usize::try_from(most).unwrap_or(usize::MAX).min(Wording::MOST);
    let mut by_length: Vec<Vec<Wanted<'w>>> = (0..=most).map(|_| Vec::new()).collect();
    let wishes = wishes.iter().enumerate().map(|(place, wish)| (wish.text(), Some(place)));
    for (text, wish) in wishes.chain(words.map(|word| (word, None))) {
        let (text, letters) = if text.is_ascii() {
            (Cow::Borrowed(text), text.bytes().filter(|byte| !byte.is_ascii_whitespace()).count())
        } else {
            let text = normalise(text);
            let letters = characters(&text).filter(|one| !one.trim().is_empty()).count();
            (Cow::Owned(text), letters)
        };
        if letters >= SHORTEST && letters <= most {
            let counts = counts(&text);
            by_length[letters].push(Wanted { text, wish, counts });
        }
    }
    by_length
}

fn counts(text: &str) -> Counts {
    let one = |counts, byte: u8| place(byte).map_or(counts, |letter| with(counts, letter, 1));
    if text.is_ascii() {
        return text.bytes().fold(0, one);
    }
    // A letter with a mark is another letter.
    let plain = characters(text).filter_map(|letter| match *letter.as_bytes() {
        [byte] => Some(byte),
        _ => None,
    });
    plain.fold(0, one)
}

/// A letter's place in the alphabet, in either case.
fn place(byte: u8) -> Option<u32> {
    byte.is_ascii_alphabetic().then(|| u32::from(byte.to_ascii_lowercase() - b'a'))
}

fn with(counts: Counts, letter: u32, more: u32) -> Counts {
    let there = (counts >> (4 * letter)) & u128::from(MOST);
    let all = (there + u128::from(more)).min(u128::from(MOST));
    counts & !(u128::from(MOST) << (4 * letter)) | all << (4 * letter)
}

/// How many letters could serve for each, whoever else wants them.
fn most_of_each(supply: &Supply) -> Counts {
    let mut counts = 0;
    for lot in supply.groups().iter().flat_map(Group::lots) {
        let letters =
            lot.ways.iter().filter_map(|way| match *supply.character(way.wanted).as_str().as_bytes() {
                [byte] => place(byte),
                _ => None,
            });
        let letters: BTreeSet<u32> = letters.collect();
        counts = letters.into_iter().fold(counts, |counts, letter| with(counts, letter, lot.left()));
    }
    counts
}

fn possible(sheet: &Sheet, supply: &Supply, by_length: &[Vec<Wanted<'_>>]) -> Vec<Possible> {
    let left = usize::try_from(sheet.left()).unwrap_or(usize::MAX);
    let mut possible: Vec<Possible> = Vec::new();
    if left < SHORTEST {
        return possible;
    }
    let most = most_of_each(supply);
    let cases = Cases::of(sheet);
    let mut speller = Speller::new(supply);
    for (letters, texts) in by_length.iter().enumerate().take(left + 1).rev() {
        // What asks for no more of any letter than could serve for it.
        for text in texts.iter().filter(|text| ((most | GUARD) - text.counts) & GUARD == GUARD) {
            let small = text.text.to_lowercase();
            if possible.iter().any(|one| one.text.to_lowercase() == small) {
                continue;
            }
            if let Some((text_made, verdict)) = made(&mut speller, &text.text, cases) {
                possible.push(Possible { text: text_made, wish: text.wish, letters, verdict });
                if possible.len() == TOLD {
                    return possible;
                }
            }
        }
    }
    possible
}

/// Which cases a sheet has letters of.
#[derive(Clone, Copy)]
struct Cases {
    capitals: bool,
    small: bool,
}

impl Cases {
    fn of(sheet: &Sheet) -> Self {
        let left =
            || sheet.letters.iter().filter(|letter| letter.left > 0).map(|letter| letter.character.base());
        Self { capitals: left().any(char::is_uppercase), small: left().any(char::is_lowercase) }
    }
}

/// `text` as it can be made: in capitals, in small letters or as it is written, whichever asks for the least.
fn made(speller: &mut Speller<'_>, text: &str, cases: Cases) -> Option<(String, Verdict)> {
    let capitals = cases.capitals.then_some(Written::Capitals);
    let small = cases.small.then_some(Written::Small);
    let as_found = (cases.capitals == cases.small).then_some(Written::AsFound);
    let mut best: Option<(Verdict, String)> = None;
    for way in [capitals, small, as_found].into_iter().flatten() {
        let mut written = String::new();
        way.write(text, &mut written);
        let Ok((verdict, _)) = speller.judge(&written) else { continue };
        if verdict <= Verdict::StandIns && best.as_ref().is_none_or(|best| verdict < best.0) {
            best = Some((verdict, written));
        }
    }
    best.map(|(verdict, text)| (text, verdict))
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
mod tests {
    use super::super::tests::{asking, sheet};
    use super::*;
    use crate::letter::Character;
    use crate::stash::Letter;

    #[test]
    fn the_last_letters_make_the_words_that_use_the_most_of_them() {
        let mut spent = sheet("buoy", "A");
        spent.letters[0].left = 0;
        let stash = Stash::new(vec![spent, sheet("full", &"AEIOU".repeat(3)), sheet("kelp", "TIDEQPR")]);
        let wishes = ["Ripe", "TIDE & ROPE"].map(|text| Wording::new(text).unwrap());
        let words = ["at", "the", "tide", "pried", "trope", "tripod", "diet", "ripe"];
        let told = leftovers(&stash, &asking(), |_| 0, NEARLY_SPENT, words.into_iter(), &wishes);
        assert_eq!(told.iter().map(|one| (one.sheet, one.left)).collect::<Vec<_>>(), [(0, 0), (2, 7)]);
        assert!(told[0].possible.is_empty());
        let made: Vec<_> = told[1]
            .possible
            .iter()
            .map(|one| (one.text.as_str(), one.wish, one.letters, one.verdict))
            .collect();
        // A trimmed Q is the O of TRIPOD and TROPE.
        let (now, stand_ins) = (Verdict::Now, Verdict::StandIns);
        assert_eq!(
            made,
            [("TRIPOD", None, 6, stand_ins), ("PRIED", None, 5, now), ("TROPE", None, 5, stand_ins)]
        );
    }

    #[test]
    fn a_wish_goes_before_a_word_and_is_told_once() {
        let stash = Stash::new(vec![sheet("kelp", "tide")]);
        let wishes = ["EDIT"].map(|text| Wording::new(text).unwrap());
        let told =
            leftovers(&stash, &asking(), |_| 0, NEARLY_SPENT, ["tide", "Edit", "TED"].into_iter(), &wishes);
        let made: Vec<_> = told[0].possible.iter().map(|one| (one.text.as_str(), one.wish)).collect();
        assert_eq!(made, [("edit", Some(0)), ("tide", None), ("ted", None)]);
    }

    #[test]
    fn a_mark_by_itself_and_a_letter_without_a_capital_are_told_as_they_are_made() {
        let mut marked = sheet("kelp", "FTE");
        marked.letters.push(Letter::plain(Character::new("Ê").unwrap(), None, 1));
        let stash = Stash::new(vec![marked, sheet("sea", "STRASSE")]);
        // In two signs, as some programs write it, and as a wish of the same letters.
        let wishes = ["FÊTE"].map(|text| Wording::new(text).unwrap());
        let words = ["fe\u{302}te", "straße"].into_iter();
        let told = leftovers(&stash, &asking(), |_| 0, NEARLY_SPENT, words, &wishes);
        let made = |place: usize| {
            told[place].possible.iter().map(|one| (one.text.as_str(), one.letters)).collect::<Vec<_>>()
        };
        assert_eq!(made(0), [("FÊTE", 4)], "a wish and a word are one thing, however written");
        assert_eq!(made(1), [], "there is no ß, as in a title in capitals");
        let words = ["fe\u{302}te"].into_iter();
        let told = leftovers(&stash, &asking(), |_| 0, NEARLY_SPENT, words, &[]);
        assert_eq!(told[0].possible[0].letters, 4);
    }

    #[test]
    fn letters_that_are_spoken_for_make_nothing_else() {
        let stash = Stash::new(vec![sheet("kelp", "QUAY"), sheet("sea", "TIDE")]);
        let words = || ["tide", "tie", "quay"].into_iter();
        // The D of the second sheet.
        let kept = |chip: ChipIx| u16::from(chip.get() == 6);
        let told = leftovers(&stash, &asking(), kept, NEARLY_SPENT, words(), &[]);
        let made = |place: usize| {
            told[place].possible.iter().map(|one: &Possible| one.text.as_str()).collect::<Vec<_>>()
        };
        assert_eq!((made(0), made(1)), (vec!["QUAY"], vec!["TIE"]));
        assert_eq!(told[1].left, 4, "they are on the sheet still");
    }
}
