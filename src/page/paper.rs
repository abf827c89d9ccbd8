//! The paper that an order is printed on.
//!
//! Must not know what is printed.

use crate::measure::{Length, Size, Unit};
use crate::words::words;

words! {
    /// A size of paper to print on.
    Paper {
        /// A4 (ISO 216): 210 x 297 mm.
        A4 = "a4",
        /// US Letter (ASME Y14.1, size A): 8.5 x 11 in.
        Letter = "letter",
        /// As large as the album page itself.
        Page = "page",
    }
}

/// No side of a sheet is shorter: the check bar of 4 in must find room beside the margins that printers keep.
pub const SHORTEST_SIDE: Length = Length::from_mm(125);

/// Why a paper will not do.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum PaperError {
    /// The page has no size.
    #[error("the plan gives no page size; choose a4 or letter, or give the plan a size")]
    NoPage,
    /// The page is too small to print on.
    #[error("the page is {0} x {1}: too small for the check bars, which need 125 mm; choose a4 or letter")]
    Small(String, String),
}

impl Paper {
    /// The paper at hand where lengths are told in `unit` (common practice, no source).
    #[must_use]
    pub const fn usual(unit: Unit) -> Self {
        match unit {
            Unit::Millimetre => Self::A4,
            Unit::Inch => Self::Letter,
        }
    }

    /// How large a sheet of it is, upright, for a page of `page`; lengths in an error are in `unit`.
    ///
    /// # Errors
    /// When it is the page's own, and that has no size or is shorter than [`SHORTEST_SIDE`].
    pub fn size(self, page: Option<Size>, unit: Unit) -> Result<Size, PaperError> {
        match self {
            Self::A4 => Ok(Size { width: Length::from_mm(210), height: Length::from_mm(297) }),
            Self::Letter => {
                Ok(Size { width: Length::from_nm(215_900_000), height: Length::from_nm(279_400_000) })
            }
            Self::Page => {
                let size = page.ok_or(PaperError::NoPage)?;
                if size.width.min(size.height) < SHORTEST_SIDE {
                    return Err(PaperError::Small(size.width.show(unit), size.height.show(unit)));
                }
                Ok(size)
            }
        }
    }
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
mod tests {
    use super::*;

    #[test]
    fn the_pages_own_paper_must_be_there_and_large_enough() {
        let square = |mm| Some(Size { width: Length::from_mm(mm), height: Length::from_mm(mm) });
        assert_eq!(Paper::Page.size(None, Unit::Millimetre), Err(PaperError::NoPage));
        assert_eq!(Paper::Page.size(square(200), Unit::Millimetre).unwrap(), square(200).unwrap());
        let small = Paper::Page.size(square(100), Unit::Millimetre).unwrap_err();
        assert!(small.to_string().starts_with("the page is 100.0 mm x 100.0 mm: too small"), "{small}");
    }
}
