//! What printed orders read like: whole ones, and what must hold of every one.
//!
//! Must not know how the order was derived.
#![expect(clippy::unwrap_used, reason = "a test may fail loudly")]

use unicode_width::UnicodeWidthStr;

use super::{Head, order_text};
use crate::measure::{Angle, Length, Point, Unit};
use crate::order::{Order, trial};
use crate::page::Page;
use crate::plan::Plan;
use crate::stash::{ChipId, Form, Stash};
use crate::title::{LineUp, Role, Sticker, Stood, Strip};

fn print(plan: &Plan, stash: &Stash, unit: Unit) -> String {
    let head = Head { date: Some("2031-11-05".into()), file: Some("lantern-walk".into()) };
    order_text(&Order::of(plan, stash), &head, unit)
}

fn told(plan: &Plan) -> String {
    print(plan, &trial::stash(), Unit::Millimetre)
}

/// A stood letter of the stash as itself.
fn letter(chip: &str) -> Stood {
    Stood::straight(Sticker::Chip { id: ChipId::parse(chip).unwrap(), stands_in: None })
}

/// Two lines with a button, a raised, a tilted and a missing letter, one whose chip is gone.
fn two_lines() -> Strip {
    let mut strip = trial::strip(Role::title(), "SON\nLENT", &["blocks/S:coral", "-", "kelp/N", "kelp/L"]);
    trial::stand(&mut strip, 1, trial::thing("brass button", 11));
    trial::stand(&mut strip, 2, Stood { raise: Length::from_mm(2), ..letter("kelp/N") });
    trial::stand(&mut strip, 3, Stood { tilt: Angle::from_thousandths(-3_500), ..letter("kelp/L") });
    trial::stand(&mut strip, 6, letter("kelp/T"));
    strip
}

#[test]
fn a_short_title_without_a_page() {
    insta::assert_snapshot!(told(&trial::plan("LANE", &["blocks/L", "blocks/A", "kelp/N", "blocks/E"])));
}

#[test]
fn a_title_with_a_subtitle_turned_and_trimmed_letters_on_a_photo() {
    let plan = trial::on_photo("AOP", &["kelp/V", "kelp/Q", "kelp/R"], true, 100);
    let subtitle = trial::place(trial::strip(Role::subtitle(), "ng", &["blocks/N", "kelp/g"]), 4_000);
    let strips = vec![plan.strips()[0].clone(), subtitle];
    insta::assert_snapshot!(told(&Plan::new(plan.name, plan.page, strips).unwrap()));
}

#[test]
fn two_lines_with_a_button_a_tilt_and_missing_letters() {
    let plan = Plan::new(None, Page::default(), vec![two_lines()]).unwrap();
    insta::assert_snapshot!(print(&plan, &trial::stash(), Unit::Inch));
}

#[test]
fn what_must_not_be_stuck_down_as_it_lies_is_told_where_it_is_lined_up_and_stuck_down() {
    let mut strip = trial::place(trial::strip(Role::title(), "LA", &["blocks/L", "blocks/A"]), 0);
    strip.place.at = Some(Point { x: Length::from_mm(188), y: Length::from_mm(109) });
    let plan = Plan::new(None, trial::page(), vec![strip]).unwrap();
    let text = told(&plan).split_whitespace().collect::<Vec<_>>().join(" ");
    for words in [
        "NOT TO BE STUCK DOWN AS IT LIES * Letter 2 of the title reaches beyond the page.",
        "the title: NOT there, see the top. The plan has it so: The feet of its first letter (L)",
        "1. Find the title another place first: see the top.",
    ] {
        assert!(text.contains(words), "{words}: {text}");
    }
}

#[test]
fn a_stuck_strip_is_told_and_needs_nothing() {
    let mut strip = trial::strip(Role::title(), "O", &["kelp/Q"]);
    strip.stuck = Some(17);
    let text = told(&Plan::new(None, Page::default(), vec![strip]).unwrap());
    assert!(text.contains("stuck down already (ledger entry 17)"), "{text}");
    assert!(text.contains("every strip is on the page already"), "{text}");
    assert!(!text.contains("fresh blade"), "{text}");
    assert!(!text.contains("NOT COMPLETE"), "{text}");
}

#[test]
fn a_letter_used_twice_is_told_at_the_top() {
    let text = told(&trial::plan("NN", &["kelp/N", "kelp/N"]));
    let top = text.split("1. Have at hand").next().unwrap();
    assert!(top.contains("short: N of 4: Kelp is used 2 times and 1 left"), "{text}");
}

#[test]
fn other_ways_of_standing_are_put_in_words() {
    let text = told(&trial::plan("N'Os", &["kelp/Z", "kelp/,", "plain-b/O", "blocks/S"]));
    for words in ["Z laid on its side for N", ", set so that it reads as '", "S in the other case for s"] {
        assert!(text.contains(words), "{words}: {text}");
    }
}

#[test]
fn what_a_ruler_in_inches_cannot_show_is_told_in_millimetres() {
    let mut strip = trial::strip(Role::title(), "N", &["-"]);
    let raise = Length::from_nm(500_000);
    trial::stand(&mut strip, 0, Stood { raise, ..letter("kelp/N") });
    let plan = Plan::new(None, Page::default(), vec![strip]).unwrap();
    assert!(print(&plan, &trial::stash(), Unit::Inch).contains("raised 0.5 mm"));
}

#[test]
fn middles_and_knives_bring_their_notes() {
    let mut strip = trial::strip(Role::title(), "OLA", &["kelp/Q", "kelp/L", "blocks/A"]);
    strip.setting.line_up = LineUp::Middle;
    let text = told(&Plan::new(None, Page::default(), vec![strip]).unwrap()).replace('\n', " ");
    assert!(text.contains("line up by their middles"), "{text}");
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(text.contains("cut away from the fingers"), "{text}");
}

#[test]
fn nothing_is_wider_than_80_columns_nor_raw() {
    let name = "A name\u{1b}[2J of\na sheet 提灯の夜の港の歩きの長い長い名前と".to_owned() + &"x".repeat(120);
    let odd = trial::sheet("odd", Some("№\t9"), Some(&name), Form::Tile, "灯1 É1");
    let stash = Stash::new(vec![odd]);
    let mut strip = trial::strip(Role::title(), "灯É\n灯", &["odd/灯", "odd/É", "-"]);
    trial::stand(&mut strip, 2, trial::thing(&name, 4_000));
    strip.place = trial::place(strip.clone(), 45_000).place;
    let plan = Plan::new(Some(name), trial::page(), vec![strip]).unwrap();
    for unit in [Unit::Millimetre, Unit::Inch] {
        let text = print(&plan, &stash, unit);
        for line in text.lines() {
            assert!(line.width() <= 80, "{}: {line}", line.width());
            assert!(!line.contains(char::is_control), "{line:?}");
        }
        assert_eq!(text, print(&plan, &stash, unit));
    }
}

#[test]
fn a_letter_that_came_off_is_told_at_the_top_and_stood_among_the_others() {
    let mut strip = trial::strip(Role::title(), "LAE", &["blocks/L", "-", "blocks/E"]);
    strip.stuck = Some(17);
    let text = told(&Plan::new(None, Page::default(), vec![strip.clone()]).unwrap());
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    for words in
        ["missing from the title: A (letter 2)", "stuck down but for letter 2", "Stand letter 2 of the title"]
    {
        assert!(text.contains(words), "{words}: {text}");
    }
    assert!(!text.contains("every strip is on the page already"), "{text}");
    trial::stand(&mut strip, 1, Stood { loose: true, ..letter("blocks/A") });
    let text = told(&Plan::new(None, Page::default(), vec![strip]).unwrap());
    assert!(text.contains("but for letter 2") && !text.contains("NOT COMPLETE"), "{text}");
}
