//! Reads typed values by key out of one table, and tells every one that is not what it should be.
//!
//! A value that was told is `None` to the caller, like one that is absent: the caller goes on, so that all of a file's
//! problems come at once, and asks the source at the end whether anything was wrong. Must not know which keys a file has.

use std::ops::{Range, RangeInclusive};

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use crate::measure::{Angle, Length, LengthError, Tint};

pub(super) use super::found::Found;
use super::source::Source;
use crate::words::nearest;

/// One table of a file.
#[derive(Clone, Copy)]
pub(super) struct Keys<'k> {
    pub(super) source: &'k Source<'k>,
    table: &'k DeTable<'k>,
    /// Where it starts.
    at: usize,
    /// The tables around it and itself, as keys; empty ones are left out.
    path: [&'k str; 3],
}

impl<'k> Keys<'k> {
    /// The whole of a file.
    pub(super) const fn new(source: &'k Source<'k>, table: &'k DeTable<'k>) -> Self {
        Self { source, table, at: 0, path: [""; 3] }
    }

    pub(super) fn has(&self, key: &str) -> bool {
        self.table.contains_key(key)
    }

    /// The table that the entry `key` of this one is, or holds, if it is one.
    pub(super) fn within(&self, key: &'k str, found: Found<'k>) -> Option<Self> {
        let (table, at) = found.table("").ok()?;
        Some(self.below(key, table, at))
    }

    fn below(&self, key: &'k str, table: &'k DeTable<'k>, at: usize) -> Self {
        let mut path = self.path;
        if let Some(free) = path.iter_mut().find(|part| part.is_empty()) {
            *free = key;
        }
        Self { source: self.source, table, at, path }
    }

    /// Where the value of `key` starts, or else the table.
    pub(super) fn place_of(&self, key: &str) -> usize {
        self.table.get(key).map_or(self.at, |value| value.span().start)
    }

    pub(super) fn error(&self, at: usize, key: &str, message: String) {
        self.source.error(at, &self.full(key), message);
    }

    pub(super) fn warn(&self, at: usize, key: &str, message: String) {
        self.source.warn(at, &self.full(key), message);
    }

    /// Tells that `key` is missing, unless it is there; `example` is a line that would do.
    pub(super) fn require(&self, key: &str, example: &str) {
        if !self.has(key) {
            self.error(self.at, key, format!("it is missing; add {example}"));
        }
    }

    /// Warns of every key that is not `known`, with the one that was probably meant.
    pub(super) fn know(&self, known: &[&str]) {
        for (key, _) in self.table {
            let name = key.get_ref().as_ref();
            if !known.contains(&name) {
                let near = nearest(name, known.iter().copied());
                let hint = near.map_or_else(String::new, |near| format!("; did you mean {near}?"));
                self.warn(key.span().start, name, format!("this key is not known and is left alone{hint}"));
            }
        }
    }

    /// Reads the value of `key` by `how`; tells what `how` finds wrong.
    pub(super) fn read<T>(&self, key: &str, how: impl FnOnce(Found<'k>) -> Result<T, String>) -> Option<T> {
        let value = self.table.get(key)?;
        match how(Found::new(self.source, value)) {
            Ok(read) => Some(read),
            Err(message) => {
                self.error(value.span().start, key, message);
                None
            }
        }
    }

    pub(super) fn text(&self, key: &str) -> Option<&'k str> {
        self.read(key, Found::text)
    }

    pub(super) fn flag(&self, key: &str) -> Option<bool> {
        self.read(key, Found::flag)
    }

    pub(super) fn count(&self, key: &str, range: RangeInclusive<u32>) -> Option<u32> {
        self.read(key, |found| found.count(range))
    }

    /// One of a closed set of words.
    pub(super) fn word<T: Copy>(&self, key: &str, all: &[T], spell: fn(T) -> &'static str) -> Option<T> {
        self.read(key, |found| found.word(all, spell))
    }

    /// A length above 0.
    pub(super) fn size(&self, key: &str) -> Option<Length> {
        self.read(key, |found| found.length(Length::as_size))
    }

    /// A length within 5 m either way.
    pub(super) fn offset(&self, key: &str) -> Option<Length> {
        self.read(key, |found| found.length(Length::as_offset))
    }

    /// Two lengths.
    pub(super) fn lengths(
        &self,
        key: &str,
        kind: fn(Length) -> Result<Length, LengthError>,
    ) -> Option<(Length, Length)> {
        self.read(key, |found| match found.items() {
            Some([first, second]) => {
                Ok((found.other(first).length(kind)?, found.other(second).length(kind)?))
            }
            _ => Err(format!("{} is not two lengths; write them as [\"40 mm\", \"110 mm\"]", found.piece())),
        })
    }

    pub(super) fn angle(&self, key: &str) -> Option<Angle> {
        self.read(key, Found::angle)
    }

    pub(super) fn tint(&self, key: &str) -> Option<Tint> {
        self.read(key, Found::tint)
    }

    /// One colour or a list of them, those that are none told and left out; `None` where the key is absent.
    pub(super) fn tints(&self, key: &str) -> Option<Vec<Tint>> {
        let value = self.table.get(key)?;
        let whole = Found::new(self.source, value);
        let Some(items) = whole.items() else { return self.tint(key).map(|tint| vec![tint]) };
        Some(self.items(key, items, Found::tint))
    }

    /// Each of a list by `how`; those that are not what they should be are told and left out.
    pub(super) fn list<T>(&self, key: &str, how: impl Fn(Found<'k>) -> Result<T, String>) -> Vec<T> {
        let items = self.read(key, |found| {
            found
                .items()
                .ok_or_else(|| format!("{} is no list; write it in brackets, [\"...\"]", found.piece()))
        });
        self.items(key, items.unwrap_or_default(), how)
    }

    fn items<T>(
        &self,
        key: &str,
        items: &'k [Spanned<DeValue<'k>>],
        how: impl Fn(Found<'k>) -> Result<T, String>,
    ) -> Vec<T> {
        let mut read = Vec::with_capacity(items.len());
        for value in items {
            match how(Found::new(self.source, value)) {
                Ok(one) => read.push(one),
                Err(message) => self.error(value.span().start, key, message),
            }
        }
        read
    }

    /// The table called `key`.
    pub(super) fn table(&self, key: &'k str) -> Option<Self> {
        let (table, at) = self.read(key, |found| found.table(key))?;
        Some(self.below(key, table, at))
    }

    /// The tables called `key`, `[[key]]` each; none where it is absent.
    pub(super) fn tables(&self, key: &'k str) -> Vec<Self> {
        let wrong = |found: Found<'_>| {
            let name = self.full(key);
            if found.is_table() {
                return format!("there may be several; start each with double brackets, [[{name}]]");
            }
            format!("{} is no list of tables; start each with [[{name}]] on a line of its own", found.piece())
        };
        let items = self.read(key, |found| found.items().ok_or_else(|| wrong(found))).unwrap_or_default();
        let mut tables = Vec::with_capacity(items.len());
        for value in items {
            let found = Found::new(self.source, value);
            match found.table(key) {
                Ok((table, at)) => tables.push(self.below(key, table, at)),
                Err(message) => self.error(value.span().start, key, message),
            }
        }
        tables
    }

    /// Every key with its place and value, in the file's order.
    pub(super) fn entries(&self) -> Vec<(&'k str, Range<usize>, Found<'k>)> {
        let entry = |(key, value): (&'k Spanned<_>, &'k Spanned<_>)| {
            let name: &'k std::borrow::Cow<'k, str> = key.get_ref();
            (name.as_ref(), key.span(), Found::new(self.source, value))
        };
        let mut entries: Vec<_> = self.table.iter().map(entry).collect();
        entries.sort_unstable_by_key(|(_, span, _)| span.start);
        entries
    }

    /// `strip.letter.chip`.
    pub(super) fn full(&self, key: &str) -> String {
        let parts = self.path.into_iter().chain([key]);
        parts.filter(|part| !part.is_empty()).collect::<Vec<_>>().join(".")
    }
}
