//! What the stash can supply: words to make a title of.
//!
//! Must not know screens or files.

mod word_list;

pub use word_list::WordList;
