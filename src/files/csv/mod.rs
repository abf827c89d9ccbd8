//! A stash as a table of comma-separated values (RFC 4180), for spreadsheets and other programs: out and in.
//!
//! One row a chip. Must not know folders or what becomes of what is read.

mod cells;
mod column;
mod fault;
mod intake;
mod known;
mod marks;
mod out;
mod sheet_name;
mod table;

pub use column::CsvColumn;
pub use fault::{CsvFault, CsvFaults};
pub use intake::{Intake, read_csv};
pub use out::csv_text;
