//! The reference face: the proportions of letters that nobody measured.
//!
//! One openly licensed typeface serves as the estimate. It is read when it is first asked for, letter by letter. Must not
//! know sheets or strips.

use std::collections::HashMap;
use std::sync::{LazyLock, OnceLock, PoisonError, RwLock};

use ttf_parser::GlyphId;

use super::outline::{Outline, Silhouette, draw};
use super::{Character, Class};

/// Width of a character without a glyph, over a capital's height; twice that for a double-width one. A house estimate:
/// near the mean of the capitals.
const FALLBACK_WIDTH: f64 = 0.8;

/// The face and what was measured in it so far.
pub struct Face {
    font: Option<ttf_parser::Face<'static>>,
    /// Font units of a capital's height, measured on the H.
    cap: f64,
    x_height: f64,
    ascender: f64,
    /// What was measured of ASCII characters, nearly all there are: read without a lock.
    plain: [OnceLock<Measured>; 128],
    others: RwLock<HashMap<Character, Measured>>,
}

/// A width, and whether it comes from a glyph.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Proportion {
    /// Width of the ink over a capital's height.
    pub ratio: f64,
    /// Whether the face has a glyph for it; else it is the stated fallback.
    pub drawn: bool,
}

/// What the face says of one character, over a capital's height.
#[derive(Debug, Clone)]
struct Measured {
    width: f64,
    drawn: bool,
    bottom: f64,
    top: f64,
    exempt: bool,
    silhouette: Silhouette,
}

impl std::fmt::Debug for Face {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Face").field("cap", &self.cap).finish_non_exhaustive()
    }
}

impl Face {
    /// The reference face: DejaVu Sans Bold.
    #[must_use]
    pub fn reference() -> &'static Self {
        static FACE: LazyLock<Face> = LazyLock::new(Face::read);
        &FACE
    }

    fn read() -> Self {
        let font = ttf_parser::Face::parse(dejavu::sans::bold(), 0).ok();
        let top = |c: char| {
            let font = font.as_ref()?;
            Some(f64::from(font.glyph_bounding_box(font.glyph_index(c)?)?.y_max))
        };
        let cap = top('H').unwrap_or(1.0);
        Self {
            x_height: top('x').unwrap_or(cap * 0.75) / cap,
            ascender: top('l').unwrap_or(cap) / cap,
            cap,
            font,
            plain: [const { OnceLock::new() }; 128],
            others: RwLock::default(),
        }
    }

    /// The body of a character over a capital's height, by its class: 1 for capitals, figures and symbols; the
    /// ascender's for b d f h k l t i j; the x-height for the other small letters.
    #[must_use]
    pub fn body(&self, character: &Character) -> f64 {
        match Class::of(character) {
            Class::Ascender => self.ascender,
            Class::Small | Class::Descender => self.x_height,
            Class::Capital | Class::Figure | Class::Symbol => 1.0,
        }
    }

    /// The x-height over a capital's height.
    #[must_use]
    pub const fn x_height(&self) -> f64 {
        self.x_height
    }

    /// The height of a tall small letter over a capital's height.
    #[must_use]
    pub const fn ascender(&self) -> f64 {
        self.ascender
    }

    /// Whether a character is too small a mark to be compared by its height: each piece of its ink would fit in a square of
    /// half the x-height. So are the full stop, comma, hyphen, apostrophe and colon; a measure by extent would miss the
    /// colon, which is as tall as an x, and the comma, whose tail is long. Letters and figures never are.
    #[must_use]
    pub fn is_exempt(&self, character: &Character) -> bool {
        self.measured(character, |m| m.exempt)
    }

    /// Width of the ink over a capital's height. A character without a glyph: that of its base without marks, or 0.8,
    /// or 1.6 where terminals give it two columns.
    #[must_use]
    pub fn width(&self, character: &Character) -> Proportion {
        self.measured(character, |m| Proportion { ratio: m.width, drawn: m.drawn })
    }

    /// Lowest point of the ink over a capital's height; below 0 for a descender.
    #[must_use]
    pub fn ink_bottom(&self, character: &Character) -> f64 {
        self.measured(character, |m| m.bottom)
    }

    /// Highest point of the ink over a capital's height.
    #[must_use]
    pub fn ink_top(&self, character: &Character) -> f64 {
        self.measured(character, |m| m.top)
    }

    /// Left and right edges of the ink, line by line.
    #[must_use]
    pub fn silhouette(&self, character: &Character) -> Silhouette {
        self.measured(character, |m| m.silhouette.clone())
    }

    /// The outline over a capital's height, from the ink's left edge and the feet line; `None` without a glyph.
    #[must_use]
    pub fn outline(&self, character: &Character) -> Option<Outline> {
        draw(self.font.as_ref()?, self.glyph(character)?, self.cap)
    }

    fn glyph(&self, character: &Character) -> Option<GlyphId> {
        let mut points = character.as_str().chars();
        let glyph = self.font.as_ref()?.glyph_index(points.next()?)?;
        // A cluster of several code points has no glyph of its own here; its base is close.
        Some(glyph)
    }

    fn measured<T>(&self, character: &Character, look: impl FnOnce(&Measured) -> T) -> T {
        if let &[byte] = character.as_str().as_bytes()
            && let Some(place) = self.plain.get(usize::from(byte))
        {
            return look(place.get_or_init(|| self.measure(character)));
        }
        if let Some(known) = self.others.read().unwrap_or_else(PoisonError::into_inner).get(character) {
            return look(known);
        }
        let fresh = self.measure(character);
        let answer = look(&fresh);
        self.others.write().unwrap_or_else(PoisonError::into_inner).insert(character.clone(), fresh);
        answer
    }

    fn measure(&self, character: &Character) -> Measured {
        let Some(outline) = self.outline(character).filter(|outline| outline.width() > 0.0) else {
            return Measured::fallback(character);
        };
        let square = (self.x_height / 2.0) * (self.x_height / 2.0);
        Measured {
            width: outline.width(),
            drawn: true,
            bottom: outline.bottom(),
            top: outline.top(),
            exempt: Class::of(character) == Class::Symbol && outline.largest_piece() < square,
            silhouette: outline.silhouette(),
        }
    }
}

impl Measured {
    /// Of a character that the face cannot draw.
    fn fallback(character: &Character) -> Self {
        let columns = unicode_width::UnicodeWidthStr::width(character.as_str());
        let width = if columns > 1 { 2.0 * FALLBACK_WIDTH } else { FALLBACK_WIDTH };
        let silhouette = Silhouette::block(width, 1.0);
        Self { width, drawn: false, bottom: 0.0, top: 1.0, exempt: false, silhouette }
    }
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
mod tests {
    use super::*;

    fn c(text: &str) -> Character {
        Character::new(text).unwrap()
    }

    #[test]
    fn bodies_by_class() {
        let face = Face::reference();
        assert!((face.body(&c("H")) - 1.0).abs() < 1e-9 && (face.body(&c("&")) - 1.0).abs() < 1e-9);
        assert!((0.6..0.9).contains(&face.body(&c("x"))));
        assert!(face.body(&c("b")) >= 1.0);
        assert!((face.body(&c("g")) - face.x_height()).abs() < 1e-9);
    }

    #[test]
    fn small_marks_are_exempt() {
        for mark in [".", ",", "-", "'", ":", ";", "\"", "·"] {
            assert!(Face::reference().is_exempt(&c(mark)), "{mark}");
        }
        for letter in ["A", "x", "i", "1", "&", "♥", "★", "!", "?", "漢"] {
            assert!(!Face::reference().is_exempt(&c(letter)), "{letter}");
        }
    }

    #[test]
    fn widths_and_fallbacks() {
        let face = Face::reference();
        assert!(face.width(&c("M")).ratio > face.width(&c("I")).ratio * 2.0);
        assert!(face.width(&c("É")).drawn);
        assert!(!face.width(&c("漢")).drawn && face.width(&c("漢")).ratio > 1.5);
        assert!(face.ink_bottom(&c("p")) < -0.1 && face.ink_bottom(&c("H")).abs() < 0.01);
    }
}
