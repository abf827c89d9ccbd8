//! Reads `wishes.toml`: titles that someone would like to make one day.
//!
//! Must not know whether the stash can spell them.

use crate::title::{Wish, Wording};

use super::problem::Problems;
use super::reader::Keys;
use super::source::Source;
use crate::measure::ColourNames;

/// The file's name.
pub(super) const WISHES: &str = "wishes.toml";

/// Reads every `[[wish]]` of `text`; `file` is how problems call it. One with an error is told and left out.
#[must_use]
pub fn read_wishes(file: &str, text: &str) -> (Vec<Wish>, Problems) {
    let none = ColourNames::default();
    let source = Source::new(file, text, &none);
    let mut wishes = Vec::new();
    if let Some(tree) = source.tree() {
        let keys = Keys::new(&source, tree.get_ref());
        keys.know(&["wish"]);
        wishes.extend(keys.tables("wish").into_iter().filter_map(wish));
    }
    (wishes, source.into_problems())
}

fn wish(keys: Keys<'_>) -> Option<Wish> {
    keys.know(&["wording", "note"]);
    keys.require("wording", "wording = \"HARBOUR LIGHTS\" or what it is to say");
    let wording = keys.read("wording", |found| {
        let wording = Wording::new(found.text()?).map_err(|error| error.to_string())?;
        if wording.is_empty() {
            Err("it says nothing; write what it is to say, or take the wish out".into())
        } else {
            Ok(wording)
        }
    });
    let note = keys.text("note").map(str::to_owned);
    Some(Wish { wording: wording?, note })
}
