//! Whole orders printed as PDF, read back: the templates at true size and where the plan has them, the parts that meet, the
//! words in the order in which they are used.
//!
//! Must not know how an order is set on sheets, nor how a file is written. The plans are the demo's and made-up ones.
#![expect(clippy::unwrap_used, reason = "an order that cannot be read back fails the test")]

use std::sync::LazyLock;

use oddment::files::StashFolder;
use oddment::measure::{Angle, Extent, Length, Point, Polygon, Unit};
use oddment::order::{Order, StripOrder};
use oddment::page::Paper;
use oddment::plan::Plan;
use oddment::print::{About, Head, Sheet, pdf, sheets, template_sheets};

use super::paper::{Drawn, Heard, Outline, Read, Stroke, bookmarks, heard, read, text, within};
use crate::pages::{self, Scale};

/// As near as marks must lie, in mm: a tenth is as fine as a ruler is read.
const NEAR: f64 = 0.1;
/// As near as two numbers of one file can be told apart.
const SAME: f64 = 0.001;

const SCALE: Scale = Scale { page: (150, 310), tall: (12, 40), things: 5, letters: 16 };
/// Strips longer than a sheet.
const LONG: Scale = Scale { page: (280, 310), tall: (20, 60), things: 5, letters: 40 };

const PAPERS: [(Paper, Unit); 2] = [(Paper::A4, Unit::Millimetre), (Paper::Letter, Unit::Inch)];

/// The demo's plans, and made-up ones.
fn orders() -> Vec<Order> {
    let loaded = StashFolder::at(concat!(env!("CARGO_MANIFEST_DIR"), "/sample-stash")).load().unwrap();
    let demo = loaded.plans.iter().map(|entry| Order::of(entry.plan.as_ref().unwrap(), &loaded.stash));
    let scales = (0..8).map(|seed| (seed, SCALE)).chain((16..21).map(|seed| (seed, LONG)));
    let made_up = scales.map(|(seed, scale)| pages::Drawn::new(seed, scale));
    demo.chain(made_up.map(|drawn| Order::of(&drawn.plan, &drawn.stash))).collect()
}

fn printed(order: &Order, sheets: &[Sheet]) -> Read {
    read(&pdf(sheets, &About::of(order, &Head::default())))
}

fn template(order: &Order, strip: &StripOrder, (paper, unit): (Paper, Unit)) -> Read {
    printed(order, &template_sheets(order, strip, paper.size(None, unit).unwrap(), unit))
}

/// Every template of every order on both papers.
fn each_template(mut check: impl FnMut(&StripOrder, &Read)) {
    static ALL: LazyLock<Vec<(StripOrder, Read)>> = LazyLock::new(|| {
        let mut all = Vec::new();
        for order in orders() {
            for strip in order.strips.iter().filter(|strip| strip.stuck.is_none()) {
                all.extend(PAPERS.map(|paper| (strip.clone(), template(&order, strip, paper))));
            }
        }
        all
    });
    ALL.iter().for_each(|(strip, read)| check(strip, read));
}

fn is_near(a: (f64, f64), b: (f64, f64), far: f64) -> bool {
    (a.0 - b.0).abs() < far && (a.1 - b.1).abs() < far
}

/// An inch is 25.4 mm (international yard and pound agreement, 1959), so 4 in are 101.6 mm.
#[test]
fn check_bars_are_as_long_as_they_say() {
    let mut seen = 0;
    each_template(|_, read| {
        for page in &read.pages {
            for (called, long) in [("100 mm", 100.0), ("4 in", 101.6)] {
                let words =
                    page.words.iter().find(|said| said.text == format!("{called}: measure this before use"));
                let at = words.unwrap().at;
                let bar = |line: &&Stroke| {
                    (line.from.1 - line.to.1).abs() < SAME
                        && (0.0..5.0).contains(&(line.from.1 - at.1))
                        && ((line.to.0 - line.from.0).abs() - long).abs() < NEAR
                };
                let bar = page.strokes.iter().find(bar).unwrap();
                for end in [bar.from, bar.to] {
                    let is_tick = |line: &Stroke| is_near((line.from.0, line.to.0), (end.0, end.0), SAME);
                    assert!(page.strokes.iter().any(is_tick), "no tick at the end of {called}");
                    assert!((5.0..page.size.0 - 5.0).contains(&end.0), "beyond what printers reach");
                }
                seen += 1;
            }
        }
    });
    assert!(seen > 60);
}

/// An outline on a page that is a letter's, and whose.
struct Stands {
    slot: usize,
    reach: Extent,
}

/// What lies between two outlines of one shape; `None` if they are of two.
fn apart(ours: &[Polygon], theirs: &[Polygon]) -> Option<(f64, f64)> {
    let (first, second) = (ours.first()?.first()?, theirs.first()?.first()?);
    let by = (second.0 - first.0, second.1 - first.1);
    let alike = |a: &Polygon, b: &Polygon| {
        a.len() == b.len() && a.iter().zip(b).all(|(a, b)| is_near((a.0 + by.0, a.1 + by.1), *b, SAME))
    };
    (ours.len() == theirs.len() && ours.iter().zip(theirs).all(|(a, b)| alike(a, b))).then_some(by)
}

/// Where the strip's first feet are on a page, as most of its whole letters have it, and those letters.
fn stood(strip: &StripOrder, page: &Drawn) -> Option<((f64, f64), Vec<Stands>)> {
    let drawn: Vec<&Outline> = page.outlines.iter().filter(|outline| outline.fill.is_none()).collect();
    let letters = || strip.template.letters.iter().enumerate();
    let all = drawn
        .iter()
        .flat_map(|outline| letters().filter_map(|(_, letter)| apart(&letter.edge, &outline.corners)));
    let all: Vec<(f64, f64)> = all.collect();
    let votes = |by: &(f64, f64)| all.iter().filter(|other| is_near(*by, **other, NEAR)).count();
    let by = *all.iter().max_by_key(|by| votes(by))?;
    let mut stands = Vec::new();
    for (slot, letter) in letters() {
        let is_it = |outline: &&&Outline| {
            apart(&letter.edge, &outline.corners).is_some_and(|far| is_near(far, by, NEAR))
        };
        stands.extend(
            drawn
                .iter()
                .find(is_it)
                .map(|outline| Stands { slot, reach: Extent::of(&outline.corners).unwrap() }),
        );
    }
    Some((by, stands))
}

#[test]
fn letters_stand_where_the_plan_has_them() {
    let (mut seen, mut whole) = (0, 0);
    each_template(|strip, read| {
        let mut found = vec![false; strip.steps.len()];
        for (by, stands) in read.pages.iter().filter_map(|page| stood(strip, page)) {
            for Stands { slot, reach } in stands {
                found[slot] = true;
                let stance = &strip.steps[slot].stance;
                // What is missing has its own tail and height in the room that is kept for it.
                if stance.tilt != Angle::ZERO || strip.template.letters[slot].missing {
                    continue;
                }
                let (left, foot) = (by.0 + stance.left.mm(), by.1 - stance.over.mm());
                assert!(
                    is_near((reach.left, reach.bottom), (left, foot), NEAR),
                    "{reach:?} {stance:?} {by:?}"
                );
                let size = (reach.right - reach.left, reach.bottom - reach.top);
                assert!(is_near(size, (stance.width.mm(), stance.height.mm()), NEAR), "{size:?} {stance:?}");
                seen += 1;
            }
        }
        whole += usize::from(found.iter().all(|found| *found));
    });
    assert!(seen > 300 && whole > 30, "{seen} letters, {whole} whole templates");
}

/// A strip whose first letter's feet lie 15 mm from the page's left edge and 24 mm from its top edge.
#[test]
fn the_pages_edges_are_as_far_off_as_the_carrier_is_lined_up() {
    let made_up = pages::Drawn::new(3, Scale { things: 0, letters: 4, tall: (12, 18), ..SCALE });
    let mut strip = made_up.plan.strips()[0].clone();
    strip.place.at = Some(Point { x: Length::from_mm(15), y: Length::from_mm(24) });
    strip.place.turn = Angle::ZERO;
    let plan = Plan::new(None, made_up.plan.page.clone(), vec![strip]).unwrap();
    let order = Order::of(&plan, &made_up.stash);
    let strip = &order.strips[0];
    let spot = &strip.carriers[0].first;
    let read = template(&order, strip, (Paper::A4, Unit::Millimetre));
    let (by, stands) = stood(strip, &read.pages[0]).unwrap();
    let first = stands.iter().find(|stands| stands.slot == 0).unwrap();
    let upright = |line: &Stroke| {
        (line.from.0 - line.to.0).abs() < SAME
            && ((first.reach.left - line.from.0) - spot.left.mm()).abs() < NEAR
    };
    assert!(read.pages[0].strokes.iter().any(upright), "the left edge of the page is {} off", spot.left.mm());
    let level = |line: &Stroke| {
        (line.from.1 - line.to.1).abs() < SAME && ((by.1 - line.from.1) - spot.down.mm()).abs() < NEAR
    };
    assert!(read.pages[0].strokes.iter().any(level), "the top edge of the page is {} off", spot.down.mm());
}

/// A line that a part is cut off along, and the line that its edge is laid on, are in one place of the strip.
#[test]
fn parts_meet() {
    let mut met = 0;
    each_template(|strip, read| {
        let parts: Vec<(usize, (f64, f64))> = read
            .pages
            .iter()
            .enumerate()
            .filter_map(|(place, page)| Some((place, stood(strip, page)?.0)))
            .collect();
        let on_strip =
            |line: &Stroke, by: (f64, f64)| [line.from, line.to].map(|end| (end.0 - by.0, end.1 - by.1));
        let dashed =
            |line: &Stroke| is_near((line.pen.dash.first().copied().unwrap_or(0.0), 0.0), (4.0, 0.0), SAME);
        // A sheet is cut from edge to edge: further than the line that it is laid on.
        let within = |from: (f64, f64), to: (f64, f64), at: (f64, f64)| {
            let along = |from: f64, to: f64, at: f64| from - NEAR <= at && at <= to + NEAR;
            along(from.0, to.0, at.0) && along(from.1, to.1, at.1)
        };
        for &(place, by) in &parts {
            let before: Vec<_> = parts.iter().filter(|(other, _)| *other < place).collect();
            if place == 0 || before.len() < place {
                continue;
            }
            let cuts: Vec<&Stroke> = read.pages[place].strokes.iter().filter(|line| dashed(line)).collect();
            assert!(!cuts.is_empty(), "part {} is cut off nowhere", place + 1);
            for cut in cuts {
                let [from, to] = on_strip(cut, by);
                let lies_on = |(other, by): &(usize, (f64, f64))| {
                    read.pages[*other].strokes.iter().any(|line| {
                        let [start, end] = on_strip(line, *by);
                        let is_lay = line.pen.dash.is_empty() && line.pen.width > 0.3;
                        is_lay && within(from, to, start) && within(from, to, end)
                    })
                };
                assert!(before.iter().copied().any(lies_on), "part {} meets none: {cut:?}", place + 1);
                met += 1;
            }
        }
    });
    assert!(met > 6, "{met} joins");
}

/// Every whole order on both papers.
fn each_order(mut check: impl FnMut(&Order, &Read)) {
    for order in orders() {
        for (paper, unit) in PAPERS {
            check(&order, &printed(&order, &sheets(&order, &Head::default(), paper, unit).unwrap()));
        }
    }
}

/// Album pages: 12 x 12 in of 25.4 mm are 304.8 mm a side (common practice, no source).
#[test]
fn sheets_are_as_large_as_the_album_page_where_that_is_asked_for() {
    let mut seen = 0;
    for order in orders().iter().filter(|order| order.page.is_some()) {
        let page = order.page.unwrap();
        let read = printed(order, &sheets(order, &Head::default(), Paper::Page, Unit::Millimetre).unwrap());
        let (width, height) = (page.width.mm(), page.height.mm());
        for drawn in &read.pages {
            let either =
                is_near(drawn.size, (width, height), NEAR) || is_near(drawn.size, (height, width), NEAR);
            assert!(either, "{:?} for {page:?}", drawn.size);
        }
        seen += usize::from(is_near((width, height), (304.8, 304.8), SAME));
    }
    assert!(seen > 0);
}

/// Printers leave about 5 mm white at each edge (common practice, no source).
#[test]
fn nothing_is_printed_where_printers_do_not_reach() {
    let within = |page: &Drawn, reach: Extent| {
        let (width, height) = page.size;
        assert!(reach.left > 5.0 && reach.top > 5.0, "{reach:?}");
        assert!(reach.right < width - 5.0 && reach.bottom < height - 5.0, "{reach:?}");
    };
    let check = |read: &Read| {
        for page in &read.pages {
            for line in &page.strokes {
                within(page, Extent::of(&[vec![line.from, line.to]]).unwrap());
            }
            for outline in &page.outlines {
                within(page, Extent::of(&outline.corners).unwrap());
            }
            for said in &page.words {
                let (left, line) = said.at;
                let (right, top) = (left + said.width, line - said.size);
                within(page, Extent { left, top, right, bottom: line + 0.25 * said.size });
            }
        }
    };
    each_order(|_, read| check(read));
}

/// What a reader aloud hears of an order: what it is, the parts by their numbers, every letter in its place.
#[test]
fn the_order_is_read_in_the_order_in_which_it_is_used() {
    each_order(|order, read| {
        let heard = heard(read);
        let heads: Vec<&Heard> = heard.iter().filter(|one| one.role.starts_with('H')).collect();
        assert!(heads[0].role == "H1" && heads.iter().filter(|one| one.role == "H1").count() == 1);
        let numbers: Vec<u8> =
            heads.iter().filter_map(|one| one.text.split_once(". ")?.0.parse().ok()).collect();
        assert!(numbers.len() > 4 && numbers.is_sorted_by(|a, b| a < b) && numbers[0] == 1, "{numbers:?}");
        let at = |begun: &str| heads.iter().position(|one| one.text.starts_with(begun));
        for strip in order.strips.iter().filter(|strip| strip.stuck.is_none()) {
            let template = at(&format!("Template of the {}", strip.role)).unwrap();
            assert!(at("3. ").unwrap() < template && template < at("4. ").unwrap(), "{heads:?}");
        }
        let listed: Vec<String> = bookmarks(read).into_iter().map(|(_, title, _)| title).collect();
        assert_eq!(listed, heads.iter().map(|one| one.text.trim()).collect::<Vec<_>>());
        let rows = heard.windows(2).filter(|pair| pair[0].role == "TR" && pair[1].role == "TD");
        let counted: Vec<usize> = rows.filter_map(|pair| pair[1].text.trim().parse().ok()).collect();
        let steps = order.strips.iter().flat_map(|strip| &strip.steps);
        assert_eq!(counted, steps.map(|step| step.number).collect::<Vec<_>>());
    });
}

#[test]
fn the_title_of_the_file_is_the_wording() {
    each_order(|order, read| {
        let about = within(&read.file, &read.file.trailer, "Info");
        let title = text(about.get(b"Title").unwrap());
        for strip in &order.strips {
            for line in strip.wording.lines() {
                assert!(title.contains(line.trim()), "{line} is not in {title}");
            }
        }
    });
}
