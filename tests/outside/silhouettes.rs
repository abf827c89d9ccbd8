//! Edges of the ink, line by line, against glyphs drawn by a general-purpose rasteriser, the crate `ab_glyph`.
//!
//! Must not know how the program finds an edge.
#![expect(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a glyph that cannot be drawn, or drawn otherwise, fails the test"
)]
#![expect(clippy::cast_precision_loss, reason = "pixels of a small picture")]

use ab_glyph::{Font, FontRef, PxScale};
use oddment::letter::{Character, Face, SCAN_LINES};

/// Rows from the top: the first and last pixel with ink, as distances from the leftmost ink.
struct Picture {
    rows: Vec<Option<(f64, f64)>>,
    /// Pixels from the feet line up to the top of the picture.
    top: f64,
}

fn picture(font: &FontRef<'_>, text: &str) -> Picture {
    let glyph = font.glyph_id(text.chars().next().unwrap()).with_scale(PxScale::from(SCALE));
    let outlined = font.outline_glyph(glyph).unwrap();
    let mut rows: Vec<Option<(f64, f64)>> = Vec::new();
    outlined.draw(|x, y, ink| {
        rows.resize(rows.len().max(y as usize + 1), None);
        if ink > 0.5 {
            let (left, right) = rows[y as usize].unwrap_or((f64::INFINITY, 0.0));
            rows[y as usize] = Some((left.min(f64::from(x)), right.max(f64::from(x) + 1.0)));
        }
    });
    let start = rows.iter().flatten().map(|edges| edges.0).fold(f64::INFINITY, f64::min);
    let rows = rows.into_iter().map(|row| row.map(|(left, right)| (left - start, right - start)));
    Picture { rows: rows.collect(), top: -f64::from(outlined.px_bounds().min.y) }
}

const SCALE: f32 = 800.0;
/// Pixels by which an edge may differ: the picture's own grid, on both sides.
const SLACK: f64 = 2.5;

#[test]
fn edges_lie_where_a_rasteriser_draws_them() {
    let font = FontRef::try_from_slice(dejavu::sans::bold()).unwrap();
    let capital = picture(&font, "H").rows.iter().flatten().count() as f64;
    let mut compared = 0;
    for text in ('0'..='9').chain('A'..='Z').chain('a'..='z').chain("&?!É".chars()).map(String::from) {
        let silhouette = Face::reference().silhouette(&Character::new(&text).unwrap());
        let drawn = picture(&font, &text);
        for line in 0..SCAN_LINES {
            let up = -0.5 + (line as f64 + 0.5) / SCAN_LINES as f64 * 2.0;
            let row = (drawn.top - up * capital).floor();
            #[expect(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "a row, checked below"
            )]
            let at =
                |row: f64| (row >= 0.0).then(|| drawn.rows.get(row as usize).copied()).flatten().flatten();
            let (above, here, below) = (at(row - 2.0), at(row), at(row + 2.0));
            let near = |a: f64, b: f64| (a - b).abs() < SLACK * 2.0;
            // Where a bar begins or a bowl closes the edge leaps, and one row decides nothing.
            let steady = match (above, here, below) {
                (None, None, None) => true,
                (Some(a), Some(h), Some(b)) => {
                    near(a.0, h.0) && near(b.0, h.0) && near(a.1, h.1) && near(b.1, h.1)
                }
                _ => false,
            };
            if !steady {
                continue;
            }
            compared += 1;
            match (silhouette.at(up), here) {
                (None, None) => {}
                (Some((left, right)), Some(drawn)) => {
                    let off = (left * capital - drawn.0).abs().max((right * capital - drawn.1).abs());
                    assert!(off <= SLACK, "{text} at {up:.3}: off by {off:.1} of {capital} pixels");
                }
                (ours, theirs) => panic!("{text} at {up:.3}: {ours:?} and {theirs:?}"),
            }
        }
    }
    assert!(compared > 3500, "{compared} lines of 66 characters");
}
