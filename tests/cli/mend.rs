//! `oddment mend` as a shell meets it: what it prints, how it ends, what it leaves on the disk.
//!
//! Must not know how anything is mended.

use std::fs;
use std::path::PathBuf;

use serde_json::Value;

use super::shell::{Stash, Told};

const SHEET: &str = "form = \"tile\"\nheight = 20\ncolour = \"teal\"\nas_of = 1\n[letters]\nA = 2\n";
const LEDGER: &str = "[[entry]]\nnumber = 1\ndate = \"2031-01-02\"\nkind = \"added\"\nchips = { \"crash/A\" = 1 }\n\n\
     [[entry]]\nnumber = 2\ndate = \"2031-01-02\"\nkind = \"added\"\nchips = { \"crash/A\" = 3 }\n\nwhat?\n";

/// The sample with a damaged ledger and a sheet that is behind it.
fn damaged() -> Stash {
    let stash = Stash::sample();
    stash.write("ledger.toml", LEDGER);
    stash.write("sheets/crash.toml", SHEET);
    stash
}

fn json(answer: &Told) -> Value {
    serde_json::from_str(&answer.out).unwrap()
}

/// The one folder of copies.
fn kept(stash: &Stash) -> PathBuf {
    let mut folders =
        fs::read_dir(stash.path().join("kept-aside")).unwrap().map(|entry| entry.unwrap().path());
    let folder = folders.next().unwrap();
    assert_eq!(folders.next(), None);
    folder
}

#[test]
fn the_sample_has_nothing_wrong() {
    for args in [&["mend"][..], &["mend", "--write"]] {
        let answer = Stash::sample().run(args);
        assert_eq!((answer.code, answer.out.as_str(), answer.err.as_str()), (0, "nothing is wrong\n", ""));
    }
    let nowhere = Stash::nowhere();
    assert_eq!(nowhere.run(&["mend", "--write"]).code, 0);
    assert!(!nowhere.path().exists(), "nothing is made for the sake of looking");
}

#[test]
fn what_is_wrong_is_told_and_mended_only_on_demand() {
    let stash = damaged();
    let refused = stash.run(&["count", "crash", "A"]);
    assert_eq!(refused.code, 2);
    assert!(refused.err.contains("oddment mend"), "{}", refused.err);
    let told = stash.run(&["mend"]);
    assert_eq!((told.code, told.err.as_str()), (1, ""));
    insta::assert_snapshot!(told.out, @r#"
    ledger.toml:13:1: here is what cannot be read: this line has no =; a line is key = value, such as E = 3 or height = "12 mm"
        mending keeps the entry without what cannot be read
    sheets/crash.toml: its counts do not include entry 2 of the ledger
        mending counts that in
    2 things wrong: `oddment mend --write` mends 2, 0 left to you
    "#);
    assert_eq!((stash.read("ledger.toml"), stash.read("sheets/crash.toml")), (LEDGER.into(), SHEET.into()));
    assert!(!stash.path().join("kept-aside").exists());
    let mended = stash.run(&["mend", "--write"]);
    assert_eq!((mended.code, mended.err.as_str()), (0, ""));
    assert!(
        mended.out.contains("2 things wrong: 2 mended, 0 left to you\nthe files as they were are in "),
        "{}",
        mended.out
    );
    assert_eq!(fs::read_to_string(kept(&stash).join("ledger.toml")).unwrap(), LEDGER);
    assert_eq!(fs::read_to_string(kept(&stash).join("sheets/crash.toml")).unwrap(), SHEET);
    assert_eq!(stash.run(&["mend"]).out, "nothing is wrong\n");
    let counted = stash.run(&["count", "crash", "A"]);
    assert!(counted.out.contains("6 left, 5 before"), "{}", counted.out);
}

#[test]
fn it_answers_in_json() {
    let stash = damaged();
    stash.write("pages/torn.toml", "[[strip]]\nwording = 'AB\u{1b}\n");
    let told = stash.run(&["mend", "--json"]);
    assert_eq!((told.code, told.err.as_str()), (1, ""));
    let answer = json(&told);
    assert_eq!(
        (&answer["format"], &answer["written"], &answer["kept"]),
        (&1.into(), &false.into(), &Value::Null)
    );
    let found = answer["found"].as_array().unwrap();
    let files: Vec<&str> = found.iter().map(|one| one["file"].as_str().unwrap()).collect();
    assert_eq!(files, ["ledger.toml", "sheets/crash.toml", "pages/torn.toml"]);
    assert_eq!((&found[0]["line"], &found[1]["will"]), (&13.into(), &"counts that in".into()));
    assert!(found[1]["by_hand"].is_null() && found[2]["will"].is_null() && found[2]["by_hand"].is_string());
    assert!(found.iter().all(|one| !one["what"].as_str().unwrap().contains('\u{1b}')));
    // The torn plan is left to the owner: the answer stays no.
    let mended = stash.run(&["mend", "--write", "--json"]);
    assert_eq!(mended.code, 1);
    let answer = json(&mended);
    assert_eq!((&answer["written"], answer["found"].as_array().unwrap().len()), (&true.into(), 3));
    assert_eq!(answer["kept"].as_str().unwrap(), kept(&stash).to_str().unwrap());
    let again = stash.run(&["mend", "--write", "--json"]);
    assert_eq!(
        (again.code, &json(&again)["written"], &json(&again)["kept"]),
        (1, &false.into(), &Value::Null)
    );
}

#[test]
fn a_stash_that_another_program_holds_is_looked_at_and_not_written() {
    let stash = damaged();
    stash.write("sheets/.writing-abc.part", "in the making");
    let folder = oddment::files::StashFolder::at(stash.path());
    let oddment::files::Access::Writer(lock) = folder.ask_to_mend().unwrap() else {
        unreachable!("it is free")
    };
    let told = stash.run(&["mend"]);
    assert_eq!(told.code, 1);
    assert!(told.err.starts_with("oddment: another oddment has this stash open"), "{}", told.err);
    assert!(!told.out.contains(".part"), "{}", told.out);
    let refused = stash.run(&["mend", "--write"]);
    assert_eq!((refused.code, refused.out.as_str()), (3, ""));
    drop(lock);
    assert!(stash.run(&["mend"]).out.contains("sheets/.writing-abc.part"));
}

#[cfg(unix)]
#[test]
fn a_read_only_stash_is_looked_at_and_not_written() {
    use std::os::unix::fs::PermissionsExt as _;
    let stash = damaged();
    let mode = |mode| fs::set_permissions(stash.path(), fs::Permissions::from_mode(mode)).unwrap();
    mode(0o555);
    let (told, refused) = (stash.run(&["mend"]), stash.run(&["mend", "--write"]));
    mode(0o755);
    assert_eq!((told.code, told.err.as_str()), (1, ""));
    assert!(told.out.contains("sheets/crash.toml: its counts do not include"), "{}", told.out);
    assert_eq!((refused.code, refused.out.as_str()), (2, ""));
    assert_eq!(stash.read("ledger.toml"), LEDGER);
}

#[test]
fn a_sheet_changed_by_hand_over_an_entry_is_asked_about_everywhere() {
    let stash = Stash::sample();
    stash.write("ledger.toml", LEDGER.replace("= 3 }\n\nwhat?", "= 3 }\nhad = { \"crash/A\" = 9 }"));
    stash.write("sheets/crash.toml", SHEET);
    let sentence = "crash/A (9 before, 2 now) changed by hand before entry 2 of the ledger was counted in it; `oddment mend --write` \
         counts that in now, or, if your counts include it already, write as_of = 2 into the file";
    let listed = stash.run(&["stash", "crash"]);
    assert_eq!(listed.err, format!("sheets/crash.toml:1:1: warning: as_of: {sentence}\n"));
    assert!(listed.out.contains("crash/A") && listed.out.contains("2 left"), "{}", listed.out);
    let refused = stash.run(&["count", "crash", "A"]);
    assert_eq!((refused.code, refused.err), (2, format!("oddment: sheets/crash.toml: {sentence}\n")));
    assert_eq!(stash.run(&["mend"]).code, 1);
    assert_eq!(stash.run(&["mend", "--write"]).code, 0);
    let counted = stash.run(&["count", "crash", "A"]);
    assert!(counted.out.contains("6 left, 5 before"), "{}", counted.out);
}

#[test]
fn a_ledger_that_is_gone_keeps_anything_from_being_recorded_until_it_is_back_or_begun_anew() {
    let stash = Stash::sample();
    assert_eq!(stash.run(&["suggest", "lantern-walk", "--apply", "--seconds", "600"]).code, 0);
    for _ in 0..3 {
        assert_eq!(stash.run(&["count", "kelp-caps", "A"]).code, 0);
    }
    assert_eq!(stash.run(&["stick", "lantern-walk"]).code, 0);
    let whole = stash.read("ledger.toml");
    let left = |stash: &Stash| stash.run(&["stash", "--csv"]).out;
    let counts = left(&stash);
    let table = stash.path().join("more.csv");
    fs::write(&table, "sheet,form,height,colour,character,left\nnew,tile,12 mm,teal,S,1\n").unwrap();
    let wants: [&[&str]; 4] = [
        &["count", "kelp-caps", "A"],
        &["count", "little-oars", "e"],
        &["lift", "lantern-walk"],
        &["take-in", table.to_str().unwrap()],
    ];
    let ledger = stash.path().join("ledger.toml");
    for empty in [false, true] {
        fs::remove_file(&ledger).unwrap();
        if empty {
            stash.write("ledger.toml", "\n");
        }
        let sheet = stash.read("sheets/kelp-caps.toml");
        for args in wants {
            let refused = stash.run(args);
            assert_eq!((refused.code, refused.out.as_str()), (2, ""), "{args:?}: {}", refused.err);
            let said = "ledger.toml:1:1: it is gone, or empty, though sheets/";
            assert!(refused.err.contains(said), "{}", refused.err);
            assert!(
                refused.err.contains("put the file back") && refused.err.contains("oddment mend --write")
            );
        }
        assert_eq!((ledger.exists(), stash.read("sheets/kelp-caps.toml")), (empty, sheet));
        let told = stash.run(&["mend"]);
        assert_eq!(told.code, 1);
        assert!(told.out.starts_with("ledger.toml: it is gone, or empty, though sheets/"), "{}", told.out);
        assert_eq!(left(&stash), counts, "what is left is told all the same");
        stash.write("ledger.toml", &whole);
    }
    assert_eq!(stash.run(&["count", "kelp-caps", "A"]).code, 0, "it is back");
    let counts = left(&stash);
    fs::remove_file(&ledger).unwrap();
    assert_eq!(stash.run(&["mend", "--write"]).code, 0);
    assert_eq!(stash.run(&["mend"]).out, "nothing is wrong\n");
    assert_eq!(left(&stash), counts);
    let counted = stash.run(&["count", "kelp-caps", "A", "--json"]);
    let entry = json(&counted)["entry"].as_u64().unwrap();
    assert!(entry > 6, "6 entries were there: {}", counted.out);
    assert_eq!(stash.run(&["lift", "lantern-walk"]).code, 0);
}

#[test]
fn a_plan_alone_that_is_stuck_down_tells_that_the_ledger_is_gone() {
    let stash = Stash::nowhere();
    fs::create_dir_all(stash.path().join("pages")).unwrap();
    fs::create_dir_all(stash.path().join("sheets")).unwrap();
    stash.write("sheets/crash.toml", SHEET.replace("as_of = 1\n", ""));
    let by_hand = "by = \"hand\"\nlabel = \"button\"\nwidth = \"8 mm\"\n";
    stash.write(
        "pages/quay.toml",
        format!("[[strip]]\nwording = \"O\"\nstuck = 41\n[[strip.letter]]\nslot = 1\n{by_hand}"),
    );
    let refused = stash.run(&["count", "crash", "A"]);
    assert_eq!(refused.code, 2);
    assert!(refused.err.contains("though the plan quay has stuck = 41"), "{}", refused.err);
    assert_eq!(stash.run(&["mend", "--write"]).code, 0);
    assert_eq!(stash.run(&["mend"]).out, "nothing is wrong\n");
    let counted = stash.run(&["count", "crash", "A", "--json"]);
    assert_eq!(json(&counted)["entry"], 42, "{}", counted.out);
}
