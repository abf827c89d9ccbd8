//! What is left: sheets, their letters, and the stash that holds them all.
//!
//! Must not know strips, pages or files.

mod amiss;
mod chip;
mod deed;
mod form;
mod half_counted;
mod holdings;
mod ledger;
mod sheet;
mod slug;
mod tally;

pub use amiss::{EditedOver, Oddity, Order, in_order, shared_names};
pub use chip::{Chip, ChipId, ChipIdError, ChipIx};
pub use deed::{Deed, Kind, MOST_LEFT, OfStrip, Refusal};
pub use form::{Finish, Form, HeightOf};
pub use half_counted::{HalfCounted, Way};
pub use holdings::Stash;
pub use ledger::{Entry, Ledger};
pub use sheet::{Label, Letter, Make, Paint, Record, Sheet, Size};
pub use slug::{Mark, SheetId, SlugError};
pub use tally::{Lot, Tally, TallyError};
