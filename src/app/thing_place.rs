//! Sizes and places of things as they are typed, and those that they have where none is typed.
//!
//! Must not know the rest of a typed line.

use crate::measure::{Angle, Length, Point, Size, Tint, Unit};
use crate::page::{Element, Kind, Lie, Page, two_sides};

/// How much larger than what lies on it a mat is, all round (common practice, no source).
pub(super) const MAT: Length = Length::from_mm(4);

/// `152.4 x 101.6 mm`, or `6 x 4 in` where that is exact.
pub(super) fn spell_size(size: Size, unit: Unit) -> String {
    let side = |length: Length| spell_length(length, unit);
    let (width, height) = (side(size.width), side(size.height));
    match (width.split_once(' '), height.rsplit_once(' ')) {
        (Some((number, one)), Some((_, other))) if one == other => format!("{number} x {height}"),
        _ => format!("{width} x {height}"),
    }
}

/// A length as it can be typed again without loss.
pub(super) fn spell_length(length: Length, unit: Unit) -> String {
    let shown = length.show(unit);
    if unit == Unit::Inch && Length::parse(&shown, unit) == Ok(length) { shown } else { length.number() }
}

/// That a thing can lie so: that its sides and its place are such as a plan can hold.
pub(super) fn can_lie(lie: &Lie) -> Result<(), String> {
    let sides = [lie.size.width, lie.size.height].map(Length::as_page_side);
    let places = [lie.at.x, lie.at.y].map(Length::as_offset);
    sides.into_iter().chain(places).try_for_each(|length| length.map(drop)).map_err(|error| error.to_string())
}

/// A mat `by` larger all round than `thing`, turned like it; else why there can be none.
pub(super) fn mat_under(thing: &Element, by: Length, colours: Vec<Tint>) -> Result<Element, String> {
    let Lie { at, size, turn, outline } = thing.lie;
    let at = Point { x: at.x - by, y: at.y - by };
    let size = Size { width: size.width + by * 2, height: size.height + by * 2 };
    let lie = Lie { at, size, turn, outline };
    can_lie(&lie).map_err(|error| format!("the mat: {error}"))?;
    Ok(Element { name: None, kind: Kind::Mat, original: false, lie, colours, cover: None, bed: None })
}

/// Reads a size: two sides, or one for a square.
pub(super) fn read_size(text: &str, unit: Unit) -> Result<Size, String> {
    let sides = two_sides(text, unit)
        .unwrap_or_else(|| Length::parse(text, unit).map(|side| Size { width: side, height: side }));
    let Size { width, height } = sides.map_err(|error| error.to_string())?;
    let side = |side: Length| {
        side.as_size().and_then(Length::as_page_side).map_err(|error| format!("a side of it: {error}"))
    };
    let size = Size { width: side(width)?, height: side(height)? };
    if unit == Unit::Millimetre && is_bare(text) && width.max(height) < SMALL {
        return Err(format!(
            "{} mm would be very small; write the unit, such as {} in",
            text.trim(),
            text.trim()
        ));
    }
    Ok(size)
}

/// A size below this without a unit was probably meant in inches.
pub(super) const SMALL: Length = Length::from_mm(20);

/// Whether a text tells no unit.
pub(super) fn is_bare(text: &str) -> bool {
    text.chars()
        .all(|c| c.is_numeric() || c.is_whitespace() || matches!(c, 'x' | 'X' | '×' | '.' | '/' | '-' | ','))
}

/// Reads `X, Y`, and where a third follows the turn in degrees. A unit after the second serves both.
pub(super) fn read_place(text: &str, unit: Unit) -> Result<(Point, Option<Angle>), String> {
    let wrong = || "write how far from the left and from the top edge, such as: 40, 110 mm".to_owned();
    let parts: Vec<&str> = if text.contains(',') {
        text.split(',').map(str::trim).collect()
    } else {
        text.split_whitespace().collect()
    };
    let (x, y, turn) = match parts.as_slice() {
        [x, y] => (*x, (*y).to_owned(), None),
        [x, y, unit @ ("mm" | "cm" | "in")] => (*x, format!("{y} {unit}"), None),
        [x, y, turn] => (*x, (*y).to_owned(), Some(read_turn(turn)?)),
        _ => return Err(wrong()),
    };
    let both = y.trim_start_matches(|c: char| !c.is_alphabetic() && c != '"').trim();
    let bare = Unit::parse(both).unwrap_or(unit);
    let x = if both == "cm" && !x.contains(char::is_alphabetic) { format!("{x} cm") } else { x.to_owned() };
    let offset =
        |text: &str| Length::parse(text, bare).and_then(Length::as_offset).map_err(|error| error.to_string());
    Ok((Point { x: offset(&x)?, y: offset(&y)? }, turn))
}

pub(super) fn read_turn(word: &str) -> Result<Angle, String> {
    let degrees = word.trim_end_matches('°').parse().ok().and_then(Angle::from_degrees);
    degrees.ok_or_else(|| format!("{word:?} is no turn; write degrees, clockwise, such as 2 or -3.5"))
}

/// The size that a thing of this kind has where none is typed (house).
pub(super) fn usual_size(kind: Kind, page: &Page) -> Size {
    let (width, height) = match kind {
        Kind::Photo => {
            return Size { width: Length::from_nm(152_400_000), height: Length::from_nm(101_600_000) };
        }
        Kind::Mat => (160, 110),
        Kind::Paper => (200, 100),
        Kind::Border => {
            let across = page.size.map_or(Length::from_mm(300), |size| size.width);
            return Size { width: across, height: Length::from_mm(12) };
        }
        Kind::Embellishment => (30, 30),
        Kind::Journaling => (76, 50),
        Kind::Label => (48, 14),
    };
    Size { width: Length::from_mm(width), height: Length::from_mm(height) }
}

/// The middle of the page, a border at its lower edge; a little beside what lies at the same place already.
pub(super) fn usual_place(kind: Kind, size: Size, page: &Page) -> Point {
    let usual = Length::from_mm(305);
    let within = page.size.unwrap_or(Size { width: usual, height: usual });
    let middle =
        |whole: Length, own: Length| Length::from_nm(((whole - own) / 2).nm().div_euclid(100_000) * 100_000);
    let x = middle(within.width, size.width);
    let y = if kind == Kind::Border {
        within.height - size.height - page.margin
    } else {
        middle(within.height, size.height)
    };
    let mut at = Point { x, y };
    let beside = Length::from_mm(if kind == Kind::Border { -10 } else { 10 });
    while page.elements.iter().any(|other| other.lie.at == at) {
        at = Point { x: if kind == Kind::Border { at.x } else { at.x + beside }, y: at.y + beside };
    }
    at
}
