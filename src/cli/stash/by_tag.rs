//! The sheets in the order of their tags, and the list of them that is printed for the craft room.
//!
//! Must not know which sheets are asked for.

use std::cmp::Ordering;
use std::fmt::Write;

use textwrap::Options;

use crate::files::escaped;
use crate::measure::Tint;
use crate::stash::{Letter, Sheet};

use super::super::say::so_many;

/// The widest line, in columns.
const WIDE: usize = 80;

/// What would be read as a part of the number after it, besides figures.
const OF_NUMBERS: &str = ".,:'+-/=";

/// Which of two sheets comes first: those with letters left, then by tag, figures at a tag's beginning as a number; sheets
/// without a tag after them, by name.
pub(super) fn order(a: &Sheet, b: &Sheet) -> Ordering {
    let key = |sheet: &Sheet| {
        let tag = sheet.label.tag.as_deref().map(str::trim).filter(|tag| !tag.is_empty());
        (sheet.left() == 0, tag.is_none(), tag.map(tag_key), sheet.name().to_lowercase(), sheet.id.clone())
    };
    key(a).cmp(&key(b))
}

/// Tags that begin with a number first, by it: its figures without leading zeros, the fewer the smaller.
fn tag_key(tag: &str) -> (bool, usize, String, String) {
    let rest = tag.trim_start_matches(|c: char| c.is_ascii_digit());
    let figures = &tag[..tag.len() - rest.len()];
    let number = figures.trim_start_matches('0');
    (figures.is_empty(), number.len(), number.to_owned(), rest.to_lowercase())
}

/// The list: `sheets` in [`order`].
pub(super) fn list(sheets: &[&Sheet]) -> String {
    let spent = sheets.iter().position(|sheet| sheet.left() == 0).unwrap_or(sheets.len());
    let (in_use, spent) = sheets.split_at(spent);
    let left: u32 = in_use.iter().map(|sheet| sheet.left()).sum();
    let mut text = format!(
        "What is left: {}, by the tags on the sheets\n\
         A2: two of A are left. After a figure or a point stands an x: 7x2, .x5.\n",
        so_many(left, "letter")
    );
    for sheet in in_use {
        text += &("\n".to_owned() + &head(sheet));
        let letters = sheet.letters.iter().filter(|letter| letter.left > 0).map(counted);
        text += &wrapped(&letters.collect::<Vec<_>>().join(" "), "      ", "      ");
    }
    if !spent.is_empty() {
        text += "\nSpent: no letter is left\n";
        for sheet in spent {
            text += &("\n".to_owned() + &head(sheet));
        }
    }
    text
}

/// Tag and name; then form, height and colours.
fn head(sheet: &Sheet) -> String {
    let tag = sheet.label.tag.as_deref().map_or("-".into(), escaped);
    let title = wrapped(&escaped(&sheet.name()), &format!("{tag:<5} "), "      ");
    let colours = sheet.paint.colours.iter().map(Tint::name).collect::<Vec<_>>().join(" and ");
    let seen = format!("{}, {}, {}", sheet.make.form, sheet.size.height.number(), escaped(&colours));
    title + &wrapped(&seen, "      ", "      ")
}

/// `A2`, or `S1(coral)` in colours of its own.
fn counted(letter: &Letter) -> String {
    let mut text = letter.character.spoken();
    let is_of_numbers = text.ends_with(|c: char| c.is_numeric() || OF_NUMBERS.contains(c));
    let _ = write!(text, "{}{}", if is_of_numbers { "x" } else { "" }, letter.left);
    if !letter.colours.is_empty() {
        let colours = letter.colours.iter().map(Tint::name).collect::<Vec<_>>().join("+");
        let _ = write!(text, "({})", escaped(&colours));
    }
    text
}

fn wrapped(text: &str, first: &str, later: &str) -> String {
    textwrap::fill(text, Options::new(WIDE).initial_indent(first).subsequent_indent(later)) + "\n"
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tags_go_by_their_numbers() {
        let mut tags = ["box 2", "10", "07", "9b", "9", "A", "007a", "123456789012345678901234567890", "0"];
        tags.sort_by_key(|tag| tag_key(tag));
        assert_eq!(
            tags,
            ["0", "07", "007a", "9", "9b", "10", "123456789012345678901234567890", "A", "box 2"]
        );
    }
}
