//! Suggestions, why not this one, one more letter: what is asked, what is told, and that it is true.
//!
//! Must not know how a search goes.

use oddment::app::{Change, Over, Run, SuggestionView};
use oddment::checks::{Alternate, alternates, judge};
use oddment::measure::{Length, Points};
use oddment::stash::Stash;
use oddment::title::{Edit, Layout, Sticker};

use super::bench::Bench;

fn view(bench: &Bench) -> &SuggestionView {
    let Over::Suggestions(view) = &bench.state.over else { unreachable!("{}", bench.told()) };
    view
}

fn claim(bench: &Bench) -> String {
    let place = view(bench).place;
    bench.state.work.suggesting.as_ref().unwrap().pursuit.claim(place)
}

fn run(bench: &Bench) -> Run {
    bench.state.work.suggesting.as_ref().unwrap().pursuit.run()
}

#[test]
fn a_suggestion_is_looked_at_taken_and_taken_back_in_one_step() {
    let mut bench = Bench::on("L [A] N T E R N _ W A L K");
    let (start, steps) = (bench.state.trial.plan().clone(), bench.state.trial.steps());
    bench.press("n @work n n");
    assert_eq!(view(&bench).place, 2);
    assert_eq!(*bench.state.trial.plan(), start, "looking changes nothing");
    let (plan, score) = (view(&bench).plan.clone(), view(&bench).suggestion.score);
    bench.press("enter");
    assert_eq!(*bench.state.trial.plan(), plan);
    assert_eq!(bench.state.trial.verdict().score, score);
    assert_eq!(bench.state.trial.steps(), steps + 1);
    assert!(bench.said().starts_with("suggestion taken: 11 slots changed"), "{}", bench.said());
    bench.press("u");
    assert_eq!(*bench.state.trial.plan(), start);
    bench.press("n");
    assert_eq!(bench.told(), "L [A] N T E R N _ W A L K  suggestion 1 of 5", "nothing is looked for twice");
    assert_eq!(run(&bench), Run::Done);
}

#[test]
fn the_first_is_the_best_and_those_after_it_are_no_better() {
    let mut bench = Bench::on("L [A] N T E R N _ W A L K");
    bench.press("n @work");
    assert_eq!(claim(&bench), format!("{} is the best there is", view(&bench).suggestion.score));
    let mut before = view(&bench).suggestion.score;
    for place in 1..5 {
        bench.press("right");
        assert_eq!((view(&bench).place, claim(&bench).as_str()), (place, "the next best that differs"));
        assert!(view(&bench).suggestion.score >= before);
        before = view(&bench).suggestion.score;
    }
    bench.press("n");
    assert_eq!(bench.said(), "this is the last suggestion: no more are looked for");
    bench.press("left left left left left");
    assert_eq!(bench.said(), "this is the first suggestion");
}

#[test]
fn what_was_stopped_is_never_called_the_best_and_goes_on_from_where_it_was() {
    let mut bench = Bench::on("L [A] N T E R N _ W A L K");
    bench.press("n @slice esc");
    assert_eq!(run(&bench), Run::Stopped);
    let outcome = bench.state.work.suggesting.as_ref().unwrap().pursuit.outcome().clone();
    let (best, bound) = (outcome.suggestions[0].score, outcome.bound);
    assert!(bound < best, "{bound} {best}");
    assert_eq!(claim(&bench), format!("best so far {best}, none below {bound} (gap {})", best - bound));
    bench.press("esc n @work");
    let pursuit = &bench.state.work.suggesting.as_ref().unwrap().pursuit;
    assert!(pursuit.outcome().explored > outcome.explored, "it does not begin anew");
    assert!(claim(&bench).ends_with("is the best there is"));
    assert!(view(&bench).suggestion.score <= best && view(&bench).suggestion.score >= bound);
}

#[test]
fn a_search_out_of_time_stops_by_itself_and_shows_what_it_has() {
    let mut bench = Bench::on("L [A] N T E R N _ W A L K");
    bench.press("n @slice @long");
    let progress = bench.state.progress().unwrap();
    assert!(
        progress.starts_with("looking (esc stops): ") && progress.contains("; best so far "),
        "{progress}"
    );
    bench.press("@time");
    assert_eq!(bench.told(), "L [A] N T E R N _ W A L K  suggestion 1 of 1");
    assert_eq!(run(&bench), Run::OutOfTime);
    bench.press("s @work");
    assert_eq!(run(&bench), Run::Done);
}

#[test]
fn a_pinned_letter_and_a_thing_by_hand_stay() {
    let mut bench = Bench::on("[oars/a*] N E");
    bench.press("right b 'button, 18 mm' enter n @work");
    let changes: Vec<Change> = view(&bench).changes.iter().map(|one| one.change).collect();
    assert_eq!(changes, [Change::LeftAlone("pinned"), Change::LeftAlone("by hand"), Change::Changes]);
    bench.press("home");
    assert_eq!(view(&bench).reasons, ["suggestions leave it alone: it is pinned"]);
    bench.press("enter");
    assert!(bench.line().starts_with("oars/a* [hand:button] "), "{}", bench.line());
}

#[test]
fn a_slot_that_nothing_serves_stays_empty_and_says_so() {
    let mut bench = Bench::on("[Q] A");
    bench.press("n @work home");
    assert_eq!(view(&bench).changes[0].change, Change::Unserved);
    assert_eq!(view(&bench).reasons, ["no Q is left, and no letter that could stand in for it"]);
    let mut bench = Bench::on("[]");
    bench.press("n");
    assert_eq!(bench.said(), "there is no slot yet; type a wording first (w)");
}

#[test]
fn a_change_while_it_runs_begins_anew_and_nothing_comes_up_under_the_keys() {
    let mut bench = Bench::on("[kelp/L] A N T E R N _ W A L K");
    bench.press("n @slice d right @work");
    assert_eq!(bench.told(), "L [A] N T E R N _ W A L K");
    assert_eq!(bench.said(), "5 suggestions found (n shows them)");
    bench.press("n");
    assert_eq!(view(&bench).changes[0].now, None, "they are for the plan as it is now");
}

#[test]
fn a_closed_suggestion_does_not_come_up_again_by_itself() {
    let mut bench = Bench::on("L [A] N T E R N _ W A L K");
    bench.press("n n esc @slice esc");
    assert_eq!(bench.told(), "L [A] N T E R N _ W A L K");
    assert!(bench.said().starts_with("stopped at "), "{}", bench.said());
    bench.press("n @work esc");
    assert_eq!(bench.told(), "L [A] N T E R N _ W A L K");
    assert_eq!(run(&bench), Run::Done);
}

#[test]
fn a_change_after_it_has_run_begins_anew() {
    let mut bench = Bench::on("[kelp/L] A N");
    bench.press("n @work esc d n");
    assert_eq!(bench.told(), "[L] A N  looking");
}

#[test]
fn the_difference_of_a_slot_alone_is_what_the_bench_would_show() {
    let mut bench = Bench::on("kelp/L [oars/a] N T E blocks/L | w oars/a l k");
    bench.press("n @work n");
    let (trial, shelf) = (&bench.state.trial, &bench.state.shelf);
    let mut seen = 0;
    for one in &view(&bench).changes {
        let ((strip, slot), Some(alone)) = (one.at, one.alone) else { continue };
        let mut plan = trial.plan().clone();
        let stood = view(&bench).plan.strips()[strip].letter(slot).cloned();
        plan.edit_strip(strip, Edit::Letter { slot, stood });
        let with = judge(&plan, &shelf.stash, &shelf.scene).score;
        assert_eq!(alone, with - trial.verdict().score, "{one:?}");
        seen += 1;
    }
    assert!(seen >= 4, "{seen}");
}

#[test]
fn reasons_have_the_figures_of_the_stash() {
    let reasons = |line: &str, row: &str| {
        let mut bench = Bench::on(line);
        bench.press("y 'teal, gold' enter n @work home").press(row);
        view(&bench).reasons.clone()
    };
    let of_r = reasons("[R] A N", "");
    assert_eq!(of_r[0], "the only kind of R that is left");
    assert_eq!(of_r[1], "its teal is on the page, the main colour");
    assert!(of_r[2].starts_with("by itself it costs ") && of_r[2].contains("scarce"), "{of_r:?}");
    assert_eq!(of_r[3], "no other letter is to be had for it");
    let of_a = reasons("[R] A N", "down");
    assert_eq!(of_a[0], "one of 2 kinds of A within 15 % of 23 mm");
    assert!(of_a[3].contains(", the next best here, would cost "), "{of_a:?}");
    let of_w = reasons("[W] W R", "down");
    assert_eq!(of_w[0], "M, turned, stands in, though 1 kind of W is left within 15 % of 23 mm");
}

#[test]
fn what_the_room_decides_is_told_and_marked() {
    // The gold tile suits the page, and is 22 mm wide.
    let plan = |spacing: &str| {
        format!("colours = ['gold']\n[[strip]]\nwording = 'E'\nroom = '20 mm'\nspacing = '{spacing}'\n")
    };
    for spacing in ["even", "optical"] {
        let mut bench = Bench::on_plan(&plan(spacing));
        bench.press("n @work");
        let told = view(&bench).reasons.join("; ");
        assert!(told.contains("E of gold tile 22 mm (gold 22 mm) would cost "), "{told}");
        assert!(
            told.contains(" less here, but the line would be 2 mm longer than its room of 20 mm"),
            "{told}"
        );
        bench.press("esc enter");
        let Over::Alternates(list) = &bench.state.over else { unreachable!() };
        let sheet = |one: &Alternate| bench.state.shelf.stash.chip(one.candidate.chip).sheet.id.to_string();
        let long: Vec<String> =
            list.alternates.iter().filter(|one| one.too_long.is_some()).map(sheet).collect();
        assert_eq!((long.as_slice(), list.alternates.len()), (&["blocks".to_owned()][..], 3));
    }
}

#[test]
fn an_alternate_is_too_long_where_the_check_of_room_says_so() {
    let (mut long, mut short) = (0, 0);
    for setting in ["", "spacing = 'optical'\n"] {
        let wide = format!("[[strip]]\nwording = 'KLAN\\nTEA'\nroom = '79 mm'\n{setting}");
        let mut bench = Bench::on_plan(&wide.replace('\'', "\""));
        bench.press(&"down right ".repeat(7)).press("home right > home");
        let (plan, shelf) = (bench.state.trial.plan(), &bench.state.shelf);
        for slot in 0..7 {
            for one in alternates(plan, 0, slot, &shelf.stash, &shelf.scene) {
                let mut with = plan.clone();
                let id = shelf.stash.chip(one.candidate.chip).id();
                let sticker = Sticker::Chip { id, stands_in: one.candidate.stands_in };
                let stood = plan.strips()[0].letter(slot).unwrap().with(sticker);
                with.edit_strip(0, Edit::Letter { slot, stood: Some(stood) });
                let line = Layout::of(&with.strips()[0], &shelf.stash).lines[usize::from(slot > 3)].length;
                let over = line - Length::from_mm(79);
                let told = (over > Length::ZERO).then_some(over);
                assert_eq!(one.too_long, told, "{setting}, slot {slot}: {one:?}");
                long += usize::from(told.is_some());
                short += usize::from(told.is_none());
            }
        }
    }
    assert!(long > 3 && short > 3, "{long} {short}");
}

#[test]
fn the_keys_are_listed_over_whatever_they_work_in() {
    let mut bench = Bench::on("L [A] N T E R N _ W A L K");
    bench.press("n @slice @long esc ?");
    let Over::Help(keys, _) = &bench.state.over else { unreachable!() };
    let listed = |text: &str| keys.lines.iter().any(|line| line.contains(text));
    assert!(listed("Take this suggestion") && listed("Go up.") && !listed("Save the page plan"), "{keys:?}");
    bench.press("?");
    assert_eq!(bench.said(), "these are the keys; esc goes back");
    bench.press("esc");
    assert_eq!(bench.told(), "L [A] N T E R N _ W A L K  suggestion 1 of 1");
    // What is found while they are read is there afterwards.
    bench.press("s ? @work q");
    assert!(claim(&bench).ends_with("is the best there is"));
    assert_eq!(
        view(&bench).suggestion,
        bench.state.work.suggesting.as_ref().unwrap().pursuit.outcome().suggestions[0]
    );
    for keys in ["enter", "k c", "m", "@page", "@plans"] {
        let mut bench = Bench::on("kelp/L [kelp/A] N");
        bench.press(keys);
        let before = bench.told();
        bench.press("?");
        assert!(matches!(bench.state.over, Over::Help(..)), "{keys}");
        bench.press("esc");
        assert_eq!(bench.told(), before, "{keys}");
    }
    let mut bench = Bench::on("kelp/N [kelp/A] kelp/R");
    bench.press("enter end w ? @work esc");
    assert!(bench.state.work.why_not.is_some(), "what was asked is not forgotten");
}

#[test]
fn why_not_tells_the_term_that_counts_and_the_best_mix_that_has_it() {
    let mut bench = Bench::on("kelp/N [kelp/A] kelp/R");
    bench.press("n @work esc enter end w");
    assert_eq!(bench.told(), "kelp/N [kelp/A] kelp/R  alternate 3 of 3  looking");
    bench.press("@work");
    let best = bench.state.work.suggesting.as_ref().unwrap().pursuit.best().unwrap();
    let why = bench.state.work.why_not.as_ref().unwrap();
    let told = why.lines(bench.state.work.suggesting.as_ref().map(|one| &one.pursuit));
    let with = why.pursuit.best().unwrap();
    let now = bench.state.trial.verdict().score;
    assert!(told[0].starts_with("with it the plan scores "), "{told:?}");
    assert!(told[0].ends_with(&format!(" more than now ({now})")), "{told:?}");
    assert!(told[1].starts_with("height makes most of the difference, +"), "{told:?}");
    assert!(told[1].contains(" to 1"), "the finding's own words: {told:?}");
    let more = with - best;
    assert_eq!(
        told[2],
        format!("the best mix with it here scores {with}, {more} more than the best there is, {best}")
    );
    assert!(more > Points::ZERO);
    bench.press("up");
    assert!(bench.state.work.why_not.is_none() && !bench.state.is_working());
}

#[test]
fn one_more_letter_is_told_with_the_best_without_it() {
    // The blocks' Z is used up; an N lying down could stand in.
    let mut bench = Bench::on("[Z] A N");
    bench.press("m @work");
    let lines = bench.state.work.one_more.as_ref().unwrap().lines();
    assert!(lines[0].ends_with("is the best there is"), "{lines:?}");
    assert!(lines[1].starts_with("one more Z of about 22 mm like those of gold tile 22 mm: "), "{lines:?}");
    let figures: Vec<f64> = lines[1].split(' ').filter_map(|word| word.parse().ok()).collect();
    let (from, to) = (figures[figures.len() - 2], figures[figures.len() - 1]);
    assert!(from > to, "{lines:?}");
    // What one more would do is what the same stash with one more does.
    let best = |bench: &mut Bench| {
        bench.press("n @work");
        view(bench).suggestion.score.as_f64()
    };
    bench.press("esc");
    assert!((best(&mut bench) - from).abs() < 1e-9);
    let mut sheets = bench.state.shelf.stash.sheets().to_vec();
    let z = sheets
        .iter_mut()
        .flat_map(|sheet| &mut sheet.letters)
        .find(|letter| letter.character.as_str() == "Z");
    z.unwrap().left = 1;
    let stash = Stash::new(sheets);
    let mut with = Bench::with(stash, bench.state.trial.plan().clone());
    assert!((best(&mut with) - to).abs() < 1e-9);
}

#[test]
fn one_more_of_what_is_not_tried_changes_nothing() {
    // Every kind of the stash, tried in full.
    let mut bench = Bench::on("[E] E A K R");
    let best = |stash: Stash, bench: &Bench| {
        let mut other = Bench::with(stash, bench.state.trial.plan().clone());
        other.press("n @work");
        view(&other).suggestion.score
    };
    bench.press("m @work");
    let told = bench.state.work.one_more.as_ref().unwrap().lines().len() - 2;
    let sheets = bench.state.shelf.stash.sheets().to_vec();
    let from = best(Stash::new(sheets.clone()), &bench);
    let mut gains = 0;
    for place in 0..sheets.len() {
        let mut more = sheets.clone();
        let Some(e) = more[place].letters.iter_mut().find(|letter| letter.character.as_str() == "E") else {
            continue;
        };
        e.left += 1;
        gains += usize::from(best(Stash::new(more), &bench) < from);
    }
    assert!(gains > 0);
    assert_eq!(told, gains);
}

#[test]
fn one_more_of_what_there_is_plenty_gains_nothing_and_says_so() {
    let mut bench = Bench::on("[R]");
    bench.press("m @work");
    let lines = bench.state.work.one_more.as_ref().unwrap().lines();
    assert!(lines.len() >= 2, "{lines:?}");
    let mut bench = Bench::on("[Q]");
    bench.press("m @work");
    let lines = bench.state.work.one_more.as_ref().unwrap().lines();
    assert_eq!(lines.last().unwrap(), "no sheet with Q is at hand that has not plenty of it");
    bench.press("esc");
    assert!(bench.state.work.one_more.is_none());
}
