//! Whole orders as SVG, read and drawn by `resvg`: their bars, their letters where the plan puts them, parts that meet.
//!
//! Must not know how an order is set on its sheets.
#![expect(clippy::unwrap_used, reason = "a drawing that cannot be read fails the test")]

use oddment::files::{StashFolder, unpack_sample};
use oddment::measure::{Extent, Unit};
use oddment::order::Order;
use oddment::page::Paper;
use oddment::plan::Plan;
use oddment::print::{About, Head, Sheet, sheets, svg};
use oddment::stash::Stash;
use oddment::title::{Layout, LetterBox};
use resvg::usvg::roxmltree::{Document, Node as Element};
use resvg::usvg::{Group, Node, Options, Paint, Tree};

use super::drawn_svg::{CSS_PIXELS, INCH, Look, words};

/// A long line with nothing on it yet: its outlines are those of the letters that are wanted.
const LONG: &str =
    "format = 1\nname = \"Long\"\n[[strip]]\nrole = \"title\"\nwording = \"LANTERNS ALONG THE QUAY\"\n";

/// By how many mm a place may be off.
const SLACK: f64 = 0.1;

/// A plan of the sample, or the long one.
fn plan(name: &str) -> (Plan, Stash) {
    let place = tempfile::TempDir::new().unwrap();
    let stash = place.path().join("stash");
    unpack_sample(&stash).unwrap();
    std::fs::write(stash.join("pages/long.toml"), LONG).unwrap();
    let folder = StashFolder::at(stash);
    let loaded = folder.load().unwrap();
    let file = folder.find_plan(name).unwrap();
    (folder.open_plan(&file, &loaded.colours, &loaded.stash).unwrap().plan, loaded.stash)
}

/// The sheets of its order, each with its SVG.
fn printed(plan: &Plan, stash: &Stash, paper: Paper) -> Vec<(Sheet, String)> {
    let (order, head) = (Order::of(plan, stash), Head::default());
    let about = About::of(&order, &head);
    let sheets = sheets(&order, &head, paper, Unit::Millimetre).unwrap();
    sheets
        .into_iter()
        .map(|sheet| {
            let text = svg(&sheet, &about);
            (sheet, text)
        })
        .collect()
}

/// A path of a drawing, in mm.
#[derive(Debug, Clone, Copy)]
struct Path {
    extent: Extent,
    /// How wide its line is, if it has one; and whether it is black.
    pen: Option<f64>,
    is_black: bool,
}

/// All paths, in the order of the file.
fn paths(text: &str) -> Vec<Path> {
    let tree = Tree::from_str(text, &Options::default()).unwrap();
    let mut found = Vec::new();
    gather(tree.root(), &mut found);
    found
}

fn gather(group: &Group, found: &mut Vec<Path>) {
    for node in group.children() {
        match node {
            Node::Group(group) => gather(group, found),
            Node::Path(path) => {
                let bounds = path.abs_bounding_box();
                let mm = |css: f32| f64::from(css * INCH / CSS_PIXELS);
                let (left, top) = (mm(bounds.left()), mm(bounds.top()));
                let extent = Extent { left, top, right: mm(bounds.right()), bottom: mm(bounds.bottom()) };
                let black =
                    |paint: &Paint| matches!(paint, Paint::Color(one) if one.red == 0 && one.green == 0);
                let stroke = path.stroke();
                let is_black = stroke.is_some_and(|stroke| black(stroke.paint()));
                found.push(Path {
                    extent,
                    pen: stroke.map(|stroke| f64::from(stroke.width().get())),
                    is_black,
                });
            }
            Node::Image(_) | Node::Text(_) => {}
        }
    }
}

fn is_near(one: f64, other: f64) -> bool {
    (one - other).abs() <= SLACK
}

/// Where a letter reaches on its carrier, y down from the feet.
fn reach(letter: &LetterBox) -> Extent {
    Extent {
        left: letter.left.mm(),
        top: -letter.top().mm(),
        right: letter.right().mm(),
        bottom: -letter.bottom.mm(),
    }
}

/// How far letters are moved from the carrier to the sheet, where outlines lie as these letters do. One that is missing has
/// its own tail and height in the room that is kept for it: of that the sides alone are looked at.
fn moved(letters: &[LetterBox], outlines: &[Extent]) -> Option<(f64, f64)> {
    let straight = || letters.iter().zip(outlines).filter(|(letter, _)| letter.tilt.thousandths() == 0);
    let (first, outline) = straight().find(|(letter, _)| letter.filled).or_else(|| straight().next())?;
    let by = (outline.left - reach(first).left, outline.top - reach(first).top);
    let fits = straight().all(|(letter, outline)| {
        let there = reach(letter).moved(by.0, by.1);
        let is_high = || is_near(there.top, outline.top) && is_near(there.bottom, outline.bottom);
        is_near(there.left, outline.left)
            && is_near(there.right, outline.right)
            && (!letter.filled || is_high())
    });
    fits.then_some(by)
}

/// The outlines of letters on a template: closed, in black, by a pen that is not fine.
fn outlines(text: &str) -> Vec<Extent> {
    let is_closed = |extent: Extent| extent.right - extent.left > 0.5 && extent.bottom - extent.top > 0.5;
    let drawn = paths(text).into_iter().filter(|path| path.is_black && path.pen.is_some_and(|pen| pen > 0.2));
    drawn.map(|path| path.extent).filter(|extent| is_closed(*extent)).collect()
}

/// A template's sheet: the slots that it shows, and how far they are moved to come there.
#[derive(Debug)]
struct Shown {
    slots: std::ops::Range<usize>,
    by: (f64, f64),
}

/// The slots, one after the other, whose letters lie as a sheet has them.
fn shown(layout: &Layout, text: &str) -> Shown {
    let outlines = outlines(text);
    let starts = 0..=layout.letters.len().checked_sub(outlines.len()).unwrap();
    let found = starts.filter_map(|start| {
        let slots = start..start + outlines.len();
        let by = moved(&layout.letters[slots.clone()], &outlines)?;
        Some(Shown { slots, by })
    });
    let mut found: Vec<Shown> = found.collect();
    assert_eq!(found.len(), 1, "{found:?}: {outlines:?}");
    found.remove(0)
}

#[test]
fn every_sheet_is_as_large_as_its_paper_and_can_be_read() {
    for name in ["lantern-walk", "quayside-supper", "long"] {
        let (plan, stash) = plan(name);
        // ISO 216: A4 is 210 x 297 mm. ASME Y14.1: size A is 8.5 x 11 in.
        for (paper, sides) in [(Paper::A4, (210.0, 297.0)), (Paper::Letter, (215.9, 279.4))] {
            for (sheet, text) in printed(&plan, &stash, paper) {
                let (width, height) = Look::of(&text).size();
                let upright = (width.min(height), width.max(height));
                assert!(is_near(upright.0, sides.0) && is_near(upright.1, sides.1), "{width} x {height}");
                let document = Document::parse(&text).unwrap();
                let title = document.root_element().first_element_child().unwrap();
                assert!(title.text().unwrap().ends_with(&format!(" ({})", sheet.told)), "{title:?}");
                assert!(!words(&document).is_empty());
            }
        }
    }
}

#[test]
fn check_bars_are_as_long_as_they_say() {
    let mut measured = 0;
    for (name, paper) in
        [("lantern-walk", Paper::A4), ("quayside-supper", Paper::Letter), ("long", Paper::A4)]
    {
        let (plan, stash) = plan(name);
        for (_, text) in printed(&plan, &stash, paper) {
            let (document, look) = (Document::parse(&text).unwrap(), Look::of(&text));
            // An inch is 25.4 mm (international yard and pound agreement, 1959).
            for (called, length) in [("100 mm: measure", 100.0), ("4 in: measure", 4.0 * 25.4)] {
                let said = |node: &Element| node.text().is_some_and(|text| text.starts_with(called));
                let Some(words) = document.descendants().filter(Element::is_element).find(said) else {
                    continue;
                };
                let at = |side: &str| words.attribute(side).unwrap().parse::<f64>().unwrap();
                let ticks: Vec<f64> = (3..40)
                    .map(|row| {
                        look.dark_runs(at("y") + f64::from(row) / 10.0, at("x") - 2.0, at("x") + 110.0)
                    })
                    .filter(|runs| runs.len() == 2)
                    .map(|runs| f64::midpoint(runs[1].0, runs[1].1) - f64::midpoint(runs[0].0, runs[0].1))
                    .collect();
                assert!(
                    ticks.len() > 10 && ticks.iter().all(|&one| is_near(one, length)),
                    "{called}: {ticks:?}"
                );
                measured += 1;
            }
        }
    }
    assert!(measured >= 12, "{measured}");
}

#[test]
fn each_letter_is_outlined_where_the_plan_puts_it() {
    for (name, paper) in
        [("lantern-walk", Paper::A4), ("quayside-supper", Paper::A4), ("quayside-supper", Paper::Letter)]
    {
        let (plan, stash) = plan(name);
        let all = printed(&plan, &stash, paper);
        for strip in plan.strips() {
            let told = format!("template of the {}", strip.role());
            let layout = Layout::of(strip, &stash);
            let of_strip = all.iter().filter(|(sheet, _)| sheet.told.starts_with(&told));
            let seen: Vec<usize> = of_strip.flat_map(|(_, text)| shown(&layout, text).slots).collect();
            assert!((0..strip.len()).all(|slot| seen.contains(&slot)), "{told}: {seen:?}");
        }
    }
}

#[test]
fn parts_of_a_long_strip_meet() {
    let (plan, stash) = plan("long");
    let layout = Layout::of(&plan.strips()[0], &stash);
    for paper in [Paper::A4, Paper::Letter] {
        let all = printed(&plan, &stash, paper);
        let parts = all.iter().filter(|(sheet, _)| sheet.told.starts_with("template"));
        let parts: Vec<(Shown, Vec<Extent>)> = parts
            .map(|(_, text)| {
                let shown = shown(&layout, text);
                let (right, down) = shown.by;
                let moved = paths(text).into_iter().map(|path| path.extent.moved(-right, -down));
                (shown, moved.collect())
            })
            .collect();
        assert!(parts.len() > 1, "{} parts", parts.len());
        assert_eq!((parts[0].0.slots.start, parts[parts.len() - 1].0.slots.end), (0, layout.letters.len()));
        for pair in parts.windows(2) {
            let [(earlier, before), (later, after)] = pair else { continue };
            assert!(earlier.slots.end >= later.slots.start, "{earlier:?}, {later:?}");
            // A line across the strip that both parts have at the same place, all letters before it on one part and all
            // behind it on the other.
            let across = |one: &&Extent| one.right - one.left < 0.01 && one.bottom - one.top > 10.0;
            let both = before
                .iter()
                .filter(across)
                .filter(|one| after.iter().filter(across).any(|other| (one.left - other.left).abs() < 0.02));
            let parts_well = |line: &&Extent| {
                let (before, behind): (Vec<usize>, Vec<usize>) = (earlier.slots.start..later.slots.end)
                    .partition(|&slot| reach(&layout.letters[slot]).right <= line.left);
                before.iter().all(|slot| earlier.slots.contains(slot))
                    && behind.iter().all(|slot| later.slots.contains(slot))
            };
            assert!(
                both.clone().any(|line| parts_well(&line)),
                "{earlier:?}, {later:?}: {:?}",
                both.collect::<Vec<_>>()
            );
        }
    }
}
