//! What holds of every order on paper: all of it is there, in order, within the margins, and nothing on top of anything else.
//!
//! Must not know how a block is set.
#![expect(clippy::unwrap_used, reason = "a test may fail loudly")]

mod steps;

use super::*;
use crate::measure::{Length, Unit};
use crate::order::trial;
use crate::page::Page;
use crate::plan::Plan;
use crate::print::sheet::{Cell, Mark, Piece, Sense, Words};
use crate::stash::{Form, Stash};
use crate::title::{Role, Strip};

fn square(side: i64) -> Page {
    let side = Length::from_mm(side);
    Page { size: Some(Size { width: side, height: side }), ..Page::default() }
}

fn set(plan: &Plan, stash: &Stash, paper: Paper, unit: Unit) -> Vec<Sheet> {
    let head = Head { date: None, file: Some("lantern-walk".into()) };
    sheets(&Order::of(plan, stash), &head, paper, unit).unwrap()
}

fn words(sheet: &Sheet) -> impl Iterator<Item = (&Piece, &Words)> {
    sheet.pieces.iter().flat_map(|piece| {
        piece.marks.iter().filter_map(move |mark| match mark {
            Mark::Words(words) => Some((piece, words)),
            Mark::Shape(_) | Mark::Line { .. } => None,
        })
    })
}

fn corners(mark: &Mark) -> Vec<(f64, f64)> {
    match mark {
        Mark::Words(words) => vec![
            (words.at.0, words.at.1 - 0.93 * words.size),
            (words.at.0 + words.width(), words.at.1 + 0.24 * words.size),
        ],
        Mark::Shape(shape) => shape.outline.iter().flatten().copied().collect(),
        Mark::Line { from, to, .. } => vec![*from, *to],
    }
}

/// What must hold of every sheet that words flow on.
fn whole(sheets: &[Sheet]) {
    for (place, sheet) in sheets.iter().enumerate() {
        let (width, height) = (sheet.size.width.mm(), sheet.size.height.mm());
        let (foot, rest) = sheet.pieces.split_last().unwrap();
        let Some(Mark::Words(number)) = foot.marks.last() else { unreachable!("a foot ends in its number") };
        assert_eq!(number.text, format!("{} of {}", place + 1, sheets.len()));
        let within = |piece: &Piece, margin: f64| {
            for (x, y) in piece.marks.iter().flat_map(corners) {
                let across = margin - 1e-6 <= x && x <= width - margin + 1e-6;
                assert!(across && margin - 1e-6 <= y && y <= height - margin + 1e-6, "{x} {y}: {piece:?}");
            }
        };
        within(foot, 5.0);
        if sheet.told == "the page at its true size" {
            continue;
        }
        for piece in rest {
            within(piece, MARGIN);
        }
        if sheet.told.starts_with("template") {
            continue;
        }
        apart(sheet);
        let heads = |piece: &&Piece| !matches!(piece.sense, Sense::Ornament);
        let last = rest.iter().rfind(heads).unwrap();
        assert!(!matches!(last.sense, Sense::Heading | Sense::Subheading), "{last:?}");
    }
}

/// No words lie on others: ink rises 0.76 of the size above its line and falls 0.24 below it.
fn apart(sheet: &Sheet) {
    let said = words(sheet).filter(|(piece, _)| !matches!(piece.sense, Sense::Drawing(_)));
    let boxes: Vec<(f64, f64, f64, f64, &str)> = said
        .map(|(_, words)| {
            let (left, down) = words.at;
            let (top, bottom) = (down - 0.76 * words.size, down + 0.24 * words.size);
            (left, top, left + words.width(), bottom, words.text.as_str())
        })
        .collect();
    for (place, one) in boxes.iter().enumerate() {
        for other in &boxes[place + 1..] {
            let beside = one.2 <= other.0 || other.2 <= one.0;
            assert!(beside || one.3 <= other.1 || other.3 <= one.1, "{one:?} on {other:?}");
        }
    }
}

/// All words of a sense, in order.
fn read(sheets: &[Sheet], wanted: impl Fn(&Sense) -> bool) -> String {
    let lines = sheets.iter().flat_map(words).filter(|(piece, _)| wanted(&piece.sense));
    lines.map(|(_, words)| words.text.as_str()).collect::<Vec<_>>().join(" ")
}

fn long_plan(name: &str, page: Page) -> Plan {
    let chips = ["kelp/V", "kelp/Q", "blocks/L", "-", "blocks/A", "kelp/N"];
    let title = trial::place(trial::strip(Role::title(), "AOLSAN", &chips), 3_000);
    Plan::new(Some(name.into()), page, vec![title]).unwrap()
}

#[test]
fn an_order_fits_the_smallest_and_the_largest_paper() {
    for side in [125, 305, 1000] {
        for unit in [Unit::Millimetre, Unit::Inch] {
            let sheets = set(&long_plan("Lantern walk", square(side)), &trial::stash(), Paper::Page, unit);
            whole(&sheets);
            assert_eq!(sheets[0].size, square(side).size.unwrap());
        }
    }
    let small = set(&long_plan("Lantern walk", square(125)), &trial::stash(), Paper::Page, Unit::Inch);
    let large = set(&long_plan("Lantern walk", square(125)), &trial::stash(), Paper::A4, Unit::Inch);
    assert!(small.len() > large.len());
}

#[test]
fn a_page_without_a_size_is_no_paper() {
    let order = Order::of(&trial::plan("L", &["blocks/L"]), &trial::stash());
    let refused = sheets(&order, &Head::default(), Paper::Page, Unit::Inch);
    assert_eq!(refused, Err(PaperError::NoPage));
    assert!(sheets(&order, &Head::default(), Paper::Letter, Unit::Inch).is_ok());
}

#[test]
fn odd_and_endless_names_are_set_too() {
    let endless = "moor ".repeat(1_600) + &"x".repeat(2_000);
    let odd = "<b>&\"' \u{1b}[2J 提灯の夜 🎏👩‍👩‍👧 שלום (עולם) e\u{301}";
    for name in [endless.as_str(), odd] {
        let sheet = trial::sheet("odd", Some("№\t9"), Some(name), Form::Tile, "灯1 É1");
        let mut strip = trial::strip(Role::title(), "灯É\n灯", &["odd/灯", "odd/É", "-"]);
        trial::stand(&mut strip, 2, trial::thing(name, 30));
        let plan = Plan::new(Some(name.into()), trial::page(), vec![strip]).unwrap();
        let stash = Stash::new(vec![sheet]);
        for page in [trial::page(), square(125)] {
            let plan = Plan::new(plan.name.clone(), page, plan.strips().to_vec()).unwrap();
            let sheets = set(&plan, &stash, Paper::Page, Unit::Inch);
            whole(&sheets);
            for (_, words) in sheets.iter().flat_map(words) {
                let printed = words.text.chars().all(|c| words.face.glyph(c).is_some());
                assert!(printed, "{:?}", words.text);
            }
        }
    }
    let sheet = trial::sheet("odd", None, Some(odd), Form::Tile, "É1");
    let sheets = set(&trial::plan("É", &["odd/É"]), &Stash::new(vec![sheet]), Paper::A4, Unit::Inch);
    let cells = read(&sheets, |sense| matches!(sense, Sense::Cell(_)));
    assert!(cells.contains("<b>&\"' \\u{1b}[2J [U+63D0][U+706F]"), "{cells}");
}

#[test]
fn a_sheet_full_of_what_is_missing_is_told_too() {
    let wording = "LANE".repeat(49);
    let strips: Vec<Strip> = (0..6)
        .map(|place| trial::strip(Role::new(&format!("word-{place}")).unwrap(), &wording, &["blocks/L"]))
        .collect();
    let sheets =
        set(&Plan::new(None, Page::default(), strips).unwrap(), &trial::stash(), Paper::A4, Unit::Inch);
    assert_eq!(sheets[0].told, "what is made");
    assert!(sheets.iter().all(|sheet| !sheet.told.is_empty()));
}

#[test]
fn sixty_strips_are_pulled_and_told_in_full() {
    let wordings = ["LANE", "SEAT", "TEAL", "NEST"];
    let strips: Vec<Strip> = (0..60)
        .map(|place| {
            let wording = wordings[place % wordings.len()];
            let chips: Vec<String> = wording.chars().map(|letter| format!("s{place}/{letter}")).collect();
            let chips: Vec<&str> = chips.iter().map(String::as_str).collect();
            trial::strip(Role::new(&format!("word-{place}")).unwrap(), wording, &chips)
        })
        .collect();
    let sheet = |place: usize| {
        let name = format!("harbour {place}");
        trial::sheet(
            &format!("s{place}"),
            Some(&place.to_string()),
            Some(&name),
            Form::Tile,
            "L1 A1 N1 E1 S1 T1",
        )
    };
    let stash = Stash::new((0..60).map(sheet).collect());
    let plan = Plan::new(None, Page::default(), strips).unwrap();
    let sheets = set(&plan, &stash, Paper::Letter, Unit::Inch);
    whole(&sheets);
    assert!(sheets.len() > 10);
    let cells: Vec<Cell> = sheets
        .iter()
        .flat_map(|sheet| &sheet.pieces)
        .filter_map(|piece| if let Sense::Cell(cell) = piece.sense { Some(cell) } else { None })
        .collect();
    rows_are_whole(&cells);
    assert_eq!(cells.iter().map(|cell| cell.table).max(), Some(59));
    // The pull list: every sheet, and a box to tick for every letter.
    let named = read(&sheets, |sense| matches!(sense, Sense::Paragraph));
    assert!((0..60).all(|place| named.contains(&format!("{place}: harbour {place} (tile)"))), "{named}");
    let ticked = sheets
        .iter()
        .flat_map(|sheet| &sheet.pieces)
        .filter(|piece| piece.sense == Sense::Bullet && matches!(piece.marks[..], [Mark::Shape(_)]));
    assert_eq!(ticked.count(), 240);
}

/// Tables follow each other, rows are numbered on from 0 without a break, and each spans as many columns as the first.
fn rows_are_whole(cells: &[Cell]) {
    let rows: Vec<&[Cell]> = cells.chunk_by(|a, b| (a.table, a.row) == (b.table, b.row)).collect();
    for pair in rows.windows(2) {
        let (before, after) = (pair[0][0], pair[1][0]);
        let next = (before.table, before.row + 1) == (after.table, after.row);
        assert!(next || (before.table + 1, 0) == (after.table, after.row), "{before:?} {after:?}");
    }
    for table in rows.chunk_by(|a, b| a[0].table == b[0].table) {
        let spans = |row: &[Cell]| row.iter().map(|cell| cell.spans).sum::<usize>();
        assert!(table[0].iter().all(|cell| cell.names) && !table[1][0].names);
        assert!(table.iter().all(|row| spans(row) == spans(table[0])));
    }
}

#[test]
fn names_of_columns_are_repeated_but_read_once() {
    let sheets = set(&long_plan("Lantern walk", square(125)), &trial::stash(), Paper::Page, Unit::Millimetre);
    let named =
        |wanted: fn(&Sense) -> bool| read(&sheets, wanted).split(' ').filter(|word| *word == "gap").count();
    assert_eq!(named(|sense| matches!(sense, Sense::Cell(cell) if cell.names)), 1);
    assert!(named(|sense| matches!(sense, Sense::Ornament)) >= 1);
}

#[test]
fn paragraphs_and_items_are_not_parted() {
    let plan = long_plan("Lantern walk", square(125));
    let small = set(&plan, &trial::stash(), Paper::Page, Unit::Millimetre);
    let large = set(&plan, &trial::stash(), Paper::A4, Unit::Millimetre);
    let count = |sheets: &[Sheet], wanted: fn(&Sense) -> bool| {
        let words = sheets
            .iter()
            .filter(|sheet| !sheet.told.contains("template") && !sheet.told.contains("true size"));
        words.flat_map(|sheet| &sheet.pieces).filter(|piece| wanted(&piece.sense)).count()
    };
    for wanted in [
        (|sense| matches!(sense, Sense::Item)) as fn(&Sense) -> bool,
        |sense| matches!(sense, Sense::Bullet),
        |sense| matches!(sense, Sense::Paragraph),
    ] {
        assert_eq!(count(&small, wanted), count(&large, wanted));
    }
}

#[test]
fn an_order_is_read_from_its_title_to_its_end() {
    let sheets = set(&long_plan("Lantern walk", trial::page()), &trial::stash(), Paper::A4, Unit::Millimetre);
    let said = read(&sheets, |sense| !matches!(sense, Sense::Ornament));
    let mut rest = said.as_str();
    for next in [
        "Placement order",
        "Lantern walk",
        "200 mm x 300 mm, printed on A4 (210 x 297 mm), date",
        "the title: AOLSAN (6 letters",
        "NOT COMPLETE",
        "missing from the title: S (letter 4)",
        "1. Have at hand",
        "2. Pull from the sheets",
        "4: Kelp (die-cut)",
        "3. Line the carrier up",
        "measure both of its check bars",
        "4. The letters",
        "cut on the mat, away from the fingers",
        "5. Down on the page",
        "1. Trim the letters that part 2 says to",
        "2. Measure the check bars",
        "Lay the clear carrier over the carrier line",
        "Leave the places of missing letters free, or find them first.",
        "Mind",
        "7. The page",
    ] {
        let at = rest.find(next).unwrap_or_else(|| unreachable!("{next} in {rest}"));
        rest = &rest[at + next.len()..];
    }
    assert!(sheets[0].told.starts_with("have at hand; pull from the sheets"), "{}", sheets[0].told);
    let again = set(&long_plan("Lantern walk", trial::page()), &trial::stash(), Paper::A4, Unit::Millimetre);
    assert_eq!(sheets, again);
}

#[test]
fn colours_are_drawn_beside_their_names() {
    let sheets = set(&trial::plan("L", &["blocks/L"]), &trial::stash(), Paper::A4, Unit::Millimetre);
    let teal = crate::measure::Colour::named("teal");
    let drawn = sheets.iter().flat_map(|sheet| &sheet.pieces).filter(|piece| {
        piece
            .marks
            .iter()
            .any(|mark| matches!(mark, Mark::Shape(shape) if shape.fill == teal && shape.pen.is_some()))
    });
    let beside: Vec<String> = drawn
        .map(|piece| {
            piece.marks.iter().filter_map(|mark| {
                if let Mark::Words(words) = mark { Some(words.text.clone()) } else { None }
            })
        })
        .map(|words| words.collect::<Vec<_>>().join(" "))
        .collect();
    assert_eq!(beside, ["1 x L teal", "tile, teal"]);
}

#[test]
fn what_joins_a_template_is_to_be_at_hand() {
    let hand = |paper| {
        let sheets = set(&long_plan("Lantern walk", square(125)), &trial::stash(), paper, Unit::Inch);
        read(&sheets, |sense| matches!(sense, Sense::Item))
    };
    let many: String = "LANELANELANELANE".into();
    let title = trial::placed(&many, &[], 0);
    let sheets = set(&title, &trial::stash(), Paper::A4, Unit::Millimetre);
    let of_two = sheets.iter().filter(|sheet| sheet.told.contains("part 2 of")).count();
    let said = read(&sheets, |sense| matches!(sense, Sense::Item));
    assert!(of_two > 0 && said.contains("scissors and clear tape"), "{of_two}");
    assert!(said.contains("missing from the title: every letter"), "{said}");
    assert!(!hand(Paper::A4).contains("scissors"));
}

#[test]
fn the_page_at_its_true_size_comes_last_on_its_own_paper() {
    let plan = long_plan("Lantern walk", trial::page());
    let own = set(&plan, &trial::stash(), Paper::Page, Unit::Millimetre);
    assert_eq!(own.last().unwrap().told, "the page at its true size");
    let a4 = set(&plan, &trial::stash(), Paper::A4, Unit::Millimetre);
    assert!(a4.iter().all(|sheet| sheet.told != "the page at its true size"));
    let template = a4.iter().position(|sheet| sheet.told.starts_with("template")).unwrap();
    assert!(a4[..template].iter().all(|sheet| !sheet.told.contains("letters")));
    assert!(a4[template + 1].told.starts_with("the letters"), "{}", a4[template + 1].told);
}

#[test]
fn words_from_right_to_left_are_seen_so_and_read_in_their_order() {
    let plan = long_plan("\u{5d0}\u{5d1} quay", trial::page());
    let sheets = set(&plan, &trial::stash(), Paper::A4, Unit::Inch);
    let (_, name) = words(&sheets[0]).find(|(_, words)| words.text.contains("quay")).unwrap();
    assert_eq!((name.text.as_str(), &*name.as_seen()), ("\u{5d0}\u{5d1} quay", "\u{5d1}\u{5d0} quay"));
    let plan = long_plan("\u{5d0}\u{5d1}", trial::page());
    let sheets = set(&plan, &trial::stash(), Paper::A4, Unit::Millimetre);
    let (_, size) = words(&sheets[0]).find(|(_, words)| words.text.contains("200 mm")).unwrap();
    assert_eq!(
        size.as_seen(),
        "200 mm x 300 mm, printed on A4 (210 x 297 mm), date",
        "no figure moves into the name"
    );
}

#[test]
fn a_map_takes_the_room_that_is_left_and_an_empty_page_has_none() {
    let strips = vec![trial::strip(Role::title(), "LANE", &["blocks/L", "blocks/A", "-", "blocks/E"])];
    let placed = trial::place(strips[0].clone(), 0);
    for (strips, drawn) in [(strips, false), (vec![placed], true)] {
        let plan = Plan::new(None, square(200), strips).unwrap();
        let sheets = set(&plan, &trial::stash(), Paper::A4, Unit::Millimetre);
        let told: Vec<&str> = sheets.iter().map(|sheet| sheet.told.as_str()).collect();
        assert_eq!(
            told.iter().any(|told| told.split("; ").any(|part| part == "the page")),
            drawn,
            "{told:?}"
        );
        assert_eq!(
            told.last().unwrap().ends_with("mind; the page"),
            drawn,
            "beside what is above it: {told:?}"
        );
    }
}
