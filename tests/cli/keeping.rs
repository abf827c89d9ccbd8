//! Letters counted, stuck down and lifted from a shell: what is said, what the files hold afterwards, and what is refused.
//!
//! Must not know how the stash is kept.

use std::fs;

use serde_json::{Value, json};

use super::shell::{Stash, Told};

/// A sheet as its owner wrote it: comments, an order of her own, a key that the program does not know.
const SHEET: &str = "# The tin by the window.\nheight = \"20 mm\"   # measured twice\nform   = \"die-cut\"\ncolour = 'teal'\n\
    shelf  = \"third\"          # mine\n\n[letters]\n# the rare ones first\nQ = 2\nA = 3        # one is bent\n\
    S = [{ left = 2 }, { mark = \"coral\", left = 1, colour = \"coral\" }]  # out of the swap box\n\"&\" = 0\n";

/// A page of two strips, one of its letters a button.
const PAGE: &str = "# The quay.\nformat = 1\n\n[[strip]]\nwording = \"SASQ\"   # a boat's name\n\n[[strip.letter]]\nslot = 1\nchip = \
    \"tin/S\"\n\n[[strip.letter]]\nslot = 2\nchip = \"tin/A\"   # the bent one\n\n[[strip.letter]]\nslot = 3\nchip = \
    \"tin/S:coral\"\n\n[[strip.letter]]\nslot = 4\nchip = \"tin/Q\"\n\n[[strip]]\nrole = \"subtitle\"\nwording = \"AO\"\n\n\
    [[strip.letter]]\nslot = 1\nchip = \"tin/A\"\n[[strip.letter]]\nslot = 2\nby = \"hand\"\nlabel = \"button\"\nwidth = \"8 mm\"\n";

/// A stash with that sheet and that page only.
fn stash() -> Stash {
    let stash = Stash::nowhere();
    for within in ["sheets", "pages"] {
        fs::create_dir_all(stash.path().join(within)).unwrap();
    }
    stash.write("sheets/tin.toml", SHEET);
    stash.write("pages/quay.toml", PAGE);
    stash
}

/// The command was done; at most the key that it does not know is told on standard error.
#[track_caller]
fn done(told: Told) -> String {
    let quiet = told
        .err
        .lines()
        .all(|line| line.ends_with(": warning: shelf: this key is not known and is left alone"));
    assert!(told.code == 0 && quiet, "{} {}{}", told.code, told.err, told.out);
    told.out
}

/// The command was not done, said nothing on standard output, and changed no file.
#[track_caller]
fn refused(stash: &Stash, args: &[&str], code: i32, said: &str) {
    let before = texts(stash);
    let told = stash.run(args);
    assert_eq!((told.code, told.out.as_str()), (code, ""), "{args:?}: {}", told.err);
    assert!(told.err.contains(said), "{args:?}: {}", told.err);
    assert!(told.err.starts_with("oddment: ") || told.err.contains(".toml:"), "{}", told.err);
    assert_eq!(texts(stash), before, "{args:?}");
}

/// All that a stash holds.
fn texts(stash: &Stash) -> Vec<(String, Vec<u8>)> {
    let mut texts = Vec::new();
    for within in ["", "sheets", "pages", "trials"] {
        for entry in fs::read_dir(stash.path().join(within)).into_iter().flatten().flatten() {
            let name = entry.file_name().into_string().unwrap();
            if entry.file_type().unwrap().is_file() && name != ".lock" {
                texts.push((format!("{within}/{name}"), fs::read(entry.path()).unwrap()));
            }
        }
    }
    texts.sort();
    texts
}

fn said_in_json(told: Told) -> Value {
    let text = done(told);
    assert!(text.starts_with("{\"format\":1,") && text.matches('\n').count() == 1, "{text}");
    serde_json::from_str(&text).unwrap()
}

#[test]
fn letters_are_counted_in_out_and_anew() {
    let stash = stash();
    let told = done(stash.run(&["count", "tin", "AAQ & A", "--add"]));
    insta::assert_snapshot!(told, @r"
    tin/&                          1 left, 0 before
    tin/A                          6 left, 3 before
    tin/Q                          3 left, 2 before
    entry 1 of the ledger
    ");
    let told = done(stash.run(&["count", "tin", "AQ", "--take"]));
    insta::assert_snapshot!(told, @r"
    tin/A                          5 left, 6 before
    tin/Q                          2 left, 3 before
    entry 2 of the ledger
    ");
    let told = said_in_json(stash.run(&["count", "tin", "SS", "--set", "--mark", "coral", "--json"]));
    let letters = json!([{"chip": "tin/S:coral", "was": 1, "left": 2}]);
    assert_eq!(told, json!({"format": 1, "sheet": "tin", "entry": 3, "letters": letters}));
    let told = said_in_json(stash.run(&["count", "tin", "e\u{301}", "--json"]));
    assert_eq!(told["letters"], json!([{"chip": "tin/é", "was": 0, "left": 1}]), "counted in without a word");
    let ledger = stash.read("ledger.toml");
    for line in
        ["number = 4\n", "kind = \"added\"\nchips = { \"tin/A\" = -1, \"tin/Q\" = -1 }", "kind = \"counted\""]
    {
        assert!(ledger.contains(line), "{line}\n{ledger}");
    }
}

#[test]
fn only_counts_change_in_a_sheet_and_its_line_ends_stay() {
    for ends in ["\n", "\r\n"] {
        let stash = stash();
        let with_ends = |text: &str| text.replace('\n', ends);
        stash.write("sheets/tin.toml", with_ends(SHEET));
        done(stash.run(&["count", "tin", "AS&"]));
        done(stash.run(&["count", "tin", "S", "--take", "--mark", "coral"]));
        let wanted = SHEET
            .replace("A = 3  ", "A = 4  ")
            .replace("{ left = 2 }", "{ left = 3 }")
            .replace("left = 1,", "left = 0,")
            .replace("\"&\" = 0", "\"&\" = 1");
        let text = stash.read("sheets/tin.toml");
        let kept: String = text.split_inclusive('\n').filter(|line| !line.starts_with("as_of")).collect();
        assert_eq!(kept, with_ends(&wanted));
        assert!(text.contains(&with_ends("as_of = 2\n")), "{text}");
    }
}

#[test]
fn what_cannot_be_counted_is_refused_and_changes_nothing() {
    let stash = stash();
    for (args, code, said) in [
        (&["count", "tim", "A"][..], 2, "there is no sheet \"tim\"; did you mean tin?"),
        (&["count", "../pages/quay", "A"], 2, "there is no sheet \"../pages/quay\""),
        (&["count", "t\u{1b}[2J", "A"], 2, "there is no sheet \"t\\u{1b}[2J\""),
        (&["count", "tin", "AAAAQQQ", "--take"], 1, "tin/A: 4 asked for, 3 left; tin/Q: 3 asked for, 2 left"),
        (&["count", "tin", "Z", "--take"], 1, "tin/Z: 1 asked for, 0 left"),
        (&["count", "tin", " "], 1, "that names no letter"),
        (&["count", "tin", ""], 1, "that names no letter"),
        (&["count", "tin", "A\u{7}"], 2, "LETTERS: "),
        (&["count", "tin", "A", "--mark", "Not So"], 2, "--mark: "),
        (&["count", "tin", &"A".repeat(997)], 1, "tin/A would come to more than 999"),
        (&["count", "tin", &"A".repeat(1000), "--set"], 1, "tin/A would come to more than 999"),
    ] {
        refused(&stash, args, code, said);
    }
    for pair in [["--add", "--take"], ["--add", "--set"], ["--take", "--set"]] {
        let told = stash.run(&["count", "tin", "A", pair[0], pair[1]]);
        assert_eq!((told.code, told.out.as_str()), (2, ""), "{pair:?}");
    }
    done(stash.run(&["count", "tin", &"A".repeat(999), "--set"]));
}

#[test]
fn damaged_files_are_told_and_not_written() {
    let stash = stash();
    stash.write("sheets/tin.toml", SHEET.replace("A = 3 ", "A = -3"));
    refused(&stash, &["count", "tin", "A"], 2, "sheets/tin.toml:10:5: letters.A: ");
    stash.write("sheets/tin.toml", SHEET);
    stash.write("ledger.toml", "[[entry]]\nnumber = 1\ndate = \"2031-11-05\"\nkind = \"lost\"\nchips = {}\n");
    refused(&stash, &["count", "tin", "A"], 2, "ledger.toml:4:8: ");
    refused(&stash, &["stick", "quay"], 2, "ledger.toml:4:8: ");
    stash.write("ledger.toml", b"[[entry]]\nnumber = \xff\n");
    refused(&stash, &["count", "tin", "A"], 2, "ledger.toml:2:10: ");
}

#[test]
fn a_folder_that_takes_no_changes_is_told() {
    let stash = stash();
    let set = |read_only: bool| {
        let mut permissions = fs::metadata(stash.path()).unwrap().permissions();
        permissions.set_readonly(read_only);
        fs::set_permissions(stash.path(), permissions).unwrap();
    };
    set(true);
    for args in [&["count", "tin", "A"][..], &["stick", "quay"], &["lift", "quay"]] {
        refused(&stash, args, 2, "this stash takes no changes");
    }
    set(false);
}

#[test]
fn a_folder_that_is_not_there_has_no_sheet_and_no_plan() {
    let stash = Stash::nowhere();
    refused(&stash, &["count", "tin", "A"], 2, "there is no sheet \"tin\"");
    refused(&stash, &["stick", "quay"], 2, "there is no page plan \"quay\"");
}

#[test]
fn sticking_takes_the_letters_and_lifting_puts_every_byte_back() {
    for ends in ["\n", "\r\n"] {
        let stash = stash();
        stash.write("sheets/tin.toml", SHEET.replace('\n', ends));
        stash.write("pages/quay.toml", PAGE.replace('\n', ends));
        let before = (without_as_of(&stash), stash.read("pages/quay.toml"));
        let told = done(stash.run(&["stick", "quay"]));
        assert_eq!(
            told,
            "title: 4 letters stuck down (entry 1 of the ledger)\nsubtitle: 2 letters stuck down (entry 2 of the ledger)\n"
        );
        let stuck = stash.read("sheets/tin.toml");
        assert!(
            stuck.contains("Q = 1") && stuck.contains("A = 1  ") && stuck.contains("left = 0,"),
            "{stuck}"
        );
        refused(&stash, &["stick", "quay"], 1, "all its letters are stuck down already");
        let told = said_in_json(stash.run(&["lift", "quay", "--json"]));
        let strips = json!([{"role": "title", "letters": 4, "stuck": null}, {"role": "subtitle", "letters": 2, "stuck": null}]);
        assert_eq!(told, json!({"format": 1, "strips": strips}));
        assert_eq!((without_as_of(&stash), stash.read("pages/quay.toml")), before);
        refused(&stash, &["lift", "quay"], 1, "nothing there is stuck down");
    }
}

/// The sheet's text but for the line that the program keeps in it.
fn without_as_of(stash: &Stash) -> String {
    stash.read("sheets/tin.toml").split_inclusive('\n').filter(|line| !line.starts_with("as_of")).collect()
}

#[test]
fn one_strip_goes_and_comes_by_itself() {
    let stash = stash();
    let told = said_in_json(stash.run(&["stick", "quay", "--strip", "subtitle", "--json"]));
    assert_eq!(told["strips"], json!([{"role": "subtitle", "letters": 2, "stuck": 1}]));
    assert!(stash.read("sheets/tin.toml").contains("A = 2  "));
    refused(&stash, &["lift", "quay", "--strip", "title"], 1, "nothing there is stuck down");
    refused(
        &stash,
        &["lift", "quay", "--strip", "motto"],
        2,
        "there is no strip \"motto\"; this plan has: title, subtitle",
    );
    refused(&stash, &["lift", "quay", "--slot", "1"], 2, "name the strip of these slots");
    done(stash.run(&["lift", "quay", "--strip", "subtitle"]));
    assert_eq!(without_as_of(&stash), SHEET);
}

#[test]
fn letters_that_tore_are_spent() {
    let stash = stash();
    done(stash.run(&["stick", "quay"]));
    refused(&stash, &["lift", "quay", "--torn"], 2, "--torn is said of slots");
    let told = done(stash.run(&["lift", "quay", "--strip", "title", "--slot", "2", "--slot", "4", "--torn"]));
    assert_eq!(told, "title: 2 letters came off torn, and are spent (entry 3 of the ledger)\n");
    let told = done(stash.run(&["lift", "quay", "--strip", "title", "--slot", "1"]));
    assert_eq!(told, "title: 1 letter lifted (entry 4 of the ledger)\n");
    let page = stash.read("pages/quay.toml");
    assert!(
        page.contains("slot = 3") && !page.contains("slot = 4") && page.contains("# a boat's name"),
        "{page}"
    );
    refused(&stash, &["lift", "quay", "--strip", "title", "--slot", "2"], 1, "nothing there is stuck down");
    done(stash.run(&["lift", "quay"]));
    let wanted = SHEET.replace("A = 3  ", "A = 2  ").replace("Q = 2", "Q = 1");
    assert_eq!(without_as_of(&stash), wanted, "the torn A and Q do not come back");
}

#[test]
fn what_the_stash_no_longer_has_is_named() {
    let stash = stash();
    done(stash.run(&["count", "tin", "SQQ", "--take"]));
    refused(&stash, &["stick", "quay"], 1, "tin/Q: 1 asked for, 0 left");
    done(stash.run(&["count", "tin", "Q"]));
    // All letters of one character and mark are asked for at once.
    done(stash.run(&["count", "tin", "S", "--take"]));
    refused(&stash, &["stick", "quay"], 1, "tin/S: 1 asked for, 0 left");
    stash.write("sheets/tin.toml", stash.read("sheets/tin.toml").replace("Q = 1\n", ""));
    refused(&stash, &["stick", "quay"], 1, "tin/Q: 1 asked for, 0 left");
}

#[test]
fn changes_on_the_bench_that_nobody_saved_are_not_written_over() {
    let stash = stash();
    fs::create_dir_all(stash.path().join("trials")).unwrap();
    stash.write("trials/quay.toml", PAGE.replace("tin/Q", "tin/A"));
    for command in ["stick", "lift"] {
        refused(&stash, &[command, "quay"], 2, "quay has changes that were never saved");
    }
}

#[test]
fn strips_that_are_too_much_together_are_refused_together() {
    let stash = stash();
    // One for the title, and none for the subtitle then.
    done(stash.run(&["count", "tin", "AA", "--take"]));
    refused(&stash, &["stick", "quay"], 1, "the stash has too few letters: tin/A: 2 asked for, 1 left");
    // One of them can be.
    done(stash.run(&["stick", "quay", "--strip", "title"]));
}

#[test]
fn a_plan_elsewhere_is_not_the_one_of_its_name_in_the_stash() {
    let stash = stash();
    let elsewhere = stash.path().parent().unwrap().join("quay.toml");
    fs::write(&elsewhere, PAGE).unwrap();
    let file = elsewhere.to_str().unwrap();
    done(stash.run(&["stick", file, "--strip", "subtitle"]));
    // The next start brings what it finds up to the ledger.
    done(stash.run(&["count", "tin", "Q"]));
    assert_eq!(stash.read("pages/quay.toml"), PAGE);
    done(stash.run(&["stick", "quay", "--strip", "subtitle"]));
    assert!(stash.read("sheets/tin.toml").contains("A = 1  "), "{}", stash.read("sheets/tin.toml"));
    done(stash.run(&["lift", file]));
    assert!(stash.read("sheets/tin.toml").contains("A = 2  "), "{}", stash.read("sheets/tin.toml"));
}

#[test]
fn what_a_crash_left_is_finished_and_told() {
    let stash = stash();
    let sheet = SHEET.replace("height =", "as_of = 0\nheight =");
    stash.write("sheets/tin.toml", &sheet);
    let entry = "[[entry]]\nnumber = 1\ndate = \"2031-11-05\"\nkind = \"added\"\nchips = { \"tin/A\" = 1 }\nhad = { \"tin/A\" = 3 }\n";
    stash.write("ledger.toml", entry);
    let told = stash.run(&["count", "tin", "Q"]);
    assert_eq!(told.code, 0, "{}", told.err);
    assert_eq!(
        told.err,
        "oddment: finished what was left half done: the counts of tin were brought up to the ledger\n"
    );
    assert!(stash.read("sheets/tin.toml").contains("A = 4  "));
}

#[test]
fn a_sheet_is_found_by_its_tag_where_only_one_has_it() {
    let stash = stash();
    stash.write("sheets/tin.toml", format!("tag = \"37\"\n{SHEET}"));
    stash.write("sheets/can.toml", format!("tag = \"A 4\"\n{SHEET}"));
    let told = done(stash.run(&["count", "37", "A"]));
    assert!(told.starts_with("tin/A ") && told.contains("4 left, 3 before"), "{told}");
    let listed = done(stash.run(&["stash", "A 4"]));
    assert!(listed.starts_with("can "), "{listed}");
    stash.write("sheets/jar.toml", format!("tag = \"37\"\n{SHEET}"));
    let several = "several sheets have the tag \"37\"; name one of them: jar, tin";
    refused(&stash, &["count", "37", "A"], 2, several);
    stash.write("sheets/37.toml", SHEET);
    let told = done(stash.run(&["count", "37", "A"]));
    assert!(told.starts_with("37/A "), "its own name goes before a tag: {told}");
    refused(&stash, &["count", "38", "A"], 2, "there is no sheet \"38\"; ");
}

#[test]
fn a_new_sheet_never_gets_the_name_of_one_that_the_ledger_speaks_of() {
    let stash = stash();
    done(stash.run(&["count", "tin", "A"]));
    fs::remove_file(stash.path().join("sheets/tin.toml")).unwrap();
    let table = stash.path().join("tin.csv");
    fs::write(&table, "sheet,form,height,colour,character,left\ntin,tile,12 mm,teal,S,1\n").unwrap();
    let said =
        "the ledger speaks of a sheet tin whose file is gone; put the file back, or write another name";
    refused(&stash, &["take-in", table.to_str().unwrap()], 2, said);
}
