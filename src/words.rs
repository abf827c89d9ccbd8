//! Closed sets of words, as files spell them: one declaration gives the type, its words and its reading.
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
