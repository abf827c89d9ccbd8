//! The page's view by keys and mouse: a page made from nothing, strips carried and sent to rest, things changed and taken
//! back.
//!
//! Must not know how anything is drawn.

use oddment::app::{Input, Mouse, MouseAct, Over, PageMap, Seeking, Thing};
use oddment::checks::{judge, touches};
use oddment::measure::{Angle, Unit};

use super::bench::Bench;

const PAGE: &str = "[kelp/A] N // 200x150; mat 100x60@50,40; photo 80x50@60,45";

fn wrong(bench: &Bench) -> &str {
    let Over::Typing(typing) = &bench.state.over else { unreachable!("{}", bench.told()) };
    typing.wrong.as_deref().unwrap_or("")
}

fn seeking(bench: &Bench) -> &Seeking {
    bench.state.work.resting.as_ref().unwrap()
}

/// How many keys a text of these tests presses.
fn keys(text: &str) -> usize {
    let typed = |(place, part): (usize, &str)| {
        if place % 2 == 1 { part.chars().count() } else { part.split_whitespace().count() }
    };
    text.split('\'').enumerate().map(typed).sum()
}

/// Two photos, one on a mat, a border and a journaling block, each in its place and colours, on a page of 12 x 12 in: at
/// most 90 keys, which at one key a second are a minute and a half.
#[test]
fn a_page_is_made_from_nothing_in_at_most_90_keys() {
    let mut bench = Bench::on("[A] N");
    let story = "2 P 1 enter G 'tan' enter \
                 a 'p 6x4in teal on coral at 20 90' enter \
                 a 'p 60x90 at 200 60 turn 2' enter \
                 a 'b gold' enter \
                 a 'j at 200 180' enter";
    bench.press(story);
    assert_eq!(
        bench.page(),
        "304.8x304.8 tan; mat 160.4x109.6@16,86 coral; photo 152.4x101.6@20,90 teal; photo 60x90@200,60~2; \
         border 304.8x12@0,286.8 gold; [journaling 76x50@200,180]; title"
    );
    assert!(keys(story) <= 90, "{} keys", keys(story));
    bench.press(&"u ".repeat(6));
    assert_eq!(bench.page(), "no size; [title]");
}

#[test]
fn a_strip_is_put_down_in_the_middle_carried_turned_and_taken_off() {
    let mut bench = Bench::on(PAGE);
    bench.press("right");
    let first = bench.page();
    assert!(first.contains("[title@") && bench.said().contains("put down"), "{first}");
    bench.press("right right down ] ]");
    assert_eq!(bench.state.strip().place.turn, Angle::from_thousandths(2000));
    bench.press("u");
    assert_eq!(bench.page(), first, "carried and turned are one step");
    bench.press("d");
    assert!(bench.page().ends_with("[title]"));
    bench.press("u u");
    assert!(bench.page().ends_with("[title]"), "not placed yet");
    bench.press("J");
    assert_eq!(bench.page(), first, "whichever key puts it down");
}

#[test]
fn a_second_strip_is_put_down_below_the_first() {
    let mut bench = Bench::on("[kelp/A] N | n a // 200x150; title@80,60");
    bench.press("t down");
    let strips = bench.state.trial.plan().strips();
    let (title, subtitle) = (strips[0].place.at.unwrap(), strips[1].place.at.unwrap());
    assert!(subtitle.y > title.y, "{}", bench.page());
}

#[test]
fn turning_about_the_middle_and_back_leaves_the_place() {
    let mut bench = Bench::on("[kelp/A] N // 200x150; title@20,140");
    let before = bench.page();
    bench.press(&"] ".repeat(37)).press(&"[ ".repeat(37));
    let at = bench.state.strip().place.at.unwrap();
    assert!((at.x.mm() - 20.0).abs() < 0.3 && (at.y.mm() - 140.0).abs() < 0.3, "{at:?}");
    bench.press("u");
    assert_eq!(bench.page(), before);
}

#[test]
fn a_strip_that_is_stuck_down_is_not_carried() {
    let text = "size = 'A5'\n[[strip]]\nwording = 'R'\nstuck = 3\nat = [20, 30]\n[[strip.letter]]\nslot = 1\nfor = 'R'\nchip = 'kelp/R'\n";
    for keys in ["right", "]", "n", "p", "d", "g", "shift-up", "0"] {
        let mut bench = Bench::on_plan(text);
        let before = bench.state.trial.plan().clone();
        bench.press("2").press(keys);
        assert!(bench.said().starts_with("the title is stuck down"), "{keys}: {}", bench.said());
        assert_eq!((bench.state.trial.plan(), bench.state.is_working()), (&before, false), "{keys}");
    }
}

#[test]
fn resting_places_are_walked_both_ways_and_are_as_the_checks_say() {
    let mut bench = Bench::on(PAGE);
    bench.press("n @work");
    let rests = seeking(&bench).places().to_vec();
    assert!(rests.len() > 2 && seeking(&bench).is_done());
    for rest in rests.iter().skip(1).chain(&rests[..1]) {
        bench.press("n");
        let (at, turn) = (bench.state.strip().place.at, bench.state.strip().place.turn);
        assert_eq!((at, turn), (Some(rest.at), rest.turn));
        let shelf = &bench.state.shelf;
        let verdict = judge(bench.state.trial.plan(), &shelf.stash, &shelf.scene);
        assert_eq!(verdict.place, Some(rest.points), "as if nothing was accepted");
    }
    assert!(bench.said().starts_with(&format!("resting place 1 of {}: ", rests.len())), "{}", bench.said());
    bench.press("p");
    assert!(
        bench.said().starts_with(&format!("resting place {0} of {0}: ", rests.len())),
        "{}",
        bench.said()
    );
    bench.press("left n");
    assert!(bench.said().starts_with("resting place 1 of"), "carried away from it, the best comes first");
    assert!(!bench.state.is_working(), "nothing is looked for twice");
}

#[test]
fn a_resting_place_that_nobody_waits_for_does_not_move_the_strip() {
    let mut bench = Bench::on(&format!("{PAGE}; title@20,140"));
    bench.press("n right @work");
    assert!(bench.page().ends_with("[title@21,140]"), "{}", bench.page());
    assert!(bench.said().ends_with("resting places found (n goes to them)"), "{}", bench.said());
    bench.press("tab right n");
    assert!(bench.state.is_working(), "a thing moved: they are looked for anew");
    bench.press("tab right");
    assert!(!bench.state.is_working(), "what is about another page is dropped");
}

#[test]
fn a_search_that_takes_long_tells_how_far_it_is_and_stops() {
    let mut bench = Bench::on(PAGE);
    bench.press("n @slice");
    assert_eq!(bench.state.progress(), None);
    bench.press("@long");
    let told = bench.state.progress().unwrap();
    assert!(told.starts_with("looking for resting places (esc stops): ") && told.ends_with(" %"), "{told}");
    bench.press("esc");
    assert!(!bench.state.is_working());
    bench.press("n @work");
    assert!(seeking(&bench).is_done() && bench.said().starts_with("resting place 1 of"), "{}", bench.said());
    let mut bench = Bench::on(PAGE);
    bench.press("n 1");
    assert!(!bench.state.is_working(), "it goes on only where it is looked at");
}

#[test]
fn a_search_out_of_time_does_not_say_that_there_is_no_room() {
    let mut bench = Bench::on(PAGE);
    bench.press("n @time");
    assert!(bench.said().ends_with("n goes on from there"), "{}", bench.said());
    bench.press("n @work");
    assert!(bench.said().starts_with("resting place 1 of "), "{}", bench.said());
}

#[test]
fn where_no_place_can_be_looked_for_it_says_why() {
    for (line, why) in [
        ("[kelp/A] N // no size", "the page has no size yet"),
        ("[A] N // 200x150", "no letter stands on the title yet"),
        ("kelp/A kelp/K kelp/L kelp/N [kelp/R] // 60x30", "finds no room on the page"),
    ] {
        let mut bench = Bench::on(line);
        bench.press("n");
        bench.press("@work");
        assert!(bench.said().contains(why), "{line}: {}", bench.said());
    }
}

#[test]
fn what_is_amiss_with_a_place_is_cured_on_the_page() {
    let mut bench = Bench::on("[kelp/A] kelp/N // 200x150; photo 40x30@10,10; title@100,100");
    bench.press("1 shift-tab");
    let place = bench.state.findings().iter().position(|finding| finding.id == "adrift").unwrap();
    bench.press(&"down ".repeat(place)).press("enter");
    assert!(bench.told().contains("[title@100,100]"), "{}", bench.told());
    bench.press("n @work");
    assert!(!bench.findings().contains(&"adrift"), "{:?}", bench.findings());
}

#[test]
fn each_change_of_a_thing_is_one_step() {
    let mut bench = Bench::on(PAGE);
    let start = bench.page();
    let steps = "tab right right ] + >|k|f|v|b|!|c 'teal' enter|r 'quay' enter|e '30 x 20' enter|\
                 g '5, 6, -2' enter|page-down|m 'tan 3 mm' enter|d|enter ctrl-u 'border 90 x 5 coral' enter|a 'l' enter";
    let mut pages = vec![start];
    for step in steps.split('|') {
        bench.press(step);
        pages.push(bench.page());
    }
    assert_eq!(bench.state.trial.steps(), pages.len() - 1);
    let bare = |page: &str| page.replace(['[', ']'], "");
    for page in pages.iter().rev() {
        assert_eq!(bare(&bench.page()), bare(page));
        bench.press("u");
    }
    for page in &pages[1..] {
        bench.press("U");
        assert_eq!(bare(&bench.page()), bare(page));
    }
}

#[test]
fn a_typed_line_that_changes_nothing_is_no_step() {
    let mut bench = Bench::on(PAGE);
    for keys in
        ["tab enter enter", "e enter", "c enter", "r enter", "P enter", "M enter", "G enter", "g enter"]
    {
        bench.press(keys);
        assert_eq!(bench.state.trial.steps(), 0, "{keys}: {}", bench.told());
    }
}

#[test]
fn a_strip_that_is_laid_where_it_lies_is_no_step() {
    let mut bench = Bench::on("[kelp/A] N // 200x150; title@20,140");
    bench.press("right u");
    for keys in ["0", "g enter"] {
        bench.press(keys);
        assert_eq!(bench.state.trial.steps(), 0, "{keys}: {}", bench.told());
    }
    bench.press("U");
    assert!(
        bench.page().contains("title@21,140"),
        "what was undone can still be made again: {}",
        bench.page()
    );
}

#[test]
fn what_is_chosen_stays_chosen_where_undo_moves_it_in_the_stack() {
    let mut bench = Bench::on(PAGE);
    bench.press("tab tab");
    assert!(bench.page().contains("[mat "), "{}", bench.page());
    bench.press("m 'tan' enter u");
    assert!(bench.page().contains("[mat "), "{}", bench.page());
    bench.press("page-up u");
    assert!(bench.page().contains("[mat "), "{}", bench.page());
}

#[test]
fn what_is_typed_takes_the_place_of_a_size_and_mends_a_name() {
    let mut bench = Bench::on(PAGE);
    bench.press("P '3' enter");
    assert!(bench.page().starts_with("215.9x279.4"), "{}", bench.page());
    bench.press("tab e left backspace '3' enter");
    assert_eq!(bench.told().rsplit("typing ").next(), Some("'80 x 50 3m'"));
    bench.press("esc r 'quay' enter r ' wall' enter");
    assert!(bench.page().contains("quay wall"), "{}", bench.page());
}

#[test]
fn what_is_wrong_with_a_line_is_told_and_it_can_be_mended() {
    let mut bench = Bench::on(PAGE);
    for (keys, part) in [
        ("a 'x'", "begin with what it is"),
        ("a 'photo tael'", "spelled alike: teal"),
        ("P 'huge'", "no page size"),
        ("G 'grn'", "no colour"),
        ("M '-3'", "0 or more"),
        ("tab e 'big'", "no length"),
        ("g 'there'", "from the left"),
        ("m 'kraft x'", "no colour"),
    ] {
        bench.press(keys).press("enter");
        assert!(wrong(&bench).contains(part), "{keys}: {}", wrong(&bench));
        bench.press("esc");
    }
    bench.press("m '#c0ffee 2 mm' enter");
    assert!(bench.page().contains("84x54"), "{}", bench.page());
    bench.press("a 'photo 6 x' enter backspace backspace backspace '4x3in' enter");
    assert!(bench.page().contains("photo 101.6x76.2"), "{}", bench.page());
}

#[test]
fn sizes_have_ends() {
    let mut bench = Bench::on("[A] N // 200x150; photo 3x990@0,0");
    bench.press("tab < < <");
    assert!(bench.page().contains("photo 1x990"), "{}", bench.page());
    assert!(bench.said().contains("above 0"), "{}", bench.said());
    bench.press(&") ".repeat(12));
    assert!(bench.page().contains("photo 1x1000"), "{}", bench.page());
    let before = bench.page();
    for keys in ["m 'tan 3000' enter", "enter ' on tan' enter", "a 'photo 1000x990 on tan' enter"] {
        bench.press(keys);
        assert!(wrong(&bench).contains("too large"), "{keys}: {}", bench.told());
        bench.press("esc");
        assert_eq!(bench.page(), before, "{keys}");
    }
}

#[test]
fn in_inches_a_key_carries_by_what_a_ruler_shows() {
    let mut bench = Bench::on("[A] N // 200x150; photo 50x50@0,0");
    bench.press("tab i right L");
    assert_eq!(bench.state.unit(), Unit::Inch);
    assert!(bench.page().contains("@14.2875,0"), "{}", bench.page());
}

#[test]
fn a_page_without_a_size_or_without_things_keeps_working() {
    let mut bench = Bench::on("[kelp/A] N // no size");
    bench.press("right right a 'p' enter right ] z z tab tab m d");
    bench.press("P 'A5' enter P ctrl-u enter 1 2");
    assert!(bench.page().starts_with("no size"), "{}", bench.page());
}

#[test]
fn a_bed_counts_as_bare_paper_on_a_page_without_a_size_too() {
    let text = "[[element]]\nkind = 'paper'\nat = [0, 0]\nsize = [200, 200]\nbed = true\n\
                [[strip]]\nwording = 'R'\nat = [20, 30]\n[[strip.letter]]\nslot = 1\nfor = 'R'\nchip = 'kelp/R'\n";
    let mut bench = Bench::on_plan(text);
    assert_eq!(touches(bench.state.trial.plan(), &bench.state.shelf.stash), [(0, Vec::new())]);
    bench.press("2 tab b b");
    assert!(bench.said().ends_with("does not count as bare paper, by its size"), "{}", bench.said());
}

fn mouse(bench: &mut Bench, what: MouseAct, place: (f64, f64)) {
    let map = PageMap::of(&bench.state);
    let (across, down) = map.place(place);
    let cell = |at: f64| (0..u16::MAX).find(|cell| f64::from(*cell) + 1.0 > at).unwrap();
    bench.input(Input::Mouse(Mouse {
        what,
        column: map.area.x + cell(across),
        row: map.area.y + cell(down),
    }));
}

#[test]
fn a_click_chooses_what_lies_on_top_and_a_drag_carries_it_in_one_step() {
    let mut bench = Bench::on(&format!("{PAGE}; title@20,140"));
    let start = bench.state.trial.plan().clone();
    mouse(&mut bench, MouseAct::Press, (100.0, 70.0));
    assert_eq!(bench.state.thing(), Thing::Element(1));
    for to in [(110.0, 70.0), (120.0, 90.0), (140.0, 100.0)] {
        mouse(&mut bench, MouseAct::Drag, to);
    }
    mouse(&mut bench, MouseAct::Release, (140.0, 100.0));
    let at = bench.state.trial.plan().page.elements[1].lie.at;
    assert!((at.x.mm() - 100.0).abs() < 6.0 && (at.y.mm() - 75.0).abs() < 11.0, "{}", bench.page());
    assert_eq!(bench.state.trial.steps(), 1);
    bench.press("u");
    assert_eq!(*bench.state.trial.plan(), start);
    mouse(&mut bench, MouseAct::Press, (30.0, 130.0));
    assert_eq!(bench.state.thing(), Thing::Strip(0));
    bench.press("z");
    mouse(&mut bench, MouseAct::Press, (30.0, 130.0));
    mouse(&mut bench, MouseAct::Drag, (60.0, 120.0));
    let at = bench.state.strip().place.at.unwrap();
    assert!((at.x.mm() - 50.0).abs() < 3.0 && (at.y.mm() - 130.0).abs() < 5.0, "{}", bench.page());
    mouse(&mut bench, MouseAct::Release, (60.0, 120.0));
    mouse(&mut bench, MouseAct::Drag, (90.0, 90.0));
    assert_eq!(bench.state.strip().place.at.unwrap(), at, "nothing is held any more");
}

#[test]
fn the_wheel_lets_go_of_what_is_dragged() {
    let mut bench = Bench::on(PAGE);
    let before = bench.state.trial.plan().clone();
    mouse(&mut bench, MouseAct::Press, (100.0, 70.0));
    mouse(&mut bench, MouseAct::WheelDown, (100.0, 70.0));
    assert_eq!(bench.state.thing(), Thing::Element(0));
    mouse(&mut bench, MouseAct::Drag, (120.0, 90.0));
    assert_eq!(*bench.state.trial.plan(), before, "{}", bench.page());
}

#[test]
fn the_list_is_clicked_and_the_wheel_walks() {
    let mut bench = Bench::on(PAGE);
    let list = bench.state.page_panes().things;
    for (line, thing) in [(1, Thing::Strip(0)), (2, Thing::Element(1)), (3, Thing::Element(0))] {
        bench.input(Input::Mouse(Mouse { what: MouseAct::Press, column: list.x + 2, row: list.y + line }));
        assert_eq!(bench.state.thing(), thing);
    }
    for (what, thing) in [
        (MouseAct::WheelUp, Thing::Element(1)),
        (MouseAct::WheelDown, Thing::Element(0)),
        (MouseAct::WheelDown, Thing::Strip(0)),
    ] {
        bench.input(Input::Mouse(Mouse { what, column: 4, row: 4 }));
        assert_eq!(bench.state.thing(), thing);
    }
}
