//! Valid fixtures: every form of a sheet, a plan, a taste and a list of wishes, and what each is read as.

use std::fmt::Write as _;

use oddment::checks::Taste;
use oddment::files::{read_plan, read_sheet, read_taste, read_wishes};
use oddment::letter::{Character, StandInKind};
use oddment::measure::{Angle, Colour, ColourNames, Length, Point};
use oddment::page::{Cover, Kind, Outline};
use oddment::plan::Plan;
use oddment::stash::{ChipId, Finish, Form, HeightOf, Letter, Sheet, SheetId};
use oddment::title::{CaseRule, FormRule, LineUp, Mix, Spacing, Sticker};

fn own() -> ColourNames {
    let mut own = ColourNames::default();
    own.name("lamp glow", Colour { r: 0xf7, g: 0xdd, b: 0x9a });
    own
}

#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
fn sheet(text: &str) -> Sheet {
    let (sheet, problems) = read_sheet("sheets/kelp.toml", &SheetId::new("kelp").unwrap(), text, &own());
    assert!(problems.is_empty(), "{problems}");
    sheet.unwrap()
}

#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
fn plan(text: &str) -> Plan {
    let (plan, problems) = read_plan("pages/quay.toml", text, &own(), None);
    assert!(problems.is_empty(), "{problems}");
    plan.unwrap()
}

fn letters<'s>(sheet: &'s Sheet, character: &str) -> Vec<&'s Letter> {
    sheet.letters.iter().filter(|letter| letter.character.as_str() == character).collect()
}

#[test]
fn a_tile_sheet_with_every_key() {
    let sheet = sheet(
        r##"
name = "Harbour blocks"
tag = "37"
form = "tile"
height = "12 mm"
colour = ["lamp glow", "white"]
tile_colour = "#f4efe6"
tile_width = "1/2 in"
plain_tile = true
finish = "gloss"
neutral = true
joined = false
thick = "0.2 mm"
note = "lid of the blue tin"
as_of = 12
was = ["old-slug"]

[letters]
"##,
    );
    assert_eq!(sheet.name(), "Harbour blocks");
    assert_eq!(
        (sheet.label.tag.as_deref(), sheet.label.note.as_deref()),
        (Some("37"), Some("lid of the blue tin"))
    );
    assert_eq!((sheet.make.form, sheet.make.finish), (Form::Tile, Finish::Gloss));
    assert!(sheet.make.plain_tile && sheet.make.neutral && !sheet.make.joined);
    assert_eq!(sheet.size.height, Length::from_mm(12));
    assert_eq!(sheet.size.tile_width, Some(Length::from_nm(12_700_000)));
    assert_eq!(sheet.size.thick, Some(Length::from_nm(200_000)));
    assert_eq!(sheet.paint.colours[0].name(), "lamp glow");
    assert_eq!(sheet.paint.tile.as_ref().map(|tint| tint.colour.hex()), Some("#f4efe6".into()));
    assert_eq!(sheet.record.as_of, Some(12));
    assert_eq!(sheet.record.was.len(), 1);
    assert!(sheet.letters.is_empty());
}

#[test]
fn a_die_cut_sheet_measured_by_its_small_letters() {
    let sheet = sheet(
        "form='die-cut'\nheight='18 mm'\nheight_of='small'\ncolour='Teal'\noutline='white'\nfinish='foam'\n[letters]\na=2",
    );
    assert_eq!((sheet.make.form, sheet.size.height_of), (Form::DieCut, HeightOf::Small));
    assert_eq!(sheet.paint.outline.as_ref().map(|tint| tint.colour), Some(Colour::WHITE));
    assert_eq!(sheet.name(), "Teal die-cut 18 mm");
    assert!(sheet.capital_height() > sheet.size.height);
}

#[test]
fn every_form_of_a_letter() {
    let sheet = sheet(
        r##"
form = "tile"
height = 12
colour = "teal"
[letters]
Z = 0
A = 2
"&" = 3
"É" = 1
"#" = 4
"♥" = 5
M = { left = 1, width = "14 mm", height = "13 mm" }
S = [{ left = 2 }, { mark = "coral", left = 1, colour = "coral" }, { mark = "b-2", left = 0, colour = ["red", "#fff"] }]
T = [3]
[letters.W]
left = 7
"##,
    );
    let order: Vec<&str> = sheet.letters.iter().map(|letter| letter.character.as_str()).collect();
    assert_eq!(order, ["Z", "A", "&", "É", "#", "♥", "M", "S", "S", "S", "T", "W"], "the file's order");
    assert_eq!(letters(&sheet, "Z")[0].left, 0, "zero is kept");
    let wide = letters(&sheet, "M")[0];
    assert_eq!((wide.width, wide.height), (Some(Length::from_mm(14)), Some(Length::from_mm(13))));
    let marks: Vec<_> =
        letters(&sheet, "S").iter().map(|l| l.mark.as_ref().map(|m| m.as_str().to_owned())).collect();
    assert_eq!(marks, [None, Some("coral".into()), Some("b-2".into())]);
    assert_eq!(letters(&sheet, "S")[2].colours.len(), 2);
    assert_eq!((letters(&sheet, "T")[0].left, letters(&sheet, "W")[0].left), (3, 7));
}

#[test]
fn keys_are_one_spelling_of_each_letter() {
    let sheet = sheet(
        "form='tile'\nheight=12\ncolour='teal'\n[letters]\n\"e\\u0301\"=1\n\"’\"=2\n\"—\"=3\n\"♥\u{fe0f}\"=4",
    );
    let keys: Vec<&str> = sheet.letters.iter().map(|letter| letter.character.as_str()).collect();
    assert_eq!(keys, ["é", "'", "-", "♥"]);
}

#[test]
fn every_spelling_of_a_length() {
    for (unit, height) in [
        ("", "\"1.27 cm\""),
        ("", "\"0.5 in\""),
        ("", "\"1/2 in\""),
        ("", "\"½\\\"\""),
        ("", "12.7"),
        ("", "\"12.7\""),
        ("unit = \"in\"\n", "0.5"),
        ("unit = \"in\"\n", "\"1/2\""),
        ("unit = \"in\"\n", "\"12.7 mm\""),
    ] {
        let read = sheet(&format!("{unit}form = 'tile'\nheight = {height}\ncolour = 'teal'\n[letters]\n"));
        assert_eq!(read.size.height, Length::from_nm(12_700_000), "{unit}{height}");
    }
}

#[test]
fn a_plan_needs_but_a_wording() {
    let plan = plan("[[strip]]\nwording = \"LANTERN WALK\"");
    assert_eq!(plan, Plan::titled(oddment::title::Wording::new("LANTERN WALK").unwrap_or_default()));
}

#[test]
fn a_plan_with_every_key() {
    let plan = plan(include_str!("whole_plan.toml"));
    assert_eq!(plan.name.as_deref(), Some("Lantern walk"));
    assert_eq!(plan.page.size.map(|size| size.width), Some(Length::from_nm(304_800_000)));
    assert_eq!((plan.page.margin, plan.page.colours.len()), (Length::from_mm(8), 2));
    let photo = &plan.page.elements[0];
    assert_eq!((photo.kind, photo.original, photo.lie.outline), (Kind::Photo, true, Outline::Round));
    assert_eq!((photo.cover(), photo.bed), (Cover::Edge, Some(true)));
    assert_eq!(photo.lie.turn, Angle::from_thousandths(-3_000));
    assert_eq!(photo.lie.at, Point { x: Length::from_mm(40), y: Length::from_mm(110) });
    let title = &plan.strips()[0];
    assert_eq!(title.rules.tall, Some((Length::from_mm(18), Length::from_mm(40))));
    assert_eq!(
        (title.rules.case, title.rules.forms, title.rules.mix),
        (CaseRule::Upper, FormRule::Tile, Mix::Words)
    );
    assert_eq!((title.setting.spacing, title.setting.line_up), (Spacing::Optical, LineUp::Middle));
    assert_eq!(title.setting.gap, Length::from_nm(1_500_000));
    assert!(title.accepted.contains("lead") && title.stuck == Some(17));
    assert_eq!(title.wording().lines().count(), 2);
    let turned = title.letter(0).map(|stood| (stood.nudge, stood.tilt, stood.pinned));
    assert_eq!(turned, Some((Length::from_nm(-500_000), Angle::from_thousandths(2_500), true)));
    let wanted = Sticker::Chip { id: chip("harbour-blocks/M:coral"), stands_in: Some(StandInKind::Turned) };
    assert_eq!(title.letter(0).map(|stood| &stood.sticker), Some(&wanted));
    let Some(Sticker::Hand(button)) = title.letter(1).map(|stood| &stood.sticker) else {
        assert_eq!(title.letter(1), None, "a button should stand there");
        return;
    };
    assert_eq!(
        (button.label.as_str(), button.width, button.height),
        ("button", Length::from_mm(18), Some(Length::from_mm(17)))
    );
    assert_eq!(plan.strips()[1].rules.mix, Mix::Plain, "a subtitle is plain");
}

#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
fn chip(id: &str) -> ChipId {
    ChipId::parse(id).unwrap()
}

#[test]
fn strips_may_stand_in_one_line() {
    let plan = plan("strip = [{ wording = 'AB', letter = [{ slot = 2, chip = 'kelp/B' }] }]");
    assert_eq!(plan.strips()[0].chips().collect::<Vec<_>>(), [&chip("kelp/B")]);
}

#[test]
fn a_wording_changed_by_hand_keeps_the_letters_that_serve() {
    let mut text = String::from("[[strip]]\nwording='LAPS'\n");
    for (c, slot) in ["L", "A", "M", "P"].iter().zip(1..) {
        let _ = write!(text, "[[strip.letter]]\nslot={slot}\nfor='{c}'\nchip='kelp/{c}'\n");
    }
    let (plan, problems) = read_plan("pages/quay.toml", &text, &own(), None);
    assert_eq!((problems.errors().count(), problems.warnings().count()), (0, 2));
    let stands = |slot| {
        plan.as_ref().and_then(|plan| plan.strips()[0].letter(slot)?.chip().map(|id| id.character.clone()))
    };
    let wanted = ["L", "A", "P"].map(|c| Character::new(c).ok());
    assert_eq!([stands(0), stands(1), stands(2)], wanted);
    assert_eq!(stands(3), None);
}

#[test]
fn taste_is_read_in_its_measures() {
    let (own, taste, problems) = read_taste(
        "taste.toml",
        "[colours]\nkraft = '#c8a27a'\nsea = 'teal'\n[height]\nwithin = '2 mm'\nalike = 1.2\n[monotony]\nwant = 4\n[ends]\npoints = 3",
    );
    assert!(problems.is_empty(), "{problems}");
    assert_eq!(own.iter().map(|(name, _)| name).collect::<Vec<_>>(), ["kraft", "sea"]);
    let mut wanted = Taste::default();
    for (key, value) in
        [("height.within", 2_000_000), ("height.alike", 120), ("monotony.want", 4), ("ends.points", 30)]
    {
        let place = oddment::checks::THRESHOLDS.iter().position(|row| row.key == key);
        assert!(place.is_some_and(|place| wanted.set(place, value).is_ok()), "{key}");
    }
    assert_eq!(taste, wanted);
}

#[test]
fn wishes_are_read() {
    let (wishes, problems) =
        read_wishes("wishes.toml", "[[wish]]\nwording='HARBOUR LIGHTS'\nnote='x'\n[[wish]]\nwording='QUAY'");
    assert!(problems.is_empty(), "{problems}");
    let read: Vec<_> = wishes.iter().map(|wish| (wish.wording.text(), wish.note.as_deref())).collect();
    assert_eq!(read, [("HARBOUR LIGHTS", Some("x")), ("QUAY", None)]);
}
