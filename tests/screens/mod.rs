//! What the screen shows, in memory: pictures of whole screens, and that no frame is ever broken.
//!
//! Must not know how a pane is drawn.

#![expect(clippy::unwrap_used, reason = "a test may stop at the first surprise")]

mod in_order;
mod in_stash;
mod in_words;
mod odd;
mod on_page;
mod pictures;
mod stage;
mod suggesting;
