//! What a table brings into a stash: new sheets, and counts of letters on sheets that are there.
//!
//! All or nothing: with any fault there is nothing to take in. Must not know how it is recorded.

use std::collections::{BTreeMap, HashMap};

use crate::measure::{ColourNames, Tint};
use crate::stash::{
    Deed, Finish, HeightOf, Kind, Label, Letter, Make, Paint, Record, Sheet, SheetId, Size, Stash,
};

use super::super::load::Loaded;
use super::cells::{self, Row};
use super::known::Recount;
use super::marks::{main_colours, marks};
use super::sheet_name::{Meant, SheetNames};
use super::table::Table;
use super::{CsvColumn, CsvFault, CsvFaults};

/// What a table brings into a stash.
#[derive(Debug, Clone, PartialEq)]
pub struct Intake {
    /// Sheets that the stash lacks, in the order of their first rows.
    pub new: Vec<Sheet>,
    /// Letters of sheets that it has: so many are left of each.
    pub counted: Deed,
}

impl Intake {
    /// Whether there is nothing to take in.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.new.is_empty() && self.counted.chips.is_empty()
    }

    /// Whether `stash` is just as the table has it: there is nothing to record.
    #[must_use]
    pub fn changes_nothing(&self, stash: &Stash) -> bool {
        let left = |chip| stash.find(chip).map(|ix| i32::from(stash.chip(ix).letter.left));
        self.new.is_empty() && self.counted.chips.iter().all(|(chip, count)| left(chip) == Some(*count))
    }
}

/// Reads a table for the stash `loaded`; `file` is how faults call it. A byte-order mark before it is passed over.
///
/// # Errors
/// Every fault of every row, and then nothing of it can be taken in.
pub fn read_csv(file: &str, text: &str, loaded: &Loaded) -> Result<Intake, CsvFaults> {
    let mut faults = Vec::new();
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let table = Table::read(text, &mut faults).map_err(|faults| CsvFaults::new(file, faults))?;
    let rows: Vec<Row> =
        table.rows.iter().filter_map(|row| cells::read(&table, row, &loaded.colours, &mut faults)).collect();
    let mut names = SheetNames::new(loaded);
    let mut recounts: BTreeMap<&SheetId, Recount<'_>> = BTreeMap::new();
    let mut fresh: Vec<Fresh<'_>> = Vec::new();
    let mut places: HashMap<SheetId, usize> = HashMap::new();
    for row in &rows {
        match names.find(&row.sheet, row.line) {
            Err(message) => faults.push(CsvFault::new(row.line, CsvColumn::Sheet, message)),
            Ok(Meant::Known(sheet)) => {
                let recount =
                    recounts.entry(&sheet.id).or_insert_with(|| Recount::of(sheet, &loaded.colours));
                recount.add(row, &mut faults);
            }
            Ok(Meant::New(id, name)) => {
                let place = *places.entry(id.clone()).or_insert(fresh.len());
                if place == fresh.len() {
                    fresh.push(Fresh { id, name, rows: Vec::new() });
                }
                fresh[place].add(row, &mut faults);
            }
        }
    }
    if !faults.is_empty() {
        return Err(CsvFaults::new(file, faults));
    }
    let counted = recounts.into_values().flat_map(|recount| recount.counted);
    let chips = counted.map(|(chip, (left, _))| (chip, i32::from(left))).collect();
    let new = fresh.iter().filter_map(|fresh| fresh.sheet(&loaded.colours)).collect();
    Ok(Intake { new, counted: Deed { kind: Kind::Counted, of: None, chips } })
}

/// A sheet that the stash lacks, row by row.
struct Fresh<'r> {
    id: SheetId,
    name: Option<String>,
    rows: Vec<&'r Row>,
}

impl<'r> Fresh<'r> {
    /// Takes a row in; what does not agree with the rows before it is a fault.
    fn add(&mut self, row: &'r Row, faults: &mut Vec<CsvFault>) {
        let mut tell = |column, message| faults.push(CsvFault::new(row.line, column, message));
        if let Some(first) = self.rows.first() {
            let line = first.line;
            let differs = |found: &str, has: &str| {
                format!(
                    "{found} here and {has} on line {line}; a sheet has one, so write the same, or another sheet"
                )
            };
            let of = |row: &Row| row.height_of.unwrap_or(HeightOf::Capital);
            if row.form != first.form {
                tell(CsvColumn::Form, differs(row.form.as_str(), first.form.as_str()));
            }
            if row.height != first.height {
                tell(CsvColumn::Height, differs(&row.height.number(), &first.height.number()));
            }
            if of(row) != of(first) {
                tell(CsvColumn::HeightOf, differs(of(row).as_str(), of(first).as_str()));
            }
        }
        let twin = self.rows.iter().find(|earlier| row.kind().is_twin_of(&earlier.kind()));
        if let Some(twin) = twin {
            let (line, character) = (twin.line, &row.letter.character);
            tell(
                CsvColumn::Character,
                format!("line {line} counts this {character} already; keep one of the two"),
            );
        }
        self.rows.push(row);
    }

    /// The sheet, in the colours that most of its rows have; its letters in the order of their rows.
    fn sheet(&self, names: &ColourNames) -> Option<Sheet> {
        let first = self.rows.first()?;
        let height_of = first.height_of.unwrap_or(HeightOf::Capital);
        let kinds: Vec<_> = self.rows.iter().map(|row| row.kind()).collect();
        let main = main_colours(&kinds);
        let letters = self.rows.iter().zip(marks(&kinds, main, names)).map(|(row, mark)| {
            let colours = if Tint::are_alike(&row.colours, main) { Vec::new() } else { row.colours.clone() };
            Letter { colours, ..Letter::plain(row.letter.character.clone(), mark, row.letter.left) }
        });
        Some(Sheet {
            id: self.id.clone(),
            label: Label { name: self.name.clone(), ..Label::default() },
            make: Make {
                form: first.form,
                finish: Finish::Matte,
                neutral: false,
                joined: false,
                plain_tile: false,
            },
            size: Size { height: first.height, height_of, tile_width: None, thick: None },
            paint: Paint { colours: main.to_vec(), outline: None, tile: None },
            letters: letters.collect(),
            record: Record::default(),
        })
    }
}
