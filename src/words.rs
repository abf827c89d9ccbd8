//! Words as files spell them: closed sets of them, and the one that was probably meant.
//!
//! Must not know any of the sets.

/// Declares an enum whose cases are words in files.
macro_rules! words {
    ($(#[$doc:meta])* $name:ident { $($(#[$each:meta])* $case:ident = $word:literal),+ $(,)? }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
        pub enum $name { $($(#[$each])* $case),+ }

        impl $name {
            /// Every one, in the order in which they are listed to a reader.
            pub const ALL: &'static [Self] = &[$(Self::$case),+];

            /// The word as files spell it.
            #[must_use]
            pub const fn as_str(self) -> &'static str {
                match self { $(Self::$case => $word),+ }
            }

            /// Reads a word as files spell it.
            #[must_use]
            pub fn parse(word: &str) -> Option<Self> {
                Self::ALL.iter().copied().find(|one| one.as_str() == word)
            }
        }

        impl std::fmt::Display for $name {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.write_str(self.as_str())
            }
        }
    };
}

pub(crate) use words;

/// No word that a file knows is longer.
const LONGEST: usize = 40;

/// The candidate spelled most like `word`, ties to the first; `None` where nothing comes near: more than a third of the
/// letters wrong (put in, taken out, changed, or exchanged with a neighbour), at least one allowed.
pub(crate) fn nearest<'c>(word: &str, candidates: impl IntoIterator<Item = &'c str>) -> Option<&'c str> {
    let wanted: String = word.chars().take(LONGEST).flat_map(char::to_lowercase).collect();
    let most = (wanted.chars().count() / 3).max(1);
    candidates
        .into_iter()
        .map(|candidate| (strsim::osa_distance(&wanted, &candidate.to_lowercase()), candidate))
        .filter(|(distance, _)| *distance <= most)
        .min_by_key(|(distance, _)| *distance)
        .map(|(_, candidate)| candidate)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn slips_are_found_and_strangers_are_not() {
        let keys = ["height", "height_of", "colour", "form"];
        assert_eq!(nearest("hieght", keys), Some("height"));
        assert_eq!(nearest("color", keys), Some("colour"));
        assert_eq!(nearest("From", keys), Some("form"));
        assert_eq!(nearest("weather", keys), None);
    }
}
