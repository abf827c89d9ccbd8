//! Writes single values into a file's text: what is not written stays as it was found, comment and spelling included.
//!
//! Must not know which keys a file has.

use std::fmt::Write as _;

use toml_edit::{ArrayOfTables, Item, Table, Value};

use crate::measure::{Angle, Length, Point, Tint};

use crate::measure::ColourNames;

/// Writes values into tables, and remembers whether it did.
pub(super) struct Pen<'a> {
    colours: &'a ColourNames,
    changed: bool,
    /// Comments that stood over tables that are gone; the next table takes them in.
    orphans: String,
    /// Those that stood over the last tables of a list: what follows in the list does not follow them in the file.
    behind: String,
}

impl<'a> Pen<'a> {
    pub(super) const fn new(colours: &'a ColourNames) -> Self {
        Self { colours, changed: false, orphans: String::new(), behind: String::new() }
    }

    pub(super) const fn changed(&self) -> bool {
        self.changed
    }

    pub(super) const fn touch(&mut self) {
        self.changed = true;
    }

    /// Writes `key` where `new` differs from what the file means now; `None` takes the key out.
    pub(super) fn put<T: PartialEq + ?Sized>(
        &mut self,
        table: &mut Table,
        key: &str,
        (old, new): (&T, &T),
        spell: impl FnOnce(&Self, &T) -> Option<Value>,
    ) {
        if old != new {
            match spell(self, new) {
                Some(value) => self.set(table, key, value),
                None => self.take_out(table, key),
            }
        }
    }

    /// Writes `key`; its comment stays.
    pub(super) fn set(&mut self, table: &mut Table, key: &str, mut value: Value) {
        self.changed = true;
        match table.get_mut(key) {
            Some(Item::Value(old)) => {
                *value.decor_mut() = old.decor().clone();
                *old = value;
            }
            _ => {
                table.insert(key, Item::Value(value));
            }
        }
    }

    pub(super) fn take_out(&mut self, table: &mut Table, key: &str) {
        self.changed |= table.remove(key).is_some();
    }

    pub(super) fn tint(&self, tint: &Tint) -> Value {
        text(&self.colours.spell(tint))
    }

    pub(super) fn tints(&self, tints: &[Tint]) -> Value {
        tints.iter().map(|tint| self.tint(tint)).collect()
    }

    /// Keeps the comment over a table that goes.
    pub(super) fn keep_comment(&mut self, gone: &Table) {
        let over = gone.decor().prefix().and_then(|prefix| prefix.as_str()).unwrap_or_default();
        if over.contains('#') {
            self.orphans.push_str(over);
        }
    }

    /// Puts tables into another order: for each its place until now, or `None` for a new one.
    pub(super) fn rearrange(&mut self, listed: &mut ArrayOfTables, places: &[Option<usize>]) {
        let mut old: Vec<Table> = std::mem::take(listed).into_iter().collect();
        // The comment over a table that goes is taken in by the one after it.
        for (place, table) in old.iter_mut().enumerate() {
            if places.contains(&Some(place)) {
                self.adopt(table);
            } else {
                self.keep_comment(table);
            }
        }
        self.behind.push_str(&std::mem::take(&mut self.orphans));
        let in_order = places.iter().flatten().is_sorted();
        for place in places {
            let mut table = place.and_then(|place| old.get(place).cloned()).unwrap_or_default();
            if !in_order {
                forget_position(&mut table);
            }
            listed.push(table);
        }
    }

    /// Gives comments that lost their table to the one that follows.
    pub(super) fn adopt(&mut self, next: &mut Table) {
        if self.orphans.is_empty() {
            return;
        }
        let own = next.decor().prefix().and_then(|prefix| prefix.as_str()).unwrap_or("\n").to_owned();
        next.decor_mut().set_prefix(std::mem::take(&mut self.orphans) + &own);
    }

    /// The comments that found no table.
    pub(super) fn left_over(&mut self) -> String {
        std::mem::take(&mut self.behind) + &std::mem::take(&mut self.orphans)
    }
}

/// Lets a table and those within it follow the one before, wherever they stood in the file.
fn forget_position(table: &mut Table) {
    table.set_position(None);
    for (_, item) in table.iter_mut() {
        match item {
            Item::Table(inner) => forget_position(inner),
            Item::ArrayOfTables(inner) => inner.iter_mut().for_each(forget_position),
            _ => {}
        }
    }
}

/// The tables `[[key]]` of `table`, made where there are none; a list written in one line becomes tables.
pub(super) fn tables<'t>(table: &'t mut Table, key: &str) -> Option<&'t mut ArrayOfTables> {
    let item = table.entry(key).or_insert_with(|| Item::ArrayOfTables(ArrayOfTables::new()));
    if !item.is_array_of_tables() {
        let listed = std::mem::take(item).into_array_of_tables().unwrap_or_default();
        *item = Item::ArrayOfTables(listed);
    }
    item.as_array_of_tables_mut()
}

/// A text on one line, whatever it holds: a text over several would take on the file's line ends.
pub(super) fn text(text: &str) -> Value {
    if !text.contains('\n') {
        return Value::from(text);
    }
    let mut quoted = String::from("\"");
    for c in text.chars() {
        match c {
            '"' => quoted.push_str("\\\""),
            '\\' => quoted.push_str("\\\\"),
            '\n' => quoted.push_str("\\n"),
            c if c.is_control() => {
                let _ = write!(quoted, "\\u{:04x}", u32::from(c));
            }
            c => quoted.push(c),
        }
    }
    quoted.push('"');
    quoted.parse().unwrap_or_else(|_| Value::from(text))
}

pub(super) fn length(length: Length) -> Value {
    Value::from(length.number())
}

pub(super) fn point(point: Point) -> Value {
    [length(point.x), length(point.y)].into_iter().collect()
}

/// Whole degrees without a point.
pub(super) fn angle(angle: Angle) -> Value {
    if angle.thousandths() % 1000 == 0 {
        Value::from(i64::from(angle.thousandths() / 1000))
    } else {
        Value::from(angle.degrees())
    }
}
