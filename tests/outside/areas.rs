//! Areas and outlines of letters and of things on the page against a general geometry library, the crate `kurbo`, which
//! works out areas by Green's theorem and tells how often a path goes round a point.
//!
//! The curves of letters come from the face by another reader than the program's, the crate `ab_glyph`. Must not know how
//! the program makes cells.
#![expect(clippy::unwrap_used, reason = "a shape that cannot be made fails the test")]

use ab_glyph::{Font, FontRef, OutlineCurve};
use kurbo::{Affine, BezPath, CubicBez, Ellipse, Line, ParamCurveArea, Point as At, QuadBez, Rect, Shape};
use oddment::letter::{Character, Face};
use oddment::measure::{Angle, Length, Point, Size};
use oddment::page::{Cells, Element, Kind, Lie, Outline, Page, Terrain};
use oddment::title::{Layout, cuts};

use crate::draw::Draw;
use crate::opinion::{laid, under};
use crate::pages::{Drawn, Scale};

/// Curves are parted into eight lines; no area may be off by more than this share for it.
const FLAT: f64 = 0.006;
/// Points of a lattice are counted; no area may be off by more than this share for it.
const GRID: f64 = 0.004;

/// The area of a glyph, and that of its box, in units of the face.
fn glyph(font: &FontRef<'_>, letter: char) -> (f64, f64) {
    let outline = font.outline(font.glyph_id(letter)).unwrap();
    let at = |point: ab_glyph::Point| At::new(point.x.into(), point.y.into());
    let area = |curve: &OutlineCurve| match *curve {
        OutlineCurve::Line(a, b) => Line::new(at(a), at(b)).signed_area(),
        OutlineCurve::Quad(a, b, c) => QuadBez::new(at(a), at(b), at(c)).signed_area(),
        OutlineCurve::Cubic(a, b, c, d) => CubicBez::new(at(a), at(b), at(c), at(d)).signed_area(),
    };
    let bounds = |curve: &OutlineCurve| match *curve {
        OutlineCurve::Line(a, b) => Line::new(at(a), at(b)).bounding_box(),
        OutlineCurve::Quad(a, b, c) => QuadBez::new(at(a), at(b), at(c)).bounding_box(),
        OutlineCurve::Cubic(a, b, c, d) => CubicBez::new(at(a), at(b), at(c), at(d)).bounding_box(),
    };
    let around = outline.curves.iter().map(bounds).reduce(|a, b| a.union(b)).unwrap();
    (outline.curves.iter().map(area).sum::<f64>().abs(), around.area())
}

fn path(polygons: &[Vec<(f64, f64)>]) -> BezPath {
    let mut path = BezPath::new();
    for polygon in polygons {
        path.move_to(polygon[0]);
        polygon[1..].iter().for_each(|&corner| path.line_to(corner));
        path.close_path();
    }
    path
}

/// Points that are counted in each cell: a lattice by two numbers of Fibonacci's row, even in both directions.
const LATTICE: (i32, i32) = (89, 55);

/// The area of outlines in mm2: their cells wherever they are moved to within a cell, a point of the lattice each time.
fn counted(polygons: &[Vec<(f64, f64)>]) -> f64 {
    let (points, step) = LATTICE;
    let part = |of: i32| (f64::from(of) + 0.5) / f64::from(points);
    let moved = |point: i32| -> Vec<Vec<(f64, f64)>> {
        let (x, y) = (part(point), part(point * step % points));
        polygons.iter().map(|one| one.iter().map(|corner| (corner.0 + x, corner.1 + y)).collect()).collect()
    };
    let cells = |point: i32| f64::from(Cells::within(&moved(point)).count());
    (0..points).map(cells).sum::<f64>() / f64::from(points)
}

/// The cells of a path's box, row by row.
fn about(path: &BezPath) -> impl Iterator<Item = (i32, i32)> + use<> {
    let around = path.bounding_box();
    #[expect(clippy::cast_possible_truncation, reason = "all lies within a metre")]
    let [left, top, right, bottom] = [around.x0, around.y0, around.x1, around.y1].map(|mm| mm.floor() as i32);
    (top..=bottom).flat_map(move |y| (left..=right).map(move |x| (x, y)))
}

#[track_caller]
fn near(ours: f64, theirs: f64, share: f64, what: &str) {
    assert!((ours / theirs - 1.0).abs() <= share, "{what}: {ours:.3} mm2, and {theirs:.3} by the library");
}

#[test]
fn letters_have_the_area_of_their_curves() {
    let font = FontRef::try_from_slice(dejavu::sans::bold()).unwrap();
    for letter in ('0'..='9').chain('A'..='Z').chain('a'..='z').chain("&?!ÉÖ♥".chars()) {
        let outline = Face::reference().outline(&Character::new(&letter.to_string()).unwrap()).unwrap();
        let box_area = outline.width() * (outline.top() - outline.bottom());
        let (area, around) = glyph(&font, letter);
        let contours = outline.contours();
        let flattened = path(&contours).area().abs();
        near(flattened / box_area, area / around, FLAT, &format!("{letter} as lines"));
        // As a letter of 20 mm.
        let large: Vec<Vec<(f64, f64)>> = contours
            .iter()
            .map(|one| one.iter().map(|corner| (corner.0 * 20.0, corner.1 * 20.0)).collect())
            .collect();
        near(counted(&large), flattened * 400.0, GRID, &format!("{letter} in cells"));
    }
}

/// Pages with letters of all sizes, turned, tilted and raised.
const PAGES: Scale = Scale { page: (90, 180), tall: (8, 40), things: 6, letters: 6 };

#[test]
fn letters_on_a_strip_have_the_area_of_their_curves() {
    let font = FontRef::try_from_slice(dejavu::sans::bold()).unwrap();
    let mut compared = 0;
    for seed in 50_000..50_120 {
        let Drawn { stash, plan } = Drawn::new(seed, PAGES);
        let strip = &plan.strips()[0];
        for cut in cuts(strip, &Layout::of(strip, &stash), &stash) {
            let letter = strip.wording().slots()[cut.slot].character.as_str().chars().next().unwrap();
            let (area, around) = glyph(&font, letter);
            let of_box = path(&cut.edge).area().abs() / cut.box_area;
            let what = format!("seed {seed}, slot {}: {letter}", cut.slot);
            // A die-cut letter is cut round its curves; a tile or a button is its whole box.
            let die_cut =
                strip.letter(cut.slot).and_then(|stood| stood.chip()).is_some() && cut.print.is_none();
            near(of_box, if die_cut { area / around } else { 1.0 }, FLAT, &what);
            compared += u32::from(die_cut);
        }
    }
    assert!(compared > 100, "only {compared} letters");
}

#[test]
fn cells_under_letters_are_those_whose_centres_the_outline_goes_round() {
    for seed in 50_000..50_060 {
        let Drawn { stash, plan } = Drawn::new(seed, PAGES);
        let lies = plan.strips()[0].place;
        let (at, (sin, cos)) = (lies.at.unwrap(), lies.turn.sin_cos());
        let turn = Affine::new([cos, sin, sin, -cos, at.x.mm(), at.y.mm()]);
        let strip = &plan.strips()[0];
        let letters: Vec<BezPath> = cuts(strip, &Layout::of(strip, &stash), &stash)
            .iter()
            .map(|cut| turn * path(&cut.edge))
            .collect();
        let shapes = laid(&plan, 0, &stash, at, lies.turn);
        let (x, y) = shapes.whole();
        let ours: Vec<(i32, i32)> = shapes.ink.iter().map(|cell| (cell.0 + x, cell.1 + y)).collect();
        let mut theirs: Vec<(i32, i32)> = Vec::new();
        for letter in &letters {
            theirs.extend(
                about(letter)
                    .filter(|&(x, y)| letter.winding(At::new(f64::from(x) + 0.5, f64::from(y) + 0.5)) != 0),
            );
        }
        theirs.sort_unstable();
        theirs.dedup();
        assert_eq!(ours, theirs, "seed {seed}");
    }
}

fn thing(draw: &mut Draw, outline: Outline) -> Element {
    let mut nm = |least: usize, most: usize| {
        let rest = 2 * draw.below(499_000) + 1_001;
        Length::from_nm(i64::try_from((least + draw.below(most - least)) * 1_000_000 + rest).unwrap())
    };
    let (size, at) = (Size { width: nm(8, 70), height: nm(8, 70) }, Point { x: nm(50, 80), y: nm(50, 80) });
    let turn = Angle::from_thousandths(i32::try_from(draw.below(360_000)).unwrap());
    let lie = Lie { at, size, turn, outline };
    Element {
        name: None,
        kind: Kind::Mat,
        original: false,
        lie,
        colours: Vec::new(),
        cover: None,
        bed: Some(false),
    }
}

/// A thing as the library has it: its path where it lies.
fn shape(lie: &Lie) -> BezPath {
    let (wide, high) = (lie.size.width.mm(), lie.size.height.mm());
    let middle = At::new(lie.at.x.mm() + wide / 2.0, lie.at.y.mm() + high / 2.0);
    let turn = Affine::rotate_about(lie.turn.degrees().to_radians(), middle);
    let flat = match lie.outline {
        Outline::Rect => Rect::from_center_size(middle, (wide, high)).to_path(1e-9),
        Outline::Round => Ellipse::new(middle, (wide / 2.0, high / 2.0), 0.0).to_path(1e-9),
    };
    turn * flat
}

#[test]
fn turned_rectangles_and_ellipses_have_their_area() {
    let mut draw = Draw::new(8);
    let side = Length::from_mm(220);
    for number in 0..120 {
        let outline = if number % 2 == 0 { Outline::Rect } else { Outline::Round };
        let element = thing(&mut draw, outline);
        let path = shape(&element.lie);
        let page = Page {
            size: Some(Size { width: side, height: side }),
            elements: vec![element.clone()],
            ..Page::default()
        };
        let ours = Terrain::of(&page).seen().next().unwrap();
        let goes_round =
            |&(x, y): &(i32, i32)| path.winding(At::new(f64::from(x) + 0.5, f64::from(y) + 0.5)) != 0;
        let theirs: Vec<(i32, i32)> = about(&path).filter(goes_round).collect();
        assert_eq!(under(&element, &page).cells(), theirs, "{:?}", element.lie);
        assert_eq!(ours, u32::try_from(theirs.len()).unwrap(), "{:?}", element.lie);
        // A cell is in or out as a whole: along the outline half a cell either way.
        let (area, around) = (path.area().abs(), path.perimeter(1e-6));
        assert!(
            (f64::from(ours) - area).abs() <= around / 2.0,
            "{:?}: {ours} cells of {area:.1} mm2",
            element.lie
        );
    }
}
