//! What is wrong in a file: where, what, what was found there, and what would do.
//!
//! Must not know what the file holds.

use std::fmt::{self, Write as _};

/// How grave a problem is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Level {
    /// What it stands in cannot be used.
    Error,
    /// It can be used all the same.
    Warning,
}

/// One thing that is wrong in a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem {
    /// The file, as seen from the stash's folder: `sheets/kelp.toml`.
    pub file: String,
    /// Line, from 1.
    pub line: usize,
    /// Column in characters, from 1.
    pub column: usize,
    /// How grave it is.
    pub level: Level,
    /// The key it is about, with dots between tables; empty where it is about the file.
    pub key: String,
    /// What was found and what would do, in a sentence without control characters.
    pub message: String,
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}:{}:{}: ", self.file, self.line, self.column)?;
        if self.level == Level::Warning {
            f.write_str("warning: ")?;
        }
        if !self.key.is_empty() {
            write!(f, "{}: ", self.key)?;
        }
        f.write_str(&self.message)
    }
}

/// All that is wrong in one file or several, in the order found.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Problems(Vec<Problem>);

impl Problems {
    /// None so far.
    #[must_use]
    pub const fn new() -> Self {
        Self(Vec::new())
    }

    /// Adds one.
    pub fn push(&mut self, problem: Problem) {
        self.0.push(problem);
    }

    /// Adds those of another file.
    pub fn append(&mut self, mut other: Self) {
        self.0.append(&mut other.0);
    }

    /// Every one.
    #[must_use]
    pub fn all(&self) -> &[Problem] {
        &self.0
    }

    /// Those that keep something from being used.
    pub fn errors(&self) -> impl Iterator<Item = &Problem> {
        self.0.iter().filter(|problem| problem.level == Level::Error)
    }

    /// Those that do not.
    pub fn warnings(&self) -> impl Iterator<Item = &Problem> {
        self.0.iter().filter(|problem| problem.level == Level::Warning)
    }

    /// Whether anything keeps something from being used.
    #[must_use]
    pub fn has_errors(&self) -> bool {
        self.errors().next().is_some()
    }

    /// Whether nothing is wrong.
    #[must_use]
    pub const fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// How many there are.
    #[must_use]
    pub const fn len(&self) -> usize {
        self.0.len()
    }

    /// Those of one file.
    pub(super) fn of_file(&self, file: &str) -> Self {
        Self(self.0.iter().filter(|problem| problem.file == file).cloned().collect())
    }

    /// The same, found in `file`.
    pub(super) fn in_file(mut self, file: &str) -> Self {
        for problem in &mut self.0 {
            problem.file = escaped(file);
        }
        self
    }

    /// Puts them in the order of their place within a file; files stay together.
    pub(super) fn sort_by_place(&mut self) {
        self.0.sort_by(|a, b| (&a.file, a.line, a.column).cmp(&(&b.file, b.line, b.column)));
    }
}

impl From<Problem> for Problems {
    fn from(problem: Problem) -> Self {
        Self(vec![problem])
    }
}

impl fmt::Display for Problems {
    /// One a line.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (place, problem) in self.0.iter().enumerate() {
            if place > 0 {
                f.write_char('\n')?;
            }
            problem.fmt(f)?;
        }
        Ok(())
    }
}

/// A text from a file or a file's name, with every character that could steer a terminal or hide spelled out.
#[must_use]
pub fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        let unseen = matches!(c, '\u{200b}' | '\u{200e}' | '\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{feff}');
        match c {
            '\n' => out.push_str("\\n"),
            '\r' => out.push_str("\\r"),
            '\t' => out.push_str("\\t"),
            _ if c.is_control() || unseen => out.extend(c.escape_unicode()),
            _ => out.push(c),
        }
    }
    out
}

/// The same for a text that is nearly always fine as it is.
pub(super) fn harmless(text: String) -> String {
    if text.bytes().all(|byte| byte == b' ' || byte.is_ascii_graphic()) { text } else { escaped(&text) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_reaches_a_terminal_raw() {
        assert_eq!(escaped("a\u{1b}[31m\nb\u{202e}\u{9b}"), "a\\u{1b}[31m\\nb\\u{202e}\\u{9b}");
        assert_eq!(escaped("é ♥ 漢"), "é ♥ 漢");
    }
}
