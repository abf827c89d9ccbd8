//! Columns of text for any printer: 80 wide, whatever characters are in them.
//!
//! Must not know what they say.

use unicode_width::UnicodeWidthStr;

use crate::letter::characters;

/// Columns of a printed line.
pub(super) const WIDTH: usize = 80;

/// `text` cut to `width` columns and filled up with spaces.
pub(super) fn cell(text: &str, width: usize) -> String {
    let mut cut = String::new();
    for cluster in characters(text) {
        if cut.width() + cluster.width() > width {
            break;
        }
        cut.push_str(cluster);
    }
    let spaces = width - cut.width();
    cut + &" ".repeat(spaces)
}

/// A paragraph wrapped to 80 columns, later lines indented by `indent`.
pub(super) fn paragraph(text: &str, first: &str, indent: usize) -> String {
    let rest = " ".repeat(indent);
    let options = textwrap::Options::new(WIDTH).initial_indent(first).subsequent_indent(&rest);
    textwrap::fill(text, options) + "\n"
}

/// A heading over a rule.
pub(super) fn heading(text: &str) -> String {
    let text = text.trim();
    format!("\n{text}\n{}\n", "-".repeat(text.width().min(WIDTH)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cells_keep_their_width() {
        for text in ["", "E", "漢字", "e\u{301}", "a long name of a sheet"] {
            assert_eq!(cell(text, 7).width(), 7, "{text}");
        }
    }
}
