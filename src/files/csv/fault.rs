//! What is wrong in a table: in which line, in which column, what was found and what would do.
//!
//! Must not know what a table is read for.

use std::fmt;

use super::super::problem::escaped;
use super::CsvColumn;

/// One thing that is wrong in a table.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CsvFault {
    /// The line on which its row begins, from 1.
    pub line: usize,
    /// The column; `None` where it is about the row or the table as a whole.
    pub column: Option<CsvColumn>,
    /// What was found and what would do, in a sentence without control characters.
    pub message: String,
}

/// All that is wrong in a table; nothing of it can be used.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub struct CsvFaults {
    file: String,
    faults: Vec<CsvFault>,
}

impl CsvFault {
    pub(super) fn new(line: usize, column: impl Into<Option<CsvColumn>>, message: impl AsRef<str>) -> Self {
        Self { line, column: column.into(), message: escaped(message.as_ref()) }
    }
}

impl CsvFaults {
    /// The faults of `file`, put in the order of their lines.
    pub(super) fn new(file: &str, mut faults: Vec<CsvFault>) -> Self {
        faults.sort_by_key(|fault| fault.line);
        Self { file: escaped(file), faults }
    }

    /// Every one, in the order of their lines.
    #[must_use]
    pub fn all(&self) -> &[CsvFault] {
        &self.faults
    }
}

impl fmt::Display for CsvFaults {
    /// One a line: `file:line: column: message`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (place, fault) in self.faults.iter().enumerate() {
            let line_end = if place == 0 { "" } else { "\n" };
            write!(f, "{line_end}{}:{}: ", self.file, fault.line)?;
            if let Some(column) = fault.column {
                write!(f, "{column}: ")?;
            }
            f.write_str(&fault.message)?;
        }
        Ok(())
    }
}
