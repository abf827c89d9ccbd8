//! Any stash at all goes out as a table and comes back whole, into an empty stash and into itself.
//!
//! Must not know which columns a table has.

use std::collections::BTreeMap;

use oddment::files::{Loaded, csv_text, read_csv};
use oddment::letter::Character;
use oddment::measure::{Colour, ColourNames, Length, Tint};
use oddment::stash::{
    Finish, Form, HeightOf, Label, Letter, Make, Mark, Paint, Record, Sheet, SheetId, Size, Stash,
};
use proptest::prelude::*;
use proptest::sample::select;

use super::csv::seen;

/// Own names, one of them with what stands between two colours in a table.
fn own() -> ColourNames {
    let mut own = ColourNames::default();
    own.name("lamp glow", Colour { r: 0xf7, g: 0xdd, b: 0x9a });
    own.name("salt + pepper", Colour { r: 0x80, g: 0x82, b: 0x84 });
    own.name("=SUM(A1), \"loud\"", Colour { r: 0xff, g: 0x10, b: 0x84 });
    own.name("♥", Colour { r: 0xc8, g: 0x10, b: 0x2e });
    own
}

/// Few colours, so that letters often share one.
fn any_colours() -> impl Strategy<Value = Vec<Tint>> {
    let names = vec!["teal", "Coral", "lamp glow", "salt + pepper", "=SUM(A1), \"loud\"", "♥", "#102030"];
    let one = select(names).prop_filter_map("a colour", |name| own().read(name).ok());
    prop::collection::vec(one, 1..3)
}

fn any_letters() -> impl Strategy<Value = Vec<Letter>> {
    let character = select(vec!["A", "e", "é", "\"", ",", "=", "+", "-", "@", "'", "#", "7", "\u{1f600}"])
        .prop_filter_map("a character", |text| Character::new(text).ok());
    let mark = prop::option::of(select(vec!["coral", "teal", "2", "wide", "lamp-glow", "102030"]))
        .prop_map(|mark| mark.and_then(|mark| Mark::new(mark).ok()));
    let own = prop_oneof![2 => Just(Vec::new()), 3 => any_colours()];
    let all = prop::collection::vec((character, mark, 0..1000_u16, own), 1..12);
    all.prop_map(|all| {
        let each = all.into_iter().map(|(character, mark, left, colours)| {
            ((character.clone(), mark.clone()), Letter { colours, ..Letter::plain(character, mark, left) })
        });
        each.collect::<BTreeMap<_, _>>().into_values().collect()
    })
}

fn any_sheet() -> impl Strategy<Value = Sheet> {
    let size = (1_i64..=5_000_000_000, select(HeightOf::ALL)).prop_map(|(nm, height_of)| Size {
        height: Length::from_nm(nm),
        height_of,
        tile_width: None,
        thick: None,
    });
    let id = "[a-z0-9-]{1,6}".prop_filter_map("an id", |id| SheetId::new(&id).ok());
    (id, select(Form::ALL), size, any_colours(), any_letters()).prop_map(
        |(id, form, size, colours, letters)| Sheet {
            id,
            label: Label::default(),
            make: Make { form, finish: Finish::Matte, neutral: false, joined: false, plain_tile: false },
            size,
            paint: Paint { colours, outline: None, tile: None },
            letters,
            record: Record::default(),
        },
    )
}

fn any_stash() -> impl Strategy<Value = Stash> {
    prop::collection::vec(any_sheet(), 0..5).prop_map(|sheets| {
        let by_id: BTreeMap<SheetId, Sheet> =
            sheets.into_iter().map(|sheet| (sheet.id.clone(), sheet)).collect();
        Stash::new(by_id.into_values().collect())
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_stash_goes_out_and_comes_back(stash in any_stash(), bom in any::<bool>()) {
        let table = csv_text(stash.sheets(), &own());
        let text = if bom { format!("\u{feff}{table}") } else { table.clone() };
        let empty = Loaded { colours: own(), ..Loaded::default() };
        let intake = read_csv("any.csv", &text, &empty);
        prop_assert!(intake.is_ok(), "{:?}\n{}", intake, table);
        let new = Stash::new(intake.map(|intake| intake.new).unwrap_or_default());
        prop_assert_eq!(seen(&new), seen(&stash), "{}", table);
        prop_assert_eq!(csv_text(new.sheets(), &own()), table);
    }

    #[test]
    fn any_stash_counts_itself(stash in any_stash()) {
        let table = csv_text(stash.sheets(), &own());
        let itself = Loaded { colours: own(), stash, ..Loaded::default() };
        let intake = read_csv("any.csv", &table, &itself);
        prop_assert!(intake.is_ok(), "{:?}\n{}", intake, table);
        let Ok(intake) = intake else { return Ok(()) };
        prop_assert!(intake.new.is_empty());
        let left = itself.stash.chips().map(|ix| itself.stash.chip(ix)).map(|chip| (chip.id(), i32::from(chip.letter.left)));
        prop_assert_eq!(intake.counted.chips, left.collect::<BTreeMap<_, _>>(), "{}", table);
    }

    #[test]
    fn any_text_is_read_or_told(text in "(sheet,form,height,colour,character,left\r?\n)?([a-z,;\"\r\n +=\u{0}é0-9]|tile|12 mm|tan){0,60}") {
        let lines = text.split(['\n', '\r']).count();
        if let Err(faults) = read_csv("any.csv", &text, &Loaded::default()) {
            prop_assert!(!faults.all().is_empty());
            prop_assert!(faults.all().iter().all(|fault| (1..=lines).contains(&fault.line)));
            prop_assert!(!faults.to_string().replace('\n', " ").contains(char::is_control));
        }
    }
}
