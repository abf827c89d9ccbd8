//! Sheets as SVG, read by other people's libraries: the XML by `roxmltree`, the drawing by `resvg`, at so many pixels a
//! millimetre.
//!
//! Must not know how a sheet is written.
#![expect(clippy::unwrap_used, reason = "a drawing that cannot be read fails the test")]

use oddment::measure::{Colour, Extent, Length, Polygon, Size};
use oddment::print::{About, Face, Mark, Pen, Piece, Sense, Shape, Sheet, Words, svg};
use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::roxmltree::{Document, Node};
use resvg::usvg::{Options, Tree};

/// Pixels a millimetre.
const PIXELS: f32 = 10.0;
/// CSS pixels an inch: CSS Values and Units Level 3 (W3C), section 6.2, and so in SVG.
pub(super) const CSS_PIXELS: f32 = 96.0;
pub(super) const INCH: f32 = 25.4;

/// A sheet as it looks.
pub(super) struct Look {
    pixels: Pixmap,
}

impl Look {
    /// Draws an SVG file.
    pub(super) fn of(text: &str) -> Self {
        let tree = Tree::from_str(text, &Options::default()).unwrap();
        let scale = PIXELS * INCH / CSS_PIXELS;
        let side = |css: f32| format!("{:.0}", css * scale).parse().unwrap();
        let mut pixels = Pixmap::new(side(tree.size().width()), side(tree.size().height())).unwrap();
        resvg::render(&tree, Transform::from_scale(scale, scale), &mut pixels.as_mut());
        Self { pixels }
    }

    /// Its width and height in mm.
    pub(super) fn size(&self) -> (f64, f64) {
        (mm(self.pixels.width()), mm(self.pixels.height()))
    }

    /// The colour at a place in mm.
    pub(super) fn colour(&self, (x, y): (f64, f64)) -> Colour {
        let pixel = |at: f64| format!("{:.0}", (at * f64::from(PIXELS)).floor()).parse().unwrap();
        let pixel = self.pixels.pixel(pixel(x), pixel(y)).unwrap();
        assert_eq!(pixel.alpha(), 255, "paper is white, not clear");
        Colour { r: pixel.red(), g: pixel.green(), b: pixel.blue() }
    }

    /// How far what is darker than half grey reaches within a part of the sheet, in mm; `None` where all is light.
    pub(super) fn dark(&self, part: Extent) -> Option<Extent> {
        let mut found: Option<Extent> = None;
        for (place, pixel) in (0_u32..).zip(self.pixels.pixels()) {
            let (x, y) = (mm(place % self.pixels.width()), mm(place / self.pixels.width()));
            let within = x >= part.left && x < part.right && y >= part.top && y < part.bottom;
            if within && pixel.green() < 128 {
                let end = mm(1);
                let one = Extent { left: x, top: y, right: x + end, bottom: y + end };
                found = Some(found.map_or(one, |found| found.and(one)));
            }
        }
        found
    }

    /// The stretches of a row that are darker than half grey, in mm.
    pub(super) fn dark_runs(&self, y: f64, from: f64, to: f64) -> Vec<(f64, f64)> {
        let mut runs: Vec<(f64, f64)> = Vec::new();
        for pixel in 0..self.pixels.width() {
            let (left, right) = (mm(pixel), mm(pixel + 1));
            if left < from || right > to || self.colour((left + mm(1) / 2.0, y)).g >= 128 {
                continue;
            }
            match runs.last_mut() {
                Some(run) if (run.1 - left).abs() < 1e-9 => run.1 = right,
                _ => runs.push((left, right)),
            }
        }
        runs
    }
}

fn mm(pixels: u32) -> f64 {
    f64::from(pixels) / f64::from(PIXELS)
}

/// Whether two extents are the same to a pixel on each side.
pub(super) fn near(one: Extent, other: Extent) -> bool {
    let sides = |of: Extent| [of.left, of.top, of.right, of.bottom];
    sides(one).iter().zip(sides(other)).all(|(one, other)| (one - other).abs() <= 1.0 / f64::from(PIXELS))
}

/// What is said by an element, with what is in it.
fn said(node: Node) -> String {
    node.descendants()
        .filter(Node::is_text)
        .filter_map(|node| node.text())
        .collect::<String>()
        .trim()
        .to_owned()
}

/// All words of a drawing, in the order of the file.
pub(super) fn words(document: &Document) -> Vec<String> {
    document.descendants().filter(|node| node.has_tag_name("text")).map(said).collect()
}

fn about() -> About {
    About { title: "LANTERN WALK".into(), name: "<b>'walk' & \"home\"".into(), language: "en-GB" }
}

fn sheet(width: i64, height: i64, pieces: Vec<Piece>) -> Sheet {
    let size = Size { width: Length::from_nm(width), height: Length::from_nm(height) };
    Sheet { size, told: "bars to measure".into(), pieces }
}

fn drawing(marks: Vec<Mark>) -> Piece {
    Piece { sense: Sense::Drawing("two bars & a box".into()), marks }
}

const PEN: Pen = Pen { width: 0.4, dash: None, grey: 0.0 };

fn line(from: (f64, f64), to: (f64, f64)) -> Mark {
    Mark::Line { from, to, pen: PEN }
}

fn square(left: f64, top: f64, side: f64) -> Polygon {
    vec![(left, top), (left + side, top), (left + side, top + side), (left, top + side)]
}

fn filled(outline: Vec<Polygon>, fill: Colour) -> Mark {
    Mark::Shape(Shape { outline, fill: Some(fill), pen: None })
}

#[test]
fn a_sheet_is_as_large_as_its_paper() {
    // ISO 216: A4 is 210 x 297 mm. ASME Y14.1: size A is 8.5 x 11 in.
    for (width, height, page) in
        [(210_000_000, 297_000_000, (210.0, 297.0)), (215_900_000, 279_400_000, (215.9, 279.4))]
    {
        let text = svg(&sheet(width, height, Vec::new()), &about());
        let told = Look::of(&text).size();
        assert!((told.0 - page.0).abs() < 0.06 && (told.1 - page.1).abs() < 0.06, "{told:?}");
        let document = Document::parse(&text).unwrap();
        let root = document.root_element();
        assert_eq!(root.attribute("width").unwrap(), format!("{}mm", page.0));
        assert_eq!(root.attribute("viewBox").unwrap(), format!("0 0 {} {}", page.0, page.1));
        assert_eq!(root.attribute(("http://www.w3.org/XML/1998/namespace", "lang")), Some("en-GB"));
    }
}

#[test]
fn bars_are_as_long_as_they_say() {
    // 4 in are 101.6 mm (the inch of 1959: 25.4 mm).
    let bars = [(20.0, 100.0), (40.0, 101.6)];
    let marks = bars.iter().map(|&(y, length)| line((30.0, y), (30.0 + length, y))).collect();
    let look = Look::of(&svg(&sheet(210_000_000, 297_000_000, vec![drawing(marks)]), &about()));
    for (y, length) in bars {
        let part = Extent { left: 0.0, top: y - 5.0, right: 210.0, bottom: y + 5.0 };
        let bar = Extent { left: 30.0, top: y - 0.2, right: 30.0 + length, bottom: y + 0.2 };
        assert!(near(look.dark(part).unwrap(), bar), "{:?}", look.dark(part));
    }
    assert_eq!(look.colour((5.0, 5.0)), Colour::WHITE);
}

#[test]
fn shapes_lie_where_they_are_put_and_are_filled_by_the_non_zero_rule() {
    let teal = Colour::named("teal").unwrap();
    let mut hole = square(22.0, 22.0, 4.0);
    hole.reverse();
    let marks = vec![
        filled(vec![square(20.0, 20.0, 8.0), hole], Colour::BLACK),
        filled(vec![square(40.0, 20.0, 8.0), square(42.0, 22.0, 10.0)], teal),
        Mark::Shape(Shape { outline: vec![square(60.0, 20.0, 8.0)], fill: None, pen: Some(PEN) }),
    ];
    let look = Look::of(&svg(&sheet(125_000_000, 125_000_000, vec![drawing(marks)]), &about()));
    let part = Extent { left: 15.0, top: 10.0, right: 35.0, bottom: 50.0 };
    assert!(near(look.dark(part).unwrap(), Extent { left: 20.0, top: 20.0, right: 28.0, bottom: 28.0 }));
    assert_eq!(look.colour((24.0, 24.0)), Colour::WHITE);
    for inside in [(41.0, 21.0), (45.0, 25.0), (51.0, 31.0)] {
        assert_eq!(look.colour(inside), teal);
    }
    let part = Extent { left: 55.0, top: 10.0, right: 80.0, bottom: 50.0 };
    assert!(near(look.dark(part).unwrap(), Extent { left: 59.8, top: 19.8, right: 68.2, bottom: 28.2 }));
    assert_eq!(look.colour((64.0, 24.0)), Colour::WHITE);
}

#[test]
fn dashes_and_greys_are_as_the_pen_says() {
    let dashed = Pen { width: 1.0, dash: Some((4.0, 2.0)), grey: 0.0 };
    let pale = Pen { width: 1.0, dash: None, grey: 0.8 };
    let marks = vec![
        Mark::Line { from: (20.0, 20.0), to: (60.0, 20.0), pen: dashed },
        Mark::Line { from: (20.0, 40.0), to: (60.0, 40.0), pen: pale },
    ];
    let look = Look::of(&svg(&sheet(125_000_000, 125_000_000, vec![drawing(marks)]), &about()));
    for (x, colour) in
        [(22.0, Colour::BLACK), (25.0, Colour::WHITE), (28.0, Colour::BLACK), (31.0, Colour::WHITE)]
    {
        assert_eq!(look.colour((x, 20.0)), colour, "{x}");
    }
    assert_eq!(look.colour((30.0, 40.0)), Colour { r: 204, g: 204, b: 204 });
}

#[test]
fn words_are_read_in_order_whatever_is_in_them() {
    let names =
        ["placement order", "<b>Kelp</b> & 'co' \"x\"", "]]> &amp; &#0;", "  two  spaces ", "é ★ [U+6F22]"];
    let pieces = names.iter().map(|name| {
        let words = Words { at: (10.0, 20.0), size: 3.5, face: Face::Strong, text: (*name).into() };
        Piece { sense: Sense::Paragraph, marks: vec![Mark::Words(words)] }
    });
    let text = svg(&sheet(125_000_000, 125_000_000, pieces.collect()), &about());
    let document = Document::parse(&text).unwrap();
    assert_eq!(words(&document), names.map(str::trim));
    let first = |name: &str| said(document.descendants().find(|node| node.has_tag_name(name)).unwrap());
    assert_eq!(first("title"), "LANTERN WALK (bars to measure)");
    assert!(first("desc").starts_with("<b>'walk' & \"home\": a sheet of its placement order, 125 x 125 mm."));
    let room = Face::Strong.width(names[0], 3.5);
    let set = document.descendants().find(|node| node.has_tag_name("text")).unwrap();
    assert!((set.attribute("textLength").unwrap().parse::<f64>().unwrap() - room).abs() < 0.001);
    assert_eq!(set.attribute("font-weight"), Some("bold"));
}

#[test]
fn a_drawing_has_words_that_stand_in_for_it() {
    let text = svg(&sheet(125_000_000, 125_000_000, vec![drawing(Vec::new())]), &about());
    let document = Document::parse(&text).unwrap();
    let image = document.descendants().find(|node| node.attribute("role") == Some("img")).unwrap();
    assert_eq!(said(image.first_element_child().unwrap()), "two bars & a box");
}
