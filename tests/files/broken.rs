//! Broken fixtures: every problem of each, with file, line, column, key, what was found and what would do.

use std::fmt::Write as _;

use oddment::files::{Level, Problems, read_on_sale, read_plan, read_sheet, read_taste, read_wishes};
use oddment::measure::ColourNames;
use oddment::stash::{SheetId, Stash};

/// Reads every block of a fixture file and compares it with what `read` tells.
fn compare(fixtures: &str, read: impl Fn(&str) -> Problems) {
    let mut blocks = fixtures.split("---- ");
    let mut told = String::from(blocks.next().unwrap_or_default());
    let mut count = 0;
    for block in blocks {
        let (name, rest) = block.split_once('\n').unwrap_or((block, ""));
        let text = rest.split(">>>>\n").next().unwrap_or_default();
        let problems = read(text);
        assert!(!problems.is_empty(), "{name}: nothing is told");
        let _ = writeln!(told, "---- {name}\n{text}>>>>\n{problems}");
        count += 1;
    }
    assert!(count > 0);
    if told != fixtures {
        let differs = told.lines().zip(fixtures.lines()).find(|(told, wanted)| told != wanted);
        panic_with(&told, differs);
    }
}

#[expect(clippy::panic, reason = "how a test tells that it fails")]
fn panic_with(told: &str, differs: Option<(&str, &str)>) {
    panic!("first difference: {differs:#?}\nall that is told:\n{told}");
}

fn sheet(text: &str) -> Problems {
    let Ok(id) = SheetId::new("kelp") else { return Problems::new() };
    let (sheet, problems) = read_sheet("sheets/kelp.toml", &id, text, &ColourNames::default());
    assert_eq!(sheet.is_some(), !problems.has_errors(), "a sheet with an error is not used");
    problems
}

fn plan(text: &str) -> Problems {
    let Ok(id) = SheetId::new("kelp") else { return Problems::new() };
    let all = "form = 'tile'\nheight = 12\ncolour = 'teal'\n[letters]\nA = 1\nL = 1\nM = 1\nP = 1\nS = 1";
    let (kelp, _) = read_sheet("sheets/kelp.toml", &id, all, &ColourNames::default());
    let stash = Stash::new(kelp.into_iter().collect());
    let (plan, problems) = read_plan("pages/quay.toml", text, &ColourNames::default(), Some(&stash));
    assert_eq!(plan.is_some(), !problems.has_errors(), "a plan with an error does not open");
    problems
}

#[test]
fn broken_sheets_tell_all_that_is_wrong() {
    compare(include_str!("broken_sheets.txt"), |text| {
        let problems = sheet(text);
        assert!(problems.has_errors(), "{text}");
        problems
    });
}

#[test]
fn odd_sheets_are_warned_of() {
    compare(include_str!("warned_sheets.txt"), sheet);
}

#[test]
fn broken_plans_tell_all_that_is_wrong() {
    compare(include_str!("broken_plans.txt"), |text| {
        let problems = plan(text);
        assert!(problems.has_errors(), "{text}");
        problems
    });
}

#[test]
fn odd_plans_are_warned_of() {
    compare(include_str!("warned_plans.txt"), |text| {
        let problems = plan(text);
        assert!(!problems.has_errors(), "{problems}");
        problems
    });
}

#[test]
fn broken_tastes_tell_all_that_is_wrong() {
    compare(include_str!("broken_tastes.txt"), |text| read_taste("taste.toml", text).2);
}

#[test]
fn broken_wishes_tell_all_that_is_wrong() {
    compare(include_str!("broken_wishes.txt"), |text| read_wishes("wishes.toml", text).1);
}

#[test]
fn broken_sheets_on_sale_tell_all_that_is_wrong() {
    compare(include_str!("broken_on_sale.txt"), |text| {
        read_on_sale("on-sale.toml", text, &ColourNames::default()).1
    });
}

#[test]
fn a_byte_order_mark_is_warned_of_and_changes_no_place() {
    let problems = sheet("\u{feff}form = 'tile'\nheight = 12\ncolour = 'teal'\n[letters]\nA = 1");
    let told: Vec<String> = problems.all().iter().map(ToString::to_string).collect();
    assert_eq!(
        told,
        [
            "sheets/kelp.toml:1:1: warning: the file starts with a byte-order mark; save it as UTF-8 without one"
        ]
    );
    let problems = sheet("\u{feff}form = 'pile'\nheight = 12\ncolour = 'teal'\n[letters]\nA = 1");
    let place = problems.errors().next().map(|problem| (problem.line, problem.column));
    assert_eq!(place, Some((1, 8)));
}

#[test]
fn columns_count_characters() {
    let problems = sheet("form = 'tile'\nheight = 12\ncolour = ['teal', 'é♥']\n[letters]\n'漢' = 'x'");
    let places: Vec<_> = problems.all().iter().map(|problem| (problem.line, problem.column)).collect();
    assert_eq!(places, [(3, 19), (5, 7)]);
}

#[test]
fn a_file_of_nothing_but_errors_is_cut_short() {
    let mut text = String::from("form = 'tile'\nheight = 12\ncolour = 'teal'\n[letters]\n");
    for number in 0..5000 {
        let _ = writeln!(text, "x{number} = 1");
    }
    let problems = sheet(&text);
    assert_eq!(problems.len(), 101);
    assert!(problems.all().iter().all(|problem| problem.level == Level::Error));
    assert!(problems.all().iter().any(|problem| problem.message.starts_with("there is more")));
}
