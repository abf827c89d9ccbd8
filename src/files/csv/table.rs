//! The table as text: its first line, and its rows with the lines on which they begin.
//!
//! Must not know what the cells mean.

use csv::{ReaderBuilder, StringRecord};

use crate::words::nearest;

use super::{CsvColumn, CsvFault};

/// A table with a header that serves.
#[derive(Debug)]
pub(super) struct Table {
    /// Where each column stands, in the order of [`CsvColumn::ALL`].
    places: Vec<Option<usize>>,
    /// The rows, each with its line, from 1. Rows of empty cells are left out.
    pub(super) rows: Vec<(usize, StringRecord)>,
}

impl Table {
    /// Reads the text of a table (RFC 4180; lone LF and CR end a line too). A row that has not as many cells as the
    /// header is a fault and left out.
    ///
    /// # Errors
    /// What is wrong with the header: nothing can be read then.
    pub(super) fn read(text: &str, faults: &mut Vec<CsvFault>) -> Result<Self, Vec<CsvFault>> {
        let mut rows = records(text).into_iter();
        let Some((line, header)) = rows.next() else {
            let message = format!("the table is empty; its first line names the columns: {}", needed());
            return Err(vec![CsvFault::new(1, None, message)]);
        };
        let places = places(line, &header)?;
        let mut table = Self { places, rows: Vec::new() };
        for (line, row) in rows {
            if row.len() == header.len() {
                table.rows.push((line, row));
            } else {
                faults.push(CsvFault::new(line, None, uneven(&row, header.len())));
            }
        }
        Ok(table)
    }

    /// A row's cell, without spaces around it; `None` where it is empty or the table has no such column.
    pub(super) fn cell<'r>(&self, row: &'r StringRecord, column: CsvColumn) -> Option<&'r str> {
        let place = CsvColumn::ALL.iter().position(|one| *one == column)?;
        let cell = row.get((*self.places.get(place)?)?)?.trim();
        (!cell.is_empty()).then_some(cell)
    }
}

/// Every row that has anything in it, with the line on which it begins.
fn records(text: &str) -> Vec<(usize, StringRecord)> {
    let reader = ReaderBuilder::new().has_headers(false).flexible(true).from_reader(text.as_bytes());
    let (mut line, mut counted) = (1, 0);
    // What is text and lies in memory has no other error.
    let all = reader.into_records().filter_map(Result::ok).map(|row| {
        // The reader's own place is before the line ends that it passes over.
        let from = row.position().map_or(0, |place| usize::try_from(place.byte()).unwrap_or(0));
        let blank =
            text.get(from..).map_or(0, |rest| rest.len() - rest.trim_start_matches(['\r', '\n']).len());
        line += text.get(counted..from + blank).map_or(0, line_ends);
        counted = from + blank;
        (line, row)
    });
    all.filter(|(_, row)| row.iter().any(|cell| !cell.trim().is_empty())).collect()
}

/// How many lines end in `text`: by CR LF, LF or CR.
fn line_ends(text: &str) -> usize {
    let bytes = text.as_bytes();
    let ends = |at: &usize| bytes[*at] == b'\n' || bytes[*at] == b'\r' && bytes.get(at + 1) != Some(&b'\n');
    (0..bytes.len()).filter(ends).count()
}

/// Where each column stands by the first line.
fn places(line: usize, header: &StringRecord) -> Result<Vec<Option<usize>>, Vec<CsvFault>> {
    let names: Vec<String> = header.iter().map(|name| name.trim().to_lowercase()).collect();
    let mut faults = Vec::new();
    let mut tell = |message: String| faults.push(CsvFault::new(line, None, message));
    if let [only] = &names[..]
        && let Some(other) = only.chars().find(|c| matches!(c, ';' | '\t' | '|'))
    {
        tell(format!("the columns are parted by {other:?}; save the table with commas between them"));
        return Err(faults);
    }
    for (place, name) in names.iter().enumerate() {
        if CsvColumn::parse(name).is_none() {
            let near = nearest(name, CsvColumn::ALL.iter().map(|column| column.as_str()));
            let hint = near.map_or_else(
                || format!("; there are {}, height_of and mark", needed()),
                |near| format!("; did you mean {near}?"),
            );
            tell(format!("{name:?} is no column{hint}"));
        } else if names[..place].contains(name) {
            tell(format!("there are two columns {name}; keep one of them"));
        }
    }
    let found: Vec<Option<usize>> =
        CsvColumn::ALL.iter().map(|column| names.iter().position(|name| name == column.as_str())).collect();
    for (column, place) in CsvColumn::ALL.iter().zip(&found) {
        if place.is_none() && !column.is_optional() {
            tell(format!("there is no column {column}; the first line names {}", needed()));
        }
    }
    if faults.is_empty() { Ok(found) } else { Err(faults) }
}

/// The columns that a table must have.
fn needed() -> String {
    let needed = CsvColumn::ALL.iter().filter(|column| !column.is_optional());
    needed.map(|column| column.as_str()).collect::<Vec<_>>().join(", ")
}

/// Why a row does not fit under the header.
fn uneven(row: &StringRecord, columns: usize) -> String {
    let cells = if row.len() == 1 { "cell" } else { "cells" };
    let open = if row.iter().any(|cell| cell.contains(['\n', '\r'])) {
        "; a quote that nothing closes takes in the lines after it"
    } else if row.len() > columns {
        "; a cell with a comma in it stands in quotes"
    } else {
        ""
    };
    format!("this row has {} {cells}, the first line has {columns}{open}", row.len())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lines(text: &str) -> Vec<usize> {
        records(text).into_iter().map(|(line, _)| line).collect()
    }

    #[test]
    fn a_row_knows_its_line_whatever_ends_it() {
        assert_eq!(lines("a,b\r\nc,d\r\n\r\n\"e\r\nf\",g\r\nh,i"), [1, 2, 4, 6]);
        assert_eq!(lines("a,b\nc,d\n\n\n\"e\n\nf\",g\nh,i\n"), [1, 2, 5, 8]);
        assert_eq!(lines("a\rb\r\rc"), [1, 2, 4]);
        assert_eq!(lines("\n\na\n,\nb"), [3, 5]);
        assert!(lines("").is_empty());
    }
}
