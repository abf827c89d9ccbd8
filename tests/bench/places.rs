//! Benchmarks of a strip's place on the page: what one position traps, the best resting places, a move to its verdict.
//!
//! Must not know how a place is found.

use std::hint::black_box;
use std::sync::Arc;
use std::time::Instant;

use imageproc::distance_transform::Norm;
use imageproc::image::{GrayImage, Luma};
use imageproc::morphology::close;
use oddment::checks::{Scene, Taste, judge, resting};
use oddment::files::{PlanSlug, StashFolder, unpack_sample};
use oddment::measure::{Angle, Length, Point, Size};
use oddment::page::{Carried, Cover, Element, Kind, LetterShape, Meeting, Outline, Site, Terrain, radius};
use oddment::plan::{Plan, Spoken};
use oddment::stash::Stash;
use oddment::title::{Edit, Layout, Place, Role, Sticker, Stood, Strip, Wording, cuts};
use tempfile::TempDir;

use super::made::Dice;
use super::{figures, millis, ratio};

/// A plan whose first strip is looked at, and what it is called in the table.
struct Case {
    name: &'static str,
    plan: Plan,
}

/// Measures places on the sample's page and on larger ones.
pub(crate) fn places() {
    let folder = TempDir::new().unwrap();
    unpack_sample(&folder.path().join("stash")).unwrap();
    let folder = StashFolder::at(folder.path().join("stash"));
    let loaded = folder.load().unwrap();
    let file = folder.plan_called(&PlanSlug::new("lantern-walk").unwrap());
    let plan = loaded.plans.into_iter().find(|entry| entry.file == file).unwrap().plan.unwrap();
    let stash = loaded.stash;
    let cases = cases(&plan, &stash);
    println!("\nwhat one position meets and traps, against one closing by imageproc of the same page");
    for case in &cases {
        one_position(case, &stash);
    }
    println!("\nthe five best resting places over the whole page, from nothing known of it");
    for case in &cases {
        best(case, &stash);
    }
    println!("\na strip moved, to the verdict on the plan");
    for case in &cases {
        moved(case, &stash);
    }
}

fn cases(sample: &Plan, stash: &Stash) -> Vec<Case> {
    let with = |strip: Strip| Plan::new(None, sample.page.clone(), vec![strip]).unwrap();
    let title = || filled(Role::title(), "LANTERN WALK", stash, Point { x: mm(12), y: mm(105) });
    let mut crowded = with(title());
    crowded.page.elements = crowd();
    let mut kept_off = crowded.clone();
    kept_off.page.elements.iter_mut().for_each(|element| element.cover = Some(Cover::Never));
    let mut large = with(title());
    large.page.size = Some(Size { width: mm(1_000), height: mm(1_000) });
    large.page.elements.iter_mut().for_each(|element| spread(element, 3));
    let short = filled(Role::title(), "SEA", stash, Point { x: mm(12), y: mm(105) });
    let mut subtitle = filled(Role::subtitle(), "along the quay", stash, Point { x: mm(60), y: mm(130) });
    subtitle.rules.tall = Some((mm(8), mm(13)));
    vec![
        Case { name: "title of the sample", plan: with(title()) },
        Case { name: "word of 3 letters", plan: with(short) },
        Case { name: "subtitle", plan: with(subtitle) },
        Case { name: "40 things on the page", plan: crowded },
        Case { name: "40 things to keep off", plan: kept_off },
        Case { name: "page of 1 m x 1 m", plan: large },
    ]
}

fn mm(mm: i64) -> Length {
    Length::from_mm(mm)
}

/// A strip with the first letter of the stash in each slot that has one.
fn filled(role: Role, wording: &str, stash: &Stash, at: Point) -> Strip {
    let wording = Wording::new(wording).unwrap();
    let mut strip = Strip::new(role, wording.clone());
    strip.place = Place { at: Some(at), turn: Angle::ZERO };
    let letters = wording.slots().iter().map(|asked| {
        let chip = *stash.carrying(&asked.character).first()?;
        Some(Stood::straight(Sticker::Chip { id: stash.chip(chip).id(), stands_in: None }))
    });
    let letters: Vec<Option<Stood>> = letters.collect();
    assert!(letters.iter().filter(|letter| letter.is_some()).count() > 2, "the sample lacks letters");
    let mut plan = Plan::new(None, oddment::page::Page::default(), vec![strip]).unwrap();
    plan.edit_strip(0, Edit::Wording(wording, letters));
    plan.strips()[0].clone()
}

/// Forty things of all kinds, some turned, some round.
fn crowd() -> Vec<Element> {
    let mut dice = Dice::new(40);
    let thing = |place: usize| {
        let mut side = |least: usize, sides: usize| mm(i64::try_from(least + dice.below(sides)).unwrap());
        let lie = oddment::page::Lie {
            at: Point { x: side(0, 280), y: side(0, 280) },
            size: Size { width: side(8, 60), height: side(8, 60) },
            turn: Angle::from_thousandths(if place.is_multiple_of(3) { 7_000 } else { 0 }),
            outline: if place.is_multiple_of(5) { Outline::Round } else { Outline::Rect },
        };
        let kind = Kind::ALL[place % Kind::ALL.len()];
        Element { name: None, kind, original: false, lie, colours: Vec::new(), cover: None, bed: None }
    };
    (0..40).map(thing).collect()
}

fn spread(element: &mut Element, times: i64) {
    let lie = &mut element.lie;
    (lie.at.x, lie.at.y) = (lie.at.x * times, lie.at.y * times);
    (lie.size.width, lie.size.height) = (lie.size.width * times, lie.size.height * times);
}

fn scene(plan: &Plan, stash: &Stash) -> Scene {
    Scene::new(stash, &plan.page, Taste::default(), Spoken::default())
}

/// All that a strip meets where it lies, with the page in cells and the letters' outlines known; the rival closes the
/// page with the strip on it once, with as many bare cells round it as it needs.
fn one_position(case: &Case, stash: &Stash) {
    let (plan, strip) = (&case.plan, &case.plan.strips()[0]);
    let shapes: Vec<LetterShape> = cuts(strip, &Layout::of(strip, stash), stash)
        .into_iter()
        .map(|cut| LetterShape { slot: cut.slot, word: cut.word, outline: cut.edge, box_area: cut.box_area })
        .collect();
    let site = Site::new(Arc::new(Terrain::of(&plan.page)), std::iter::empty());
    let radius = radius(judge(plan, stash, &scene(plan, stash)).strips[0].height);
    let picture = picture(plan, &shapes, radius);
    let (mut ours, mut rival) = (Vec::new(), Vec::new());
    for round in 0..60 {
        let at = Point { x: strip.place.at.unwrap().x + mm(round % 20), y: strip.place.at.unwrap().y };
        let begun = Instant::now();
        let carried = Carried::new(&shapes, at, Angle::ZERO);
        black_box(Meeting::of(&site, &carried, radius));
        ours.push(begun.elapsed());
        let begun = Instant::now();
        black_box(close(&picture, Norm::L2, u8::try_from(radius).unwrap()));
        rival.push(begun.elapsed());
    }
    let ((ours, slow), (rival, _)) = (figures(&mut ours), figures(&mut rival));
    println!(
        "  {:<22} R {radius:>2} mm {} p99 {}   imageproc {}  {}",
        case.name,
        millis(ours),
        millis(slow),
        millis(rival),
        ratio(ours, rival)
    );
}

/// The page's things and the letters' boxes, padded.
fn picture(plan: &Plan, shapes: &[LetterShape], radius: i32) -> GrayImage {
    let (size, at) = (plan.page.size.unwrap(), plan.strips()[0].place.at.unwrap());
    let pad = u32::try_from(radius + 1).unwrap();
    let cells = |side: Length| u32::try_from(side.nm() / 1_000_000 + 1).unwrap();
    let mut picture = GrayImage::new(cells(size.width) + 2 * pad, cells(size.height) + 2 * pad);
    let footprints = plan.page.footprints();
    for (x, y, pixel) in picture.enumerate_pixels_mut() {
        let (x, y) = (f64::from(x) + 0.5 - f64::from(pad), f64::from(y) + 0.5 - f64::from(pad));
        let (along, up) = (x - at.x.mm(), at.y.mm() - y);
        let letter = |shape: &LetterShape| {
            shape.outline.iter().flatten().any(|corner| (corner.0 - along).hypot(corner.1 - up) < 1.0)
        };
        if footprints.iter().any(|one| one.covers(x, y)) || shapes.iter().any(letter) {
            *pixel = Luma([255]);
        }
    }
    picture
}

fn best(case: &Case, stash: &Stash) {
    let mut times = Vec::new();
    let mut points = String::new();
    for _ in 0..7 {
        let begun = Instant::now();
        let scene = scene(&case.plan, stash);
        let mut search = resting(&case.plan, 0, stash, &scene, 5).unwrap();
        while !search.run(50) {}
        times.push(begun.elapsed());
        points = search.places().iter().map(|rest| rest.points.to_string()).collect::<Vec<_>>().join(" ");
    }
    let (median, slow) = figures(&mut times);
    println!("  {:<22} {} worst {}   points {points}", case.name, millis(median), millis(slow));
}

fn moved(case: &Case, stash: &Stash) {
    let (mut plan, scene) = (case.plan.clone(), scene(&case.plan, stash));
    let at = plan.strips()[0].place.at.unwrap();
    let mut times = Vec::new();
    for round in 0..200 {
        let at = Point { x: at.x + mm(round % 10), y: at.y + mm(round / 10) };
        let begun = Instant::now();
        plan.edit_strip(0, Edit::Place(Place { at: Some(at), turn: Angle::ZERO }));
        black_box(judge(&plan, stash, &scene));
        times.push(begun.elapsed());
    }
    let (median, slow) = figures(&mut times);
    println!("  {:<22} {} p99 {}", case.name, millis(median), millis(slow));
}
