//! The mouse: a chip, a slot, a finding, the wheel.
//!
//! Must not know how the panes are drawn, only where they lie.

use oddment::app::{Focus, Input, Mouse, MouseAct, StripMap};

use super::bench::Bench;

fn mouse(bench: &mut Bench, what: MouseAct, column: u16, row: u16) {
    bench.input(Input::Mouse(Mouse { what, column, row }));
}

fn whole_cells(at: f64) -> u16 {
    (0..u16::MAX).find(|cell| f64::from(*cell) + 1.0 > at).unwrap()
}

/// A cell of a slot's letter.
fn cell_of(bench: &Bench, slot: usize) -> (u16, u16) {
    let map = StripMap::of(&bench.state);
    let letter = &map.layout.letters[slot];
    let row = map.area.y + map.area.height / 2;
    (whole_cells(map.column(letter.left + letter.width / 2)), row)
}

#[test]
fn a_click_on_a_chip_stands_it_and_goes_on() {
    let mut bench = Bench::on("[A] N");
    let grid = bench.state.panes().grid;
    mouse(&mut bench, MouseAct::Press, grid.x + 1, grid.y + 1);
    assert_eq!(bench.line(), "blocks/A [N]");
    mouse(&mut bench, MouseAct::Release, grid.x + 1, grid.y + 1);
    mouse(&mut bench, MouseAct::Press, grid.x + 1, grid.y + 1);
    assert_eq!(bench.line(), "blocks/A [N]");
    assert_eq!(bench.said(), "A cannot stand for N; choose another slot or chip");
}

#[test]
fn a_click_beside_the_chips_stands_nothing() {
    let mut bench = Bench::on("[A] N");
    let grid = bench.state.panes().grid;
    for (column, row) in
        [(grid.x, grid.y), (grid.x + grid.width - 1, grid.y + 1), (grid.x, grid.y + grid.height - 1)]
    {
        mouse(&mut bench, MouseAct::Press, column, row);
        assert_eq!(bench.line(), "[A] N", "{column} {row}");
    }
}

#[test]
fn a_click_on_a_slot_chooses_it() {
    let mut bench = Bench::on("[L] A N T");
    for slot in [2, 0, 3, 1] {
        bench.press("tab");
        let (column, row) = cell_of(&bench, slot);
        mouse(&mut bench, MouseAct::Press, column, row);
        assert_eq!((bench.state.bench.slot, bench.state.focus()), (slot, Focus::Strip));
        let map = StripMap::of(&bench.state);
        mouse(&mut bench, MouseAct::Press, column, map.area.y + map.area.height + 1);
        assert_eq!(bench.state.bench.slot, slot, "the line of slots");
    }
}

#[test]
fn a_click_on_a_finding_chooses_it() {
    let mut bench = Bench::on("[A] N E");
    let checks = bench.state.panes().checks;
    let lines = bench.state.finding_lines();
    let line = lines.iter().position(|line| line.finding == 1).unwrap();
    mouse(&mut bench, MouseAct::Press, checks.x + 3, checks.y + 1 + u16::try_from(line).unwrap());
    assert_eq!((bench.state.bench.finding, bench.state.focus()), (1, Focus::Checks));
}

#[test]
fn the_wheel_turns_what_it_is_over() {
    let mut bench = Bench::on("[A] N");
    let panes = bench.state.panes();
    mouse(&mut bench, MouseAct::WheelDown, 1, panes.strip.y + 2);
    assert_eq!(bench.line(), "A [N]");
    mouse(&mut bench, MouseAct::WheelUp, 1, panes.strip.y + 2);
    assert_eq!(bench.line(), "[A] N");
    mouse(&mut bench, MouseAct::WheelDown, panes.checks.x + 1, panes.checks.y + 1);
    assert_eq!(bench.state.bench.finding, 1);
    let chip = bench.state.bench.grid.chosen();
    mouse(&mut bench, MouseAct::WheelDown, 1, 2);
    assert!(bench.state.bench.grid.chosen() > chip);
    bench.press("@page");
    mouse(&mut bench, MouseAct::WheelDown, 1, 2);
    assert_eq!(bench.told(), "[A] N  a page from 4");
    bench.press("esc @plans");
    mouse(&mut bench, MouseAct::WheelDown, 1, 2);
    assert_eq!(bench.told(), "[A] N  plan walk");
}

#[test]
fn under_a_question_a_click_does_nothing() {
    let mut bench = Bench::on("[A] N");
    bench.press("@trial");
    mouse(&mut bench, MouseAct::Press, 1, 2);
    assert_eq!(bench.told(), "[A] N  GoOnWithTrial?");
}

#[test]
fn a_click_on_a_view_in_the_first_line_goes_there() {
    let mut bench = Bench::on("[A] N");
    for (name, told) in [
        ("order", "[A] N  words from 1; pdf on a4, no sheets -> ShowOrder"),
        ("stash", "[A] N  sheet blocks of 3"),
        ("wording", "[A] N  'AN' now; wish 1 of 3"),
        ("bench", "[A] N"),
    ] {
        let line = bench.state.head_line();
        let before = line.views.iter().take_while(|(view, _)| view.name() != name);
        let column = before.map(|(_, text)| text.len() + 1).sum::<usize>();
        mouse(&mut bench, MouseAct::Press, u16::try_from(column).unwrap(), 0);
        assert_eq!(bench.told(), told, "{line:?}");
    }
    bench.press("?");
    mouse(&mut bench, MouseAct::Press, 4, 0);
    assert_eq!(bench.told(), "[A] N  keys that work here from 1", "not under what lies over the view");
    bench.press("esc");
    mouse(&mut bench, MouseAct::Press, 79, 0);
    assert_eq!(bench.told(), "[A] N", "the score is no view");
}

#[test]
fn in_the_order_the_wheel_scrolls_words_and_turns_sheets_and_a_click_chooses_one() {
    let mut bench = Bench::on("[A] N");
    bench.press("5 @order");
    mouse(&mut bench, MouseAct::WheelDown, 10, 10);
    assert_eq!(bench.told(), "[A] N  words from 4; pdf on a4, sheet 1 of 3");
    // The heading of the words leads to the sheets.
    mouse(&mut bench, MouseAct::Press, 30, 1);
    mouse(&mut bench, MouseAct::WheelDown, 10, 10);
    assert_eq!(bench.told(), "[A] N  sheets; pdf on a4, sheet 2 of 3");
    let list = bench.state.order_panes().list;
    mouse(&mut bench, MouseAct::Press, list.x + 5, list.y + 2);
    assert_eq!(bench.told(), "[A] N  sheets; pdf on a4, sheet 3 of 3");
    bench.press("@long-order end");
    mouse(&mut bench, MouseAct::Press, list.x + 5, list.y);
    assert_eq!(bench.told(), "[A] N  sheets; pdf on a4, sheet 25 of 42", "a list that is scrolled");
    bench.press("@order z");
    mouse(&mut bench, MouseAct::WheelDown, 10, 10);
    assert_eq!(bench.told(), "[A] N  near, 16.2 to 102.6 mm down; pdf on a4, sheet 3 of 3");
    mouse(&mut bench, MouseAct::Press, 30, 1);
    bench.input(Input::Resize { columns: 140, rows: 45 });
    mouse(&mut bench, MouseAct::Press, 10, 10);
    assert_eq!(bench.told(), "[A] N  words from 4; pdf on a4, sheet 3 of 3");
    mouse(&mut bench, MouseAct::Press, 90, 10);
    mouse(&mut bench, MouseAct::WheelUp, 90, 10);
    assert_eq!(bench.told(), "[A] N  sheets; pdf on a4, sheet 2 of 3");
}
