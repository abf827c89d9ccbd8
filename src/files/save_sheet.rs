//! Writes a sheet into the text of its file: only what changed is touched.
//!
//! Must not know folders.

use toml_edit::{Array, DocumentMut, InlineTable, Item, Key, Table, TableLike, Value};

use crate::letter::Character;
use crate::measure::ColourNames;
use crate::stash::{Letter, Make, Paint, Record, Sheet, SheetId, Size};

use super::line_ends;
use super::pen::{Pen, length, text};
use super::problem::Problems;
use super::sheet::read_sheet;

/// The text of a new file that holds `sheet`.
#[must_use]
pub fn new_sheet_text(sheet: &Sheet, colours: &ColourNames) -> String {
    let mut document = DocumentMut::new();
    let mut pen = Pen::new(colours);
    write(&mut pen, document.as_table_mut(), None, sheet);
    document.to_string()
}

/// The text `old` of the file of a sheet with `sheet` in it; `old` itself, byte for byte, where it holds it already.
///
/// # Errors
/// All that is wrong with `old`, where it cannot be read: writing into it would lose something.
pub fn write_sheet(old: &str, sheet: &Sheet, colours: &ColourNames) -> Result<String, Problems> {
    let (written, problems) = read_sheet("", &sheet.id, old, colours);
    let Some(written) = written else { return Err(problems) };
    let Ok(mut document) = old.trim_start_matches('\u{feff}').parse::<DocumentMut>() else {
        return Err(problems);
    };
    let mut pen = Pen::new(colours);
    write(&mut pen, document.as_table_mut(), Some(&written), sheet);
    Ok(if pen.changed() { line_ends::restore(old, &document.to_string()) } else { old.to_owned() })
}

fn write(pen: &mut Pen<'_>, root: &mut Table, old: Option<&Sheet>, new: &Sheet) {
    let some = |text: &Option<String>| text.as_deref().map(super::pen::text);
    let label = old.map(|old| old.label.clone()).unwrap_or_default();
    pen.put(root, "name", (&label.name, &new.label.name), |_, name| some(name));
    pen.put(root, "tag", (&label.tag, &new.label.tag), |_, tag| some(tag));
    make(pen, root, old.map(|old| old.make), new.make);
    size(pen, root, old.map(|old| &old.size), &new.size);
    paint(pen, root, old.map(|old| &old.paint), &new.paint);
    pen.put(root, "note", (&label.note, &new.label.note), |_, note| some(note));
    pen.put(root, "aside", (&label.aside, &new.label.aside), |_, aside| aside.then(|| true.into()));
    record(pen, root, &old.map(|old| old.record.clone()).unwrap_or_default(), &new.record);
    letters(pen, root, old.map_or(&[][..], |old| &old.letters), &new.letters);
}

fn make(pen: &mut Pen<'_>, root: &mut Table, old: Option<Make>, new: Make) {
    if old.is_none_or(|old| old.form != new.form) {
        pen.set(root, "form", text(new.form.as_str()));
    }
    let fresh = Make {
        finish: crate::stash::Finish::Matte,
        neutral: false,
        joined: false,
        plain_tile: false,
        form: new.form,
    };
    let was = old.unwrap_or(fresh);
    pen.put(root, "finish", (&was.finish, &new.finish), |_, finish| Some(text(finish.as_str())));
    for (key, was, now) in [
        ("neutral", was.neutral, new.neutral),
        ("joined", was.joined, new.joined),
        ("plain_tile", was.plain_tile, new.plain_tile),
    ] {
        pen.put(root, key, (&was, &now), |_, flag| flag.then(|| true.into()));
    }
}

fn size(pen: &mut Pen<'_>, root: &mut Table, old: Option<&Size>, new: &Size) {
    if old.is_none_or(|old| old.height != new.height) {
        pen.set(root, "height", length(new.height));
    }
    let fresh = Size {
        height: new.height,
        height_of: crate::stash::HeightOf::Capital,
        tile_width: None,
        thick: None,
    };
    let was = old.unwrap_or(&fresh);
    pen.put(root, "height_of", (&was.height_of, &new.height_of), |_, of| Some(text(of.as_str())));
    pen.put(root, "tile_width", (&was.tile_width, &new.tile_width), |_, width| width.map(length));
    pen.put(root, "thick", (&was.thick, &new.thick), |_, thick| thick.map(length));
}

fn paint(pen: &mut Pen<'_>, root: &mut Table, old: Option<&Paint>, new: &Paint) {
    if old.is_none_or(|old| old.colours != new.colours) {
        let colour = match new.colours.as_slice() {
            [only] => pen.tint(only),
            several => pen.tints(several),
        };
        pen.set(root, "colour", colour);
    }
    let (outline, tile) = old.map_or((None, None), |old| (old.outline.clone(), old.tile.clone()));
    pen.put(root, "outline", (&outline, &new.outline), |pen, tint| Some(pen.tint(tint.as_ref()?)));
    pen.put(root, "tile_colour", (&tile, &new.tile), |pen, tint| Some(pen.tint(tint.as_ref()?)));
}

fn record(pen: &mut Pen<'_>, root: &mut Table, old: &Record, new: &Record) {
    pen.put(root, "as_of", (&old.as_of, &new.as_of), |_, as_of| as_of.map(|entry| i64::from(entry).into()));
    let ids = |was: &[SheetId]| -> Vec<String> { was.iter().map(ToString::to_string).collect() };
    pen.put(root, "was", (&ids(&old.was), &ids(&new.was)), |_, was| {
        (!was.is_empty()).then(|| was.iter().map(|id| text(id)).collect())
    });
}

/// Letters are told apart by character and mark. One that is no longer there loses its entry.
fn letters(pen: &mut Pen<'_>, root: &mut Table, old: &[Letter], new: &[Letter]) {
    if old == new && root.contains_key("letters") {
        return;
    }
    pen.touch();
    let listed = root.entry("letters").or_insert_with(|| Item::Table(Table::new()));
    let Some(listed) = listed.as_table_like_mut() else { return };
    let same = |a: &Letter, b: &Letter| a.character == b.character && a.mark == b.mark;
    for gone in old.iter().filter(|gone| !new.iter().any(|letter| same(letter, gone))) {
        take_out(listed, gone, new);
    }
    for letter in new {
        match old.iter().find(|earlier| same(earlier, letter)) {
            Some(earlier) if earlier == letter => {}
            Some(earlier) if is_count_only(earlier, letter) => recount(listed, letter),
            _ => put(pen, listed, letter),
        }
    }
}

/// Whether two entries of one letter differ in their count only.
fn is_count_only(old: &Letter, new: &Letter) -> bool {
    Letter { left: new.left, ..old.clone() } == *new
}

/// The key by which the file counts a character, in whatever spelling.
fn key_of(listed: &dyn TableLike, character: &Character) -> Option<String> {
    let is_it = |key: &&str| Character::new(key).is_ok_and(|other| other == *character);
    listed.iter().map(|(key, _)| key).find(is_it).map(str::to_owned)
}

/// Writes the count of a letter that has an entry.
fn recount(listed: &mut dyn TableLike, letter: &Letter) {
    let Some(key) = key_of(listed, &letter.character) else { return };
    let Some(item) = listed.get_mut(&key) else { return };
    let left = i64::from(letter.left);
    let marked = |mark: Option<&str>| mark == letter.mark.as_ref().map(crate::stash::Mark::as_str);
    match item {
        Item::Value(Value::Array(several)) => {
            for entry in several.iter_mut() {
                match entry {
                    Value::InlineTable(table) if marked(table.get("mark").and_then(Value::as_str)) => {
                        set_in(table, left);
                    }
                    Value::Integer(_) if letter.mark.is_none() => replace(entry, left),
                    _ => {}
                }
            }
        }
        Item::Value(Value::InlineTable(table)) => set_in(table, left),
        Item::Value(value) => replace(value, left),
        Item::Table(table) => set_in(table, left),
        Item::ArrayOfTables(tables) => {
            let found = tables.iter_mut().find(|table| marked(table.get("mark").and_then(Item::as_str)));
            if let Some(table) = found {
                set_in(table, left);
            }
        }
        Item::None => {}
    }
}

fn set_in(table: &mut dyn TableLike, left: i64) {
    match table.get_mut("left") {
        Some(Item::Value(value)) => replace(value, left),
        _ => {
            table.insert("left", Item::Value(left.into()));
        }
    }
}

/// Another number with the same spaces and comment around it.
fn replace(value: &mut Value, left: i64) {
    let decor = value.decor().clone();
    *value = left.into();
    *value.decor_mut() = decor;
}

/// Writes the whole entry of a letter: by itself where it is the only one of its character, else into their list.
fn put(pen: &Pen<'_>, listed: &mut dyn TableLike, letter: &Letter) {
    let key = key_of(listed, &letter.character).unwrap_or_else(|| letter.character.as_str().to_owned());
    let entry = spelled(pen, letter);
    let marked = |entry: &Value| {
        let mark = entry.as_inline_table().and_then(|table| table.get("mark")).and_then(Value::as_str);
        mark.map(str::to_owned)
    };
    let mark = letter.mark.as_ref().map(|mark| mark.as_str().to_owned());
    let before = listed.get_mut(&key).map(std::mem::take);
    let around = before.as_ref().and_then(Item::as_value).map(|value| value.decor().clone());
    match before.map(as_list) {
        Some(mut list) => {
            let at = list.iter().position(|other| marked(other) == mark);
            match at {
                Some(at) => {
                    list.replace(at, entry);
                }
                None => list.push(in_table(entry)),
            }
            let alone = list.len() == 1;
            let mut value = if alone { list.remove(0).decorated(" ", "") } else { Value::Array(list) };
            if let Some(around) = around {
                *value.decor_mut() = around;
            }
            listed.insert(&key, Item::Value(value));
        }
        None => {
            listed.insert(&Key::new(&key), Item::Value(entry));
        }
    }
}

/// The entries of one character as a list.
fn as_list(item: Item) -> Array {
    match item {
        Item::Value(Value::Array(list)) => list,
        Item::Value(value) => std::iter::once(in_table(value.decorated("", ""))).collect(),
        Item::Table(table) => std::iter::once(Value::InlineTable(table.into_inline_table())).collect(),
        Item::ArrayOfTables(tables) => tables.into_array(),
        Item::None => Array::new(),
    }
}

/// A bare count as the table that it is short for.
fn in_table(value: Value) -> Value {
    if value.is_inline_table() {
        return value;
    }
    let mut table = InlineTable::new();
    table.insert("left", value.as_integer().unwrap_or(0).into());
    Value::InlineTable(table)
}

fn spelled(pen: &Pen<'_>, letter: &Letter) -> Value {
    let mut table = InlineTable::new();
    if let Some(mark) = &letter.mark {
        table.insert("mark", text(mark.as_str()));
    }
    table.insert("left", i64::from(letter.left).into());
    for (key, measure) in [("width", letter.width), ("height", letter.height)] {
        if let Some(measure) = measure {
            table.insert(key, length(measure));
        }
    }
    match letter.colours.as_slice() {
        [] => {}
        [only] => {
            table.insert("colour", pen.tint(only));
        }
        several => {
            table.insert("colour", pen.tints(several));
        }
    }
    if table.len() == 1 { i64::from(letter.left).into() } else { Value::InlineTable(table) }
}

/// Takes the entry of a letter out; its character's key goes with the last.
fn take_out(listed: &mut dyn TableLike, gone: &Letter, new: &[Letter]) {
    let Some(key) = key_of(listed, &gone.character) else { return };
    if !new.iter().any(|letter| letter.character == gone.character) {
        listed.remove(&key);
        return;
    }
    let mark = gone.mark.as_ref().map(|mark| mark.as_str().to_owned());
    if let Some(Item::Value(Value::Array(list))) = listed.get_mut(&key) {
        list.retain(|entry| {
            let of = entry.as_inline_table().and_then(|table| table.get("mark")).and_then(Value::as_str);
            of.map(str::to_owned) != mark
        });
    }
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
mod tests {
    use super::*;
    use crate::stash::Mark;

    const FILE: &str = "# The blue tin.\nform = \"tile\"\nheight = \"20 mm\"   # measured\ncolour = \"teal\"\nodd = 1\n\n\
        [letters]\nA = 2   # two\n\"&\" = 3\nM = { left = 1, width = \"14 mm\" } # wide\nS = [{ left = 2 }, { mark = \
        \"coral\", left = 1, colour = \"coral\" }]\n";

    fn read(text: &str) -> Sheet {
        let (sheet, problems) = read_sheet("", &SheetId::new("blue").unwrap(), text, &ColourNames::default());
        sheet.ok_or_else(|| format!("{problems}\n{text}")).unwrap()
    }

    fn written(old: &str, sheet: &Sheet) -> String {
        let text = write_sheet(old, sheet, &ColourNames::default()).unwrap();
        assert_eq!(read(&text), *sheet, "{text}");
        text
    }

    #[test]
    fn only_what_changed_is_touched() {
        let mut sheet = read(FILE);
        assert_eq!(written(FILE, &sheet), FILE);
        for letter in &mut sheet.letters {
            letter.left += 1;
        }
        sheet.record.as_of = Some(7);
        let text = written(FILE, &sheet);
        for line in [
            "# The blue tin.",
            "height = \"20 mm\"   # measured",
            "odd = 1",
            "A = 3   # two",
            "\"&\" = 4",
            "as_of = 7",
        ] {
            assert!(text.contains(line), "{line}\n{text}");
        }
        assert!(text.contains("M = { left = 2, width = \"14 mm\" } # wide"), "{text}");
        assert!(
            text.contains("S = [{ left = 3 }, { mark = \"coral\", left = 2, colour = \"coral\" }]"),
            "{text}"
        );
        let ends = FILE.replace('\n', "\r\n");
        assert_eq!(written(&ends, &sheet), text.replace('\n', "\r\n"));
    }

    #[test]
    fn letters_come_and_go() {
        let mut sheet = read(FILE);
        let letter = |text: &str, mark: Option<&str>, left| {
            Letter::plain(Character::new(text).unwrap(), mark.map(|mark| Mark::new(mark).unwrap()), left)
        };
        sheet.letters.insert(1, letter("A", Some("red"), 4));
        sheet.letters.retain(|letter| letter.mark.is_none() || letter.character.as_str() != "S");
        sheet.letters.push(letter("é", None, 5));
        sheet.letters.push(letter("\"", None, 6));
        let text = written(FILE, &sheet);
        assert!(text.contains("A = [{ left = 2 }, { mark = \"red\", left = 4 }]   # two"), "{text}");
        let fresh = new_sheet_text(&sheet, &ColourNames::default());
        assert_eq!(read(&fresh), sheet, "{fresh}");
    }
}
