//! `stash --csv`, `stash --by-tag`, `stash SHEET --history` and `take-in`.
//!
//! Must not know how a table is read.

use std::collections::BTreeMap;
use std::io::Write;
use std::path::Path;
use std::process::Stdio;

use serde_json::Value;

use super::shell::{Stash, oddment};

/// Every file of a stash with its bytes.
fn files(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut files = BTreeMap::new();
    let mut open = vec![folder.to_owned()];
    while let Some(folder) = open.pop() {
        for entry in std::fs::read_dir(folder).into_iter().flatten() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                open.push(path);
            } else {
                files.insert(path.display().to_string(), std::fs::read(&path).unwrap());
            }
        }
    }
    files
}

fn json(text: &str) -> Value {
    assert!(text.starts_with("{\"format\":1,"), "{text}");
    serde_json::from_str(text).unwrap()
}

const HEAD: &str = "sheet,form,height,colour,character,left\n";

#[test]
fn the_sample_is_told_as_a_table_and_counts_itself() {
    let stash = Stash::sample();
    let answer = stash.run(&["stash", "--csv"]);
    assert_eq!((answer.code, answer.err.as_str()), (0, ""));
    let all = answer.out;
    assert!(all.contains("\r\nkelp-caps,die-cut,23 mm,coral,S,1,capital\r\n"), "{all}");
    let one = stash.run(&["stash", "kelp-caps", "--csv"]).out;
    assert!(one.lines().skip(1).all(|line| line.starts_with("kelp-caps,")) && one.lines().count() > 25);
    stash.write("all.csv", &all);
    let table = stash.path().join("all.csv");
    let taken = stash.run(&["take-in", table.to_str().unwrap()]);
    assert_eq!((taken.code, taken.err.as_str()), (0, ""));
    assert!(
        taken.out.contains("recounted: ")
            && taken.out.ends_with("nothing changes: the ledger gets no entry\n"),
        "{}",
        taken.out
    );
    assert!(
        taken.out.lines().filter(|line| line.contains("recounted")).all(|line| line.contains(" 0 changed"))
    );
    assert!(!stash.path().join("ledger.toml").exists());
    let taken = json(&stash.run(&["take-in", table.to_str().unwrap(), "--json"]).out);
    assert!(taken["entry"].is_null() && !stash.path().join("ledger.toml").exists(), "{taken}");
    assert_eq!(stash.run(&["stash", "--csv"]).out, all);
    assert!(!stash.read("sheets/kelp-caps.toml").contains("as_of"), "no file is touched");
}

#[test]
fn a_table_brings_new_sheets_and_recounts() {
    let stash = Stash::sample();
    let rows = "kelp-caps,die-cut,23 mm,coral,S,4\nKelp caps,die-cut,23 mm,teal,A,1\nHarbour \u{1b}blocks,tile,12 mm,teal,E,4\n\
        Harbour \u{1b}blocks,tile,12 mm,teal,=,2\n";
    stash.write("some.csv", format!("{HEAD}{rows}"));
    let table = stash.path().join("some.csv");
    let table = table.to_str().unwrap();
    let before = files(&stash.path());
    let told = stash.run(&["take-in", table, "--only-tell"]);
    let words = "harbour-blocks           new: 2 kinds, 6 left  Harbour \\u{1b}blocks\n\
        kelp-caps                recounted: 2 kinds, 1 changed  Kelp caps\n  \
        kelp-caps/S:coral              4 left, 1 before\n";
    assert_eq!((told.code, told.err.as_str()), (0, ""));
    assert_eq!(told.out, format!("{words}only told: nothing was taken in\n"));
    assert_eq!(files(&stash.path()), before, "only told");
    let taken = json(&stash.run(&["take-in", table, "--json"]).out);
    assert_eq!(taken["entry"], 1);
    assert_eq!(
        (&taken["sheets"][0]["id"], &taken["sheets"][0]["new"]),
        (&"harbour-blocks".into(), &true.into())
    );
    let letter = &taken["sheets"][1]["letters"][1];
    assert_eq!(letter, &serde_json::json!({"chip": "kelp-caps/S:coral", "was": 1, "left": 4}));
    let sheet = stash.read("sheets/harbour-blocks.toml");
    assert!(sheet.contains("form = \"tile\"\nheight = \"12 mm\"\ncolour = \"teal\"\nas_of = 1\n"), "{sheet}");
    assert!(sheet.ends_with("[letters]\nE = 4\n\"=\" = 2\n"), "{sheet}");
    assert!(
        stash.read("sheets/kelp-caps.toml").contains("left = 4, colour = \"coral\" }]   # one came in coral")
    );
    let shown = stash.run(&["stash", "--by-tag"]);
    assert!(
        shown.out.contains("\n-     Harbour \\u{1b}blocks\n      tile, 12 mm, teal\n      E4 =x2\n"),
        "{}",
        shown.out
    );
}

#[test]
fn with_one_mistake_nothing_is_taken_in() {
    let stash = Stash::sample();
    let rows = "Harbour blocks,tile,12 mm,teal,E,4\nkelp-caps,die-cut,23 mm,teal,A,7\nkelp-caps,die-cut,23 mm,teal,B,many\n";
    stash.write("bad \u{9b}.csv", format!("{HEAD}{rows}"));
    let table = stash.path().join("bad \u{9b}.csv");
    let before = files(&stash.path());
    for more in [&[][..], &["--only-tell"], &["--json"]] {
        let answer = stash.run(&[&["take-in", table.to_str().unwrap()], more].concat());
        assert_eq!((answer.code, answer.out.as_str()), (2, ""));
        let told = "bad \\u{9b}.csv:4: left: \"many\" is no count; write a whole number from 0 to 999\nnothing was taken in\n";
        assert!(answer.err.ends_with(told), "{}", answer.err);
        assert_eq!(files(&stash.path()), before, "not a byte is changed");
    }
    let nowhere = Stash::nowhere();
    assert_eq!(nowhere.run(&["take-in", table.to_str().unwrap()]).code, 2);
    assert!(!nowhere.path().exists(), "no folder is made for nothing");
}

#[test]
fn what_is_no_table_is_refused() {
    let stash = Stash::sample();
    let at = |name: &str| stash.path().join(name).display().to_string();
    stash.write("latin.csv", b"sheet,form\r\nk\xe4lp,tile\r\n");
    stash.write("empty.csv", HEAD);
    let before = files(&stash.path());
    for (name, code, told) in [
        (
            "latin.csv",
            2,
            ":2: here is a byte that is no UTF-8; save the table as UTF-8; nothing was taken in\n",
        ),
        ("none.csv", 2, "none.csv: it is not there; look at the path\n"),
        ("sheets", 2, "sheets: it is a folder where a file should be; move it away\n"),
        ("empty.csv", 1, "empty.csv holds no letter; there is nothing to take in\n"),
    ] {
        let answer = stash.run(&["take-in", &at(name)]);
        assert_eq!((answer.code, answer.out.as_str()), (code, ""), "{}", answer.err);
        assert!(answer.err.ends_with(told), "{}", answer.err);
    }
    for wrong in [
        &["stash", "--csv", "--json"][..],
        &["stash", "--csv", "--by-tag"],
        &["stash", "--history"],
        &["stash", "kelp-caps", "--by-tag"],
        &["take-in"],
    ] {
        assert_eq!(stash.run(wrong).code, 2, "{wrong:?}");
    }
    assert_eq!(files(&stash.path()), before);
}

#[test]
fn a_table_comes_from_standard_input_as_well() {
    let stash = Stash::nowhere();
    let mut command = oddment(&["take-in", "-"]);
    command.arg("--stash").arg(stash.path()).stdin(Stdio::piped()).stdout(Stdio::piped());
    let mut child = command.spawn().unwrap();
    child
        .stdin
        .take()
        .unwrap()
        .write_all(format!("\u{feff}{HEAD}dune,tile,1 cm,tan,A,2\n").as_bytes())
        .unwrap();
    let output = child.wait_with_output().unwrap();
    assert!(output.status.success());
    let told = String::from_utf8(output.stdout).unwrap();
    assert_eq!(told, "dune                     new: 1 kind, 2 left  tan tile 10 mm\nentry 1 of the ledger\n");
    assert_eq!(
        stash.run(&["stash", "--csv"]).out,
        "sheet,form,height,colour,character,left\r\ndune,tile,10 mm,tan,A,2\r\n"
    );
}

#[test]
fn sheets_go_by_tag_and_spent_ones_come_last() {
    let stash = Stash::sample();
    let sheet = |name: &str, tag: &str, letters: &str| {
        let text = format!(
            "name = '{name}'\n{tag}\nform = 'tile'\nheight = '9 mm'\ncolour = ['tan', 'navy']\n[letters]\n{letters}\n"
        );
        stash.write(&format!("sheets/{name}.toml"), text);
    };
    sheet("zinc", "", "A = 1");
    sheet("ash", "", "A = 1");
    sheet("ten", "tag = '100'", "A = 1");
    sheet(
        "nine",
        "tag = '9'",
        "A = 12\nB = 0\n\"7\" = 3\n\".\" = 2\n\"&\" = 3\ne = [{ left = 1 }, { mark = 'b', left = 2, colour = 'red' }]",
    );
    sheet("gone", "tag = '1'", "A = 0");
    let list = stash.run(&["stash", "--by-tag"]);
    assert_eq!((list.code, list.err.as_str()), (0, ""));
    assert!(list.out.lines().all(|line| line.chars().count() <= 80), "{}", list.out);
    let nine = "\n9     nine\n      tile, 9 mm, tan and navy\n      A12 7x3 .x2 &3 e1 e2(red)\n";
    assert!(list.out.contains(nine), "{}", list.out);
    assert!(
        list.out.ends_with("\nSpent: no letter is left\n\n1     gone\n      tile, 9 mm, tan and navy\n"),
        "{}",
        list.out
    );
    let places: Vec<usize> = ["\n07 ", "\n9 ", "\n12 ", "\n100 ", "\n-     ash", "\n-     zinc", "Spent"]
        .map(|at| list.out.find(at).unwrap())
        .into();
    assert!(places.is_sorted(), "{places:?}");
    let answer = json(&stash.run(&["stash", "--by-tag", "--json"]).out);
    let ids: Vec<&str> =
        answer["sheets"].as_array().unwrap().iter().map(|sheet| sheet["id"].as_str().unwrap()).collect();
    assert_eq!(ids[..3], ["lit-windows", "kelp-caps", "nine"]);
    assert_eq!(ids[ids.len() - 4..], ["ten", "ash", "zinc", "gone"]);
}

#[test]
fn the_history_of_a_sheet_is_told_newest_first() {
    let stash = Stash::sample();
    let none = stash.run(&["stash", "kelp-caps", "--history"]).out;
    assert!(none.ends_with("nothing was counted, stuck down or lifted yet\n"), "{none}");
    assert!(!stash.run(&["stash", "--json"]).out.contains("history"), "only of a sheet that is asked for");
    let entry = |number: u32, rest: &str| {
        format!("[[entry]]\nnumber = {number}\ndate = \"2031-11-0{number}\"\n{rest}\n")
    };
    let ledger = [
        entry(1, "kind = \"added\"\nchips = { \"kelp-caps/A\" = 3, \"net-floats/A\" = 9 }"),
        entry(
            2,
            "kind = \"stuck\"\npage = \"walk\\u001b\"\nstrip = \"title\"\nchips = { \"kelp-caps/A\" = 2, \"kelp-caps/S:coral\" = 1 }",
        ),
        entry(
            3,
            "kind = \"lifted\"\npage = \"walk\"\nstrip = \"title\"\nslots = [3, 4]\nchips = { \"kelp-caps/A\" = 2 }",
        ),
        entry(
            4,
            "kind = \"torn\"\npage = \"walk\"\nstrip = \"title\"\nslots = [1]\nchips = { \"kelp-caps/S:coral\" = 1 }",
        ),
        entry(5, "kind = \"counted\"\nchips = { \"net-floats/A\" = 1 }"),
        entry(6, "kind = \"counted\"\nchips = { \"kelp-caps/B\" = 0 }"),
        entry(7, "kind = \"added\"\nchips = { \"kelp-caps/A\" = -1 }"),
        entry(8, "kind = \"added\"\nchips = { \"kelp-caps/A\" = -1, \"kelp-caps/C\" = 2 }"),
    ];
    stash.write("ledger.toml", ledger.concat());
    let told = stash.run(&["stash", "kelp-caps", "--history"]);
    assert_eq!((told.code, told.err.as_str()), (0, ""));
    let (_, history) = told.out.split_once('\n').unwrap();
    let wanted = "2031-11-08 counted in and out: -1 of A, +2 of C\n2031-11-07 counted out: 1 of A\n2031-11-06 counted anew: 0 of B\n\
        2031-11-04 torn as they came off, walk title, slot 1: 1 of S:coral\n2031-11-03 lifted, walk title, slots 3 4: 2 of A\n\
        2031-11-02 stuck down, walk\\u{1b} title: 2 of A, 1 of S:coral\n2031-11-01 counted in: 3 of A\n";
    assert_eq!(history, wanted);
    let answer = json(&stash.run(&["stash", "kelp-caps", "--json"]).out);
    let history = answer["sheets"][0]["history"].as_array().unwrap();
    assert_eq!(history.len(), 7);
    let stuck = serde_json::json!({
        "entry": 2, "date": "2031-11-02", "kind": "stuck", "page": "walk\u{1b}", "strip": "title", "slots": [],
        "letters": [{"chip": "kelp-caps/A", "count": 2}, {"chip": "kelp-caps/S:coral", "count": 1}],
    });
    assert_eq!(history[5], stuck);
}
