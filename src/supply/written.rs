//! In which letters a word is tried: capitals, small ones, or as it is written.
//!
//! Must not know what the stash can spell.

use crate::title::CaseRule;

/// In which letters a word is tried.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Written {
    /// As the list has it.
    AsFound,
    /// In capitals.
    Capitals,
    /// With a capital at the beginning of each word.
    FirstCapitals,
    /// In small letters.
    Small,
}

impl Written {
    /// The ways in which `word` is tried, the first one first.
    pub(super) fn ways(word: &str, case: CaseRule) -> &'static [Self] {
        match case {
            CaseRule::Upper => &[Self::Capitals],
            CaseRule::Lower => &[Self::Small],
            CaseRule::Any | CaseRule::AsWritten if word.chars().any(char::is_uppercase) => {
                &[Self::AsFound, Self::Capitals, Self::FirstCapitals, Self::Small]
            }
            CaseRule::Any | CaseRule::AsWritten => &[Self::Capitals, Self::FirstCapitals, Self::Small],
        }
    }

    /// Writes `word` in these letters into `text`, in place of what is there. A letter whose other case is more than one (ß)
    /// stays as it is, so that there are as many as before.
    pub(super) fn write(self, word: &str, text: &mut String) {
        text.clear();
        // A whole word knows where a sigma is the last letter.
        let whole = (!word.is_ascii()).then(|| word.to_lowercase());
        let whole = whole.filter(|whole| whole.chars().count() == word.chars().count());
        let small = whole.as_deref().unwrap_or(word).chars().map(lower);
        let mut begins = true;
        for (c, small) in word.chars().zip(small) {
            text.push(match self {
                Self::AsFound => c,
                Self::Capitals => upper(c),
                Self::FirstCapitals if begins => upper(c),
                Self::FirstCapitals | Self::Small => small,
            });
            begins = c.is_whitespace();
        }
    }
}

fn upper(c: char) -> char {
    if c.is_ascii() {
        return c.to_ascii_uppercase();
    }
    let mut cases = c.to_uppercase();
    if cases.len() == 1 { cases.next().unwrap_or(c) } else { c }
}

fn lower(c: char) -> char {
    if c.is_ascii() {
        return c.to_ascii_lowercase();
    }
    let mut cases = c.to_lowercase();
    if cases.len() == 1 { cases.next().unwrap_or(c) } else { c }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_letter_stays_one_letter() {
        let told = |word: &str| {
            let ways = [Written::AsFound, Written::Capitals, Written::FirstCapitals, Written::Small];
            ways.map(|way| {
                let mut text = "before".to_owned();
                way.write(word, &mut text);
                text
            })
        };
        assert_eq!(told("tide Pool"), ["tide Pool", "TIDE POOL", "Tide Pool", "tide pool"]);
        assert_eq!(told("straße"), ["straße", "STRAßE", "Straße", "straße"]);
        assert_eq!(told("ΟΔΟΣ ΣΑΣ"), ["ΟΔΟΣ ΣΑΣ", "ΟΔΟΣ ΣΑΣ", "Οδος Σας", "οδος σας"]);
        assert_eq!(told("İA"), ["İA", "İA", "İa", "İa"]);
    }
}
