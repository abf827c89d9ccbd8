//! What holds of the steps by which the letters come onto the page.
//!
//! Must not know how a block is set.

use super::*;
use crate::measure::Angle;
use crate::title::Stood;

#[test]
fn steps_are_on_one_sheet_however_long_the_table_before_them_is() {
    let mut moved = 0;
    for count in 1..=12 {
        let plan = trial::plan(&"LANE".repeat(count), &["blocks/L"]);
        let sheets = set(&plan, &trial::stash(), Paper::A4, Unit::Millimetre);
        let steps = |sheet: &&Sheet| {
            words(sheet).any(|(piece, words)| piece.sense == Sense::Bullet && words.text.ends_with('.'))
        };
        let with_steps: Vec<&Sheet> = sheets.iter().filter(steps).collect();
        assert_eq!(with_steps.len(), 1, "{count}");
        moved += usize::from(with_steps[0].told.starts_with("down on the page"));
    }
    assert!((1..12).contains(&moved), "{moved} began a sheet");
}

#[test]
fn what_is_tilted_or_no_sticker_is_told_where_it_is_stood() {
    let mut strip = trial::strip(Role::title(), "LAN", &["blocks/L", "-", "kelp/N"]);
    let tilted = Stood { tilt: Angle::from_thousandths(2_000), ..strip.letter(0).unwrap().clone() };
    trial::stand(&mut strip, 0, tilted);
    trial::stand(&mut strip, 1, trial::thing("brass button", 11));
    let plan = Plan::new(None, Page::default(), vec![strip]).unwrap();
    let sheets = set(&plan, &trial::stash(), Paper::A4, Unit::Millimetre);
    let said = read(&sheets, |sense| matches!(sense, Sense::Item));
    for told in [
        "brass button (11 mm wide), for A of the title; glue for that, safe for photos",
        "Where the outline is tilted, stand it so.",
        "Leave the places of what is glued on last free.",
        "Last, glue on what is no sticker: brass button for A (letter 2) of the title.",
    ] {
        assert!(said.contains(told), "{told}: {said}");
    }
    assert!(!said.contains("Tilt those"), "{said}");
}
