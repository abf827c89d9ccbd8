//! The text of a ledger taken apart, entry by entry, as far as each can be read by itself, and put together again.
//!
//! What is kept is kept as it was written, comments and all. Must not know sheets or plans.

use crate::files::ledger::{HEAD, LEDGER, entry_text, is_line_of_entry, read_ledger};
use crate::stash::Entry;

/// How an entry begins.
const START: &[u8] = b"[[entry]]";

/// A ledger's text in pieces.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Book {
    /// What stands before the first entry.
    pub(super) head: String,
    /// The entries in the file's order.
    pub(super) entries: Vec<Written>,
    /// How its lines end.
    ends: &'static str,
}

/// An entry, and how it is written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Written {
    pub(super) entry: Entry,
    pub(super) text: String,
}

/// A piece of the file that cannot be read, or not all of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Unread {
    /// Its line, from 1.
    pub(super) line: usize,
    pub(super) why: String,
    /// Whether an entry was read all the same, without some lines.
    pub(super) is_saved: bool,
}

impl Book {
    /// Takes a file apart; tells what of it cannot be read.
    pub(super) fn read(bytes: &[u8]) -> (Self, Vec<Unread>) {
        let ends = if bytes.windows(2).any(|pair| pair == b"\r\n") { "\r\n" } else { "\n" };
        let mut book = Self { ends, ..Self::default() };
        let mut unread = Vec::new();
        let mut line = 1;
        for (place, piece) in pieces(bytes).into_iter().enumerate() {
            if place == 0 {
                book.head = head(piece, &mut unread);
            } else {
                book.entries.extend(written(piece, line, &mut unread));
            }
            line += piece.split(|&byte| byte == b'\n').count() - 1;
        }
        match std::str::from_utf8(bytes).map(|text| read_ledger(LEDGER, text)) {
            // Written in a way of its own: read as a whole, and spelled anew.
            Ok((ledger, problems))
                if !problems.has_errors()
                    && !ledger.entries().iter().eq(book.entries.iter().map(|one| &one.entry)) =>
            {
                book.head = String::new();
                book.entries = ledger.entries().iter().map(|entry| book.spelled(entry.clone())).collect();
                (book, Vec::new())
            }
            _ => (book, unread),
        }
    }

    /// An entry in the program's own spelling.
    pub(super) fn spelled(&self, entry: Entry) -> Written {
        Written { text: entry_text(&entry, if self.ends.is_empty() { "\n" } else { self.ends }), entry }
    }

    /// The whole text. Where the pieces do not read as the entries that they are, all is spelled anew.
    pub(super) fn text(&self) -> String {
        let text = self.joined();
        let (ledger, problems) = read_ledger(LEDGER, &text);
        let same = ledger.entries().iter().eq(self.entries.iter().map(|one| &one.entry));
        if same && !problems.has_errors() {
            return text;
        }
        let entries = self.entries.iter().map(|one| self.spelled(one.entry.clone())).collect();
        Self { head: String::new(), entries, ends: self.ends }.joined()
    }

    fn joined(&self) -> String {
        let ends = if self.ends.is_empty() { "\n" } else { self.ends };
        let mut text = if self.head.trim().is_empty() { HEAD.replace('\n', ends) } else { self.head.clone() };
        for one in &self.entries {
            text.truncate(text.trim_end().len());
            text.push_str(ends);
            text.push_str(ends);
            text.push_str(one.text.trim());
        }
        text.truncate(text.trim_end().len());
        text + ends
    }
}

/// What stands before the first entry, then each entry up to the next.
fn pieces(bytes: &[u8]) -> Vec<&[u8]> {
    let mut pieces = Vec::new();
    let (mut from, mut at) = (0, 0);
    for line in bytes.split_inclusive(|&byte| byte == b'\n') {
        let solid = line.iter().filter(|byte| !byte.is_ascii_whitespace());
        if solid.take(START.len()).eq(START) {
            pieces.push(&bytes[from..at]);
            from = at;
        }
        at += line.len();
    }
    pieces.push(&bytes[from..]);
    pieces
}

fn head(piece: &[u8], unread: &mut Vec<Unread>) -> String {
    let text = String::from_utf8_lossy(piece);
    let (ledger, problems) = read_ledger(LEDGER, &text);
    if !problems.has_errors() && ledger.entries().is_empty() {
        return text.into_owned();
    }
    if let Some(problem) = problems.errors().next() {
        unread.push(Unread { line: problem.line, why: problem.message.clone(), is_saved: false });
    }
    let comments = text.split_inclusive('\n').filter(|line| line.trim_start().starts_with('#'));
    comments.collect()
}

/// The entry of one piece that starts on `line`: with all its lines, or with those alone that an entry is made of.
fn written(piece: &[u8], line: usize, unread: &mut Vec<Unread>) -> Option<Written> {
    let whole = std::str::from_utf8(piece);
    let why = match whole {
        Ok(text) => match alone(text) {
            Ok(entry) => return Some(Written { entry, text: text.to_owned() }),
            Err((within, why)) => (line + within - 1, why),
        },
        Err(_) => (line, "here are bytes that are no UTF-8".to_owned()),
    };
    let lossy = String::from_utf8_lossy(piece);
    let sifted: String = lossy.split_inclusive('\n').filter(|row| is_line_of_entry(row)).collect();
    // A key's line that is damaged is not left out: without its slots, say, an entry would tell another thing.
    let entry = alone(&sifted).ok().filter(|_| !sifted.contains(char::REPLACEMENT_CHARACTER));
    unread.push(Unread { line: why.0, why: why.1, is_saved: entry.is_some() });
    entry.map(|entry| Written { entry, text: sifted })
}

/// The one entry that `text` is, or the line and the reason why it is none.
fn alone(text: &str) -> Result<Entry, (usize, String)> {
    let (ledger, problems) = read_ledger(LEDGER, text);
    if let Some(problem) = problems.errors().next() {
        let key = if problem.key.is_empty() { String::new() } else { format!("{}: ", problem.key) };
        return Err((problem.line, format!("{key}{}", problem.message)));
    }
    let [entry] = ledger.entries() else { return Err((1, "here is no entry".into())) };
    Ok(entry.clone())
}
