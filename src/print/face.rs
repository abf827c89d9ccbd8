//! The faces that words are printed in, and how wide words are in them.
//!
//! Must not know what is said.

use std::sync::LazyLock;

use ttf_parser::{Face as Font, GlyphId};
use unicode_normalization::UnicodeNormalization;

use super::column::printable;

/// A face for words: DejaVu Sans, in two weights.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Face {
    /// For reading.
    Plain,
    /// For headings, and for what must not be missed.
    Strong,
}

impl Face {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Plain, Self::Strong];

    /// The font's file as it is carried.
    #[must_use]
    pub fn data(self) -> &'static [u8] {
        match self {
            Self::Plain => dejavu::sans::regular(),
            Self::Strong => dejavu::sans::bold(),
        }
    }

    /// The font, read once; `None` were it unreadable, which a test rules out.
    #[must_use]
    pub fn font(self) -> Option<&'static Font<'static>> {
        static FONTS: LazyLock<[Option<Font<'static>>; 2]> =
            LazyLock::new(|| Face::ALL.map(|face| Font::parse(face.data(), 0).ok()));
        FONTS[self as usize].as_ref()
    }

    /// The glyph of a character; `None` where the face has none.
    #[must_use]
    pub fn glyph(self, character: char) -> Option<GlyphId> {
        self.font()?.glyph_index(character)
    }

    /// How wide `text` is in mm, set in a face of `size` mm: the sum of its advances, without kerning.
    #[must_use]
    pub fn width(self, text: &str, size: f64) -> f64 {
        let Some(font) = self.font() else { return 0.0 };
        let advance = |c| font.glyph_hor_advance(font.glyph_index(c)?);
        let units: u32 = text.chars().filter_map(advance).map(u32::from).sum();
        f64::from(units) * size / f64::from(font.units_per_em())
    }

    /// `text` as it can be printed in both faces: composed, control characters spelled out, and every character that the faces
    /// lack named by its code point, as `[U+6F22]`.
    #[must_use]
    pub fn legible(text: &str) -> String {
        let mut shown = String::with_capacity(text.len());
        for c in printable(text).nfc() {
            // Variation selectors choose between looks that the faces do not have; joiners show nothing.
            if matches!(c, '\u{fe00}'..='\u{fe0f}' | '\u{200c}' | '\u{200d}') {
            } else if Self::ALL.iter().all(|face| face.glyph(c).is_some()) {
                shown.push(c);
            } else {
                shown.push_str(&format!("[U+{:04X}]", u32::from(c)));
            }
        }
        shown
    }
}

/// `text` parted at spaces into lines of at most `room` mm in a face of `size` mm; a word longer than a line is parted between
/// characters. Never empty.
pub(super) fn wrap(text: &str, face: Face, size: f64, room: f64) -> Vec<String> {
    let wide = |text: &str| face.width(text, size);
    let mut lines = vec![String::new()];
    for word in text.split_whitespace() {
        let mut word = word;
        while !word.is_empty() {
            let Some(line) = lines.last_mut() else { break };
            let joined = if line.is_empty() { word.to_owned() } else { format!("{line} {word}") };
            if wide(&joined) <= room {
                *line = joined;
                break;
            }
            if line.is_empty() {
                let head = head(word, |text| wide(text) <= room);
                line.push_str(&word[..head]);
                word = &word[head..];
            }
            if !word.is_empty() {
                lines.push(String::new());
            }
        }
    }
    lines
}

/// How many bytes of `word` fit: whole clusters, at least one.
fn head(word: &str, fits: impl Fn(&str) -> bool) -> usize {
    let mut end = 0;
    for cluster in crate::letter::characters(word) {
        if end > 0 && !fits(&word[..end + cluster.len()]) {
            break;
        }
        end += cluster.len();
    }
    end
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_faces_can_be_read() {
        for face in Face::ALL {
            assert!(face.font().is_some() && face.glyph('A').is_some());
            assert!((face.width("nn", 10.0) - 2.0 * face.width("n", 10.0)).abs() < 1e-9);
        }
        assert!(Face::Strong.width("quay", 4.0) > Face::Plain.width("quay", 4.0));
    }

    #[test]
    fn what_the_faces_lack_is_named() {
        assert_eq!(Face::legible("e\u{301}\u{1b}★漢"), "é\\u{1b}★[U+6F22]");
        assert_eq!(Face::legible("♥\u{fe0f}"), "♥");
    }

    #[test]
    fn words_wrap_and_long_ones_part() {
        let room = Face::Plain.width("lantern walk", 4.0) + 0.01;
        assert_eq!(wrap("lantern walk home", Face::Plain, 4.0, room), ["lantern walk", "home"]);
        let parts = wrap(&"m".repeat(40), Face::Plain, 4.0, room);
        assert!(parts.len() > 1 && parts.concat() == "m".repeat(40));
        assert_eq!(wrap("", Face::Plain, 4.0, room), [""]);
        assert_eq!(wrap("mm", Face::Plain, 4.0, 0.1), ["m", "m"]);
    }
}
