//! Spans of bands: where letters can serve, and the bands that are worth a try.
//!
//! Must not know which letters they are.

/// The bands from one up to, not including, another, in which something numbered serves.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Span {
    /// The number of what serves, or of what it serves for.
    pub(super) number: u32,
    /// The first band.
    pub(super) from: u16,
    /// One past the last.
    pub(super) to: u16,
}

/// For each character, band by band: whether spans begin and end there, and how many letters there are.
pub(super) struct Spans {
    bands: usize,
    begins: Vec<bool>,
    ends: Vec<bool>,
    have: Vec<u32>,
}

impl Spans {
    /// Looks through lots, each with how many letters it has and the characters that it serves for.
    pub(super) fn new<'a>(
        characters: usize,
        bands: usize,
        lots: impl Iterator<Item = (u32, &'a [Span])>,
    ) -> Self {
        let size = characters * bands;
        let mut spans =
            Self { bands, begins: vec![false; size], ends: vec![false; size], have: vec![0; size] };
        for (left, serves) in lots {
            for span in serves {
                let row = span.number as usize * bands;
                let (from, to) = (row + usize::from(span.from), row + usize::from(span.to));
                spans.have[from..to].iter_mut().for_each(|have| *have += left);
                if to - from < bands && from < to {
                    spans.begins[from] = true;
                    spans.ends[to - 1] = true;
                }
            }
        }
        spans
    }

    /// The bands that have enough of each character, none of which offers only what another offers too: each is the last before
    /// some letters end, with letters that begin since the one before. From low to high.
    pub(super) fn options(&self, needs: &[(u16, u32)]) -> Vec<u16> {
        let any = |marks: &[bool], band: usize| needs.iter().any(|need| marks[self.at(need.0, band)]);
        let mut options = Vec::new();
        let mut is_new = true;
        for band in 0..self.bands {
            is_new |= any(&self.begins, band);
            // Letters without heights neither begin nor end: then the last band speaks for all.
            if is_new && (band + 1 == self.bands || any(&self.ends, band)) {
                is_new = false;
                if needs.iter().all(|&(character, letters)| self.have[self.at(character, band)] >= letters) {
                    options.extend(u16::try_from(band));
                }
            }
        }
        options
    }

    fn at(&self, character: u16, band: usize) -> usize {
        usize::from(character) * self.bands + band
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn span(number: u32, from: u16, to: u16) -> Span {
        Span { number, from, to }
    }

    #[test]
    fn a_band_that_another_one_holds_is_left_out() {
        let lots = [vec![span(0, 0, 2)], vec![span(0, 1, 4)], vec![span(1, 0, 4)], vec![span(0, 3, 4)]];
        let spans = Spans::new(2, 4, lots.iter().map(|serves| (1, &serves[..])));
        assert_eq!(spans.options(&[(0, 1)]), [1, 3], "0 offers what 1 offers, 2 what 3 does");
        assert_eq!(spans.options(&[(0, 2)]), [1, 3]);
        assert_eq!(spans.options(&[(0, 1), (1, 2)]), [] as [u16; 0], "of the mark there is one");
        assert_eq!(spans.options(&[(1, 1)]), [3], "any band will do for a mark");
    }
}
