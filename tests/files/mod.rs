//! The files: valid and broken ones with exact messages, saving that changes nothing else, folders.
//!
//! Must not know screens or commands.

mod any;
mod broken;
mod folder;
mod mend;
mod round;
mod things;
mod valid;
