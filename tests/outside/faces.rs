//! The reference face against another face and against a general-purpose rasteriser.
//!
//! Must not know how the program reads its face.
#![expect(clippy::unwrap_used, reason = "a published figure that cannot be read fails the test")]

use ab_glyph::{Font, FontRef, Glyph, PxScale};
use oddment::letter::{Character, Evidence, Face, STAND_INS, StandInKind, Turn};

/// Helvetica-Bold of Adobe's core-14 font metrics (Helvetica-Bold.afm, version 002.000, as PyPI matplotlib 3.11.2 carries
/// it): character, width of its bounding box, lower and upper edge, in thousandths of an em. Capital height 718,
/// x-height 532.
const HELVETICA_BOLD: [(&str, i16, i16, i16); 63] = [
    ("&", 647, -19, 718),
    ("0", 492, -19, 710),
    ("1", 309, 0, 710),
    ("2", 485, 0, 710),
    ("3", 489, -19, 710),
    ("4", 499, 0, 710),
    ("5", 489, -19, 698),
    ("6", 489, -19, 710),
    ("7", 503, 0, 698),
    ("8", 492, -19, 710),
    ("9", 492, -19, 710),
    ("A", 682, 0, 718),
    ("B", 593, 0, 718),
    ("C", 640, -19, 737),
    ("D", 609, 0, 718),
    ("E", 545, 0, 718),
    ("F", 511, 0, 718),
    ("G", 669, -19, 737),
    ("H", 580, 0, 718),
    ("I", 150, 0, 718),
    ("J", 462, -18, 718),
    ("K", 635, 0, 718),
    ("L", 507, 0, 718),
    ("M", 696, 0, 718),
    ("N", 585, 0, 718),
    ("O", 690, -19, 737),
    ("P", 551, 0, 718),
    ("Q", 693, -52, 737),
    ("R", 601, 0, 718),
    ("S", 590, -19, 737),
    ("T", 584, 0, 718),
    ("U", 579, -19, 718),
    ("V", 629, 0, 718),
    ("W", 913, 0, 718),
    ("X", 639, 0, 718),
    ("Y", 638, 0, 718),
    ("Z", 561, 0, 718),
    ("a", 498, -14, 546),
    ("b", 517, -14, 718),
    ("c", 490, -14, 546),
    ("d", 517, -14, 718),
    ("e", 505, -14, 546),
    ("f", 308, 0, 727),
    ("g", 513, -217, 546),
    ("h", 481, 0, 718),
    ("i", 140, 0, 725),
    ("j", 206, -214, 725),
    ("k", 493, 0, 718),
    ("l", 140, 0, 718),
    ("m", 762, 0, 546),
    ("n", 481, 0, 546),
    ("o", 544, -14, 546),
    ("p", 516, -207, 546),
    ("q", 518, -207, 546),
    ("r", 309, 0, 546),
    ("s", 489, -14, 546),
    ("t", 299, -6, 676),
    ("u", 479, -14, 532),
    ("v", 530, 0, 532),
    ("w", 759, 0, 532),
    ("x", 526, 0, 532),
    ("y", 529, -214, 532),
    ("z", 460, 0, 532),
];
const CAPITAL: f64 = 718.0;
const X_HEIGHT: f64 = 532.0;

fn ranks(values: &[f64]) -> Vec<f64> {
    let below = |value: f64| values.iter().filter(|&&other| other < value).count();
    let same = |value: f64| values.iter().filter(|&&other| (other - value).abs() < 1e-9).count();
    #[expect(clippy::cast_precision_loss, reason = "63 letters")]
    let rank = |value: f64| below(value) as f64 + (same(value) as f64 - 1.0) / 2.0;
    values.iter().map(|&value| rank(value)).collect()
}

fn correlation(a: &[f64], b: &[f64]) -> f64 {
    #[expect(clippy::cast_precision_loss, reason = "63 letters")]
    let mean = |values: &[f64]| values.iter().sum::<f64>() / values.len() as f64;
    let (mean_a, mean_b) = (mean(a), mean(b));
    let product = |x: &[f64], y: &[f64], mx: f64, my: f64| {
        x.iter().zip(y).map(|(x, y)| (x - mx) * (y - my)).sum::<f64>()
    };
    product(a, b, mean_a, mean_b) / (product(a, a, mean_a, mean_a) * product(b, b, mean_b, mean_b)).sqrt()
}

/// Widths over a capital's height: the same order as in another bold sans face, and no letter far off. Measured: rank
/// correlation 0.92, largest difference 0.275 of a capital's height.
#[test]
fn widths_go_with_another_faces() {
    let face = Face::reference();
    let ours: Vec<f64> =
        HELVETICA_BOLD.iter().map(|row| face.width(&Character::new(row.0).unwrap()).ratio).collect();
    let theirs: Vec<f64> = HELVETICA_BOLD.iter().map(|row| f64::from(row.1) / CAPITAL).collect();
    let rank = correlation(&ranks(&ours), &ranks(&theirs));
    let far = ours.iter().zip(&theirs).map(|(a, b)| (a - b).abs()).fold(0.0, f64::max);
    assert!(rank > 0.91, "rank correlation {rank:.3}");
    assert!(far < 0.28, "largest difference {far:.3}");
}

/// Bodies: x-height and ascenders over a capital's height are within a tenth of the other face's, and which letters
/// hang below the line is the same.
#[test]
fn bodies_go_with_another_faces() {
    let face = Face::reference();
    assert!((face.x_height() - X_HEIGHT / CAPITAL).abs() < 0.1, "x-height {:.3}", face.x_height());
    for (text, _, bottom, top) in HELVETICA_BOLD {
        let character = Character::new(text).unwrap();
        let hangs = face.ink_bottom(&character) < -0.1;
        // The tail of Q and the hook of J hang in one face and not in the other.
        assert!(hangs == (bottom < -100) || matches!(text, "Q" | "J"), "{text}");
        if text.chars().all(|c| c.is_ascii_lowercase()) && !matches!(text, "i" | "j" | "t") {
            let body = face.body(&character);
            assert!((body - f64::from(top) / CAPITAL).abs() < 0.1, "{text}: body {body:.3}");
        }
    }
}

/// Pixels of a glyph, drawn by the crate `ab_glyph`, its ink box in the middle of the picture.
fn picture(text: &str, half_turn: bool) -> Vec<bool> {
    const SIDE: usize = 240;
    let font = FontRef::try_from_slice(dejavu::sans::bold()).unwrap();
    let glyph: Glyph = font.glyph_id(text.chars().next().unwrap()).with_scale(PxScale::from(200.0));
    let outlined = font.outline_glyph(glyph).unwrap();
    let bounds = outlined.px_bounds();
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "pixels of a small picture")]
    let margin = [bounds.width(), bounds.height()].map(|extent| (SIDE - extent as usize) / 2);
    let mut pixels = vec![false; SIDE * SIDE];
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "pixels of a small picture")]
    let size = [bounds.width() as usize, bounds.height() as usize];
    outlined.draw(|x, y, ink| {
        let (x, y) = (x as usize, y as usize);
        let (x, y) = if half_turn {
            (size[0] - 1 - x.min(size[0] - 1), size[1] - 1 - y.min(size[1] - 1))
        } else {
            (x, y)
        };
        let place = (y + margin[1]) * SIDE + x + margin[0];
        if ink > 0.5 && place < pixels.len() {
            pixels[place] = true;
        }
    });
    pixels
}

/// Each turned pair that claims an overlap has it: intersection over union of the two glyphs in the reference face, one
/// turned by 180 degrees, their ink boxes centred on each other.
#[test]
fn turned_pairs_overlap_as_they_claim() {
    let mut claims = 0;
    for row in STAND_INS {
        let Evidence::Overlap(stated) = row.evidence else { continue };
        assert_eq!(row.turn, Turn::Half);
        let (wanted, used) = (picture(row.wanted, false), picture(row.used, true));
        let count =
            |both: fn(bool, bool) -> bool| wanted.iter().zip(&used).filter(|(a, b)| both(**a, **b)).count();
        #[expect(clippy::cast_precision_loss, reason = "pixels of a small picture")]
        let overlap = count(|a, b| a && b) as f64 / count(|a, b| a || b) as f64;
        assert!(overlap >= stated, "{} for {}: {overlap:.2}, stated {stated}", row.used, row.wanted);
        claims += 1;
    }
    assert_eq!(claims, 10, "n/u, b/q, d/p, 6/9 and A/V, both ways");
}

/// The pairs that a half turn makes alike claim an overlap both ways; a quarter turn, which fits only when stretched, and a mark
/// moved off its line claim no more than common practice.
#[test]
fn each_pair_claims_its_overlap_both_ways_and_a_quarter_turn_none() {
    for [one, other] in [["n", "u"], ["b", "q"], ["d", "p"], ["6", "9"], ["A", "V"]] {
        for (wanted, used) in [(one, other), (other, one)] {
            let rows = STAND_INS.iter().filter(|row| row.wanted == wanted && row.used == used);
            let claims = rows.filter(|row| {
                row.turn == Turn::Half && matches!(row.evidence, Evidence::Overlap(stated) if stated >= 0.83)
            });
            assert_eq!(claims.count(), 1, "{used} for {wanted}");
        }
    }
    let others = STAND_INS.iter().filter(|row| row.kind == StandInKind::Turned && row.turn != Turn::Half);
    let sideways = others.clone().filter(|row| row.turn == Turn::Quarter).count();
    assert_eq!(sideways, 4, "N and Z both ways, I and l as a dash");
    assert!(others.clone().all(|row| row.evidence == Evidence::Practice));
}
