//! Longer ways: a wording changed in place, two strips on one stash, filters, cures, kept trials.
//!
//! Must not know how anything is drawn.

use oddment::app::{Effect, Input, Over, Then};
use oddment::measure::Unit;

use super::bench::Bench;

#[test]
fn a_wording_changed_in_place_keeps_its_letters() {
    let mut bench = Bench::on("kelp/L [kelp/A] blocks/N");
    bench.press("p w ctrl-u 'LATIN' enter");
    assert_eq!(bench.line(), "kelp/L kelp/A* [T] I blocks/N");
    bench.press("u");
    assert_eq!(bench.line(), "kelp/L kelp/A* [blocks/N]");
}

#[test]
fn a_bar_starts_the_second_line_and_three_lines_are_refused() {
    let mut bench = Bench::on("[A] N");
    bench.press("w '|E' enter");
    assert_eq!(bench.line(), "[A] N / E");
    bench.press("w");
    assert_eq!(bench.told(), "[A] N / E  typing 'AN|E'");
    bench.press("'|L' enter");
    assert_eq!(bench.told(), "[A] N / E  typing 'AN|E|L'");
    let Over::Typing(typing) = &bench.state.over else { unreachable!() };
    assert_eq!(typing.wrong.as_deref(), Some("it has 3 lines; a strip holds one or two"));
}

#[test]
fn title_and_subtitle_never_share_a_sticker() {
    // Two E on the blocks, one on the kelp, none that could stand in.
    let mut bench = Bench::on("E E | E E");
    bench.press("F F"); // die-cut only
    assert_eq!(bench.said().split(',').nth(1), Some(" forms die-cut"));
    let mut bench = Bench::on("E E | E E");
    for keys in ["down right", "down t", "down right"] {
        bench.press(keys);
    }
    let stood: Vec<String> =
        bench.line().split_whitespace().map(|w| w.trim_matches(['[', ']']).to_owned()).collect();
    assert_eq!(stood.iter().filter(|chip| *chip == "blocks/E").count(), 2, "{stood:?}");
    assert_eq!(stood.iter().filter(|chip| *chip == "kelp/E").count(), 1, "{stood:?}");
    let before = bench.line();
    bench.press("down");
    assert_ne!(bench.said(), "");
    let after = bench.line();
    assert!(after == before || after.contains("oars/e"), "{after}");
}

#[test]
fn a_subtitle_is_begun_and_taken_back() {
    let mut bench = Bench::on("[A] N");
    bench.press("t enter");
    assert_eq!(bench.told(), "[A] N  typing ''");
    bench.press("'wal' enter");
    assert_eq!(bench.line(), "A N | [w] a l");
    assert_eq!(bench.state.strip().role().as_str(), "subtitle");
    bench.press("down u u");
    assert_eq!(bench.line(), "[A] N");
    bench.press("U");
    assert_eq!(bench.line(), "[A] N | w a l");
}

#[test]
fn filters_read_letters_colours_heights_and_forms() {
    let shown = |words: &str| {
        let mut bench = Bench::on("[A] N");
        bench.press(&format!("/ '{words}' enter"));
        let stash = &bench.state.shelf.stash;
        let chips = bench.state.bench.grid.chips();
        chips.iter().map(|&ix| stash.chip(ix).id().to_string()).collect::<Vec<_>>().join(" ")
    };
    assert_eq!(shown("A"), "blocks/A kelp/A");
    assert_eq!(shown("A tile"), "blocks/A");
    assert_eq!(shown("A E die-cut"), "kelp/A kelp/E");
    assert_eq!(shown("teal W"), "kelp/W");
    assert_eq!(shown("22.5-23mm R"), "kelp/R");
    assert_eq!(shown("0.86-0.9in N"), "blocks/N");
    assert_eq!(shown("Q"), "");
    let mut bench = Bench::on("[A] N");
    bench.press("/ 'taupe' enter");
    let Over::Typing(typing) = &bench.state.over else { unreachable!() };
    assert!(typing.wrong.as_deref().unwrap().starts_with("\"taupe\" is no letter, form"));
}

#[test]
fn only_what_fits_the_slot_is_shown_and_follows_it() {
    let mut bench = Bench::on("[W] R");
    bench.press("f");
    let shown = |bench: &Bench| {
        let stash = &bench.state.shelf.stash;
        let chips = bench.state.bench.grid.chips().iter();
        let mut ids: Vec<String> = chips.map(|&ix| stash.chip(ix).id().to_string()).collect();
        ids.sort();
        ids.join(" ")
    };
    assert_eq!(shown(&bench), "blocks/M kelp/W oars/w");
    bench.press("right");
    assert_eq!(shown(&bench), "kelp/R");
}

#[test]
fn a_thing_by_hand_stands_and_what_is_wrong_is_told() {
    let mut bench = Bench::on("[O] N");
    bench.press("b 'button' enter");
    let Over::Typing(typing) = &bench.state.over else { unreachable!() };
    assert_eq!(typing.wrong.as_deref(), Some("write what it is and its width, such as: button, 18 mm"));
    bench.press("', 18 mm, coral' enter");
    assert_eq!(bench.line(), "[hand:button] N");
    bench.press("] . x right x left u u");
    assert!(!bench.line().contains('~'), "{}", bench.line());
}

#[test]
fn a_finding_is_cured_at_its_slot_by_letters_that_cost_less() {
    let mut bench = Bench::on("kelp/N [oars/e] kelp/A");
    let place = bench.findings().iter().position(|id| *id == "height").unwrap();
    bench.press("shift-tab").press(&"down ".repeat(place)).press("enter");
    let Over::Alternates(list) = &bench.state.over else { unreachable!("{}", bench.told()) };
    assert_eq!(list.cures, Some("height"));
    assert_eq!(bench.state.bench.slot, 1);
    bench.press("enter");
    assert!(!bench.findings().contains(&"height"), "{:?}", bench.findings());
}

#[test]
fn an_accepted_finding_costs_nothing_and_can_count_again() {
    let mut bench = Bench::on("kelp/N oars/e [kelp/A]");
    let score = |bench: &Bench| bench.state.trial.verdict().score;
    let before = score(&bench);
    let place = bench.findings().iter().position(|id| *id == "height").unwrap();
    bench.press("shift-tab").press(&"down ".repeat(place)).press("a");
    assert_eq!(bench.said(), "height accepted on the title");
    assert!(score(&bench) < before);
    assert_eq!(bench.findings().last(), Some(&"height"));
    bench.press(&"down ".repeat(bench.findings().len())).press("a");
    assert_eq!(bench.said(), "height counts again on the title");
    assert_eq!(score(&bench), before);
}

#[test]
fn a_kept_trial_is_compared_taken_and_undone() {
    let mut bench = Bench::on("[kelp/A] blocks/N");
    bench.press("k d right d c enter");
    assert_eq!(bench.line(), "kelp/A [blocks/N]");
    bench.press("c enter");
    assert_eq!(bench.line(), "A [N]");
    bench.press("u u u u");
    assert_eq!(bench.line(), "kelp/A [blocks/N]");
}

#[test]
fn a_plan_without_a_name_is_asked_for_one() {
    let mut bench = Bench::on("[A] _ N");
    bench.press("@unnamed s ctrl-u 'Night Ferry' enter");
    let Over::Typing(typing) = &bench.state.over else { unreachable!() };
    assert_eq!(
        typing.wrong.as_deref(),
        Some("a plan's name is made of small letters a-z, figures and hyphens")
    );
    bench.press("ctrl-u 'night-ferry' enter");
    assert_eq!(bench.asked, [Effect::Save("night-ferry".into(), Then::Stay)]);
}

#[test]
fn a_read_only_stash_refuses_to_save_and_says_so() {
    for (why, told) in [
        ("@held", "another oddment holds this stash; here it is read-only"),
        ("@read-only", "the folder of this stash takes no changes: it is read-only"),
    ] {
        let mut bench = Bench::on("[A] N");
        bench.press(why).press("down s");
        assert!(bench.asked.is_empty());
        assert_eq!(bench.said(), told);
    }
}

#[test]
fn a_paste_is_text_and_never_commands() {
    let mut bench = Bench::on("[kelp/A] N");
    bench.input(Input::Paste("ddq".into()));
    assert_eq!(bench.told(), "[kelp/A] N");
    bench.press("w ctrl-u");
    bench.input(Input::Paste("AN\nEQ\n".into()));
    assert_eq!(bench.told(), "[kelp/A] N  typing 'AN|EQ'");
    bench.press("enter");
    assert_eq!(bench.line(), "kelp/A [N] / E Q");
    bench.press("@trial");
    bench.input(Input::Paste("y".into()));
    assert!(bench.asked.is_empty());
    assert_eq!(bench.told(), "kelp/A [N] / E Q  GoOnWithTrial?");
}

#[test]
fn rules_settings_and_unit_go_round() {
    let mut bench = Bench::on("[A] N");
    let start = bench.state.trial.plan().clone();
    for (key, turns) in [("M", 3), ("F", 3), ("K", 4), ("E", 2), ("L", 2)] {
        for turn in 1..=turns {
            bench.press(key);
            assert_eq!(*bench.state.trial.plan() == start, turn == turns, "{key} {turn}");
        }
    }
    assert_eq!(bench.said(), "mix lively, forms any, case any, spacing even, lined up by feet");
    bench.press("i");
    assert_eq!(bench.state.unit(), Unit::Inch);
    bench.press("i");
    assert_eq!(bench.state.unit(), Unit::Millimetre);
}

#[test]
fn a_slot_marked_for_exchange_is_forgotten_when_the_wording_changes() {
    let mut bench = Bench::on("kelp/A blocks/N [E]");
    bench.press("x w ctrl-u 'A' enter x");
    assert_eq!(bench.line(), "[kelp/A]");
    assert_eq!(bench.said(), "choose the other slot, then exchange again");
}

#[test]
fn letters_of_a_stuck_strip_can_be_looked_at_and_swapped() {
    let mut bench = Bench::on_plan(
        "[[strip]]\nwording = 'R'\nstuck = 3\n[[strip.letter]]\nslot = 1\nfor = 'R'\nchip = 'kelp/R'\n",
    );
    bench.press("enter");
    assert_eq!(bench.told(), "[kelp/R]  alternate 1 of 1");
}

#[test]
fn a_screen_of_a_few_rows_breaks_no_grouping() {
    for rows in 0..20 {
        let mut bench = Bench::on("[A] N");
        bench.input(Input::Resize { columns: 20, rows });
        bench.press("tab g down down g end g home");
    }
}

#[test]
fn a_page_scrolled_to_its_end_comes_back_at_the_first_key() {
    let mut bench = Bench::on("[A] N");
    bench.press("@page end down page-down up");
    assert_eq!(bench.told(), "[A] N  a page from 40");
}

#[test]
fn a_key_without_a_meaning_says_so() {
    let mut bench = Bench::on("[A] N");
    bench.press("f12");
    assert_eq!(bench.said(), "f12 does nothing here; ? lists the keys that work");
}

#[test]
fn an_enter_out_of_habit_answers_no_question_of_which_yes_may_be_wrong() {
    for (before, keys, question) in [
        ("[kelp/A] N", "@stuck l", "LiftOne?"),
        ("[kelp/A] N", "d @changed", "TakeFile(None)?"),
        ("[kelp/A] N", "@stuck 5 @order l", "LiftAll?"),
    ] {
        let mut bench = Bench::on(before);
        bench.press(keys).press("enter enter");
        assert!(bench.told().ends_with(question), "{keys}: {}", bench.told());
        bench.press("y");
        assert!(bench.told().contains("->") || question.starts_with("TakeFile"), "{keys}: {}", bench.told());
    }
}

#[test]
fn a_letter_that_is_stuck_down_says_so_and_how_to_lift_it() {
    for keys in ["down", "up", "d", ".", "E", "M"] {
        let mut bench = Bench::on("[kelp/A] N");
        bench.press("@stuck").press(keys);
        let said = bench.state.notice.as_ref().map(|notice| notice.text.clone());
        let wanted = "the title is stuck down; lift this letter (l) or all of them (5, then l) first";
        assert_eq!(said.as_deref(), Some(wanted), "{keys}");
    }
}
