//! The outline of a glyph, and its silhouette.
//!
//! Must not know which character it is.

use std::sync::Arc;

use ttf_parser::{GlyphId, OutlineBuilder};

/// Scan lines of a silhouette.
pub const SCAN_LINES: usize = 64;
/// Lowest scan line, over a capital's height: a little under any descender.
const LOWEST: f64 = -0.5;
/// Highest scan line: a little above any accent on a capital.
const HIGHEST: f64 = 1.5;
/// Pieces that a curve is parted into.
const PIECES: u32 = 8;

/// A stroke of an outline, in capital heights: x from the ink's left edge, y up from the feet line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Stroke {
    /// Begins a contour.
    Move(f64, f64),
    /// A straight line.
    Line(f64, f64),
    /// A quadratic curve: control point, end.
    Curve(f64, f64, f64, f64),
    /// Closes the contour.
    Close,
}

/// The outline of a glyph.
#[derive(Debug, Clone, PartialEq)]
pub struct Outline {
    /// Its strokes, contour by contour.
    pub strokes: Vec<Stroke>,
}

/// Left and right edges of the ink at a fixed number of scan lines, the same for every character.
#[derive(Debug, Clone, PartialEq)]
pub struct Silhouette {
    width: f64,
    /// Shared, for every letter on a strip asks for its own.
    lines: Arc<[Option<(f64, f64)>]>,
}

impl Silhouette {
    /// A solid block of `width`, from the feet up to `top`.
    pub(super) fn block(width: f64, top: f64) -> Self {
        let lines = (0..SCAN_LINES).map(|line| (0.0..=top).contains(&level(line)).then_some((0.0, width)));
        Self { width, lines: lines.collect() }
    }

    /// Width of the ink over a capital's height.
    #[must_use]
    pub const fn width(&self) -> f64 {
        self.width
    }

    /// The edges at `y` capital heights above the feet, from the nearest scan line; `None` where there is no ink.
    #[must_use]
    pub fn at(&self, y: f64) -> Option<(f64, f64)> {
        let place = (y - LOWEST) / (HIGHEST - LOWEST) * lines_f64() - 0.5;
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "checked to be a scan line"
        )]
        (-0.5..lines_f64() - 0.5).contains(&place).then(|| self.lines[place.round() as usize])?
    }
}

#[expect(clippy::cast_precision_loss, reason = "a small number")]
const fn lines_f64() -> f64 {
    SCAN_LINES as f64
}

/// The height of a scan line.
#[expect(clippy::cast_precision_loss, reason = "a small number")]
fn level(line: usize) -> f64 {
    LOWEST + (line as f64 + 0.5) / lines_f64() * (HIGHEST - LOWEST)
}

impl Outline {
    /// Width of the ink.
    #[must_use]
    pub fn width(&self) -> f64 {
        self.points().map(|(x, _)| x).fold(0.0, f64::max)
    }

    /// Lowest point.
    #[must_use]
    pub fn bottom(&self) -> f64 {
        self.points().map(|(_, y)| y).fold(f64::INFINITY, f64::min)
    }

    /// Highest point.
    #[must_use]
    pub fn top(&self) -> f64 {
        self.points().map(|(_, y)| y).fold(f64::NEG_INFINITY, f64::max)
    }

    /// The area within its largest contour.
    pub(super) fn largest_piece(&self) -> f64 {
        let twice = |contour: &Vec<(f64, f64)>| {
            let next = contour.iter().cycle().skip(1);
            contour.iter().zip(next).map(|(&(x0, y0), &(x1, y1))| x0 * y1 - x1 * y0).sum::<f64>().abs()
        };
        self.contours().iter().map(twice).fold(0.0, f64::max) / 2.0
    }

    fn points(&self) -> impl Iterator<Item = (f64, f64)> {
        self.contours().into_iter().flatten()
    }

    /// Its contours as closed polygons, curves parted into short lines.
    #[must_use]
    pub fn contours(&self) -> Vec<Vec<(f64, f64)>> {
        let mut contours: Vec<Vec<(f64, f64)>> = Vec::new();
        for stroke in &self.strokes {
            match *stroke {
                Stroke::Move(x, y) => contours.push(vec![(x, y)]),
                Stroke::Line(x, y) => {
                    contours.last_mut().into_iter().for_each(|contour| contour.push((x, y)));
                }
                Stroke::Curve(cx, cy, x, y) => {
                    if let Some(contour) = contours.last_mut() {
                        let from = contour.last().copied().unwrap_or((cx, cy));
                        contour.extend((1..=PIECES).map(|piece| bend(from, (cx, cy), (x, y), piece)));
                    }
                }
                Stroke::Close => {}
            }
        }
        contours
    }

    pub(super) fn silhouette(&self) -> Silhouette {
        let contours = self.contours();
        let lines = (0..SCAN_LINES).map(|line| crossings(&contours, level(line))).collect();
        Silhouette { width: self.width(), lines }
    }
}

/// A point of a quadratic curve, `piece` of [`PIECES`] along it.
fn bend(from: (f64, f64), by: (f64, f64), to: (f64, f64), piece: u32) -> (f64, f64) {
    let t = f64::from(piece) / f64::from(PIECES);
    let mix = |a: f64, b: f64, c: f64| (1.0 - t) * (1.0 - t) * a + 2.0 * t * (1.0 - t) * b + t * t * c;
    (mix(from.0, by.0, to.0), mix(from.1, by.1, to.1))
}

/// Leftmost and rightmost place where the outline crosses the height `y`.
fn crossings(contours: &[Vec<(f64, f64)>], y: f64) -> Option<(f64, f64)> {
    let mut edges: Option<(f64, f64)> = None;
    for contour in contours {
        let next = contour.iter().cycle().skip(1);
        for (&(x0, y0), &(x1, y1)) in contour.iter().zip(next) {
            if (y0 <= y) != (y1 <= y) {
                let x = x0 + (y - y0) / (y1 - y0) * (x1 - x0);
                let (left, right) = edges.unwrap_or((x, x));
                edges = Some((left.min(x), right.max(x)));
            }
        }
    }
    edges
}

/// The outline of `glyph`, scaled so that a capital is 1 high and moved so that its ink begins at 0.
pub(super) fn draw(font: &ttf_parser::Face<'_>, glyph: GlyphId, cap: f64) -> Option<Outline> {
    let left = f64::from(font.glyph_bounding_box(glyph)?.x_min);
    let mut pen = Pen { strokes: Vec::new(), left, cap, at: (0.0, 0.0) };
    font.outline_glyph(glyph, &mut pen)?;
    Some(Outline { strokes: pen.strokes })
}

/// Takes strokes from the font.
struct Pen {
    strokes: Vec<Stroke>,
    left: f64,
    cap: f64,
    at: (f64, f64),
}

impl Pen {
    fn to(&mut self, x: f32, y: f32) -> (f64, f64) {
        self.at = self.scaled(x, y);
        self.at
    }

    fn scaled(&self, x: f32, y: f32) -> (f64, f64) {
        ((f64::from(x) - self.left) / self.cap, f64::from(y) / self.cap)
    }
}

impl OutlineBuilder for Pen {
    fn move_to(&mut self, x: f32, y: f32) {
        let (x, y) = self.to(x, y);
        self.strokes.push(Stroke::Move(x, y));
    }

    fn line_to(&mut self, x: f32, y: f32) {
        let (x, y) = self.to(x, y);
        self.strokes.push(Stroke::Line(x, y));
    }

    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        let (cx, cy) = self.scaled(x1, y1);
        let (x, y) = self.to(x, y);
        self.strokes.push(Stroke::Curve(cx, cy, x, y));
    }

    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        // TrueType outlines have quadratic curves only; a cubic one is followed by short lines.
        let (from, a, b) = (self.at, self.scaled(x1, y1), self.scaled(x2, y2));
        let end = self.to(x, y);
        for piece in 1..=PIECES {
            let t = f64::from(piece) / f64::from(PIECES);
            let u = 1.0 - t;
            let mix = |p: f64, q: f64, r: f64, s: f64| {
                u * u * u * p + 3.0 * u * u * t * q + 3.0 * u * t * t * r + t * t * t * s
            };
            self.strokes.push(Stroke::Line(mix(from.0, a.0, b.0, end.0), mix(from.1, a.1, b.1, end.1)));
        }
    }

    fn close(&mut self) {
        self.strokes.push(Stroke::Close);
    }
}
