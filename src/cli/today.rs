//! The day, for the ledger.
//!
//! Must not know what is recorded.

/// Today where the user is, as `2031-11-05`.
pub(super) fn today() -> String {
    jiff::Zoned::now().date().to_string()
}
