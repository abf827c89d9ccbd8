//! What must hold of every template: nothing off the sheet, nothing cut, everything in its true place.
//!
//! Must not know how a template is parted or drawn.
#![expect(clippy::unwrap_used, reason = "a test may fail loudly")]

mod words;

use std::sync::LazyLock;

use super::template_sheets;
use crate::measure::{Extent, Length, Polygon, Size, Unit};
use crate::order::{Order, StripOrder, trial};
use crate::page::Page;
use crate::plan::Plan;
use crate::print::clip::{self, Dot, holds, meet};
use crate::print::sheet::{Mark, Sense, Sheet};
use crate::title::{Role, Strip};

fn size(width: i64, height: i64) -> Size {
    Size { width: Length::from_mm(width), height: Length::from_mm(height) }
}

fn papers() -> Vec<Size> {
    [(125, 125), (125, 300), (148, 210), (210, 297), (216, 279), (305, 305), (1000, 125), (1000, 1000)]
        .map(|(width, height)| size(width, height))
        .to_vec()
}

fn order(plan: &Plan) -> Order {
    Order::of(plan, &trial::stash())
}

fn of_strip(strip: Strip) -> Order {
    order(&Plan::new(Some("Lantern walk".into()), trial::page(), vec![strip]).unwrap())
}

/// Nothing stands on it yet; capitals are as high as given.
fn empty(wording: &str, height: i64, turn: i32) -> Order {
    let mut strip = trial::place(trial::strip(Role::title(), wording, &[]), turn);
    strip.rules.tall = Some((Length::from_mm(height), Length::from_mm(height)));
    // Where what is round hangs below one line and rises over the next, a join still runs between them.
    strip.setting.line_gap = Length::from_mm(10);
    of_strip(strip)
}

fn orders() -> Vec<Order> {
    let mut with_thing =
        trial::strip(Role::title(), "SON\nLENT", &["blocks/S:coral", "-", "kelp/N", "kelp/L"]);
    trial::stand(&mut with_thing, 1, trial::thing("a brass button off the old oilskin", 11));
    let mut huge = trial::strip(Role::title(), "O", &[]);
    trial::stand(&mut huge, 0, trial::thing("hoop", 400));
    vec![
        order(&trial::plan("LANE", &["blocks/L", "blocks/A", "kelp/N", "blocks/E"])),
        order(&trial::on_photo("LA", &["blocks/L", "blocks/A"], false, 109)),
        of_strip(trial::place(with_thing, -3_500)),
        of_strip(trial::place(huge, 0)),
        empty("ÉTÉ & ♥, 灯!", 20, 12_000),
        empty("lantern walk along the quay with all the children of the town", 25, 0),
        empty("HARBOUR LIGHTS\nALONG THE QUAYS", 140, 2_000),
        empty("I", 8, 0),
    ]
}

fn sheets(order: &Order, paper: Size) -> Vec<Sheet> {
    template_sheets(order, &order.strips[0], paper, Unit::Millimetre)
}

/// Calls `look` with the sheets of every order on every paper.
fn everywhere(mut look: impl FnMut(&StripOrder, &[Sheet])) {
    static ALL: LazyLock<Vec<(StripOrder, Vec<Sheet>)>> = LazyLock::new(|| {
        let on_paper = |order: Order| {
            papers().into_iter().map(move |paper| (order.strips[0].clone(), sheets(&order, paper)))
        };
        orders().into_iter().flat_map(on_paper).collect()
    });
    ALL.iter().for_each(|(strip, sheets)| look(strip, sheets));
}

fn extent(mark: &Mark) -> Extent {
    match mark {
        Mark::Words(words) => Extent {
            left: words.at.0,
            top: words.at.1 - words.size * 0.73,
            right: words.at.0 + words.width(),
            bottom: words.at.1,
        },
        Mark::Shape(shape) => Extent::of(&shape.outline).unwrap(),
        Mark::Line { from, to, .. } => Extent::of(&[vec![*from, *to]]).unwrap(),
    }
}

fn marks(sheet: &Sheet) -> impl Iterator<Item = &Mark> {
    sheet.pieces.iter().flat_map(|piece| &piece.marks)
}

/// The outlines of a sheet, those that are filled left out.
fn outlines(sheet: &Sheet) -> Vec<&Vec<Polygon>> {
    marks(sheet)
        .filter_map(|mark| match mark {
            Mark::Shape(shape) if shape.pen.is_some() => Some(&shape.outline),
            _ => None,
        })
        .collect()
}

/// How far `found` is moved from `wanted`; `None` where it is another outline.
fn moved(wanted: &[Polygon], found: &[Polygon]) -> Option<Dot> {
    let dots = |polygons: &[Polygon]| polygons.iter().flatten().copied().collect::<Vec<Dot>>();
    let (wanted, found) = (dots(wanted), dots(found));
    let by = (found.first()?.0 - wanted.first()?.0, found.first()?.1 - wanted.first()?.1);
    let same = |(a, b): (&Dot, &Dot)| (b.0 - a.0 - by.0).abs() < 1e-9 && (b.1 - a.1 - by.1).abs() < 1e-9;
    (wanted.len() == found.len() && wanted.iter().zip(&found).all(same)).then_some(by)
}

/// The middles of the cross marks of a sheet: two lines of 6 mm across each other.
fn crosses(sheet: &Sheet) -> Vec<Dot> {
    let middle = |mark: &Mark, level: bool| match mark {
        Mark::Line { from, to, pen } if pen.width < 0.16 && pen.dash.is_none() => {
            let (along, over) =
                if level { (to.0 - from.0, to.1 - from.1) } else { (to.1 - from.1, to.0 - from.0) };
            ((along - 6.0).abs() < 1e-9 && over.abs() < 1e-9)
                .then_some((f64::midpoint(from.0, to.0), f64::midpoint(from.1, to.1)))
        }
        _ => None,
    };
    let upright: Vec<Dot> = marks(sheet).filter_map(|mark| middle(mark, false)).collect();
    marks(sheet)
        .filter_map(|mark| middle(mark, true))
        .filter(|dot| upright.iter().any(|other| near(*dot, *other)))
        .collect()
}

fn near(a: Dot, b: Dot) -> bool {
    (a.0 - b.0).abs() < 1e-9 && (a.1 - b.1).abs() < 1e-9
}

#[test]
fn nothing_leaves_the_margins() {
    everywhere(|strip, sheets| {
        for sheet in sheets {
            let (width, height) = (sheet.size.width.mm(), sheet.size.height.mm());
            let within = Extent { left: 9.9, top: 9.9, right: width - 9.9, bottom: height - 9.9 };
            for mark in marks(sheet) {
                assert!(
                    holds(within, extent(mark)),
                    "{mark:?} of {} on {width} x {height}: {}",
                    sheet.told,
                    strip.wording
                );
            }
        }
    });
}

#[test]
fn words_lie_on_no_words_and_the_drawing_on_nothing_else() {
    everywhere(|strip, sheets| {
        for sheet in sheets {
            let words: Vec<Extent> =
                marks(sheet).filter(|mark| matches!(mark, Mark::Words(_))).map(extent).collect();
            for (place, a) in words.iter().enumerate() {
                for b in &words[place + 1..] {
                    assert!(
                        !meet(*a, *b),
                        "{a:?} {b:?} of {} on {:?}: {}",
                        sheet.told,
                        sheet.size,
                        strip.wording
                    );
                }
            }
            let whole = |piece: &crate::print::sheet::Piece| {
                piece.marks.iter().map(extent).reduce(Extent::and).unwrap()
            };
            let boxes: Vec<Extent> = sheet.pieces.iter().map(whole).collect();
            let drawing =
                sheet.pieces.iter().position(|piece| matches!(piece.sense, Sense::Drawing(_))).unwrap();
            // The line that a part is cut along runs all over its sheet.
            let is_cut = |place: usize| sheet.pieces[place].sense == Sense::Ornament;
            for (place, other) in
                boxes.iter().enumerate().filter(|(place, _)| *place != drawing && !is_cut(*place))
            {
                assert!(
                    !meet(boxes[drawing], *other),
                    "piece {place} of {} on {:?}: {}",
                    sheet.told,
                    sheet.size,
                    strip.wording
                );
            }
        }
    });
}

#[test]
fn every_letter_is_whole_on_a_sheet_and_all_of_a_sheet_are_moved_alike() {
    everywhere(|strip, sheets| {
        let room =
            sheets.iter().map(|sheet| sheet.size.width.mm().min(sheet.size.height.mm())).fold(0.0, f64::max);
        let mut found = vec![false; strip.template.letters.len()];
        for sheet in sheets {
            let outlines = outlines(sheet);
            let mut by: Option<Dot> = None;
            for (slot, letter) in strip.template.letters.iter().enumerate() {
                let Some(here) =
                    outlines.iter().filter_map(|outline| moved(&letter.edge, outline)).find(|&here| {
                        // Two letters of one shape: only one of them is this one.
                        by.is_none_or(|by| near(by, here))
                    })
                else {
                    continue;
                };
                // A sheet's first match may be a later letter of the same shape; those that are told apart settle it.
                let twins =
                    strip.template.letters.iter().filter(|other| moved(&letter.edge, &other.edge).is_some());
                if twins.count() == 1 {
                    by = by.or(Some(here));
                    assert!(near(by.unwrap(), here));
                }
                found[slot] = true;
                if let (Some(print), Some(by)) = (&letter.print, by) {
                    let print = outlines.iter().filter_map(|outline| moved(print, outline));
                    assert!(print.into_iter().any(|here| near(by, here)), "the print of {slot}");
                }
            }
        }
        for (slot, letter) in strip.template.letters.iter().enumerate() {
            let extent = letter.extent().unwrap();
            let large = (extent.right - extent.left).max(extent.bottom - extent.top) > room - 90.0;
            assert!(found[slot] || large, "letter {slot} of {} on {room}", strip.wording);
        }
    });
}

#[test]
fn join_marks_meet_when_the_parts_are_laid_together() {
    let order = empty("lantern walk along the quay", 25, 0);
    let strip = &order.strips[0];
    let sheets = sheets(&order, size(210, 297));
    assert!(sheets.len() > 1);
    let views: Vec<(Dot, Vec<Dot>)> = sheets
        .iter()
        .map(|sheet| {
            let outlines = outlines(sheet);
            // The w of "walk" and the q of "quay" are the only ones of their shape; so is the first l on its own sheet.
            let by = strip.template.letters.iter().find_map(|letter| {
                let twins =
                    strip.template.letters.iter().filter(|other| moved(&letter.edge, &other.edge).is_some());
                let alone = twins.count() == 1;
                alone.then(|| outlines.iter().find_map(|outline| moved(&letter.edge, outline))).flatten()
            });
            (by.unwrap(), crosses(sheet))
        })
        .collect();
    for pair in views.windows(2) {
        let ((by, before), (other, after)) = (&pair[0], &pair[1]);
        let on_strip = |at: &Dot, by: &Dot| (at.0 - by.0, at.1 - by.1);
        let met =
            before.iter().filter(|a| after.iter().any(|b| near(on_strip(a, by), on_strip(b, other)))).count();
        assert!(met >= 2, "{before:?} {after:?}");
    }
}

#[test]
fn a_part_is_cut_from_edge_to_edge_through_no_words_and_no_letter() {
    let mut cut = 0;
    everywhere(|strip, sheets| {
        for sheet in sheets {
            let (width, height) = (sheet.size.width.mm(), sheet.size.height.mm());
            let lines = marks(sheet).filter_map(|mark| match mark {
                Mark::Line { from, to, pen } if pen.width > 0.45 => Some((*from, *to, mark)),
                _ => None,
            });
            for (from, to, line) in lines {
                cut += 1;
                let long = (to.0 - from.0 - (width - 20.0)).abs() < 1e-9
                    || (to.1 - from.1 - (height - 20.0)).abs() < 1e-9;
                assert!(long, "{line:?} on {width} x {height}");
                for other in marks(sheet).filter(|mark| matches!(mark, Mark::Words(_))) {
                    assert!(!meet(extent(line), extent(other)), "{line:?} {other:?} of {}", strip.wording);
                }
                let tick = |mark: &Mark| {
                    matches!(mark, Mark::Line { from, to, pen }
                    if pen.width < 0.3 && (to.0 - from.0 - 100.0).abs() < 1e-9 && meet(extent(line), clip::grown(extent(mark), 0.1)))
                };
                assert!(!marks(sheet).any(tick), "{line:?} cuts the check bars of {width} x {height}");
            }
            let says = |told: &str| {
                marks(sheet).any(|mark| matches!(mark, Mark::Words(words) if words.text.ends_with(told)))
            };
            assert!(!says("part 1's cut edge here"), "nothing is laid under part 1");
        }
    });
    assert!(cut > 50, "{cut}");
}

#[test]
fn every_number_is_told_once_and_lies_on_no_other_letter() {
    everywhere(|strip, sheets| {
        for step in &strip.steps {
            let number = step.number.to_string();
            let told = |sheet: &Sheet| {
                marks(sheet).any(|mark| matches!(mark, Mark::Words(words) if words.text.split(':').next() == Some(&number)))
            };
            let count = sheets.iter().filter(|sheet| told(sheet)).count();
            assert_eq!(count, 1, "{number} of {}", strip.wording);
        }
        for sheet in sheets {
            let boxes: Vec<Extent> =
                outlines(sheet).into_iter().map(|outline| Extent::of(outline).unwrap()).collect();
            for mark in sheet
                .pieces
                .iter()
                .filter(|piece| matches!(piece.sense, Sense::Drawing(_)))
                .flat_map(|piece| &piece.marks)
            {
                let Mark::Words(words) = mark else { continue };
                let met = boxes.iter().filter(|one| meet(**one, extent(mark))).count();
                // A tile's print lies in its own box.
                assert!(met <= 2, "{} of {}", words.text, strip.wording);
            }
        }
    });
}

#[test]
fn the_check_bars_are_on_every_sheet() {
    everywhere(|_, sheets| {
        for sheet in sheets {
            for length in [100.0, 101.6] {
                let bar = |mark: &Mark| {
                    matches!(mark, Mark::Line { from, to, .. }
                        if (to.0 - from.0 - length).abs() < 1e-12 && (to.1 - from.1).abs() < 1e-12)
                };
                assert!(marks(sheet).any(bar), "{length} on {}", sheet.told);
            }
        }
    });
}

#[test]
fn a_sheet_lies_across_where_that_saves_one() {
    // 12 letters of a title for a page of 12 in: too long for a sheet that stands upright.
    let order = empty("LANTERN WALK", 20, 0);
    assert!(order.strips[0].length > Length::from_mm(190));
    let across = sheets(&order, size(210, 297));
    assert_eq!((across.len(), across[0].size), (1, size(297, 210)));
    assert_eq!(across[0].told, "template of the title");
    let short = sheets(&empty("WALK", 24, 0), size(210, 297));
    assert_eq!((short.len(), short[0].size), (1, size(210, 297)));
}

#[test]
fn a_strip_that_is_stuck_down_needs_no_template() {
    let mut strip = trial::strip(Role::title(), "O", &["kelp/Q"]);
    strip.stuck = Some(17);
    let order = order(&Plan::new(None, Page::default(), vec![strip]).unwrap());
    assert!(sheets(&order, size(210, 297)).is_empty());
}
