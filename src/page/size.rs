//! Page sizes by name and by measure.
//!
//! Must not know what lies on a page.

use crate::measure::{Length, LengthError, Size, Unit};

/// Page sizes that go by a name, with their width and height. A4 and A5: ISO 216. Letter: ASME Y14.1 size A. The album
/// sizes: common practice, no source.
pub const PAGE_SIZES: [(&str, Size); 7] = [
    ("12 x 12 in", inches(12, 12)),
    ("8 x 8 in", inches(8, 8)),
    ("8.5 x 11 in", Size { width: Length::from_nm(215_900_000), height: Length::from_nm(279_400_000) }),
    ("6 x 8 in", inches(6, 8)),
    ("A4", Size { width: Length::from_mm(210), height: Length::from_mm(297) }),
    ("A5", Size { width: Length::from_mm(148), height: Length::from_mm(210) }),
    ("letter", Size { width: Length::from_nm(215_900_000), height: Length::from_nm(279_400_000) }),
];

/// Nanometres in an inch.
const INCH: i64 = 25_400_000;

const fn inches(width: i64, height: i64) -> Size {
    Size { width: Length::from_nm(width * INCH), height: Length::from_nm(height * INCH) }
}

/// Why a text is no page size.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum PageSizeError {
    /// Neither a name nor two lengths.
    #[error("{0:?} is no page size; write \"12 x 12 in\", \"300 x 300 mm\", \"A4\", \"A5\" or \"letter\"")]
    Unknown(String),
    /// A side is no length, or out of range.
    #[error("a side of the page: {0}")]
    Side(LengthError),
}

/// Reads a page size: a name of [`PAGE_SIZES`] in any case, or `WIDTH x HEIGHT` as [`two_sides`] does.
///
/// # Errors
/// When it is neither, or a side is not above 0 and at most 1 m.
pub fn page_size(text: &str, bare: Unit) -> Result<Size, PageSizeError> {
    let text = text.trim();
    if let Some((_, size)) = PAGE_SIZES.iter().find(|(name, _)| name.eq_ignore_ascii_case(text)) {
        return Ok(*size);
    }
    let sides = two_sides(text, bare).ok_or_else(|| PageSizeError::Unknown(text.into()))?;
    let Size { width, height } = sides.map_err(PageSizeError::Side)?;
    let side = |side: Length| side.as_page_side().map_err(PageSizeError::Side);
    Ok(Size { width: side(width)?, height: side(height)? })
}

/// Reads `WIDTH x HEIGHT`: a unit after the second side serves both, and `bare` serves where there is none. `None` where
/// there is no `x` between two sides.
///
/// # Errors
/// When a side is no length.
#[must_use]
pub fn two_sides(text: &str, bare: Unit) -> Option<Result<Size, LengthError>> {
    let (width, height) = text.split_once(['x', 'X', '×'])?;
    let second_unit = if height.contains(['"', '”', '″']) || height.contains("in") {
        Unit::Inch
    } else if height.contains("mm") || height.contains("cm") {
        Unit::Millimetre
    } else {
        bare
    };
    // `30 x 30 cm`: the unit of the second side goes to a bare first one.
    let width = if height.contains("cm") && !width.contains(char::is_alphabetic) {
        format!("{} cm", width.trim())
    } else {
        width.to_owned()
    };
    let sides = Length::parse(&width, second_unit)
        .and_then(|width| Ok(Size { width, height: Length::parse(height, bare)? }));
    Some(sides)
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
mod tests {
    use super::*;

    #[test]
    fn names_and_measures() {
        for (name, size) in PAGE_SIZES {
            assert_eq!(page_size(name, Unit::Millimetre), Ok(size));
        }
        let square = page_size("300 x 300 mm", Unit::Inch).unwrap();
        assert_eq!(square.width, Length::from_mm(300));
        assert_eq!(page_size("30 x 30 cm", Unit::Inch).unwrap(), square);
        assert_eq!(page_size("300x300", Unit::Millimetre).unwrap(), square);
        assert_eq!(page_size("a4", Unit::Inch).unwrap().height, Length::from_mm(297));
    }

    #[test]
    fn what_is_no_page_is_told() {
        assert!(matches!(page_size("square", Unit::Millimetre), Err(PageSizeError::Unknown(_))));
        assert!(matches!(page_size("2 x 2000 mm", Unit::Millimetre), Err(PageSizeError::Side(_))));
        assert!(matches!(page_size("0 x 20 mm", Unit::Millimetre), Err(PageSizeError::Side(_))));
    }
}
