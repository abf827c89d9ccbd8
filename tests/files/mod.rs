//! The files: valid and broken ones with exact messages, saving that changes nothing else, folders.
//!
//! Must not know screens or commands.

mod ailing;
mod any;
mod any_table;
mod broken;
mod csv;
mod folder;
mod mend;
mod on_sale;
mod orders;
mod round;
mod seen;
mod things;
mod valid;
mod wishes;
