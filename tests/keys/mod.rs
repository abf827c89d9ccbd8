//! What keys do, written as (before, keys, after): no terminal and no disk.
//!
//! Must not know how anything is drawn.

#![expect(clippy::unwrap_used, reason = "a test may stop at the first surprise")]

mod any;
mod bench;
mod counting;
mod mouse;
mod order_rows;
mod page;
mod page_rows;
mod page_told;
mod rows;
mod sheet_rows;
mod stories;
mod suggesting;
mod table;
mod told;
mod wording_rows;
mod wordings;
