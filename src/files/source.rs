//! The text of one file while it is read: places in it, and the problems found so far.
//!
//! Must not know what the file holds.

use std::cell::{Cell, RefCell};
use std::ops::Range;

use toml::Spanned;
use toml::de::DeTable;

use crate::measure::Unit;

use super::problem::{Level, Problem, Problems, escaped, harmless};
use super::syntax;
use crate::measure::ColourNames;

/// More problems than these in one file tell nobody anything.
const MOST_PROBLEMS: usize = 100;
/// The longest piece of a file that a message repeats, in characters.
const LONGEST_PIECE: usize = 48;

/// One file while it is read.
pub(super) struct Source<'a> {
    file: &'a str,
    text: &'a str,
    /// Own names for colours.
    pub(super) colours: &'a ColourNames,
    /// What a bare number counts.
    pub(super) unit: Cell<Unit>,
    /// How many errors were found, those that are not told with them.
    errors: Cell<usize>,
    problems: RefCell<Problems>,
}

impl<'a> Source<'a> {
    pub(super) fn new(file: &'a str, text: &'a str, colours: &'a ColourNames) -> Self {
        Self {
            file,
            text,
            colours,
            unit: Cell::new(Unit::Millimetre),
            errors: Cell::new(0),
            problems: RefCell::new(Problems::new()),
        }
    }

    /// The tree of the text; `None` where it is no TOML, after every place that is not was told.
    pub(super) fn tree(&self) -> Option<Spanned<DeTable<'a>>> {
        if self.text.starts_with('\u{feff}') {
            let message = "the file starts with a byte-order mark; save it as UTF-8 without one";
            self.warn(0, "", message.into());
        }
        let tree = DeTable::parse(self.text).ok();
        if tree.is_none() {
            for (at, message) in syntax::problems(self.text) {
                self.error(at, "", message);
            }
        }
        tree
    }

    pub(super) const fn text(&self) -> &'a str {
        self.text
    }

    /// What the file has at `span`, as written, cut to a length that a message bears.
    pub(super) fn piece(&self, span: &Range<usize>) -> String {
        let piece = self.text.get(span.clone()).unwrap_or_default().trim();
        let short: String = piece.chars().take(LONGEST_PIECE).collect();
        if short.len() == piece.len() { short } else { short + "…" }
    }

    pub(super) fn error(&self, at: usize, key: &str, message: String) {
        self.tell(Level::Error, at, key, message);
    }

    pub(super) fn warn(&self, at: usize, key: &str, message: String) {
        self.tell(Level::Warning, at, key, message);
    }

    fn tell(&self, level: Level, at: usize, key: &str, message: String) {
        self.errors.set(self.errors.get() + usize::from(level == Level::Error));
        let mut problems = self.problems.borrow_mut();
        if problems.len() > MOST_PROBLEMS {
            return;
        }
        let (line, column) = self.place(at);
        let (level, key, message) = if problems.len() < MOST_PROBLEMS {
            (level, escaped(key), harmless(message))
        } else {
            (Level::Error, String::new(), "there is more; what follows is not told".into())
        };
        problems.push(Problem { file: escaped(self.file), line, column, level, key, message });
    }

    /// Line and column in characters of a byte of the text, both from 1.
    pub(super) fn place(&self, at: usize) -> (usize, usize) {
        place_in(self.text, at)
    }

    /// How many errors were found so far.
    pub(super) const fn errors(&self) -> usize {
        self.errors.get()
    }

    pub(super) fn has_errors(&self) -> bool {
        self.problems.borrow().has_errors()
    }

    pub(super) fn into_problems(self) -> Problems {
        let mut problems = self.problems.into_inner();
        problems.sort_by_place();
        problems
    }
}

/// Line and column in characters of a byte of `text`, both from 1.
pub(super) fn place_in(text: &str, at: usize) -> (usize, usize) {
    let mut at = at.min(text.len());
    while !text.is_char_boundary(at) {
        at -= 1;
    }
    let before = &text[..at];
    let line_start = before.rfind('\n').map_or(0, |newline| newline + 1);
    let line = before.bytes().filter(|&byte| byte == b'\n').count() + 1;
    let column = before[line_start..].chars().filter(|&c| c != '\u{feff}').count() + 1;
    (line, column)
}
