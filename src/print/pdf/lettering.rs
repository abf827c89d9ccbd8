//! The faces in the file: the characters that are used, and only those, each under a code of its own.
//!
//! Must not know what is said, nor where.

use std::borrow::Cow;
use std::collections::BTreeSet;

use pdf_writer::types::{CidFontType, FontFlags, SystemInfo, UnicodeCmap};
use pdf_writer::{Filter, Finish, Name, Pdf, Rect, Ref, Str};
use subsetter::{GlyphRemapper, subset};

use crate::print::{Face, Mark, Sheet};

use super::packed::packed;

/// What a font's codes stand for: themselves (ISO 32000-1, 9.7.4.2).
const IDENTITY: SystemInfo =
    SystemInfo { registry: Str(b"Adobe"), ordering: Str(b"Identity"), supplement: 0 };

/// The characters that sheets use of each face, in the order of their codes. A code is a character's, not a glyph's: were two
/// to share a glyph, each would still be found and copied as itself.
pub(super) struct Lettering {
    used: [Vec<char>; 2],
}

impl Lettering {
    pub(super) fn of(sheets: &[Sheet]) -> Self {
        let mut used = [BTreeSet::new(), BTreeSet::new()];
        for mark in sheets.iter().flat_map(|sheet| &sheet.pieces).flat_map(|piece| &piece.marks) {
            if let Mark::Words(words) = mark {
                used[words.face as usize].extend(words.as_seen().chars());
            }
        }
        Self { used: Face::ALL.map(|face| known(face, &used[face as usize])) }
    }

    /// `text` in codes of two bytes; what the face lacks is left out, as [`Face::width`] does.
    pub(super) fn codes(&self, face: Face, text: &str) -> Vec<u8> {
        let used = &self.used[face as usize];
        let code = |c| used.binary_search(&c).ok().map(|place| code(place).to_be_bytes());
        text.chars().filter_map(code).flatten().collect()
    }

    /// Writes the faces that are used, and returns under which number each.
    pub(super) fn write(&self, pdf: &mut Pdf, next: &mut Ref) -> Vec<(Face, Ref)> {
        let mut written = Vec::new();
        for face in Face::ALL {
            let used = &self.used[face as usize];
            if !used.is_empty() {
                written.push((face, write(face, used, pdf, next)));
            }
        }
        written
    }
}

/// The name of a face on a page.
pub(super) fn name(face: Face) -> Name<'static> {
    match face {
        Face::Plain => Name(b"Plain"),
        Face::Strong => Name(b"Strong"),
    }
}

/// Those that the face has, and a space if there are any: lines of a paragraph are joined by it.
fn known(face: Face, used: &BTreeSet<char>) -> Vec<char> {
    let mut known: BTreeSet<char> = used.iter().copied().filter(|&c| face.glyph(c).is_some()).collect();
    if !known.is_empty() {
        known.insert(' ');
    }
    known.into_iter().collect()
}

/// The code of the character at a place; 0 is left for what is none. No face has so many characters as to run out.
fn code(place: usize) -> u16 {
    u16::try_from(place + 1).unwrap_or(0)
}

fn write(face: Face, used: &[char], pdf: &mut Pdf, next: &mut Ref) -> Ref {
    let [whole, font, descriptor, file, glyphs, text] = std::array::from_fn(|_| next.bump());
    let named = [tag(used), postscript_name(face).into()].concat();
    let base = Name(&named);
    let (data, map) = embedded(face, used);
    pdf.type0_font(whole)
        .base_font(base)
        .encoding_predefined(Name(b"Identity-H"))
        .descendant_font(font)
        .to_unicode(text);
    let mut cid = pdf.cid_font(font);
    cid.subtype(CidFontType::Type2).base_font(base).system_info(IDENTITY).font_descriptor(descriptor);
    cid.widths()
        .consecutive(1, used.iter().map(|c| face.width(c.encode_utf8(&mut [0; 4]), 1.0)).map(thousandths));
    cid.cid_to_gid_map_stream(glyphs);
    cid.finish();
    describe(face, base, pdf, descriptor, file);
    let length = i32::try_from(data.len()).unwrap_or(i32::MAX);
    pdf.stream(file, &packed(&data)).filter(Filter::FlateDecode).pair(Name(b"Length1"), length);
    pdf.stream(glyphs, &packed(&map)).filter(Filter::FlateDecode);
    let mut meant = UnicodeCmap::new(Name(b"Meant"), IDENTITY);
    for (place, &c) in used.iter().enumerate() {
        meant.pair(code(place), c);
    }
    pdf.cmap(text, meant.finish().as_slice()).name(Name(b"Meant")).system_info(IDENTITY);
    whole
}

/// The font file with no more than the glyphs of `used`, and the glyph of each code in two bytes. Were it impossible to
/// leave anything out, which a test rules out, the whole file.
fn embedded(face: Face, used: &[char]) -> (Cow<'static, [u8]>, Vec<u8>) {
    let glyphs = used.iter().map(|&c| face.glyph(c).map_or(0, |glyph| glyph.0));
    let mut kept = GlyphRemapper::new();
    let fresh: Vec<u16> = glyphs.clone().map(|glyph| kept.remap(glyph)).collect();
    let (data, glyphs) = match subset(face.data(), 0, &kept) {
        Ok(data) => (Cow::Owned(data), fresh),
        Err(_) => (Cow::Borrowed(face.data()), glyphs.collect()),
    };
    (data, [0].into_iter().chain(glyphs).flat_map(u16::to_be_bytes).collect())
}

fn describe(face: Face, base: Name, pdf: &mut Pdf, descriptor: Ref, file: Ref) {
    let mut written = pdf.font_descriptor(descriptor);
    written.name(base).flags(FontFlags::SYMBOLIC).italic_angle(0.0).font_file2(file);
    let Some(font) = face.font() else { return };
    let of_em = |units: i16| thousandths(f64::from(units) / f64::from(font.units_per_em()));
    let reach = font.global_bounding_box();
    let capital =
        face.glyph('H').and_then(|glyph| font.glyph_bounding_box(glyph)).map_or(0, |reach| reach.y_max);
    let stem =
        face.glyph('l').and_then(|glyph| font.glyph_bounding_box(glyph)).map_or(0, |reach| reach.width());
    written
        .bbox(Rect::new(of_em(reach.x_min), of_em(reach.y_min), of_em(reach.x_max), of_em(reach.y_max)))
        .ascent(of_em(font.ascender()))
        .descent(of_em(font.descender()))
        .cap_height(of_em(capital))
        .stem_v(of_em(stem));
}

/// Of the size of a face, in the thousandths that PDF tells widths in, to a hundredth of one.
#[expect(clippy::cast_possible_truncation, reason = "a width of at most a few thousand")]
fn thousandths(of_em: f64) -> f32 {
    ((of_em * 100_000.0).round() / 100.0) as f32
}

const fn postscript_name(face: Face) -> &'static [u8] {
    match face {
        Face::Plain => b"DejaVuSans",
        Face::Strong => b"DejaVuSans-Bold",
    }
}

/// Six capitals that tell one choice of characters from another, and a plus sign (ISO 32000-1, 9.6.4). By FNV-1a (Fowler,
/// Noll and Vo; constants from memory).
fn tag(used: &[char]) -> Vec<u8> {
    let mix = |sum: u64, &c: &char| (sum ^ u64::from(u32::from(c))).wrapping_mul(0x0100_0000_01b3);
    let mut sum = used.iter().fold(0xcbf2_9ce4_8422_2325, mix);
    let mut tag = Vec::with_capacity(7);
    for _ in 0..6 {
        tag.push((b'A'..=b'Z').nth((sum % 26) as usize).unwrap_or(b'A'));
        sum /= 26;
    }
    tag.push(b'+');
    tag
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_faces_can_be_cut_down() {
        for face in Face::ALL {
            let used = ['A', 'z', 'é', '★'];
            let (data, map) = embedded(face, &used);
            assert!(data.len() < face.data().len() / 10, "{}", data.len());
            assert_eq!(map.len(), 2 * (used.len() + 1));
        }
    }

    #[test]
    fn characters_that_share_a_glyph_keep_their_own_codes() {
        let lettering = Lettering { used: [vec![' ', 'Α'], vec![]] };
        assert_eq!(lettering.codes(Face::Plain, "Α 漢"), [0, 2, 0, 1]);
        // No two characters of these faces share a glyph, so one stands in for two.
        assert_eq!(embedded(Face::Plain, &['A', 'A']).1, [0, 0, 0, 1, 0, 1]);
    }

    #[test]
    fn a_choice_of_characters_has_its_tag() {
        assert_eq!(tag(&['a']), tag(&['a']));
        assert_ne!(tag(&['a']), tag(&['a', 'b']));
        assert!(tag(&['★'])[..6].iter().all(u8::is_ascii_uppercase));
    }
}
