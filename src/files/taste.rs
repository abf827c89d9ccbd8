//! Reads `taste.toml`: the owner's own names for colours, then thresholds and weights.
//!
//! Must not know what a threshold does; the checks' own table tells its key, its measure and its range.

use crate::checks::{Measure, THRESHOLDS, Taste, Threshold};
use crate::measure::{Colour, Length};

use super::problem::{Problems, escaped};
use super::reader::{Found, Keys};
use super::source::Source;
use crate::measure::ColourNames;
use crate::words::nearest;

/// Reads own colour names and taste from `text`; `file` is how problems call it. What is wrong keeps its usual value.
#[must_use]
pub fn read_taste(file: &str, text: &str) -> (ColourNames, Taste, Problems) {
    let none = ColourNames::default();
    let source = Source::new(file, text, &none);
    let (mut own, mut taste) = (ColourNames::default(), Taste::default());
    if let Some(tree) = source.tree() {
        let keys = Keys::new(&source, tree.get_ref());
        know_tables(keys);
        if let Some(colours) = keys.table("colours") {
            own = own_colours(colours);
        }
        for section in sections() {
            if let Some(table) = keys.table(section) {
                thresholds(table, section, &mut taste);
            }
        }
        if let Some(contradiction) = taste.contradiction() {
            keys.error(keys.place_of("pale"), "", contradiction.into());
        }
    }
    (own, taste, source.into_problems())
}

/// The tables that thresholds stand in, each once.
fn sections() -> Vec<&'static str> {
    let mut sections: Vec<&str> =
        THRESHOLDS.iter().filter_map(|row| Some(row.key.split_once('.')?.0)).collect();
    sections.dedup();
    sections
}

fn know_tables(keys: Keys<'_>) {
    let mut known = sections();
    known.extend(["colours", "unit"]);
    if let Some(unit) = keys.read("unit", Found::unit) {
        keys.source.unit.set(unit);
    }
    for (name, span, _) in keys.entries() {
        if !known.contains(&name) {
            let near = nearest(name, known.iter().copied());
            let hint = near.map_or_else(String::new, |near| format!("; did you mean {near}?"));
            keys.error(span.start, name, format!("taste has no such table{hint}"));
        }
    }
}

fn own_colours(keys: Keys<'_>) -> ColourNames {
    let mut own = ColourNames::default();
    for (name, span, value) in keys.entries() {
        let read = value.text().and_then(|text| {
            let colour = Colour::from_hex(text.trim()).or_else(|| Colour::named(text.trim()));
            colour.ok_or_else(|| format!("{text:?} is no colour; write \"#rrggbb\" or a CSS name"))
        });
        match read {
            _ if name.trim().is_empty() || name.starts_with('#') || escaped(name) != name => {
                keys.error(
                    span.start,
                    name,
                    "this is no name that a colour can have; write a word such as kraft".into(),
                );
            }
            Ok(colour) => own.name(name, colour),
            Err(message) => keys.error(value.at(), name, message),
        }
    }
    own
}

fn thresholds(keys: Keys<'_>, section: &str, taste: &mut Taste) {
    let rows = || {
        let within = |row: &'static Threshold| row.key.strip_prefix(section)?.strip_prefix('.');
        THRESHOLDS.iter().enumerate().filter_map(move |(place, row)| Some((place, row, within(row)?)))
    };
    for (name, span, value) in keys.entries() {
        let Some((place, row, _)) = rows().find(|row| row.2 == name) else {
            let near = nearest(name, rows().map(|row| row.2));
            let offer = near.map_or_else(
                || format!("{section} has {}", rows().map(|row| row.2).collect::<Vec<_>>().join(", ")),
                |near| format!("did you mean {near}?"),
            );
            keys.error(span.start, name, format!("there is no such threshold; {offer}"));
            continue;
        };
        let set =
            read(value, row.measure).ok_or(()).and_then(|inner| taste.set(place, inner).map_err(|_| ()));
        if set.is_err() {
            let (least, most) = (row.spell(row.least), row.spell(row.most));
            keys.error(
                value.at(),
                name,
                format!("{} makes no sense here; write {least} to {most} ({})", value.piece(), row.help),
            );
        }
    }
}

/// The value in the measure's inner unit.
fn read(found: Found<'_>, measure: Measure) -> Option<i64> {
    let scaled = |by: f64| {
        let inner = (found.number()? * by).round();
        #[expect(clippy::cast_possible_truncation, reason = "bounded just before")]
        (inner.abs() < 1e9).then_some(inner as i64)
    };
    match measure {
        Measure::Points => scaled(10.0),
        Measure::Ratio => scaled(100.0),
        Measure::Length => found.length(Length::as_offset).ok().map(Length::nm),
        Measure::Count => found.count(0..=u32::MAX).ok().map(i64::from),
    }
}
