//! Sheets counted in by the fewest keys, and what becomes of them.
//!
//! Must not know how anything is drawn.

use oddment::app::{Effect, Input, Over, entry_told};
use oddment::plan::Plan;
use oddment::stash::{ChipId, Deed, Entry, Kind, Sheet, SheetId, Stash};
use oddment::title::Wording;

use super::bench::{Bench, stash};

/// Presses keys and gives back how many that were; `'text'` is as many as it has characters.
fn pressed(bench: &mut Bench, keys: &str) -> usize {
    let mut count = 0;
    for word in keys.split(' ') {
        count += if word.starts_with('\'') { word.chars().count() - 2 } else { 1 };
    }
    bench.press(keys);
    count
}

fn taken_in(bench: &Bench) -> &Sheet {
    let sheet = bench.asked.iter().find_map(|effect| match effect {
        Effect::TakeIn(sheet) => Some(sheet),
        _ => None,
    });
    sheet.unwrap_or_else(|| unreachable!("{}", bench.told()))
}

#[test]
fn a_second_sheet_like_the_last_costs_at_most_forty_keys() {
    let mut bench = Bench::on("[A] N");
    let keys = "3 a 'cor' enter 'AAABBCDDEEEEFGHIIKLMNOPRSTUW&!' enter";
    let count = pressed(&mut bench, keys);
    let sheet = taken_in(&bench);
    assert_eq!(sheet.left(), 30);
    assert!(count <= 40, "{count} keys");
    assert_eq!(sheet.paint.colours[0].name(), "coral");
    let like = stash();
    let like = &like.sheets()[0];
    assert_eq!((sheet.make, sheet.size), (like.make, like.size), "form, finish and height are carried over");
    assert_eq!(sheet.label.tag.as_deref(), Some("1"), "a tag is offered");
    assert_eq!(sheet.label.name, None);
}

#[test]
fn a_sheet_of_three_colours_costs_at_most_fifty_keys() {
    let mut bench = Bench::on("[A] N");
    let keys = "3 a 'cor' enter 'AABBCCDDEE' tab 'tea' enter 'AABBCCDDEE' tab 'pin' enter 'AABBCCDDEE' enter";
    let count = pressed(&mut bench, keys);
    let sheet = taken_in(&bench);
    assert_eq!(sheet.left(), 30);
    assert!(count <= 50, "{count} keys");
    let colours: std::collections::BTreeSet<String> = sheet
        .letters
        .iter()
        .map(|letter| letter.colours.first().unwrap_or(&sheet.paint.colours[0]).name().into_owned())
        .collect();
    assert_eq!(colours.into_iter().collect::<Vec<_>>(), ["coral", "pink", "teal"]);
}

#[test]
fn a_stash_without_a_sheet_offers_the_sample_or_the_first_sheet() {
    let mut bench = Bench::with(Stash::default(), Plan::titled(Wording::default()));
    assert!(matches!(bench.state.over, Over::Question(_)), "{}", bench.told());
    bench.press("n tab");
    assert!(bench.told().contains("height -"), "{}", bench.told());
    bench.press("enter '12 mm' enter tab 'tea' enter 'AAB' enter");
    let sheet = taken_in(&bench);
    assert_eq!((sheet.id.as_str(), sheet.left()), ("teal-tile-12-mm", 3));
}

#[test]
fn a_held_enter_does_not_say_that_none_is_left() {
    let mut bench = Bench::on("[A] N");
    bench.press("3 end r enter enter enter");
    assert!(bench.told().ends_with("NoneLeft?"), "{}", bench.told());
    bench.press("y");
    assert!(bench.told().contains("Count(counted"), "{}", bench.told());
}

#[test]
fn a_held_enter_lets_go_of_nothing_that_was_counted() {
    let mut bench = Bench::on("[A] N");
    bench.press("3 a enter 'AAB' esc enter enter");
    assert!(bench.told().ends_with("DropCount?"), "{}", bench.told());
    let said = bench.state.notice.as_ref().map(|notice| notice.text.clone());
    assert_eq!(said.as_deref(), Some("enter does nothing here; y: yes   n: no   esc: back"));
    bench.press("n");
    assert!(bench.told().ends_with("New: [gold A2 B1]"), "{}", bench.told());
    bench.press("esc y");
    assert!(bench.told().ends_with("sheet blocks of 3"), "{}", bench.told());
}

#[test]
fn a_held_enter_does_not_take_the_sample() {
    let mut bench = Bench::with(Stash::default(), Plan::titled(Wording::default()));
    bench.press("enter enter");
    assert!(bench.told().ends_with("TrySample?"), "{}", bench.told());
    bench.press("y");
    assert!(bench.told().ends_with("TakeSample"), "{}", bench.told());
}

#[test]
fn what_was_typed_of_a_new_sheet_is_not_let_go_by_one_key() {
    let mut bench = Bench::on("[A] N");
    bench.press("3 a ctrl-e end down down enter '9 mm' enter esc");
    assert!(bench.told().contains("colour ''"), "{}", bench.told());
    let mut bench = Bench::with(Stash::default(), Plan::titled(Wording::default()));
    bench.press("n tab enter '12 mm' enter tab esc esc");
    assert!(bench.told().ends_with("DropCount?"), "{}", bench.told());
}

#[test]
fn letters_can_be_pasted_and_marks_join() {
    let mut bench = Bench::on("[A] N");
    bench.press("3 a enter");
    bench.input(Input::Paste("cafe\u{301} \u{7}q".into()));
    assert!(bench.told().contains("[gold a1 c1 f1 q1 é1]"), "{}", bench.told());
    assert!(bench.asked.is_empty(), "a paste is no command");
}

#[test]
fn what_cannot_be_kept_stays_in_hand() {
    let mut bench = Bench::on("[A] N");
    bench.press("3 end + 'aa' enter");
    bench.state.was_not_counted("the disk is full");
    assert!(bench.told().contains("More: [coral a2]"), "{}", bench.told());
    bench.press("enter @counted");
    assert!(bench.told().contains("sheet kelp"), "{}", bench.told());
}

#[test]
fn letters_of_a_sheet_set_aside_are_not_offered() {
    let mut sheets = stash().sheets().to_vec();
    let plan = Plan::titled(Wording::new("W").unwrap());
    for sheet in &mut sheets {
        sheet.label.aside = true;
    }
    let mut bench = Bench::with(Stash::new(sheets), plan);
    bench.press("down n @work");
    assert!(bench.state.strip().letter(0).is_none(), "{}", bench.told());
    assert_eq!(bench.state.bench.grid.chosen_chip(), None);
}

#[test]
fn what_is_told_of_a_sheet_midway_loses_no_letter() {
    let mut bench = Bench::on("[A] N");
    bench.press("3 end r 'aal' ctrl-e down enter");
    assert!(bench.told().ends_with("-> SaveSheet(oars)"), "{}", bench.told());
    bench.press("@told tab");
    assert!(bench.told().contains("Anew: [coral a2 l1]"), "{}", bench.told());
}

#[test]
fn a_key_on_a_screen_too_small_lets_no_counted_letter_go() {
    let mut bench = Bench::on("[A] N");
    bench.press("3 end r 'aa'");
    bench.input(Input::Resize { columns: 40, rows: 10 });
    bench.press("q ctrl-c");
    assert!(bench.asked.is_empty(), "{}", bench.told());
    bench.input(Input::Resize { columns: 80, rows: 24 });
    assert!(bench.told().contains("Anew: [coral a2]"), "{}", bench.told());
}

#[test]
fn a_form_stepped_there_and_back_keeps_what_is_told_of_it() {
    let mut bench = Bench::on("[A] N");
    bench.press("3 enter up up up up up up up up up right");
    assert!(bench.told().contains("form die-cut"), "{}", bench.told());
    bench.press("right");
    let there = stash().sheets()[0].clone();
    let Some(Effect::SaveSheet(sheet)) = bench.asked.first() else { unreachable!("{}", bench.told()) };
    assert_eq!(**sheet, there);
}

#[test]
fn more_than_is_there_cannot_be_counted_out() {
    let mut bench = Bench::on("[A] N");
    bench.press("3 end - 'aa' enter");
    assert!(bench.asked.is_empty(), "{}", bench.told());
    assert_eq!(bench.said(), "the stash has too few letters: oars/a: 2 asked for, 1 left");
}

#[test]
fn the_chosen_sheet_is_seen_after_the_screen_shrinks() {
    let sheet = stash().sheets()[0].clone();
    let sheets = (0..40).map(|n| Sheet { id: SheetId::new(&format!("s{n:02}")).unwrap(), ..sheet.clone() });
    let mut bench = Bench::with(Stash::new(sheets.collect()), Plan::titled(Wording::default()));
    bench.input(Input::Resize { columns: 80, rows: 45 });
    bench.press("3 end");
    bench.input(Input::Resize { columns: 80, rows: 24 });
    let (view, rows) = (&bench.state.sheets, bench.state.sheet_rows());
    assert!((view.top..view.top + rows).contains(&view.chosen), "{} from {}", view.chosen, view.top);
}

#[test]
fn what_was_found_stays_listed_while_it_is_set_aside() {
    let mut bench = Bench::on("[A] N");
    bench.press("3 / 'cut' enter end x @told");
    assert!(bench.told().contains("sheet oars of 2"), "{}", bench.told());
}

#[test]
fn the_history_tells_letters_counted_out_as_such() {
    let sheet = &stash().sheets()[1].clone();
    let told = |counts: &[(&str, i32)]| {
        let chips = counts.iter().map(|(id, count)| (ChipId::parse(id).unwrap(), *count)).collect();
        let deed = Deed { kind: Kind::Added, of: None, chips };
        let had = std::collections::BTreeMap::new();
        entry_told(&Entry { number: 1, date: "2031-11-05".into(), deed, had }, sheet)
    };
    assert_eq!(told(&[("kelp/A", -2), ("oars/a", 1)]), "2031-11-05  counted out: A 2");
    assert_eq!(told(&[("kelp/A", -2), ("kelp/E", 1)]), "2031-11-05  counted in and out: A -2, E 1");
}

#[test]
fn what_is_kept_of_a_count_is_what_is_gone_on_with() {
    for keys in [
        "3 a 'cor' enter 'AABe' tab 'tea' enter 'AZ' tab 'pin' enter 'q'",
        "3 end r 'aal' tab 'gold' enter 'az'",
        "3 end + 'l'",
        "3 end - 'a'",
    ] {
        let mut bench = Bench::on("[A] N");
        bench.press(keys);
        let half = bench.state.half_counted().unwrap();
        assert!(bench.state.is_count_unkept(), "{keys}");
        bench.press("enter");
        let mut again = Bench::on("[A] N");
        assert!(again.state.half_counted().is_none() && again.state.offer_count(&half), "{keys}");
        again.press("enter");
        assert!(!again.state.is_count_unkept() && again.state.half_counted() == Some(half), "{keys}");
        again.press("enter");
        assert_eq!(again.told(), bench.told(), "{keys}");
    }
}

#[test]
fn a_new_sheet_gets_no_name_that_the_ledger_speaks_of() {
    let name = |known: &str| {
        let mut bench = Bench::on("[A] N");
        let chips = [(oddment::stash::ChipId::parse(known).unwrap(), 1)].into();
        let deed = oddment::stash::Deed { kind: oddment::stash::Kind::Added, of: None, chips };
        let (date, had) = ("2031-11-05".into(), std::collections::BTreeMap::new());
        bench.state.shelf.ledger.push(oddment::stash::Entry { number: 1, date, deed, had });
        bench.press("3 a 'cor' enter 'A' enter");
        taken_in(&bench).id.to_string()
    };
    let free = name("other/A");
    assert_eq!(name(&format!("{free}/A")), format!("{free}-2"));
}
