//! Reads a page plan from its text: the page, the things on it, its strips.
//!
//! Must not know folders.

use crate::measure::{Length, Point, Size};
use crate::page::{Cover, Element, Kind, Lie, Outline, Page, page_size};
use crate::plan::{Plan, StripsError};
use crate::stash::Stash;
use crate::title::Strip;

use super::problem::Problems;
use super::reader::{Found, Keys};
use super::source::Source;
use super::strip::{self, Entry};
use crate::measure::ColourNames;

/// The one form of a plan that there is so far.
pub(super) const FORMAT: u32 = 1;

const KNOWN: &[&str] = &["format", "unit", "name", "size", "ground", "margin", "colours", "element", "strip"];
const KNOWN_OF_ELEMENT: &[&str] =
    &["name", "kind", "original", "at", "size", "turn", "shape", "colours", "cover", "bed"];

/// A plan, and how its file tells the letters of each strip.
pub(super) struct Written {
    pub(super) plan: Plan,
    /// For each strip its entries, in the file's order.
    pub(super) entries: Vec<Vec<Entry>>,
}

/// Reads a plan from `text`; `file` is how problems call it. With a stash, a chip that it lacks is warned of; its letter
/// stays in the slot. Letters whose `for` shows that the wording was changed by hand go where they still serve, with a
/// warning. No plan where anything but a warning was found: saving it would lose what could not be read.
#[must_use]
pub fn read_plan(
    file: &str,
    text: &str,
    colours: &ColourNames,
    stash: Option<&Stash>,
) -> (Option<Plan>, Problems) {
    let (written, problems) = read_written(file, text, colours, stash);
    (written.map(|written| written.plan), problems)
}

pub(super) fn read_written(
    file: &str,
    text: &str,
    colours: &ColourNames,
    stash: Option<&Stash>,
) -> (Option<Written>, Problems) {
    let source = Source::new(file, text, colours);
    let written = source.tree().and_then(|tree| whole(Keys::new(&source, tree.get_ref()), stash));
    let written = written.filter(|_| !source.has_errors());
    (written, source.into_problems())
}

fn whole(keys: Keys<'_>, stash: Option<&Stash>) -> Option<Written> {
    keys.know(KNOWN);
    keys.read("format", |found| {
        let message =
            |_| format!("{} is a format that this program does not know; it reads {FORMAT}", found.piece());
        found.count(FORMAT..=FORMAT).map_err(message)
    });
    if let Some(unit) = keys.read("unit", Found::unit) {
        keys.source.unit.set(unit);
    }
    let name = keys.text("name").map(str::to_owned);
    let page = page(keys);
    let tables = keys.tables("strip");
    let read: Vec<(Strip, Vec<Entry>)> =
        tables.iter().enumerate().filter_map(|(place, table)| strip::read(*table, place, stash)).collect();
    if read.len() < tables.len() {
        return None;
    }
    let (strips, entries) = read.into_iter().unzip();
    match Plan::new(name, page, strips) {
        Ok(plan) => Some(Written { plan, entries }),
        // A strip that is there and was told to be none of a list is not missing as well.
        Err(StripsError::None) if keys.has("strip") => None,
        Err(error) => {
            let at = match &error {
                StripsError::None => 0,
                StripsError::Twice(_) => twice(&tables),
            };
            keys.error(at, "strip", error.to_string());
            None
        }
    }
}

/// Where the second strip of a role that two have starts.
fn twice(tables: &[Keys<'_>]) -> usize {
    let role = |place: usize| strip::role(tables[place], place);
    let again = (0..tables.len()).find(|&place| (0..place).any(|earlier| role(earlier) == role(place)));
    again.map_or(0, |place| tables[place].place_of("role"))
}

fn page(keys: Keys<'_>) -> Page {
    let unit = keys.source.unit.get();
    let size = keys.read("size", |found| page_size(found.text()?, unit).map_err(|error| error.to_string()));
    let usual = Page::default();
    Page {
        size,
        ground: keys.tint("ground"),
        margin: keys.read("margin", not_below_0).unwrap_or(usual.margin),
        colours: keys.tints("colours").unwrap_or_default(),
        elements: keys.tables("element").into_iter().filter_map(element).collect(),
    }
}

fn not_below_0(found: Found<'_>) -> Result<Length, String> {
    let length = found.length(Length::as_offset)?;
    if length < Length::ZERO {
        return Err(format!("{} is below 0; a margin is kept clear inside the page", found.piece()));
    }
    Ok(length)
}

fn element(keys: Keys<'_>) -> Option<Element> {
    keys.know(KNOWN_OF_ELEMENT);
    keys.require("kind", "kind = \"photo\" or what it is");
    keys.require("at", "at = [\"40 mm\", \"110 mm\"], its left and top edge");
    keys.require("size", "size = [\"6 in\", \"4 in\"], its width and height");
    let kind = keys.word("kind", Kind::ALL, Kind::as_str);
    let at = keys.lengths("at", Length::as_offset).map(|(x, y)| Point { x, y });
    let size = keys.lengths("size", Length::as_size).map(|(width, height)| Size { width, height });
    let turn = keys.angle("turn").unwrap_or_default();
    let outline = keys.word("shape", Outline::ALL, Outline::as_str).unwrap_or(Outline::Rect);
    let (original, bed) = (keys.flag("original").unwrap_or(false), keys.flag("bed"));
    let colours = keys.tints("colours").unwrap_or_default();
    let cover = keys.word("cover", Cover::ALL, Cover::as_str);
    Some(Element {
        name: keys.text("name").map(str::to_owned),
        kind: kind?,
        original,
        lie: Lie { at: at?, size: size?, turn, outline },
        colours,
        cover,
        bed,
    })
}
