//! Facts of the trade about where a title lies, each on a worked page, good and bad. Every one of them: common practice,
//! no source.
//!
//! Must not know how a check comes by its answer.

#![expect(clippy::unwrap_used, reason = "a test may fail loudly")]

use oddment::checks::{Finding, Level, Scene, Taste, Verdict, judge};
use oddment::letter::Character;
use oddment::measure::{Angle, Colour, Length, Point, Size as Box2, Tint};
use oddment::page::{Element, Kind, Lie, Outline, Page};
use oddment::plan::{Plan, Spoken};
use oddment::stash::{
    ChipId, Finish, Form, HeightOf, Label, Letter, Make, Paint, Record, Sheet, SheetId, Size, Stash,
};
use oddment::title::{Place, Role, Sticker, Stood, Strip, Wording};

use crate::draw::filled;

fn tint(name: &str) -> Tint {
    Tint::called(name, Colour::named(name).unwrap())
}

fn mm(x: i64, y: i64) -> Point {
    Point { x: Length::from_mm(x), y: Length::from_mm(y) }
}

/// A sheet of tiles, as wide as high.
fn sheet(colour: &str, height: i64) -> Sheet {
    let letters = ('A'..='Z').map(|letter| Letter {
        character: Character::new(&letter.to_string()).unwrap(),
        mark: None,
        left: 9,
        width: None,
        height: None,
        colours: Vec::new(),
    });
    Sheet {
        id: SheetId::new(colour).unwrap(),
        label: Label::default(),
        make: Make {
            form: Form::Tile,
            finish: Finish::Matte,
            neutral: false,
            joined: false,
            plain_tile: false,
        },
        size: Size {
            height: Length::from_mm(height),
            height_of: HeightOf::Capital,
            tile_width: None,
            thick: None,
        },
        paint: Paint { colours: vec![tint(colour)], outline: None, tile: Some(tint("white")) },
        letters: letters.collect(),
        record: Record::default(),
    }
}

/// A thing of the worked page with its left and top edge and its size in mm.
fn thing(name: &str, kind: Kind, at: (i64, i64), size: (i64, i64), colour: &str) -> Element {
    let size = Box2 { width: Length::from_mm(size.0), height: Length::from_mm(size.1) };
    let lie = Lie { at: mm(at.0, at.1), size, turn: Angle::ZERO, outline: Outline::Rect };
    let (name, colours) = (Some(name.to_owned()), vec![tint(colour)]);
    Element { name, kind, original: false, lie, colours, cover: None, bed: None }
}

/// A mat with a photo on it, a space to write in, a label.
fn things() -> Vec<Element> {
    vec![
        thing("the mat", Kind::Mat, (40, 100), (160, 110), "goldenrod"),
        thing("the photo", Kind::Photo, (45, 105), (150, 100), "navy"),
        thing("the story", Kind::Journaling, (210, 100), (70, 60), "wheat"),
        thing("the date", Kind::Label, (40, 230), (120, 30), "coral"),
    ]
}

/// A title of four tiles, 20 mm high, and a subtitle of four of 8 mm, with their feet at these places.
fn verdict(elements: Vec<Element>, title: Point, subtitle: Option<Point>) -> Verdict {
    let stash = Stash::new(vec![sheet("teal", 20), sheet("coral", 8)]);
    let strip = |role: Role, wording: &str, colour: &str, at: Point| {
        let mut strip = Strip::new(role, Wording::new(wording).unwrap());
        strip.place = Place { at: Some(at), turn: Angle::ZERO };
        let stood = wording.chars().map(|letter| {
            let id = ChipId::parse(&format!("{colour}/{letter}")).unwrap();
            Some(Stood::straight(Sticker::Chip { id, stands_in: None }))
        });
        let stood = stood.collect();
        filled(strip, stood)
    };
    let mut strips = vec![strip(Role::title(), "WALK", "teal", title)];
    strips.extend(subtitle.map(|at| strip(Role::subtitle(), "HOME", "coral", at)));
    let side = Length::from_mm(300);
    let page = Page { size: Some(Box2 { width: side, height: side }), elements, ..Page::default() };
    let plan = Plan::new(None, page, strips).unwrap();
    judge(&plan, &stash, &Scene::new(&stash, &plan.page, Taste::default(), Spoken::default()))
}

fn title_at(x: i64, y: i64) -> Verdict {
    verdict(things(), mm(x, y), None)
}

fn found<'a>(verdict: &'a Verdict, id: &str) -> Option<&'a Finding> {
    verdict.findings.iter().find(|finding| finding.id == id)
}

/// What is amiss with the place, in words.
#[track_caller]
fn told<'a>(verdict: &'a Verdict, id: &str, level: Level) -> &'a str {
    let finding = found(verdict, id);
    assert_eq!(finding.map(|finding| finding.level), Some(level), "{id}: {:?}", verdict.findings);
    &finding.unwrap().message
}

/// Trapped paper.
fn mm2(verdict: &Verdict) -> u32 {
    verdict.strips[0].lying.as_ref().unwrap().meeting.trapped.0.count()
}

/// More than lies in a corner that a disc of 10 mm does not reach: (11 mm)^2 x (1 - pi / 4), and the cells it cuts.
const CORNER: u32 = 34;

#[track_caller]
fn lies_well(verdict: &Verdict) {
    let amiss = ["adrift", "trapped", "cover", "edge", "overlap", "off", "margin"];
    let found: Vec<&Finding> = verdict.findings.iter().filter(|one| amiss.contains(&one.id)).collect();
    assert!(found.is_empty(), "{found:?}");
    assert_eq!(verdict.place.unwrap().tenths(), 0);
}

#[test]
fn a_title_that_floats_over_the_mat_is_adrift_and_traps_paper() {
    let floats = title_at(60, 95);
    let adrift = told(&floats, "adrift", Level::Warn);
    assert!(adrift.contains("the mat") && adrift.contains(" down"), "{adrift}");
    let trapped = told(&floats, "trapped", Level::Warn);
    assert!(trapped.contains("the mat"), "{trapped}");
    // 84.5 mm of letters, 5 mm above the mat, and a corner at either end.
    let area = mm2(&floats);
    assert!((84 * 5..84 * 5 + 2 * CORNER).contains(&area), "{trapped}");
}

#[test]
fn lowered_until_it_touches_it_does_neither() {
    let touches = title_at(60, 100);
    assert!(found(&touches, "adrift").is_none(), "{touches:?}");
    // All that is left is the corner between the mat and either end of the line.
    told(&touches, "trapped", Level::Note);
    assert!(mm2(&touches) < 2 * CORNER, "{touches:?}");
    // No end, no corner: the mat as wide as the line, or all of the line on it.
    let mut things = things();
    things[0].lie = thing("the mat", Kind::Mat, (60, 100), (84, 110), "goldenrod").lie;
    things[1].lie.size.width = Length::from_mm(60);
    things[1].lie.at = mm(72, 105);
    lies_well(&verdict(things, mm(60, 100), None));
}

#[test]
fn well_clear_of_all_it_is_adrift_and_traps_nothing() {
    let clear = title_at(60, 60);
    assert!(found(&clear, "adrift").is_some() && found(&clear, "trapped").is_none(), "{clear:?}");
    // On a page with nothing on it there is nothing to touch.
    lies_well(&verdict(Vec::new(), mm(60, 60), None));
}

#[test]
fn it_may_lie_on_the_edge_of_the_mat() {
    let on = title_at(60, 104);
    let amiss: Vec<&str> =
        on.findings.iter().filter(|one| one.points.tenths() > 0).map(|one| one.id).collect();
    assert!(!amiss.iter().any(|id| ["adrift", "cover", "edge"].contains(id)) && !on.stops(), "{amiss:?}");
    assert!(mm2(&on) < 2 * CORNER, "{on:?}");
}

#[test]
fn photos_are_kept_clear() {
    let covers = title_at(60, 115);
    let told_of = told(&covers, "cover", Level::Warn);
    assert!(told_of.contains("the photo") && !covers.stops(), "{told_of}");
    let mut things = things();
    things[1].original = true;
    let spoilt = verdict(things, mm(60, 115), None);
    let caution = told(&spoilt, "cover", Level::Stop);
    assert!(spoilt.stops());
    for words in ["the photo", "cannot be reprinted", "stick nothing on it"] {
        assert!(caution.contains(words), "{caution}");
    }
}

#[test]
fn the_space_to_write_in_is_kept_clear() {
    let covers = title_at(215, 130);
    let told_of = told(&covers, "cover", Level::Stop);
    assert!(covers.stops() && told_of.contains("the story") && told_of.contains("write"), "{told_of}");
    let under = title_at(209, 180);
    assert!(found(&under, "cover").is_none() && found(&under, "adrift").is_none(), "{under:?}");
}

#[test]
fn a_label_is_overlapped_at_its_edge_only() {
    lies_well(&title_at(60, 235));
    let on = title_at(60, 252);
    let edge = found(&on, "edge").unwrap();
    assert_eq!(edge.slots, [0, 1, 2, 3]);
}

#[test]
fn a_colour_seen_in_three_places_looks_chosen() {
    let shows_teal = |count: usize| {
        let mut things = things();
        things.iter_mut().take(count).for_each(|thing| thing.colours.push(tint("teal")));
        verdict(things, mm(60, 100), None)
    };
    let twice = shows_teal(1);
    let note = told(&twice, "three", Level::Note);
    assert!(note.contains("teal in two places"), "{note}");
    assert_eq!(found(&twice, "three").unwrap().points.tenths(), 0);
    for enough in [2, 3] {
        assert!(found(&shows_teal(enough), "three").is_none(), "teal on {enough} things and the title");
    }
}

#[test]
fn a_subtitle_keeps_off_the_titles_letters() {
    let over = verdict(things(), mm(60, 100), Some(mm(70, 90)));
    assert!(told(&over, "overlap", Level::Warn).contains("another strip's letters"));
    // Right under the title it would lie on the photo; it stands on the title's upper edge.
    let beside = verdict(things(), mm(60, 100), Some(mm(70, 80)));
    assert!(found(&beside, "overlap").is_none() && found(&beside, "adrift").is_none(), "{beside:?}");
}

#[test]
fn letters_stay_on_the_page_and_out_of_its_margin() {
    let off = title_at(-5, 100);
    let told_of = told(&off, "off", Level::Stop);
    assert!(off.stops() && told_of.contains("5 mm"), "{told_of}");
    assert_eq!(found(&off, "off").unwrap().slots, [0]);
    let near = title_at(4, 100);
    let told_of = told(&near, "margin", Level::Note);
    assert!(!near.stops() && told_of.contains("nearer than 6 mm") && told_of.contains("4 mm"), "{told_of}");
    assert_eq!(found(&near, "margin").unwrap().slots, [0]);
    let clear = title_at(6, 100);
    assert!(found(&clear, "margin").is_none() && found(&clear, "off").is_none());
}
