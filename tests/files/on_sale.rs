//! Sheets seen in a shop: what each is read as, by which id it is known, and what is left out.
//!
//! Must not know how a sheet is read.

#![expect(clippy::unwrap_used, reason = "a test may fail loudly")]

use std::fmt::Write as _;
use std::fs;

use oddment::files::{StashFolder, read_on_sale, read_sheet, unpack_sample};
use oddment::measure::ColourNames;
use oddment::stash::{Sheet, SheetId};
use tempfile::TempDir;

/// All that is on sale; nothing is wrong with it.
fn read(text: &str) -> Vec<Sheet> {
    let (sheets, problems) = read_on_sale("on-sale.toml", text, &ColourNames::default());
    assert!(problems.is_empty(), "{problems}");
    sheets
}

fn ids(sheets: &[Sheet]) -> Vec<&str> {
    sheets.iter().map(|sheet| sheet.id.as_str()).collect()
}

const SHEET: &str = "form = 'die-cut'\nheight = '23 mm'\nheight_of = 'tall'\ncolour = ['teal', 'white']\noutline = 'white'\n\
    finish = 'foil'\nthick = '1/16 in'\nnote = 'by the till'\n";

#[test]
fn each_is_what_the_same_lines_in_a_file_of_their_own_are() {
    let letters = "A = 4\n\"&\" = 2\nM = { left = 1, width = '14 mm' }\nS = [{ left = 2 }, { mark = 'red', left = 1 }]\n";
    let (alone, problems) = read_sheet(
        "",
        &SheetId::new("mooring-rings").unwrap(),
        &format!("name = 'Mooring rings'\n{SHEET}[letters]\n{letters}"),
        &ColourNames::default(),
    );
    assert!(problems.is_empty(), "{problems}");
    let text = format!("[[sheet]]\nname = 'Mooring rings'\n{SHEET}[sheet.letters]\n{letters}");
    assert_eq!(read(&text), [alone.unwrap()]);
}

#[test]
fn what_one_sheet_measures_in_is_not_what_the_next_does() {
    let sheets = read(
        "[[sheet]]\nunit = 'in'\nform = 'tile'\nheight = 1\ncolour = 'teal'\nletters = { A = 1 }\n[[sheet]]\nform = 'tile'\nheight = \
         12\ncolour = 'teal'\nletters = { A = 1 }\n",
    );
    let heights: Vec<String> = sheets.iter().map(|sheet| sheet.size.height.number()).collect();
    assert_eq!(heights, ["25.4 mm", "12 mm"]);
}

#[test]
fn ids_are_made_from_names_and_none_is_given_twice() {
    let mut text = String::new();
    for name in [
        "name = 'Mooring rings'",
        "",
        "name = 'Mooring rings!'",
        "name = 'Mooring rings 2'",
        "",
        "name = '港'",
        "name = '海'",
    ] {
        let _ = write!(
            text,
            "[[sheet]]\n{name}\nform = 'tile'\nheight = '12 mm'\ncolour = 'teal'\n[sheet.letters]\nA = 1\n"
        );
    }
    assert_eq!(
        ids(&read(&text)),
        [
            "mooring-rings",
            "teal-tile-12-mm",
            "mooring-rings-2",
            "mooring-rings-2-2",
            "teal-tile-12-mm-2",
            "sheet",
            "sheet-2"
        ]
    );
}

#[test]
fn a_sheet_with_an_error_is_left_out_and_the_others_are_not() {
    let good = "[[sheet]]\nname = 'NAME'\nform = 'tile'\nheight = '12 mm'\ncolour = 'teal'\n[sheet.letters]\nA = 1\n";
    let mut text = good.replace("NAME", "First") + &good.replace("NAME", "Bad").replace("A = 1", "A = 'x'");
    text += &good.replace("NAME", "Odd").replace("A = 1", "A = { left = 1, sort = 2 }");
    let (sheets, problems) = read_on_sale("on-sale.toml", &text, &ColourNames::default());
    assert_eq!(ids(&sheets), ["first", "odd"]);
    assert_eq!(
        problems.to_string(),
        "on-sale.toml:14:5: sheet.letters.A: 'x' is no count that serves; write a whole number from 0 to 999\n\
         on-sale.toml:21:17: warning: sheet.letters.A.sort: this key is not known and is left alone"
    );
    // Also where there is more wrong than is told.
    let mut many = String::new();
    for number in 0..200 {
        let _ = writeln!(many, "x{number} = 1");
    }
    let text =
        good.replace("A = 1\n", &many) + &good.replace("A = 1", "A = 1000") + &good.replace("NAME", "Last");
    let (sheets, problems) = read_on_sale("on-sale.toml", &text, &ColourNames::default());
    assert_eq!((ids(&sheets), problems.len()), (vec!["last"], 101));
}

#[test]
fn a_folder_tells_what_is_on_sale_when_asked() {
    let temp = TempDir::new().unwrap();
    let folder = StashFolder::at(temp.path().join("stash"));
    let none = ColourNames::default();
    assert_eq!(folder.on_sale(&none).0, []);
    unpack_sample(folder.path()).unwrap();
    let colours = folder.load().unwrap().colours;
    let (sheets, problems) = folder.on_sale(&colours);
    assert!(problems.is_empty(), "{problems}");
    assert_eq!(ids(&sheets), ["mooring-rings", "ticket-stubs"]);
    assert_eq!(sheets[0].letters.iter().map(|letter| letter.left).sum::<u16>(), 64);
    // Own names for colours come from taste.toml.
    let told: Vec<String> = folder.on_sale(&none).1.errors().map(ToString::to_string).collect();
    assert_eq!(told.len(), 2, "{told:?}");
    fs::write(folder.path().join("on-sale.toml"), b"# caf\xe9\n").unwrap();
    let told = folder.on_sale(&colours).1.to_string();
    assert_eq!(told, "on-sale.toml:1:6: here is a byte that is no UTF-8; save the file as UTF-8");
}
