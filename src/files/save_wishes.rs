//! Adds a wish to `wishes.toml` and drops one: what else is in the file stays as it is.
//!
//! Must not know whether the stash can spell them.

use std::io;
use std::ops::Range;
use std::path::PathBuf;

use toml_edit::{
    Array, ArrayOfTables, Document, DocumentMut, InlineTable, Item, RawString, Table, TableLike, Value,
};

use super::error::FilesError;
use super::folder::{StashFolder, read_bytes};
use super::line_ends;
use super::lock::StashLock;
use super::pen::text;
use super::problem::Problems;
use super::wishes::{WISHES, read_wishes};
use crate::title::{Wish, Wording};
use crate::words::nearest;

impl StashFolder {
    /// Adds `wish` as the last of `wishes.toml`, which is made where there is none.
    ///
    /// # Errors
    /// [`FilesError::WishThere`] when its wording is wished for already; [`FilesError::EmptyWish`] when it says nothing;
    /// [`FilesError::BadWishes`] when the file has errors. When it cannot be read or written; it is untouched then.
    pub fn add_wish(&self, _: &StashLock, wish: &Wish) -> Result<(), FilesError> {
        let (old, wishes) = self.wished()?;
        if wish.wording.is_empty() {
            return Err(FilesError::EmptyWish);
        }
        if wishes.iter().any(|other| other.is_for(&wish.wording)) {
            return Err(FilesError::WishThere(wish.wording.text().to_owned()));
        }
        let new = with_wish(&old, wish).map_err(FilesError::BadWishes)?;
        self.disk.replace(&self.wishes_path(), new.as_bytes())
    }

    /// Drops the wish for `wording` from `wishes.toml`, with the comments of its own: those on its lines, and the one right
    /// over it where a blank line parts that from what stands before. Of two such wishes the first. Gives it back.
    ///
    /// # Errors
    /// [`FilesError::NoWish`] when nobody wishes for it; [`FilesError::BadWishes`] when the file has errors. When it cannot be
    /// read or written; it is untouched then.
    pub fn drop_wish(&self, _: &StashLock, wording: &Wording) -> Result<Wish, FilesError> {
        let (old, mut wishes) = self.wished()?;
        let Some(place) = wishes.iter().position(|wish| wish.is_for(wording)) else {
            let near = nearest(wording.text(), wishes.iter().map(|wish| wish.wording.text()));
            return Err(FilesError::NoWish {
                wording: wording.text().to_owned(),
                near: near.map(str::to_owned),
            });
        };
        let new = without_wish(&old, place).map_err(FilesError::BadWishes)?;
        self.disk.replace(&self.wishes_path(), new.as_bytes())?;
        Ok(wishes.swap_remove(place))
    }

    /// The text of `wishes.toml` and what it wishes for; nothing where there is no such file.
    fn wished(&self) -> Result<(String, Vec<Wish>), FilesError> {
        let path = self.wishes_path();
        self.is_still_there(&path)?;
        let text = match std::fs::read(&path) {
            Err(error) if error.kind() == io::ErrorKind::NotFound => String::new(),
            Err(error) => return Err(FilesError::read(&path)(error)),
            bytes => read_bytes(bytes, WISHES).map_err(|problem| FilesError::BadWishes(problem.into()))?,
        };
        let (wishes, problems) = read_wishes(WISHES, &text);
        if problems.has_errors() { Err(FilesError::BadWishes(problems)) } else { Ok((text, wishes)) }
    }

    fn wishes_path(&self) -> PathBuf {
        self.path().join(WISHES)
    }
}

/// The text `old` of a file without errors, with `wish` after its last line.
fn with_wish(old: &str, wish: &Wish) -> Result<String, Problems> {
    let mut document = parsed(old)?;
    if let Some(Item::Value(Value::Array(listed))) = document.get_mut("wish") {
        let mut entry = InlineTable::new();
        fill(&mut entry, wish);
        push(listed, entry);
        return Ok(line_ends::restore(old, &document.to_string()));
    }
    let (mut fresh, mut entry) = (DocumentMut::new(), Table::new());
    fill(&mut entry, wish);
    fresh.insert("wish", Item::ArrayOfTables(ArrayOfTables::from_iter([entry])));
    let lines = old.lines().count();
    let end = if old.matches("\r\n").count() * 2 > lines { "\r\n" } else { "\n" };
    let body = old.trim_start_matches('\u{feff}');
    let mut new = old.to_owned();
    if !body.is_empty() && !body.ends_with('\n') {
        new.push_str(end);
    }
    if !body.trim().is_empty() {
        new.push_str(end);
    }
    new.push_str(&fresh.to_string().replace('\n', end));
    Ok(new)
}

fn fill(entry: &mut dyn TableLike, wish: &Wish) {
    entry.insert("wording", Item::Value(text(wish.wording.text())));
    if let Some(note) = &wish.note {
        entry.insert("note", Item::Value(text(note)));
    }
}

/// Adds an entry to a list in brackets, on a line of its own where the one before it is on one.
fn push(listed: &mut Array, entry: InlineTable) {
    let before = listed.iter().last().and_then(|last| last.decor().prefix()?.as_str());
    let own_line = before.and_then(|before| Some(before[before.rfind('\n')?..].to_owned()));
    let trailing = listed.trailing().as_str().unwrap_or_default().to_owned();
    let prefix = match own_line {
        Some(start) if trailing.contains('#') => {
            listed.set_trailing("\n");
            trailing.trim_end().to_owned() + &start
        }
        Some(start) => start,
        None if trailing.contains('#') => {
            listed.set_trailing("");
            trailing
        }
        None if listed.is_empty() => String::new(),
        None => " ".into(),
    };
    listed.push_formatted(Value::InlineTable(entry).decorated(prefix, ""));
}

/// The text `old` of a file without errors, without its wish at `place`.
fn without_wish(old: &str, place: usize) -> Result<String, Problems> {
    let body = old.trim_start_matches('\u{feff}');
    let told = |_| read_wishes(WISHES, old).1;
    let document = Document::parse(body).map_err(told)?;
    if let Some(table) =
        document.get("wish").and_then(Item::as_array_of_tables).and_then(|all| all.get(place))
    {
        let (mut pieces, mut all) = (Vec::new(), Vec::new());
        pieces_of(table, &mut pieces);
        pieces_of(document.as_table(), &mut all);
        all.extend(document.iter().filter_map(|(_, item)| item.as_value()?.span()));
        let mut new = old.to_owned();
        for piece in joined(body, pieces, &all).into_iter().rev() {
            let mark = old.len() - body.len();
            new.replace_range(mark + piece.start..mark + piece.end, "");
        }
        return Ok(new);
    }
    let mut document = document.into_mut();
    if let Some(listed) = document.get_mut("wish").and_then(Item::as_array_mut) {
        take_value(listed, place);
    }
    Ok(line_ends::restore(old, &document.to_string()))
}

/// Where a table stands, from its heading to its last value, and each table within it that has a heading.
fn pieces_of(table: &Table, pieces: &mut Vec<Range<usize>>) {
    let mut piece = table.span().unwrap_or_default();
    stretch(table, &mut piece.end, pieces);
    // A table that only others within it make has no heading.
    if !table.is_implicit() {
        pieces.push(piece);
    }
}

fn stretch(table: &Table, end: &mut usize, pieces: &mut Vec<Range<usize>>) {
    for (_, item) in table {
        match item {
            Item::Value(value) => *end = value.span().map_or(*end, |span| span.end.max(*end)),
            Item::Table(within) if within.is_dotted() => stretch(within, end, pieces),
            Item::Table(within) => pieces_of(within, pieces),
            Item::ArrayOfTables(several) => several.iter().for_each(|within| pieces_of(within, pieces)),
            Item::None => {}
        }
    }
}

/// The lines of these pieces, those with nothing but blank lines and comments between them as one; `all` are those of the file.
fn joined(text: &str, mut pieces: Vec<Range<usize>>, all: &[Range<usize>]) -> Vec<Range<usize>> {
    pieces.sort_unstable_by_key(|piece| piece.start);
    let mut joined: Vec<Range<usize>> = Vec::new();
    for piece in pieces {
        let start = text[..piece.start].rfind('\n').map_or(0, |newline| newline + 1);
        let end = text[piece.end..].find('\n').map_or(text.len(), |newline| piece.end + newline + 1);
        let is_between = |line: &str| is_blank(line) || is_comment(line);
        match joined.last_mut() {
            Some(last) if text[last.end..start].lines().all(is_between) => last.end = end,
            _ => joined.push(start..end),
        }
    }
    let before =
        |start: usize| all.iter().map(|piece| piece.end).filter(|&end| end <= start).max().unwrap_or(0);
    joined.into_iter().map(|lines| with_own_lines(text, before(lines.start), lines)).collect()
}

/// These lines with the comment right over them, where a blank line parts it from what stands before, and with the blank
/// lines that would be too many without them. What stands before ends at `last`, with a text that may look like a comment.
fn with_own_lines(text: &str, last: usize, Range { mut start, mut end }: Range<usize>) -> Range<usize> {
    let before = |at: usize| text[..at].split_inclusive('\n').next_back();
    let mut over = start;
    while let Some(line) = before(over).filter(|line| is_comment(line) && over - line.len() >= last) {
        over -= line.len();
    }
    if before(over).is_some_and(is_blank) {
        start = over;
    }
    if before(start).is_none_or(is_blank) {
        let after = text[end..].split_inclusive('\n').take_while(|line| is_blank(line));
        end += after.map(str::len).sum::<usize>();
    }
    if end == text.len() {
        let kept = text[..start].trim_end().len();
        let line_end = text[kept..start].find('\n').map_or(0, |newline| newline + 1);
        start = if kept == 0 { 0 } else { kept + line_end };
    }
    start..end
}

fn is_blank(line: &str) -> bool {
    line.trim().is_empty()
}

fn is_comment(line: &str) -> bool {
    line.trim_start().starts_with('#')
}

/// Takes an entry out of a list in brackets; comments before it stay.
fn take_value(listed: &mut Array, place: usize) {
    let gone = listed.remove(place);
    let before = gone.decor().prefix().and_then(RawString::as_str).unwrap_or_default().to_owned();
    let after = gone.decor().suffix().and_then(RawString::as_str).unwrap_or_default().to_owned();
    let comments = [before, after].into_iter().filter(|piece| piece.contains('#')).collect::<String>();
    if let Some(next) = listed.get_mut(place) {
        let own = next.decor().prefix().and_then(RawString::as_str).unwrap_or_default();
        let own = if place == 0 && comments.is_empty() { own.trim_start_matches(' ') } else { own };
        let prefix = comments + own;
        next.decor_mut().set_prefix(prefix);
    } else {
        let trailing = comments + listed.trailing().as_str().unwrap_or_default();
        listed.set_trailing(trailing);
        if listed.is_empty() {
            listed.set_trailing_comma(false);
        }
    }
}

/// The tree of a file without errors.
fn parsed(old: &str) -> Result<DocumentMut, Problems> {
    old.trim_start_matches('\u{feff}').parse().map_err(|_| read_wishes(WISHES, old).1)
}
