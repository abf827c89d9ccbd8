//! Reads one sheet of the stash from its text.
//!
//! Must not know folders or other sheets.

use std::ops::Range;

use crate::letter::Character;
use crate::stash::{Finish, Form, HeightOf, Label, Letter, Make, Mark, Paint, Record, Sheet, SheetId, Size};

use super::problem::Problems;
use super::reader::{Found, Keys};
use super::source::Source;
use super::syntax;
use crate::measure::{ColourNames, Unit};

/// The most stickers of one kind.
const MOST_LEFT: u32 = 999;

const KNOWN: &[&str] = &[
    "unit",
    "name",
    "tag",
    "form",
    "height",
    "height_of",
    "colour",
    "outline",
    "tile_colour",
    "tile_width",
    "plain_tile",
    "finish",
    "neutral",
    "joined",
    "thick",
    "note",
    "aside",
    "as_of",
    "was",
    "letters",
];
const KNOWN_OF_LETTER: &[&str] = &["mark", "left", "width", "height", "colour"];

/// Reads the sheet called `id` from `text`; `file` is how problems call it. No sheet where anything but a warning was
/// found: half a sheet would tell half a truth about what is left.
#[must_use]
pub fn read_sheet(file: &str, id: &SheetId, text: &str, colours: &ColourNames) -> (Option<Sheet>, Problems) {
    let source = Source::new(file, text, colours);
    let sheet = source.tree().and_then(|tree| {
        let keys = Keys::new(&source, tree.get_ref());
        if keys.has("letters") {
            commented_hashes(keys, "letters");
        }
        whole(keys, id)
    });
    (sheet, source.into_problems())
}

/// The sheet that a file, or one table of a file, holds; `None` where anything but a warning was found in it.
pub(super) fn whole(keys: Keys<'_>, id: &SheetId) -> Option<Sheet> {
    let before = keys.source.errors();
    // What one sheet of a file says of its numbers is not said of the next.
    keys.source.unit.set(Unit::Millimetre);
    let sheet = read(keys, id);
    sheet.filter(|_| keys.source.errors() == before)
}

/// Warns of lines under the heading of letters that were meant to count the letter `#`.
pub(super) fn commented_hashes(keys: Keys<'_>, heading: &str) {
    for at in syntax::commented_hashes(keys.source.text()) {
        let message = "a line that starts with # is a comment; to count the letter #, write \"#\" = 2";
        keys.source.warn(at, heading, message.into());
    }
}

fn read(keys: Keys<'_>, id: &SheetId) -> Option<Sheet> {
    keys.know(KNOWN);
    keys.require("form", "form = \"tile\" or form = \"die-cut\"");
    keys.require("height", "height = \"12 mm\" or as measured");
    keys.require("colour", "colour = \"teal\" or another");
    let heading = keys.full("letters");
    keys.require("letters", &format!("[{heading}], and below it a line such as E = 3 for each"));
    if let Some(unit) = keys.read("unit", Found::unit) {
        keys.source.unit.set(unit);
    }
    let make = make(keys);
    let size = size(keys);
    let paint = paint(keys);
    if let Some(make) = &make {
        mismatched(keys, make.form);
    }
    let text = |key| keys.text(key).map(str::to_owned);
    let aside = keys.flag("aside").unwrap_or(false);
    let label = Label { name: text("name"), tag: text("tag"), note: text("note"), aside };
    let record = record(keys);
    let letters = keys.table("letters").map(letters);
    Some(Sheet { id: id.clone(), label, make: make?, size: size?, paint: paint?, letters: letters?, record })
}

fn make(keys: Keys<'_>) -> Option<Make> {
    let form = keys.word("form", Form::ALL, Form::as_str);
    let finish = keys.word("finish", Finish::ALL, Finish::as_str);
    let [neutral, joined, plain_tile] =
        ["neutral", "joined", "plain_tile"].map(|key| keys.flag(key).unwrap_or(false));
    Some(Make { form: form?, finish: finish.unwrap_or(Finish::Matte), neutral, joined, plain_tile })
}

fn size(keys: Keys<'_>) -> Option<Size> {
    let height = keys.size("height");
    let height_of = keys.word("height_of", HeightOf::ALL, HeightOf::as_str).unwrap_or(HeightOf::Capital);
    let (tile_width, thick) = (keys.size("tile_width"), keys.size("thick"));
    Some(Size { height: height?, height_of, tile_width, thick })
}

fn paint(keys: Keys<'_>) -> Option<Paint> {
    let some = keys.read("colour", |found| {
        let none = found.is_list() && found.each().next().is_none();
        if none { Err("[] names no colour; write at least one".into()) } else { Ok(()) }
    });
    let colours = some.and_then(|()| keys.tints("colour"));
    let (outline, tile) = (keys.tint("outline"), keys.tint("tile_colour"));
    Some(Paint { colours: colours?, outline, tile })
}

/// Keys that say something about the other form.
fn mismatched(keys: Keys<'_>, form: Form) {
    let others: &[&str] = match form {
        Form::Tile => &["height_of", "outline"],
        Form::DieCut => &["tile_colour", "tile_width", "plain_tile"],
    };
    let of = if form == Form::Tile { "die-cut letters" } else { "tiles" };
    for key in others.iter().filter(|key| keys.has(key)) {
        keys.warn(keys.place_of(key), key, format!("this is told of {of} and says nothing here"));
    }
}

fn record(keys: Keys<'_>) -> Record {
    let as_of = keys.count("as_of", 0..=u32::MAX);
    let was = keys.list("was", |found| SheetId::new(found.text()?).map_err(|error| error.to_string()));
    Record { as_of, was }
}

fn letters(keys: Keys<'_>) -> Vec<Letter> {
    let mut found = Vec::with_capacity(64);
    let mut seen: Vec<(Character, usize)> = Vec::with_capacity(64);
    let mut any_odd = false;
    for (name, span, value) in keys.entries() {
        let character = match Character::new(name) {
            Ok(character) => character,
            Err(error) => {
                keys.error(span.start, name, error.to_string());
                continue;
            }
        };
        // Keys that differ and are one letter: at least one of the two spellings goes beyond ASCII.
        any_odd |= !name.is_ascii();
        if any_odd && let Some((_, first)) = seen.iter().find(|row| row.0 == character) {
            let (line, _) = keys.source.place(*first);
            let message =
                format!("this is the letter of line {line} in another spelling; keep one of the two");
            keys.error(span.start, name, message);
            continue;
        }
        if !value.is_list() && value.is_table() && is_split_by_dot(keys, &span, name, value) {
            continue;
        }
        entry(keys, name, &character, value, &mut found);
        seen.push((character, span.start));
    }
    found
}

/// Tells of a bare key such as `A.B`, which TOML reads as B within A.
fn is_split_by_dot<'k>(keys: Keys<'k>, span: &Range<usize>, name: &str, value: Found<'k>) -> bool {
    let dotted = keys.source.text().get(span.end..).is_some_and(|rest| rest.trim_start().starts_with('.'));
    let inner = keys.within(name, value).filter(|_| dotted);
    let stranger = inner.and_then(|inner| {
        inner.entries().into_iter().map(|row| row.0).find(|key| !KNOWN_OF_LETTER.contains(key))
    });
    let Some(stranger) = stranger else { return false };
    let message = format!(
        "the dot in {name}.{stranger} parts a key in two; put a letter that holds a dot in quotes, such as \".\" = 2"
    );
    keys.error(span.start, name, message);
    true
}

/// `2`, or `{ left = 1, width = "14 mm" }`, or a list of these.
fn entry<'k>(
    keys: Keys<'k>,
    name: &'k str,
    character: &Character,
    value: Found<'k>,
    letters: &mut Vec<Letter>,
) {
    if !value.is_list() {
        letters.extend(one(keys, name, character, value));
        return;
    }
    let first = letters.len();
    for each in value.each() {
        let Some(letter) = one(keys, name, character, each) else { continue };
        if letters[first..].iter().any(|earlier| earlier.mark == letter.mark) {
            let message = match &letter.mark {
                Some(mark) => {
                    format!("two entries are marked {}; give each a mark of its own", mark.as_str())
                }
                None => {
                    "two entries have no mark; at most one may lack it, so add mark = \"...\" to the other"
                        .into()
                }
            };
            keys.error(each.at(), name, message);
        }
        letters.push(letter);
    }
    if letters.len() == first && value.each().next().is_none() {
        keys.error(value.at(), name, "[] counts nothing; write 0 where none is left".into());
    }
}

fn one<'k>(letters: Keys<'k>, name: &'k str, character: &Character, value: Found<'k>) -> Option<Letter> {
    let plain = |left| Letter {
        character: character.clone(),
        mark: None,
        left,
        width: None,
        height: None,
        colours: Vec::new(),
    };
    let count = |number: u32| u16::try_from(number).unwrap_or(u16::MAX);
    if !value.is_table() {
        return match value.count(0..=MOST_LEFT) {
            Ok(left) => Some(plain(count(left))),
            Err(message) => {
                letters.error(value.at(), name, message);
                None
            }
        };
    }
    let keys = letters.within(name, value)?;
    keys.know(KNOWN_OF_LETTER);
    keys.require("left", "left = 1 or as many as there are");
    let left = keys.count("left", 0..=MOST_LEFT);
    let mark = keys.read("mark", |found| Mark::new(found.text()?).map_err(|error| error.to_string()));
    let (width, height) = (keys.size("width"), keys.size("height"));
    let colours = keys.tints("colour").unwrap_or_default();
    Some(Letter { mark, width, height, colours, ..plain(count(left?)) })
}
