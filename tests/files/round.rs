//! Saving and opening: the same plan comes back, and what was not changed stays byte for byte.
//!
//! Properties are tried on generated plans and on texts made to be nearly right.

use oddment::files::{new_plan_text, read_plan, read_sheet, read_taste, read_wishes, write_plan};
use oddment::measure::{Colour, ColourNames, Length};
use oddment::plan::Plan;
use oddment::stash::{ChipId, SheetId};
use oddment::title::{Edit, Sticker, Stood, Strip};
use proptest::prelude::*;
use proptest::sample::select;

use super::any::any_plan;

const WHOLE: &str = include_str!("whole_plan.toml");

pub(super) fn own() -> ColourNames {
    let mut own = ColourNames::default();
    own.name("lamp glow", Colour { r: 0xf7, g: 0xdd, b: 0x9a });
    own
}

#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
pub(super) fn read(text: &str) -> Plan {
    let (plan, problems) = read_plan("pages/quay.toml", text, &own(), None);
    assert!(!problems.has_errors(), "{problems}\n{text}");
    plan.unwrap()
}

#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
pub(super) fn save(old: &str, plan: &Plan) -> String {
    write_plan(old, plan, &own()).unwrap()
}

#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
pub(super) fn chip(id: &str) -> Sticker {
    Sticker::Chip { id: ChipId::parse(id).unwrap(), stands_in: None }
}

/// The plan with each strip changed by `change`.
#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
fn with_strips(plan: &Plan, mut change: impl FnMut(usize, &mut Strip)) -> Plan {
    let mut strips = plan.strips().to_vec();
    for (place, strip) in strips.iter_mut().enumerate() {
        change(place, strip);
    }
    Plan::new(plan.name.clone(), plan.page.clone(), strips).unwrap()
}

pub(super) fn stand(strip: &mut Strip, slot: usize, stood: Option<Stood>) {
    let _ = Edit::Letter { slot, stood }.apply(strip);
}

/// The lines of `new` that are not in `old`, and those of `old` that are gone, in order.
pub(super) fn changed(old: &str, new: &str) -> (Vec<String>, Vec<String>) {
    let missing = |from: &str, within: &str| {
        let mut left: Vec<&str> = within.split_inclusive('\n').collect();
        from.split_inclusive('\n')
            .filter(|line| match left.iter().position(|other| other == line) {
                Some(place) => {
                    left.remove(place);
                    false
                }
                None => true,
            })
            .map(str::to_owned)
            .collect::<Vec<String>>()
    };
    (missing(old, new), missing(new, old))
}

#[test]
fn an_unchanged_plan_is_saved_byte_for_byte() {
    let crlf = WHOLE.replace('\n', "\r\n");
    let marked = format!("\u{feff}{WHOLE}");
    let odd =
        WHOLE.replace("\ngap = ", "\n  gap\t=   ").replace("wording = \"WO\\nL\"", "wording = '''WO\nL'''")
            + "# the end";
    for text in [WHOLE, &crlf, &marked, &odd, WHOLE.trim_end()] {
        assert_eq!(save(text, &read(text)), text);
    }
}

#[test]
fn a_nudge_changes_one_line_and_keeps_its_comment() {
    let text = WHOLE.replace("nudge = \"-0.5 mm\"", "nudge = \"-1/16 in\"   # by eye");
    let moved = with_strips(&read(&text), |place, strip| {
        let Some(mut stood) = strip.letter(0).cloned().filter(|_| place == 0) else { return };
        stood.nudge = Length::from_mm(2);
        stand(strip, 0, Some(stood));
    });
    let (gone, fresh) = changed(&text, &save(&text, &moved));
    assert_eq!(gone, ["nudge = \"-1/16 in\"   # by eye\n"]);
    assert_eq!(fresh, ["nudge = \"2 mm\"   # by eye\n"]);
}

#[test]
fn a_swap_changes_the_chip_and_nothing_else() {
    for text in [WHOLE.to_owned(), WHOLE.replace('\n', "\r\n"), format!("\u{feff}{}", WHOLE.trim_end())] {
        let swapped = with_strips(&read(&text), |place, strip| {
            let Some(stood) = strip.letter(0).filter(|_| place == 0) else { return };
            let other = stood.with(chip("kelp/W"));
            stand(strip, 0, Some(other));
        });
        let saved = save(&text, &swapped);
        let (gone, fresh) = changed(&text, &saved);
        let end = if text.contains('\r') { "\r\n" } else { "\n" };
        assert_eq!(
            gone,
            [format!("chip = \"harbour-blocks/M:coral\"{end}"), format!("as = \"turned\"{end}")]
        );
        assert_eq!(fresh, [format!("chip = \"kelp/W\"{end}")]);
        assert_eq!(read(&saved), swapped);
    }
}

#[test]
fn a_fresh_letter_stands_in_the_order_of_the_slots() {
    let text = "[[strip]]\nwording = 'ABC' # all of it\n\n# last\n[[strip.letter]]\nslot = 3\nchip = 'kelp/C'\n\n[[strip]]\nwording = 'D'\n";
    let filled = with_strips(&read(text), |_, strip| {
        let first = strip.wording().text().chars().next().unwrap_or('A');
        stand(strip, 0, Some(Stood::straight(chip(&format!("kelp/{first}")))));
    });
    let saved = save(text, &filled);
    insta::assert_snapshot!(saved, @r#"
    [[strip]]
    wording = 'ABC' # all of it

    [[strip.letter]]
    slot = 1
    for = "A"
    chip = "kelp/A"

    # last
    [[strip.letter]]
    slot = 3
    chip = 'kelp/C'

    [[strip]]
    wording = 'D'

    [[strip.letter]]
    slot = 1
    for = "D"
    chip = "kelp/D"
    "#);
    assert_eq!(read(&saved), filled);
}

#[test]
fn a_letter_taken_off_leaves_its_comment() {
    let bare = with_strips(&read(WHOLE), |_, strip| stand(strip, 0, None));
    let saved = save(WHOLE, &bare);
    assert_eq!(read(&saved), bare);
    assert!(saved.contains("# The first one.\n"), "{saved}");
    let all_off = with_strips(&read(WHOLE), |_, strip| (0..3).for_each(|slot| stand(strip, slot, None)));
    let saved = save(WHOLE, &all_off);
    assert_eq!(read(&saved), all_off);
    assert!(saved.contains("# The first one.") && saved.contains("# A button."), "{saved}");
}

#[test]
fn unknown_keys_and_tables_stay() {
    let text = "mood = 'calm' # mine\n[[strip]]\nwording = 'AB'\nmine = [1,  2]\n[strip.extra]\nx = 1\n[other]\ny = 2 # two\n";
    let filled = with_strips(&read(text), |_, strip| stand(strip, 1, Some(Stood::straight(chip("kelp/B")))));
    let saved = save(text, &filled);
    let (gone, _) = changed(text, &saved);
    assert_eq!(gone, Vec::<String>::new());
    assert_eq!(read(&saved), filled);
}

#[test]
fn a_wording_changed_by_hand_is_put_right_in_the_file() {
    let text = "[[strip]]\nwording='AP'\n[[strip.letter]]\nslot=1\nfor='A'\nchip='kelp/A'\n[[strip.letter]]\nslot=3\nfor='P'\nchip='kelp/P'\n";
    let plan = read(text);
    let saved = save(text, &plan);
    let (again, problems) = read_plan("pages/quay.toml", &saved, &own(), None);
    assert!(problems.is_empty(), "{problems}");
    assert_eq!(again, Some(plan));
}

#[test]
fn lists_in_one_line_are_opened_up_when_they_change() {
    let text = "strip = [{ wording = 'AB', letter = [{ slot = 2, chip = 'kelp/B' }] }]\nname = 'x'\n";
    let filled = with_strips(&read(text), |_, strip| stand(strip, 0, Some(Stood::straight(chip("kelp/A")))));
    assert_eq!(read(&save(text, &filled)), filled);
    let empty = "[[strip]]\nwording = 'AB'\nletter = []\n";
    let filled = with_strips(&read(empty), |_, strip| stand(strip, 0, Some(Stood::straight(chip("kelp/A")))));
    assert_eq!(read(&save(empty, &filled)), filled);
}

#[test]
#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
fn a_role_told_by_its_place_alone_is_written_out_when_the_place_changes() {
    let text = "[[strip]]\nwording = 'A'\n[[strip]]\nwording = 'B'\n";
    let two = read(text);
    let mut strips = two.strips().to_vec();
    strips.reverse();
    let turned = Plan::new(None, two.page, strips).unwrap();
    let saved = save(text, &turned);
    assert_eq!(
        saved,
        "[[strip]]\nwording = 'B'\nrole = \"subtitle\"\n[[strip]]\nwording = 'A'\nrole = \"title\"\n"
    );
    assert_eq!(read(&saved), turned);
}

#[test]
fn a_file_that_cannot_be_read_is_not_written_over() {
    let refused = write_plan("[[strip]]\nwording = 3\n", &read(WHOLE), &own());
    assert!(refused.is_err_and(|problems| problems.has_errors()));
}

#[test]
fn a_new_file_is_tidy() {
    assert_eq!(new_plan_text(&read(WHOLE), &own()), include_str!("new_plan.toml"));
}

#[test]
fn a_colour_whose_name_is_gone_is_spelled_out() {
    let text = new_plan_text(&read(WHOLE), &ColourNames::default());
    assert!(text.contains("colours = [\"#f7dd9a\", \"teal\"]"), "{text}");
}

/// A text that is nearly a file of ours: a good one, cut, with something odd put in.
fn nearly(good: &'static str) -> impl Strategy<Value = String> {
    let odd = select(vec![
        "",
        "=",
        "\"",
        "'",
        "[",
        "]",
        "[[strip]]\n",
        "[letters]\n",
        "{",
        "}",
        ".",
        "#",
        "\n",
        "\r",
        "\u{0}",
        "\u{feff}",
        "é",
        "slot = 1\n",
        "= nan",
        "'''",
        "1e999",
        "99999999999999999999",
        "a.b.c = 1\n",
        "\u{202e}",
        ", ",
        "[strip.letter.x]\n",
    ]);
    let cuts = prop::collection::vec((any::<prop::sample::Index>(), any::<prop::sample::Index>(), odd), 1..4);
    cuts.prop_map(move |cuts| {
        let mut text: Vec<char> = good.chars().collect();
        for (at, reach, odd) in cuts {
            let at = at.index(text.len() + 1);
            let end = (at + reach.index(12)).min(text.len());
            text.splice(at..end, odd.chars());
        }
        text.into_iter().collect()
    })
}

const SHEET: &str = "form = 'die-cut'\nheight = \"12 mm\"\ncolour = ['teal', '#fff']\nwas = ['x']\n[letters]\nA = 1\n\"&\" = { left = 2, width = 3 }\nS = [{ left = 2 }, { mark = \"a\", left = 1 }]\n";

fn read_all(text: &str) {
    if let Ok(id) = SheetId::new("kelp") {
        let (sheet, problems) = read_sheet("sheets/kelp.toml", &id, text, &own());
        assert_eq!(sheet.is_none(), problems.has_errors());
    }
    let (plan, problems) = read_plan("pages/quay.toml", text, &own(), None);
    assert_eq!(plan.is_none(), problems.has_errors());
    let told = problems.to_string();
    assert!(!told.contains(|c: char| c.is_control() && c != '\n'), "{told:?}");
    let _ = (read_taste("taste.toml", text), read_wishes("wishes.toml", text));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 128, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_bytes_give_a_result_or_an_error(bytes in prop::collection::vec(any::<u8>(), 0..200)) {
        read_all(&String::from_utf8_lossy(&bytes));
    }

    #[test]
    fn nearly_a_sheet_gives_a_result_or_an_error(text in nearly(SHEET)) {
        read_all(&text);
    }

    #[test]
    fn nearly_a_plan_gives_a_result_or_an_error(text in nearly(WHOLE)) {
        read_all(&text);
    }

    #[test]
    fn what_can_be_read_is_saved_unchanged_byte_for_byte(text in nearly(WHOLE)) {
        if let (Some(plan), problems) = read_plan("", &text, &own(), None)
            && !problems.warnings().any(|warning| warning.message.starts_with("the wording was changed"))
        {
            prop_assert_eq!(save(&text, &plan), text);
        }
    }

    #[test]
    fn a_new_file_gives_the_same_plan(plan in any_plan()) {
        let text = new_plan_text(&plan, &own());
        let (again, problems) = read_plan("", &text, &own(), None);
        prop_assert!(problems.is_empty(), "{}\n{}", problems, text);
        prop_assert_eq!(again, Some(plan.clone()));
        prop_assert_eq!(save(&text, &plan), text);
    }

    #[test]
    fn saving_over_another_plan_gives_the_same_plan(old in any_plan(), plan in any_plan(), crlf in any::<bool>()) {
        let mut text = new_plan_text(&old, &own());
        if crlf {
            text = text.replace('\n', "\r\n");
        }
        let saved = save(&text, &plan);
        prop_assert_eq!(read(&saved), plan, "\n{}", saved);
        prop_assert!(!crlf || !saved.replace("\r\n", "").contains('\n'));
    }

    #[test]
    fn saving_over_an_odd_text_gives_the_same_plan(text in nearly(WHOLE), plan in any_plan()) {
        if let Ok(saved) = write_plan(&text, &plan, &own()) {
            prop_assert_eq!(&read(&saved), &plan, "\n{}\n{}", text, saved);
        }
    }

    #[test]
    fn comments_outlive_every_change(plan in any_plan()) {
        let saved = save(WHOLE, &plan);
        prop_assert_eq!(&read(&saved), &plan, "\n{}", saved);
        // What stands within a strip goes with the strip.
        let within: &[&str] = if plan.strip_called("title").is_some() { &["# The first one.", "# A button."] } else { &[] };
        for comment in ["# The walk on the last evening.", "# Lowest first."].iter().chain(within) {
            prop_assert!(saved.contains(comment), "{} is gone\n{}", comment, saved);
        }
    }
}
