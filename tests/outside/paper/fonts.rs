//! The fonts of a page: what each code means, how wide it is, and its glyph (ISO 32000-1, 9.7).
//!
//! Must not know what is said.
#![expect(clippy::unwrap_used, reason = "a font that cannot be read back fails the test")]

use std::collections::BTreeMap;

use lopdf::{Dictionary, Document, Object};

use super::{entry, name, number, numbers, stream, within};

/// A font whose codes are two bytes.
#[derive(Debug, Clone, Default)]
pub(crate) struct Font {
    pub(crate) name: String,
    /// What each code means.
    pub(crate) meant: BTreeMap<u16, String>,
    /// In parts of the size of the face.
    pub(crate) widths: BTreeMap<u16, f64>,
    /// The glyph of each code.
    pub(crate) glyphs: Vec<u16>,
    /// The font file within.
    pub(crate) file: Vec<u8>,
}

/// The fonts that a page names.
pub(super) fn fonts(file: &Document, page: &Dictionary) -> BTreeMap<String, Font> {
    let resources = within(file, page, "Resources");
    let Some(fonts) = entry(file, resources, "Font") else { return BTreeMap::new() };
    let each = |(key, object): (&Vec<u8>, &Object)| {
        let font = file.dereference(object).unwrap().1.as_dict().unwrap();
        (String::from_utf8(key.clone()).unwrap(), read(file, font))
    };
    fonts.as_dict().unwrap().iter().map(each).collect()
}

fn read(file: &Document, font: &Dictionary) -> Font {
    assert_eq!(name(entry(file, font, "Subtype").unwrap()), "Type0");
    assert_eq!(name(entry(file, font, "Encoding").unwrap()), "Identity-H");
    let below = &entry(file, font, "DescendantFonts").unwrap().as_array().unwrap()[0];
    let below = file.dereference(below).unwrap().1.as_dict().unwrap();
    assert_eq!(name(entry(file, below, "Subtype").unwrap()), "CIDFontType2");
    let descriptor = within(file, below, "FontDescriptor");
    let map = stream(entry(file, below, "CIDToGIDMap").unwrap());
    Font {
        name: name(entry(file, font, "BaseFont").unwrap()),
        meant: meant(&String::from_utf8(stream(entry(file, font, "ToUnicode").unwrap())).unwrap()),
        widths: widths(entry(file, below, "W").unwrap()),
        glyphs: map.chunks(2).map(|pair| u16::from_be_bytes([pair[0], pair[1]])).collect(),
        file: stream(entry(file, descriptor, "FontFile2").unwrap()),
    }
}

/// The rows `<code> <text>` between `beginbfchar` and `endbfchar`.
fn meant(map: &str) -> BTreeMap<u16, String> {
    let parts = map.split("beginbfchar").skip(1).map(|rest| rest.split("endbfchar").next().unwrap());
    let mut meant = BTreeMap::new();
    for row in parts.flat_map(str::lines).filter(|row| row.starts_with('<')) {
        let mut digits = row.split(['<', '>']).filter(|part| !part.trim().is_empty());
        let code = u16::from_str_radix(digits.next().unwrap(), 16).unwrap();
        let units = digits.next().unwrap().as_bytes().chunks(4);
        let units: Vec<u16> =
            units.map(|unit| u16::from_str_radix(std::str::from_utf8(unit).unwrap(), 16).unwrap()).collect();
        assert!(meant.insert(code, String::from_utf16(&units).unwrap()).is_none(), "{row}");
    }
    meant
}

/// The form `first [widths]`.
fn widths(object: &Object) -> BTreeMap<u16, f64> {
    let mut widths = BTreeMap::new();
    for pair in object.as_array().unwrap().chunks(2) {
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a code of two bytes")]
        let first = number(&pair[0]) as u16;
        widths.extend((first..).zip(numbers(&pair[1]).into_iter().map(|width| width / 1000.0)));
    }
    widths
}
