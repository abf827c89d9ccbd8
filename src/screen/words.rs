//! Text on the screen.
//!
//! Must not know what it says.

use ratatui::buffer::Buffer;
use ratatui::style::Style;
use unicode_width::UnicodeWidthStr;

/// Puts `text` on one line, cut to `width` columns, and gives back the column after it. Control characters, which the
/// files' readers refuse anyway, are left out.
pub(super) fn put(buffer: &mut Buffer, x: u16, y: u16, width: u16, text: &str, style: Style) -> u16 {
    if !buffer.area.contains((x, y).into()) {
        return x;
    }
    buffer.set_stringn(x, y, text, usize::from(width.min(buffer.area.right() - x)), style).0
}

/// `text` cut to `width` columns, with `…` where something is missing, and filled up with spaces.
pub(super) fn fit(text: &str, width: usize) -> String {
    if text.width() <= width {
        return format!("{text}{}", " ".repeat(width - text.width()));
    }
    let mut cut = String::new();
    for cluster in crate::letter::characters(text) {
        if cut.width() + cluster.width() + 1 > width {
            break;
        }
        cut.push_str(cluster);
    }
    format!("{cut}…{}", " ".repeat(width.saturating_sub(cut.width() + 1)))
}

/// What a chip carries, in one column or, for a wide character, in two; `…` for what needs more.
pub(super) fn sign(text: &str) -> &str {
    if text.width() <= 2 { text } else { "…" }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn wide_and_combining_characters_keep_the_columns() {
        assert_eq!(fit("漢字漢字", 5).width(), 5);
        assert_eq!(fit("e\u{301}e\u{301}e\u{301}", 2).width(), 2);
        assert_eq!(fit("ab", 4), "ab  ");
    }
}
