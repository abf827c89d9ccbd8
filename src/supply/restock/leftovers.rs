//! Sheets that are spent or nearly so, and what could still be made of the last letters of one alone.
//!
//! Must not know where the words come from.

use crate::letter::characters;
use crate::stash::{Sheet, Stash};
use crate::supply::{Asking, Speller, Supply, Verdict};
use crate::title::Wording;

/// A sheet with so many letters left, or fewer, is nearly spent: a short title's worth (house choice).
pub const NEARLY_SPENT: u32 = 12;
/// So many things that could be made are told.
const TOLD: usize = 3;
/// What has fewer letters is not worth telling.
const SHORTEST: usize = 3;
/// The bit of anything but A to Z in a mask of letters.
const OTHERS: u32 = 1 << 26;

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
struct Text<'w> {
    text: &'w str,
    wish: Option<usize>,
    mask: u32,
}

/// The sheets of `stash` that are spent, or have no more than `most` letters left; and what of `wishes` and `words`, the commonest
/// first, could be made of each alone. Sheets that are set aside count only when they are spent.
#[must_use]
pub fn leftovers<'w>(
    stash: &Stash,
    asking: &Asking,
    most: u32,
    words: impl Iterator<Item = &'w str>,
    wishes: &'w [Wording],
) -> Vec<Leftover> {
    let by_length = by_length(most, words, wishes);
    let is_low = |sheet: &Sheet| sheet.left() == 0 || (sheet.left() <= most && !sheet.label.aside);
    let low =
        stash.sheets().iter().enumerate().filter(|(_, sheet)| !sheet.letters.is_empty() && is_low(sheet));
    low.map(|(place, sheet)| Leftover {
        sheet: place,
        left: sheet.left(),
        possible: possible(sheet, asking, &by_length),
    })
    .collect()
}

/// The texts by how many letters they have.
fn by_length<'w>(
    most: u32,
    words: impl Iterator<Item = &'w str>,
    wishes: &'w [Wording],
) -> Vec<Vec<Text<'w>>> {
    let most = usize::try_from(most).unwrap_or(usize::MAX).min(Wording::MOST);
    let mut by_length: Vec<Vec<Text<'w>>> = (0..=most).map(|_| Vec::new()).collect();
    let wishes = wishes.iter().enumerate().map(|(place, wish)| (wish.text(), Some(place)));
    for (text, wish) in wishes.chain(words.map(|word| (word, None))) {
        let letters = if text.is_ascii() {
            text.bytes().filter(|byte| !byte.is_ascii_whitespace()).count()
        } else {
            characters(text).filter(|one| !one.trim().is_empty()).count()
        };
        if letters >= SHORTEST && letters <= most {
            by_length[letters].push(Text { text, wish, mask: mask(text) });
        }
    }
    by_length
}

/// The letters of a text, both cases alike.
fn mask(text: &str) -> u32 {
    let bit = |byte: u8| match byte.to_ascii_lowercase() {
        letter @ b'a'..=b'z' => 1 << (letter - b'a'),
        byte if byte.is_ascii_whitespace() => 0,
        _ => OTHERS,
    };
    text.bytes().map(bit).fold(0, |mask, bit| mask | bit)
}

fn possible(sheet: &Sheet, asking: &Asking, by_length: &[Vec<Text<'_>>]) -> Vec<Possible> {
    let left = usize::try_from(sheet.left()).unwrap_or(usize::MAX);
    let mut possible: Vec<Possible> = Vec::new();
    if left < SHORTEST {
        return possible;
    }
    let supply = Supply::new(&Stash::new(vec![sheet.clone()]), asking.clone(), |_| 0);
    let serves = supply.serving().map(|one| mask(one.as_str())).fold(OTHERS, |all, one| all | one);
    let mut speller = Speller::new(&supply);
    for (letters, texts) in by_length.iter().enumerate().take(left + 1).rev() {
        // What asks for no letter that the sheet does not serve.
        for text in texts.iter().filter(|text| text.mask & !serves == 0) {
            if possible.iter().any(|one| one.text.eq_ignore_ascii_case(text.text)) {
                continue;
            }
            if let Some((text_made, verdict)) = made(&mut speller, text.text) {
                possible.push(Possible { text: text_made, wish: text.wish, letters, verdict });
                if possible.len() == TOLD {
                    return possible;
                }
            }
        }
    }
    possible
}

/// `text` as it can be made: as it is written, in capitals or in small letters, whichever asks for the least.
fn made(speller: &mut Speller<'_>, text: &str) -> Option<(String, Verdict)> {
    let mut best: Option<(Verdict, String)> = None;
    for written in [text.to_owned(), text.to_uppercase(), text.to_lowercase()] {
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

    #[test]
    fn the_last_letters_make_the_words_that_use_the_most_of_them() {
        let mut spent = sheet("buoy", "A");
        spent.letters[0].left = 0;
        let stash = Stash::new(vec![spent, sheet("full", &"AEIOU".repeat(3)), sheet("kelp", "TIDEQPR")]);
        let wishes = ["Ripe", "TIDE & ROPE"].map(|text| Wording::new(text).unwrap());
        let words = ["at", "the", "tide", "pried", "trope", "tripod", "diet", "ripe"];
        let told = leftovers(&stash, &asking(), NEARLY_SPENT, words.into_iter(), &wishes);
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
        let told = leftovers(&stash, &asking(), NEARLY_SPENT, ["tide", "Edit", "TED"].into_iter(), &wishes);
        let made: Vec<_> = told[0].possible.iter().map(|one| (one.text.as_str(), one.wish)).collect();
        assert_eq!(made, [("edit", Some(0)), ("tide", None), ("ted", None)]);
    }
}
