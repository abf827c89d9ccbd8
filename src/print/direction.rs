//! Words that run from right to left, in the order in which their marks stand on paper.
//!
//! Must not know what is said.

use std::borrow::Cow;

use unicode_bidi::{BidiInfo, Level};

use crate::letter::characters;

/// What stands the other way round in words that run from right to left.
const MIRRORED: [(char, char); 5] = [('(', ')'), ('[', ']'), ('{', '}'), ('<', '>'), ('«', '»')];

/// `text`, one line, from left to right as it is seen: by the bidirectional algorithm (Unicode Standard Annex 9), in a line that
/// itself runs from left to right. Marks stay behind the letter they belong to.
pub(super) fn as_seen(text: &str) -> Cow<'_, str> {
    let info = BidiInfo::new(text, Some(Level::ltr()));
    if !info.has_rtl() {
        return Cow::Borrowed(text);
    }
    let mut seen = String::with_capacity(text.len());
    for paragraph in &info.paragraphs {
        let (levels, runs) = info.visual_runs(paragraph, paragraph.range.clone());
        for run in runs {
            if levels[run.start].is_rtl() {
                let clusters: Vec<&str> = characters(&text[run]).collect();
                seen.extend(clusters.into_iter().rev().flat_map(str::chars).map(mirrored));
            } else {
                seen.push_str(&text[run]);
            }
        }
    }
    Cow::Owned(seen)
}

fn mirrored(c: char) -> char {
    let other = |&(open, close): &(char, char)| match c {
        _ if c == open => Some(close),
        _ if c == close => Some(open),
        _ => None,
    };
    MIRRORED.iter().find_map(other).unwrap_or(c)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_from_right_to_left_are_turned_and_figures_in_them_are_not() {
        assert_eq!(as_seen("quay 12"), "quay 12");
        assert_eq!(as_seen("אבג"), "גבא");
        assert_eq!(as_seen("the title: אבג דה (3 letters)"), "the title: הד גבא (3 letters)");
        assert_eq!(as_seen("אב 12 גד"), "דג 12 בא");
        assert_eq!(as_seen("א (ב) ג"), "ג (ב) א");
        assert_eq!(as_seen("ש\u{5c1}ם"), "םש\u{5c1}");
    }
}
