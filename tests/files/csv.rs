//! Tables (CSV): out and in without loss, read by others, and every mistake told by line and column.
//!
//! Must not know how a table is parted into cells.

#![expect(clippy::unwrap_used, reason = "a test may fail loudly")]

use std::collections::BTreeMap;
use std::fs;

use ::csv::ReaderBuilder;
use oddment::files::{Access, Intake, Loaded, StashFolder, csv_text, read_csv, unpack_sample};
use oddment::stash::{Form, Kind, Sheet, Stash};
use tempfile::TempDir;

const HEAD: &str = "sheet,form,height,colour,character,left\r\n";

const KELP: &str = "name = 'Kelp caps'\nform = 'die-cut'\nheight = '20 mm'\ncolour = 'teal'\n[letters]\nA = 3\nS = [{ left = 2 }, \
    { mark = 'coral', left = 1, colour = 'coral' }]\nZ = { left = 1, colour = 'red' }\n";
const REED: &str = "name = 'Twins'\nform = 'tile'\nheight = '12 mm'\ncolour = 'tan'\nwas = ['rush']\n[letters]\n\
    W = [{ mark = 'wide', left = 1 }, { mark = 'thin', left = 2 }]\n";
const SMALL: &str = "name = 'Twins'\nform = 'die-cut'\nheight = '8 mm'\nheight_of = 'small'\ncolour = 'tan'\n[letters]\na = 1\n";

/// A stash of three sheets that can be used and one that cannot.
fn shore() -> (TempDir, StashFolder) {
    let folder = TempDir::new().unwrap();
    fs::create_dir(folder.path().join("sheets")).unwrap();
    for (name, text) in [("kelp", KELP), ("reed", REED), ("small", SMALL), ("bad", "form = 'tile'\n")] {
        fs::write(folder.path().join(format!("sheets/{name}.toml")), text).unwrap();
    }
    let stash = StashFolder::at(folder.path());
    (folder, stash)
}

fn read(text: &str) -> Result<Intake, String> {
    let (_folder, stash) = shore();
    read_csv("shore.csv", text, &stash.load().unwrap()).map_err(|faults| faults.to_string())
}

/// The chips that an intake counts on sheets that are there.
fn counted(intake: &Intake) -> Vec<String> {
    intake.counted.chips.iter().map(|(chip, left)| format!("{chip} {left}")).collect()
}

/// The letters of a sheet as a file has them: character, mark, count, own colours.
fn letters(sheet: &Sheet) -> Vec<String> {
    let each = sheet.letters.iter().map(|letter| {
        let mark = letter.mark.as_ref().map_or_else(String::new, |mark| format!(":{}", mark.as_str()));
        let own: Vec<_> = letter.colours.iter().map(|tint| tint.name().into_owned()).collect();
        format!("{}{mark} {} {}", letter.character, letter.left, own.join("+")).trim_end().to_owned()
    });
    each.collect()
}

/// All that a table tells of each chip of a stash.
pub(super) fn seen(stash: &Stash) -> BTreeMap<String, (u16, Form, String, String)> {
    let each = stash.chips().map(|ix| {
        let chip = stash.chip(ix);
        let colours: Vec<_> = chip.colours().iter().map(|tint| tint.colour.hex()).collect();
        let measured =
            if chip.sheet.make.form == Form::Tile { "" } else { chip.sheet.size.height_of.as_str() };
        let height = format!("{} {measured}", chip.sheet.size.height.number());
        (chip.id().to_string(), (chip.letter.left, chip.sheet.make.form, height, colours.join("+")))
    });
    each.collect()
}

#[test]
fn the_sample_goes_out_and_comes_into_an_empty_folder_whole() {
    let temp = TempDir::new().unwrap();
    let (old, new) = (temp.path().join("old"), temp.path().join("new"));
    unpack_sample(&old).unwrap();
    let sample = StashFolder::at(&old).load().unwrap();
    let table = csv_text(sample.stash.sheets(), &sample.colours);
    fs::create_dir(&new).unwrap();
    fs::copy(old.join("taste.toml"), new.join("taste.toml")).unwrap();
    let stash = StashFolder::at(&new);
    let Access::Writer(lock) = stash.ask_to_write().unwrap() else { unreachable!("nobody else is here") };
    let intake = read_csv("sample.csv", &table, &stash.load().unwrap()).unwrap();
    assert!(intake.counted.chips.is_empty());
    stash.take_in(&lock, &intake.new, intake.counted, "2031-11-05").unwrap();
    let loaded = stash.load().unwrap();
    assert!(loaded.problems.is_empty(), "{}", loaded.problems);
    assert!(seen(&sample.stash).len() > 400);
    assert_eq!(seen(&loaded.stash), seen(&sample.stash));
    assert_eq!(csv_text(loaded.stash.sheets(), &loaded.colours), table);
    assert_eq!((loaded.ledger.entries().len(), loaded.ledger.entries()[0].deed.kind), (1, Kind::Counted));
}

#[test]
fn others_read_what_is_written() {
    let sheet = "form = 'die-cut'\nheight = '1 1/4 in'\ncolour = ['teal', '#102030']\n[letters]\n'\"' = 1\n',' = 2\n'=' = 3\n\
        '+' = 4\n'-' = 0\n'@' = 6\n'é' = 7\n\"'\" = 8\nA = [{ left = 9 }, { mark = 'coral', left = 10, colour = 'coral' }]\n";
    let folder = TempDir::new().unwrap();
    fs::create_dir(folder.path().join("sheets")).unwrap();
    fs::write(folder.path().join("sheets/a-1.toml"), sheet).unwrap();
    let loaded = StashFolder::at(folder.path()).load().unwrap();
    let table = csv_text(loaded.stash.sheets(), &loaded.colours);
    assert!(table.starts_with(HEAD), "{table}");
    assert_eq!(table.matches('\n').count(), table.matches("\r\n").count(), "every line ends in CR LF");
    assert!(table.ends_with("\r\n"));
    // The csv package's own reader, strict about the number of cells, as the second opinion.
    let mut reader = ReaderBuilder::new().has_headers(false).from_reader(table.as_bytes());
    let rows: Vec<Vec<String>> =
        reader.records().map(|row| row.unwrap().iter().map(str::to_owned).collect()).collect();
    let row = |colour: &str, character: &str, left: &str| {
        ["a-1", "die-cut", "31.75 mm", colour, character, left].map(str::to_owned).to_vec()
    };
    let own = "teal + #102030";
    let wanted =
        [("\"", "1"), (",", "2"), ("=", "3"), ("+", "4"), ("-", "0"), ("@", "6"), ("é", "7"), ("'", "8")];
    assert_eq!(rows[0], HEAD.trim().split(',').collect::<Vec<_>>());
    for (place, (character, left)) in wanted.into_iter().enumerate() {
        assert_eq!(rows[place + 1], row(own, character, left));
    }
    assert_eq!(rows[9..], [row(own, "A", "9"), row("coral", "A", "10")]);
    assert_eq!(csv_text([], &loaded.colours), HEAD);
}

/// RFC 4180 (October 2005), section 2, rules 1 to 7: its example values stand here as names of sheets.
#[test]
fn the_rules_of_rfc_4180() {
    let names = |text: &str| -> Vec<String> {
        let intake = read(&text.replace('_', ",tile,12 mm,teal,A,1")).unwrap();
        intake
            .new
            .iter()
            .map(|sheet| sheet.label.name.clone().unwrap_or_else(|| sheet.id.to_string()))
            .collect()
    };
    // 1 and 2: each record on a line of its own, ended by CRLF; the last one with or without.
    assert_eq!(names(&format!("{HEAD}aaa_\r\nzzz_\r\n")), ["aaa", "zzz"]);
    assert_eq!(names(&format!("{HEAD}aaa_\r\nzzz_")), ["aaa", "zzz"]);
    // 3: a header in the same format; 5: fields may be enclosed in quotes, or not.
    let quoted = HEAD.trim().split(',').map(|name| format!("\"{name}\"")).collect::<Vec<_>>().join(",");
    assert_eq!(names(&format!("{quoted}\r\n\"aaa\"_\r\nzzz_")), ["aaa", "zzz"]);
    // 4: as many fields in every record; the last is not followed by a comma.
    assert!(read(&format!("{HEAD}aaa,tile,12 mm,teal,A,1,\r\n")).is_err());
    // 6: line breaks, quotes and commas within quotes.
    assert_eq!(names(&format!("{HEAD}\"b\r\nbb\"_\r\nzzz_")), ["b\r\nbb", "zzz"]);
    assert_eq!(names(&format!("{HEAD}\"b,bb\"_\r\n")), ["b,bb"]);
    // 7: a quote within quotes is written twice.
    assert_eq!(names(&format!("{HEAD}\"b\"\"bb\"_\r\n")), ["b\"bb"]);
}

#[test]
fn a_recount_finds_each_letter_by_its_colour() {
    let intake = read(&format!(
        "\u{feff}{HEAD}kelp,die-cut,2 cm,coral,S,4\nkelp,die-cut,20,Teal,S,5\nKelp caps,die-cut,20 mm,#008080,A,0\n\
         ,,,,,\n\nkelp,die-cut,20 mm,teal,Z,7\nkelp,die-cut,20 mm,red,Z,6\nkelp,die-cut,20 mm,teal,Q,1\n"
    ));
    let intake = intake.unwrap();
    assert!(intake.new.is_empty());
    let wanted = ["kelp/A 0", "kelp/Q 1", "kelp/S 5", "kelp/S:coral 4", "kelp/Z 6", "kelp/Z:teal 7"];
    assert_eq!(counted(&intake), wanted);
    let intake = read(&format!("{HEAD}rush,tile,12 mm,tan,E,2\r\nreed,tile,12 mm,tan,F,3\r\n")).unwrap();
    assert_eq!(counted(&intake), ["reed/E 2", "reed/F 3"], "an earlier name is the same sheet");
}

#[test]
fn a_new_sheet_has_the_colour_of_most_of_its_rows() {
    let intake = read(
        "left, Character ,COLOUR,height,form,sheet\n1,A,coral,1/2 in,tile,Harbour's blocks\n2,A,teal,12.7 mm,tile,Harbour's blocks\n\
         3,B,teal,12.7,tile,Harbour's blocks\n4,C,#102030 + teal,12.7,tile,Harbour's blocks\n5,C,#102030+red,12.7,tile,Harbour's blocks\n\
         6,D,red,12.7,tile,Harbour's blocks\n",
    );
    let intake = intake.unwrap();
    let sheet = &intake.new[0];
    assert_eq!(
        (sheet.id.as_str(), sheet.label.name.as_deref()),
        ("harbours-blocks", Some("Harbour's blocks"))
    );
    assert_eq!((sheet.make.form, sheet.size.height.nm()), (Form::Tile, 12_700_000));
    assert_eq!(sheet.paint.colours[0].name(), "teal");
    let own = [
        "A:coral 1 coral",
        "A 2",
        "B 3",
        "C 4 midnightblue+teal",
        "C:102030-red 5 midnightblue+red",
        "D 6 red",
    ];
    assert_eq!(letters(sheet), own);
}

#[test]
fn columns_that_may_be_missing_are_written_where_they_are_needed() {
    let (_folder, stash) = shore();
    let loaded = stash.load().unwrap();
    let table = |ids: &[&str]| {
        let sheets = loaded.stash.sheets().iter().filter(|sheet| ids.contains(&sheet.id.as_str()));
        csv_text(sheets, &loaded.colours)
    };
    let head = HEAD.trim();
    assert!(table(&["kelp"]).starts_with(HEAD));
    assert_eq!(table(&["small"]), format!("{head},height_of\r\nsmall,die-cut,8 mm,tan,a,1,small\r\n"));
    let twins = "reed,tile,12 mm,tan,W,1,wide\r\nreed,tile,12 mm,tan,W,2,thin\r\n";
    assert_eq!(table(&["reed"]), format!("{head},mark\r\n{twins}"));
    let all = table(&["kelp", "reed", "small"]);
    assert!(all.starts_with(&format!("{head},height_of,mark\r\n")), "{all}");
    let back = read_csv("", &all, &Loaded { colours: loaded.colours.clone(), ..Loaded::default() }).unwrap();
    assert_eq!(seen(&Stash::new(back.new)), seen(&loaded.stash));
    assert_eq!(counted(&read(&all).unwrap()).len(), 7, "each row found its own chip");
}

/// Rows below the usual header, and all that is told of them.
const BROKEN: &[(&str, &[&str])] = &[
    (
        "kelp,die-cut,20 mm,teal,A,3.5\nkelp,die cut,twenty,seagren,AB,\nkelp,die-cut,20 mm,teal,A,1000",
        &[
            "2: left: \"3.5\" is no count; write a whole number from 0 to 999",
            "3: form: \"die cut\" is none of tile, die-cut; did you mean die-cut?",
            "3: height: \"twenty\" is no length; write one such as \"12 mm\", \"1.2 cm\" or \"1 1/4 in\"",
            "3: colour: \"seagren\" is no colour; write a CSS name (spelled alike: seagreen), \"#rrggbb\", or name it in \
             taste.toml under [colours]",
            "3: character: \"AB\" is more than one letter; write them one by one",
            "3: left: this cell is empty; write 0 where none is left",
            "4: left: \"1000\" is no count; write a whole number from 0 to 999",
        ],
    ),
    (
        "kelp,tile,21 mm,teal,A,1\r\n\r\n\"kelp\",die-cut,20 mm,red,S,1\r\nkelp,die-cut,0,teal,A,-1",
        &[
            "2: form: tile here, and the sheet kelp has die-cut; write that, or change its file first",
            "2: height: 21 mm here, and the sheet kelp has 20 mm; write that, or change its file first",
            "4: colour: the sheet kelp has no S in red, only in teal, coral; write that, or put the letter into its file first",
            "5: height: 0 mm is no size; it must be above 0",
            "5: left: \"-1\" is no count; write a whole number from 0 to 999",
        ],
    ),
    (
        "kelp,die-cut,20 mm,teal,A,1\nKelp caps,die-cut,20 mm,teal,A,2\nreed,tile,12 mm,tan,W,1\nTwins,tile,12 mm,tan,W,1\n\
         Kelp!,tile,12 mm,tan,W,1\nbad,tile,12 mm,tan,W,1\n\u{2665},tile,12 mm,tan,W,1",
        &[
            "3: character: line 2 counts kelp/A already; keep one of the two",
            "4: character: the sheet has several W in this colour; say which in a column mark: wide, thin",
            "5: sheet: two sheets are called \"Twins\"; write an id: reed or small",
            "6: sheet: \"Kelp!\" makes the id kelp, which is the sheet \"Kelp caps\"; write kelp if it is meant",
            "7: sheet: sheets/bad.toml has errors and cannot be used; mend it first",
            "8: sheet: \"\u{2665}\" makes no id; write a name with a letter a-z or a figure",
        ],
    ),
    (
        "dune,tile,12 mm,tan,\"\u{1b}\",1\ndune,tile,12 mm,tan,W,1\ndune,die-cut,13 mm,tan,W,2\nDune!,tile,12 mm,tan,X,1\n\
         ,tile,12 mm,tan + ,X,1",
        &[
            "2: character: \"\\u{1b}\" holds a control character; a letter must be one that can be seen",
            "4: form: die-cut here and tile on line 3; a sheet has one, so write the same, or another sheet",
            "4: height: 13 mm here and 12 mm on line 3; a sheet has one, so write the same, or another sheet",
            "4: character: line 3 counts this W already; keep one of the two",
            "5: sheet: \"Dune!\" makes the id dune, as does \"dune\" on line 3; write one of them otherwise",
            "6: sheet: this cell is empty; write the sheet's name",
            "6: colour: \"\" is no colour; write a CSS name, \"#rrggbb\", or name it in taste.toml under [colours]",
        ],
    ),
    (
        "dune,tile,12 mm,tan,W\ndune,tile,12 mm,tan,1,000,1\n\"dune,tile,12 mm,tan,X,1\ndune,tile,12 mm,tan,Y,1",
        &[
            "2: this row has 5 cells, the first line has 6",
            "3: this row has 7 cells, the first line has 6; a cell with a comma in it stands in quotes",
            "4: this row has 1 cell, the first line has 6; a quote that nothing closes takes in the lines after it",
        ],
    ),
];

/// Whole tables whose first lines are wrong.
const HEADLESS: &[(&str, &[&str])] = &[
    (
        "",
        &[
            "1: the table is empty; its first line names the columns: sheet, form, height, colour, character, left",
        ],
    ),
    (
        "sheet;form;height;colour;character;left\n",
        &["1: the columns are parted by ';'; save the table with commas between them"],
    ),
    (
        "\nsheet,form,height,color,character,left,left,price\n",
        &[
            "2: \"color\" is no column; did you mean colour?",
            "2: there are two columns left; keep one of them",
            "2: \"price\" is no column; there are sheet, form, height, colour, character, left, height_of and mark",
            "2: there is no column colour; the first line names sheet, form, height, colour, character, left",
        ],
    ),
    (
        "sheet,form,height,colour,character,left,height_of,mark\nsmall,die-cut,8 mm,tan,a,1,capital,\n\
         kelp,die-cut,20 mm,teal,S,1,,coral\nkelp,die-cut,20 mm,red,A,1,,b\ndune,tile,1 in,tan,A,1,small,B c\n\
         dune,tile,1 in,tan,A,1,tall,\nsand,die-cut,1 in,tan,A,1,,\nsand,die-cut,1 in,tan,B,1,tall,x\nsand,die-cut,1 in,red,B,1,,x\n",
        &[
            "2: height_of: capital here, and the sheet small has small; write that, or change its file first",
            "3: colour: kelp/S:coral is coral; write that, or another mark",
            "4: colour: the sheet kelp has no A in red, only in teal; write that, or put the letter into its file first",
            "5: height_of: this is told of die-cut letters; leave it empty for a tile",
            "5: mark: \"B c\" holds 'B'; an id is made of small letters a-z, figures and hyphens",
            "6: height_of: this is told of die-cut letters; leave it empty for a tile",
            "8: height_of: tall here and capital on line 7; a sheet has one, so write the same, or another sheet",
            "9: character: line 8 counts this B already; keep one of the two",
        ],
    ),
];

#[test]
fn every_mistake_is_told_by_line_and_column() {
    let below = BROKEN.iter().map(|(rows, told)| (format!("{HEAD}{rows}"), *told));
    let whole = HEADLESS.iter().map(|(table, told)| ((*table).to_owned(), *told));
    for (table, told) in below.chain(whole) {
        let found = read(&table).unwrap_err();
        let wanted: Vec<String> = told.iter().map(|line| format!("shore.csv:{line}")).collect();
        assert_eq!(found, wanted.join("\n"), "{table}");
    }
}
