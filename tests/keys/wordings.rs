//! Stories of the wordings: what is said is said of what is seen, whatever changes meanwhile.
//!
//! Must not know how anything is drawn.

use oddment::app::Shelf;
use oddment::checks::Taste;
use oddment::measure::ColourNames;

use super::bench::{Bench, stash};
use super::told::wording;

/// The stash is as it was, read once more.
fn read_anew(bench: &mut Bench) {
    let mut shelf = Shelf::new(stash(), Taste::default(), ColourNames::default(), &[]);
    shelf.wishes.clone_from(&bench.state.shelf.wishes);
    bench.state.take_shelf(shelf);
}

#[test]
fn a_stash_that_changes_is_asked_at_once() {
    let mut bench = Bench::on("[A] N");
    bench.press("4 down");
    read_anew(&mut bench);
    assert_eq!(wording(&bench.state), "'LANE' now; wish 1 of 3");
    bench.press("@stuck");
    assert_eq!(wording(&bench.state), "'LANE' now; wish 1 of 3");
}

#[test]
fn what_is_said_is_of_the_idea_that_is_seen() {
    let mut bench = Bench::on("[A] N");
    bench.press("4 w ctrl-u 'QUAY' enter g '4 with WR' enter @ideas @work down down");
    assert_eq!(wording(&bench.state), "'WARN' now; idea 2 of 10");
    read_anew(&mut bench);
    bench.press("@work");
    let seen = bench.state.wording_looked_at();
    assert!(wording(&bench.state).starts_with(&format!("'{seen}' ")), "{seen}: {}", wording(&bench.state));
}

#[test]
fn letters_that_this_page_takes_meanwhile_are_spared() {
    let mut bench = Bench::on("[A] N");
    bench.press("4 w ctrl-u 'AAA' enter p");
    assert_eq!(wording(&bench.state), "'AAA' now; wish 1 of 3");
    bench.press("1 down");
    assert_eq!(bench.line(), "[kelp/A] N");
    bench.press("4");
    assert_eq!(wording(&bench.state), "'AAA' only with mixed heights; wish 1 of 3");
    bench.press("u");
    assert_eq!(wording(&bench.state), "'AAA' now; wish 1 of 3");
}

#[test]
fn a_search_that_is_begun_anew_has_all_its_time() {
    let mut bench = Bench::on("[A] N");
    bench.press("4 g enter @ideas @slice @time");
    assert!(!bench.state.is_working());
    let turn = bench.state.work.turn;
    bench.press("K");
    assert!(bench.state.is_working() && bench.state.work.turn > turn);
}

#[test]
fn of_an_idea_beside_a_wording_it_is_said_whether_both_can_be_spelled() {
    // There is one W. Where the wording takes it, an M turned over stands in for that of the idea.
    let mut bench = Bench::on("[W]");
    bench.press("4 g 'beside stand-ins 3-4' enter @ideas @work down");
    let mut stand_ins = 0;
    for _ in 0..bench.state.ideas().len() {
        let idea = bench.state.ideas()[bench.state.wordings.idea.chosen].clone();
        let judged = bench.state.wordings.judged.as_ref().unwrap();
        let said = judged.now.as_ref().unwrap().said.as_ref().unwrap();
        assert_eq!(said.answer.verdict, idea.verdict, "{}", idea.text);
        stand_ins += usize::from(idea.verdict == oddment::supply::Verdict::StandIns);
        bench.press("down");
    }
    assert!(stand_ins > 10, "{stand_ins}");
}

#[test]
fn a_wording_is_not_given_to_a_strip_that_is_stuck_down() {
    let mut bench = Bench::on("[kelp/A] kelp/N");
    bench.press("@stuck 4 down enter");
    assert_eq!(bench.line(), "[kelp/A] kelp/N");
    assert!(bench.said().starts_with("the title is stuck down; "), "{}", bench.said());
}

#[test]
fn a_wish_of_two_lines_is_seen_used_and_dropped_as_one() {
    let mut bench = Bench::on("[A] N");
    bench.press("4 w ctrl-u 'AL|EN' enter a");
    assert!(bench.told().ends_with("-> AddWish(AL\nEN)"), "{}", bench.told());
    let mut wishes = bench.state.shelf.wishes.clone();
    let wording = oddment::title::Wording::new("AL\nEN").unwrap();
    wishes.push(oddment::title::Wish { wording, note: None });
    bench.state.take_wishes(wishes, "told");
    bench.press("end enter");
    assert_eq!(bench.line(), "[A] L / E N");
}

#[test]
fn a_wish_that_must_be_made_and_cannot_is_told() {
    let mut bench = Bench::on("[A] N");
    bench.press("4 down space");
    assert_eq!(bench.said(), "");
    bench.press("end space");
    assert_eq!(bench.said(), "QUAY cannot be made besides what must be");
    bench.press("space");
    assert_eq!(bench.said(), "");
}
