//! What is wrong in a stash's folder, and what becomes of it.
//!
//! Must not know how it is found.

use std::fmt;

use crate::files::problem::{Problem, escaped};

/// One thing that is wrong.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Ailment {
    /// The file, as seen from the stash's folder.
    pub file: String,
    /// Line and column, from 1, where it is told of a place in the file.
    pub place: Option<(usize, usize)>,
    /// What is wrong, in a sentence without control characters.
    pub what: String,
    /// What becomes of it.
    pub cure: Cure,
}

/// What becomes of something that is wrong; sentences without control characters.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Cure {
    /// Mending does this.
    Mending(String),
    /// Only the owner can do it, in this way.
    ByHand(String),
}

impl Ailment {
    pub(super) fn mended(file: &str, what: &str, will: &str) -> Self {
        Self { file: escaped(file), place: None, what: escaped(what), cure: Cure::Mending(escaped(will)) }
    }

    pub(super) fn by_hand(file: &str, what: &str, how: &str) -> Self {
        Self { file: escaped(file), place: None, what: escaped(what), cure: Cure::ByHand(escaped(how)) }
    }

    /// What keeps a file from being used, as it is told everywhere.
    pub(super) fn of(problem: &Problem) -> Self {
        let key = if problem.key.is_empty() { String::new() } else { format!("{}: ", problem.key) };
        let how = "set it right in the file; mending leaves the file as it is";
        let ailment = Self::by_hand(&problem.file, &format!("{key}{}", problem.message), how);
        Self { place: Some((problem.line, problem.column)), ..ailment }
    }

    /// Whether only the owner can set it right.
    #[must_use]
    pub const fn is_by_hand(&self) -> bool {
        matches!(self.cure, Cure::ByHand(_))
    }
}

impl fmt::Display for Ailment {
    /// `sheets/kelp.toml: what is wrong`, with line and column after the file where they are told.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.file)?;
        if let Some((line, column)) = self.place {
            write!(f, ":{line}:{column}")?;
        }
        write!(f, ": {}", self.what)
    }
}
