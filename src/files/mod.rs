//! The stash's folder of plain text: read with every problem told, written back with nothing else changed.
//!
//! Must not know the app, screens, printing or commands.

mod csv;
mod disk;
mod entry;
mod error;
mod folder;
mod found;
mod half_counted;
mod ledger;
mod line_ends;
mod load;
mod lock;
mod mend;
mod page_plans;
mod parallel;
mod pen;
mod plan;
mod problem;
mod question;
mod reader;
mod record;
mod recover;
mod sample;
mod save;
mod save_sheet;
mod save_strip;
mod seen;
mod sheet;
mod source;
mod stick;
mod strip;
mod syntax;
mod taste;
mod wishes;

pub use self::csv::{CsvColumn, CsvFault, CsvFaults, Intake, csv_text, read_csv};
pub use disk::{Onlooker, Step, replace_file};
pub use error::FilesError;
pub use folder::StashFolder;
pub use ledger::read_ledger;
pub use load::{Behind, Loaded, PlanEntry};
pub use lock::{Access, StashLock};
pub use mend::{Ailment, Cure, Mended};
pub use page_plans::{OpenPlan, PlanFile, PlanSlug};
pub use plan::read_plan;
pub use problem::{Level, Problem, Problems, escaped};
pub use record::RecordError;
pub use sample::{sample_files, unpack_sample};
pub use save::{new_plan_text, write_plan};
pub use save_sheet::{new_sheet_text, write_sheet};
pub use seen::{Change, How, Part, Seen};
pub use sheet::read_sheet;
pub use stick::{Lift, check_together};
pub use taste::read_taste;
pub use wishes::{Wish, read_wishes};
