//! Writes a plan into the text of its file: only what changed is touched.
//!
//! What the file means is read first, and each value is written only where the plan has another; so a saved plan keeps its
//! comments, its order, its spellings and the keys that the program does not know. Must not know folders.

use toml_edit::{ArrayOfTables, DocumentMut, Table};

use crate::measure::{Angle, Size};
use crate::page::{Element, Kind, Lie, Outline, PAGE_SIZES, Page};
use crate::plan::Plan;

use super::line_ends;
use super::pen::{Pen, angle, length, point, tables, text};
use super::plan::{FORMAT, Written, read_written};
use super::problem::Problems;
use super::save_strip;
use crate::measure::ColourNames;

/// The text of a new file that holds `plan`.
#[must_use]
pub fn new_plan_text(plan: &Plan, colours: &ColourNames) -> String {
    let mut document = DocumentMut::new();
    document.insert("format", toml_edit::value(i64::from(FORMAT)));
    let mut pen = Pen::new(colours);
    write(&mut pen, document.as_table_mut(), None, plan);
    document.to_string()
}

/// The text `old` with `plan` in it; `old` itself, byte for byte, where it holds the plan already.
///
/// # Errors
/// All that is wrong with `old`, where it cannot be read: writing into it would lose something.
pub fn write_plan(old: &str, plan: &Plan, colours: &ColourNames) -> Result<String, Problems> {
    let (written, problems) = read_written("", old, colours, None);
    let Some(written) = written else { return Err(problems) };
    let Ok(mut document) = old.trim_start_matches('\u{feff}').parse::<DocumentMut>() else {
        return Err(problems);
    };
    let mut pen = Pen::new(colours);
    write(&mut pen, document.as_table_mut(), Some(&written), plan);
    let left_over = pen.left_over();
    if !left_over.is_empty() {
        let trailing = document.trailing().as_str().unwrap_or_default().to_owned();
        document.set_trailing(left_over + &trailing);
    }
    Ok(if pen.changed() { line_ends::restore(old, &document.to_string()) } else { old.to_owned() })
}

fn write(pen: &mut Pen<'_>, root: &mut Table, old: Option<&Written>, plan: &Plan) {
    let name = old.and_then(|old| old.plan.name.clone());
    pen.put(root, "name", (&name, &plan.name), |_, name| name.as_deref().map(text));
    let fresh = Page::default();
    page(pen, root, old.map_or(&fresh, |old| &old.plan.page), &plan.page);
    save_strip::strips(pen, root, old, plan);
}

fn page(pen: &mut Pen<'_>, root: &mut Table, old: &Page, new: &Page) {
    pen.put(root, "size", (&old.size, &new.size), |_, size| size.map(|size| text(&page_size(size))));
    pen.put(root, "ground", (&old.ground, &new.ground), |pen, ground| Some(pen.tint(ground.as_ref()?)));
    pen.put(root, "margin", (&old.margin, &new.margin), |_, margin| Some(length(*margin)));
    pen.put(root, "colours", (&old.colours, &new.colours), |pen, colours| {
        (!colours.is_empty()).then(|| pen.tints(colours))
    });
    if old.elements != new.elements
        && let Some(listed) = tables(root, "element")
    {
        elements(pen, listed, &old.elements, &new.elements);
    }
}

fn elements(pen: &mut Pen<'_>, listed: &mut ArrayOfTables, old: &[Element], new: &[Element]) {
    pen.touch();
    let places = found_again(old, new);
    if !places.iter().copied().eq((0..old.len()).map(Some)) {
        pen.rearrange(listed, &places);
    }
    for ((place, element), table) in places.into_iter().zip(new).zip(listed.iter_mut()) {
        pen.adopt(table);
        one_element(pen, table, place.map(|place| &old[place]), element);
    }
}

/// Whether a thing as it was is one as it is now.
type Alike = fn(&Element, &Element) -> bool;

/// For each thing its place in the file: that of the one just like it; else of the one of its name and kind; else of the one
/// of its kind that lies where it does, or looks as it does; else, where there are as many as before, of the one at its own
/// place in the stack.
fn found_again(old: &[Element], new: &[Element]) -> Vec<Option<usize>> {
    let mut places: Vec<Option<usize>> = vec![None; new.len()];
    let is_named: Alike = |a, b| a.kind == b.kind && a.name.is_some() && a.name == b.name;
    let is_there: Alike = |a, b| a.kind == b.kind && a.lie == b.lie;
    let alike: [Alike; 4] = [|a, b| a == b, is_named, is_there, Element::is_but_for_its_lie];
    for is_same in alike {
        for (place, element) in new.iter().enumerate() {
            let free = |&one: &usize| is_same(&old[one], element) && !places.contains(&Some(one));
            if places[place].is_none() {
                places[place] = (0..old.len()).find(free);
            }
        }
    }
    for place in 0..new.len() {
        if old.len() == new.len() && places[place].is_none() && !places.contains(&Some(place)) {
            places[place] = Some(place);
        }
    }
    places
}

fn one_element(pen: &mut Pen<'_>, table: &mut Table, old: Option<&Element>, new: &Element) {
    let fresh = Element {
        name: None,
        kind: new.kind,
        original: false,
        lie: Lie { turn: Angle::ZERO, outline: Outline::Rect, ..new.lie },
        colours: Vec::new(),
        cover: None,
        bed: None,
    };
    let was = old.unwrap_or(&fresh);
    pen.put(table, "name", (&was.name, &new.name), |_, name| name.as_deref().map(text));
    if old.is_none() {
        pen.set(table, "kind", text(new.kind.as_str()));
        pen.set(table, "at", point(new.lie.at));
        pen.set(table, "size", size(&new.lie));
    }
    pen.put(table, "kind", (&was.kind, &new.kind), |_, kind: &Kind| Some(text(kind.as_str())));
    pen.put(table, "original", (&was.original, &new.original), |_, original| Some((*original).into()));
    pen.put(table, "at", (&was.lie.at, &new.lie.at), |_, at| Some(point(*at)));
    pen.put(table, "size", (&was.lie.size, &new.lie.size), |_, _| Some(size(&new.lie)));
    pen.put(table, "turn", (&was.lie.turn, &new.lie.turn), |_, turn| Some(angle(*turn)));
    pen.put(table, "shape", (&was.lie.outline, &new.lie.outline), |_, shape| Some(text(shape.as_str())));
    pen.put(table, "colours", (&was.colours, &new.colours), |pen, colours| {
        (!colours.is_empty()).then(|| pen.tints(colours))
    });
    pen.put(table, "cover", (&was.cover, &new.cover), |_, cover| cover.map(|cover| text(cover.as_str())));
    pen.put(table, "bed", (&was.bed, &new.bed), |_, bed| bed.map(Into::into));
}

fn size(lie: &Lie) -> toml_edit::Value {
    [length(lie.size.width), length(lie.size.height)].into_iter().collect()
}

/// A page's size by its name where it has one.
fn page_size(size: Size) -> String {
    match PAGE_SIZES.iter().find(|(_, named)| *named == size) {
        Some((name, _)) => (*name).to_owned(),
        None => format!("{} x {}", size.width.number(), size.height.number()),
    }
}
