//! Text in columns: measured by what a terminal or printer shows, wrapped, cut, and cleared of control characters.
//!
//! Must not know what it says.

use unicode_width::UnicodeWidthStr;

use crate::letter::characters;

/// Columns that `text` takes.
pub(super) fn width(text: &str) -> usize {
    characters(text).map(UnicodeWidthStr::width).sum()
}

/// `text` with every control character, and every one that steers direction or parts lines, spelled out.
pub(super) fn printable(text: &str) -> String {
    let mut shown = String::with_capacity(text.len());
    for c in text.chars() {
        if c.is_control() {
            shown.extend(c.escape_default());
        } else if matches!(c, '\u{200b}' | '\u{200e}' | '\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{feff}')
        {
            shown.extend(c.escape_unicode());
        } else {
            shown.push(c);
        }
    }
    shown
}

/// The most of `text` that fits `columns`, whole graphemes, and the rest.
pub(super) fn split_at(text: &str, columns: usize) -> (&str, &str) {
    let (mut taken, mut end) = (0, 0);
    for cluster in characters(text) {
        taken += width(cluster);
        if taken > columns {
            break;
        }
        end += cluster.len();
    }
    text.split_at(end)
}

/// Exactly `columns` wide, at the left; what does not fit is cut and ends in two full stops.
pub(super) fn left(text: &str, columns: usize) -> String {
    if width(text) <= columns {
        return format!("{text}{}", " ".repeat(columns - width(text)));
    }
    let kept = split_at(text, columns.saturating_sub(2)).0.trim_end();
    let dots = ".".repeat(columns.min(2));
    format!("{kept}{dots}{}", " ".repeat(columns.saturating_sub(width(kept) + dots.len())))
}

/// At least `columns` wide, at the right.
pub(super) fn right(text: &str, columns: usize) -> String {
    format!("{}{text}", " ".repeat(columns.saturating_sub(width(text))))
}

/// Parted at spaces into lines of at most `columns`; a word longer than a line is parted between graphemes.
pub(super) fn wrap(text: &str, columns: usize) -> Vec<String> {
    let mut lines = vec![String::new()];
    for word in text.split_whitespace() {
        let mut word = word;
        while !word.is_empty() {
            let Some(line) = lines.last_mut() else { break };
            let space = usize::from(!line.is_empty());
            let room = columns.saturating_sub(width(line) + space);
            if width(word) <= room {
                line.push_str(&" ".repeat(space));
                line.push_str(word);
                break;
            }
            if line.is_empty() {
                let (head, rest) = split_at(word, columns);
                // A grapheme wider than the whole line stands alone.
                let (head, rest) = if head.is_empty() { (word, "") } else { (head, rest) };
                line.push_str(head);
                word = rest;
            }
            if !word.is_empty() {
                lines.push(String::new());
            }
        }
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn wide_characters_take_two_columns() {
        assert_eq!(left("提灯", 6), "提灯  ");
        assert_eq!(left("提灯の夜", 5), "提.. ");
        assert_eq!(right("é", 3), "  é");
        assert_eq!(wrap("提灯の夜", 4), ["提灯", "の夜"]);
    }

    #[test]
    fn words_wrap_and_long_ones_part() {
        assert_eq!(wrap("one two three", 7), ["one two", "three"]);
        assert_eq!(wrap("a longestword", 5), ["a", "longe", "stwor", "d"]);
        assert_eq!(wrap("", 5), [""]);
    }

    #[test]
    fn control_characters_are_spelled_out() {
        assert_eq!(printable("a\u{1b}[2J\n\u{202e}b"), "a\\u{1b}[2J\\n\\u{202e}b");
    }
}
