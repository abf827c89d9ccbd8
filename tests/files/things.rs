//! Saving a page on which things were put, taken away, moved and restacked: each keeps the comments that are its own.
//!
//! Must not know who changed the page.

use oddment::measure::{Angle, Colour, Length, Point, Tint};
use oddment::page::{Element, Kind, PAGE_SIZES};
use oddment::plan::Plan;
use oddment::title::{Edit, Place};

use super::round::{changed, read, save};

/// A page on which each thing has a comment over it, and one beside a value.
const COMMENTED: &str = "size = 'A5' # small\n\n# the water\n[[element]]\nkind = 'paper'\nat = [0, 90] # low\nsize = [148, 60]\n\n\
    # the only print\n[[element]]\nkind = 'photo'\nname = 'quay'\noriginal = true\nat = [20, 20]\nsize = [90, 60]\n\n\
    # the date\n[[element]]\nkind = 'label'\nat = [10, 10]\nsize = [40, 12]\n\n# the title\n[[strip]]\nwording = 'A'\n";

/// The kinds of things in a text, each after the comment over it.
fn kinds_after_comments(text: &str) -> String {
    let told =
        text.lines().filter(|line| line.starts_with('#') || line.starts_with("kind") || *line == "[[strip]]");
    told.map(|line| line.trim_start_matches("kind = ").trim_matches(['\'', '"']))
        .collect::<Vec<_>>()
        .join(" ")
}

fn with_things(text: &str, change: impl FnOnce(&mut Vec<Element>)) -> (String, Plan) {
    let mut plan = read(text);
    change(&mut plan.page.elements);
    let saved = save(text, &plan);
    assert_eq!(read(&saved), plan, "{saved}");
    assert_eq!(save(&saved, &plan), saved, "saved again");
    (saved, plan)
}

#[test]
fn a_thing_put_under_another_leaves_each_comment_with_its_own() {
    let (saved, _) = with_things(COMMENTED, |things| {
        let mut mat = things[1].clone();
        (mat.kind, mat.name, mat.original) = (Kind::Mat, None, false);
        things.insert(1, mat);
    });
    assert_eq!(
        kinds_after_comments(&saved),
        "# the water paper mat # the only print photo # the date label # the title [[strip]]"
    );
    assert!(saved.contains("at = [0, 90] # low\n") && saved.contains("size = 'A5' # small\n"), "{saved}");
}

#[test]
fn a_thing_taken_away_leaves_its_comment_to_the_next() {
    let (saved, _) = with_things(COMMENTED, |things| drop(things.remove(1)));
    assert_eq!(
        kinds_after_comments(&saved),
        "# the water paper # the only print # the date label # the title [[strip]]"
    );
    let (saved, _) = with_things(COMMENTED, |things| drop(things.pop()));
    assert_eq!(
        kinds_after_comments(&saved),
        "# the water paper # the only print photo # the title [[strip]] # the date"
    );
    let (saved, _) = with_things(COMMENTED, Vec::clear);
    assert_eq!(kinds_after_comments(&saved), "# the title [[strip]] # the water # the only print # the date");
}

#[test]
fn things_restacked_take_their_comments_along() {
    let (saved, _) = with_things(COMMENTED, |things| things.swap(0, 1));
    assert_eq!(
        kinds_after_comments(&saved),
        "# the only print photo # the water paper # the date label # the title [[strip]]"
    );
    let (saved, _) = with_things(COMMENTED, |things| things.reverse());
    assert_eq!(
        kinds_after_comments(&saved),
        "# the date label # the only print photo # the water paper # the title [[strip]]"
    );
}

#[test]
fn a_thing_moved_resized_or_recoloured_keeps_all_else() {
    let (saved, _) = with_things(COMMENTED, |things| {
        things[0].lie.at.x = Length::from_mm(5);
        things[1].lie.size.width = Length::from_mm(91);
        things[2].colours = vec![Tint::plain(Colour { r: 1, g: 2, b: 3 })];
    });
    let (gone, fresh) = changed(COMMENTED, &saved);
    assert_eq!(gone, ["at = [0, 90] # low\n", "size = [90, 60]\n"]);
    assert_eq!(
        fresh,
        [
            "at = [\"5 mm\", \"90 mm\"] # low\n",
            "size = [\"91 mm\", \"60 mm\"]\n",
            "colours = [\"#010203\"]\n"
        ]
    );
}

#[test]
fn a_page_and_a_place_are_put_into_a_plan_that_had_none() {
    let text = "# mine\n[[strip]]\nwording = 'A' # all\n";
    let mut plan = read(text);
    plan.page.size = Some(PAGE_SIZES[4].1);
    plan.page.margin = Length::from_mm(8);
    let at = Some(Point { x: Length::from_mm(40), y: Length::from_mm(110) });
    plan.edit_strip(0, Edit::Place(Place { at, turn: Angle::from_thousandths(-500) }));
    let saved = save(text, &plan);
    assert_eq!(read(&saved), plan, "{saved}");
    assert_eq!(
        saved,
        "size = \"A4\"\nmargin = \"8 mm\"\n# mine\n[[strip]]\nwording = 'A' # all\nat = [\"40 mm\", \"110 mm\"]\nturn = -0.5\n"
    );
}
