//! Colours as screens and files name them, and how far apart two of them look.
//!
//! Must not know what is coloured.

use std::collections::HashMap;
use std::sync::{LazyLock, PoisonError, RwLock};

use palette::color_difference::{Ciede2000, Wcag21RelativeContrast};
use palette::white_point::D65;
use palette::{IntoColor, Srgb};

use super::Hundredths;

/// A colour in sRGB (IEC 61966-2-1), eight bits a channel.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Colour {
    /// Red, 0 to 255.
    pub r: u8,
    /// Green, 0 to 255.
    pub g: u8,
    /// Blue, 0 to 255.
    pub b: u8,
}

/// A colour in CIE L*a*b* under D65.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lab(palette::Lab<D65, f64>);

impl Colour {
    /// Black.
    pub const BLACK: Self = Self { r: 0, g: 0, b: 0 };
    /// White.
    pub const WHITE: Self = Self { r: 255, g: 255, b: 255 };

    /// Reads `#rrggbb` or `#rgb`, in any case.
    #[must_use]
    pub fn from_hex(text: &str) -> Option<Self> {
        let digits =
            text.strip_prefix('#').filter(|digits| digits.bytes().all(|byte| byte.is_ascii_hexdigit()))?;
        let value = u32::from_str_radix(digits, 16).ok()?;
        let [_, r, g, b] = value.to_be_bytes();
        let nibble = |shift: u32| u8::try_from(value >> shift & 15).unwrap_or(0) * 17;
        match digits.len() {
            6 => Some(Self { r, g, b }),
            3 => Some(Self { r: nibble(8), g: nibble(4), b: nibble(0) }),
            _ => None,
        }
    }

    /// `#rrggbb`.
    #[must_use]
    pub fn hex(self) -> String {
        format!("#{:02x}{:02x}{:02x}", self.r, self.g, self.b)
    }

    /// A keyword of the CSS list, in any case.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        let colour = palette::named::from_str(&name.to_ascii_lowercase())?;
        Some(Self { r: colour.red, g: colour.green, b: colour.blue })
    }

    /// The keyword of the CSS list that looks nearest, ties to the first of the list; one spelling of each (`grey`). A stash
    /// has few colours, and each is looked up once.
    #[must_use]
    pub fn nearest_name(self) -> &'static str {
        static KNOWN: LazyLock<RwLock<HashMap<Colour, &'static str>>> = LazyLock::new(RwLock::default);
        if let Some(&known) = KNOWN.read().unwrap_or_else(PoisonError::into_inner).get(&self) {
            return known;
        }
        let name = self.find_nearest_name();
        KNOWN.write().unwrap_or_else(PoisonError::into_inner).insert(self, name);
        name
    }

    fn find_nearest_name(self) -> &'static str {
        let lab = self.lab();
        let near = |row: &NamedColour| row.colour == self;
        let exact = NAMES.iter().find(|row| near(row));
        let by_look = || {
            NAMES.iter().min_by(|a, b| a.lab.difference_exact(lab).total_cmp(&b.lab.difference_exact(lab)))
        };
        exact.or_else(by_look).map_or("grey", |row| row.name)
    }

    /// In CIE L*a*b*.
    #[must_use]
    pub fn lab(self) -> Lab {
        Lab(self.srgb().into_linear().into_color())
    }

    /// The relative luminance of WCAG 2, 0 to 1.
    #[must_use]
    pub fn luminance(self) -> f64 {
        self.srgb().relative_luminance().luma
    }

    /// The contrast ratio of WCAG 2, 1 to 21, rounded to 0.01.
    #[must_use]
    pub fn contrast(self, other: Self) -> Hundredths {
        Hundredths::from_f64(self.srgb().relative_contrast(other.srgb()))
    }

    fn srgb(self) -> Srgb<f64> {
        Srgb::new(self.r, self.g, self.b).into_format()
    }

    /// So many tenths of the way to `other`, in sRGB: a shade, for drawing only.
    #[must_use]
    pub fn mixed(self, other: Self, tenths: u8) -> Self {
        let tenths = u32::from(tenths.min(10));
        let between = |from: u8, to: u8| {
            let sum = u32::from(from) * (10 - tenths) + u32::from(to) * tenths;
            u8::try_from((sum + 5) / 10).unwrap_or(to)
        };
        Self { r: between(self.r, other.r), g: between(self.g, other.g), b: between(self.b, other.b) }
    }

    /// Black or white, whichever reads better on it.
    #[must_use]
    pub fn readable_ink(self) -> Self {
        if self.contrast(Self::BLACK) >= self.contrast(Self::WHITE) { Self::BLACK } else { Self::WHITE }
    }
}

impl Lab {
    /// From its three coordinates.
    #[must_use]
    pub fn new(l: f64, a: f64, b: f64) -> Self {
        Self(palette::Lab::new(l, a, b))
    }

    /// Lightness, 0 to 100.
    #[must_use]
    pub fn l(self) -> f64 {
        self.0.l
    }

    /// Chroma: the distance from grey.
    #[must_use]
    pub fn chroma(self) -> f64 {
        libm::hypot(self.0.a, self.0.b)
    }

    /// The hue angle, from 0 up to 360 degrees.
    #[must_use]
    pub fn hue_degrees(self) -> f64 {
        let degrees = libm::atan2(self.0.b, self.0.a).to_degrees();
        if degrees < 0.0 { degrees + 360.0 } else { degrees }
    }

    /// The same hue and chroma at another lightness.
    #[must_use]
    pub fn at_lightness(self, l: f64) -> Self {
        Self::new(l, self.0.a, self.0.b)
    }

    /// The difference by CIEDE2000 (CIE 142-2001; Sharma, Wu and Dalal 2005), rounded to 0.01.
    #[must_use]
    pub fn difference(self, other: Self) -> Hundredths {
        Hundredths::from_f64(self.difference_exact(other))
    }

    /// The same, not rounded.
    #[must_use]
    pub fn difference_exact(self, other: Self) -> f64 {
        self.0.difference(other.0)
    }
}

/// A keyword of the CSS list.
struct NamedColour {
    name: &'static str,
    colour: Colour,
    lab: Lab,
}

/// The CSS keywords (CSS Color Module Level 4), once each colour, measured once.
static NAMES: LazyLock<Vec<NamedColour>> = LazyLock::new(|| {
    let mut names: Vec<NamedColour> = css_names()
        .filter(|(name, _)| !name.contains("gray") && !matches!(*name, "aqua" | "fuchsia"))
        .map(|(name, colour)| NamedColour { name, colour, lab: colour.lab() })
        .collect();
    names.sort_by_key(|row| row.name);
    names
});

/// Every keyword of the CSS list with its colour, both spellings of grey.
pub fn css_names() -> impl Iterator<Item = (&'static str, Colour)> {
    palette::named::entries()
        .map(|(name, colour)| (name, Colour { r: colour.red, g: colour.green, b: colour.blue }))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hex_and_names() {
        let slate = Colour { r: 0x2f, g: 0x3e, b: 0x46 };
        assert_eq!(Colour::from_hex("#2F3e46"), Some(slate));
        assert_eq!(slate.hex(), "#2f3e46");
        assert_eq!(Colour::from_hex("#fa0"), Some(Colour { r: 255, g: 170, b: 0 }));
        for text in ["2f3e46", "#2f3e4", "#+12345", "#", "#gggggg"] {
            assert_eq!(Colour::from_hex(text), None, "{text}");
        }
        assert_eq!(Colour::named("DarkSlateGrey"), Colour::named("darkslategray"));
        assert_eq!(Colour::named("mustard"), None);
        assert_eq!(Colour::named("teal").map(Colour::nearest_name), Some("teal"));
    }
}
