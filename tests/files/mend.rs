//! What mending finds wrong: what is said of it, what becomes of it, and that nothing is left afterwards and nothing lost.
//!
//! Must not know how it is found.
#![expect(clippy::unwrap_used, reason = "a test may fail loudly")]

use std::fs;

use oddment::files::Access;

use super::ailing::{DAY, Stage, added, plan, sheet, stuck};

#[test]
fn a_whole_stash_has_nothing_wrong_and_is_not_written() {
    let stage = Stage::of(&[
        ("sheets/kelp.toml", sheet(2, 1, "as_of = 2").as_bytes()),
        ("sheets/own.toml", sheet(2, 1, "").as_bytes()),
        ("pages/walk.toml", plan("stuck = 1").as_bytes()),
        (
            "ledger.toml",
            (stuck(1, "\"kelp/A\" = 1, \"kelp/L\" = 1") + &added(2, "\"kelp/A\" = 1")).as_bytes(),
        ),
    ]);
    let before = stage.files();
    assert_eq!(stage.told(), Vec::<String>::new());
    let mended = stage.mend();
    assert_eq!((mended.is_written, mended.kept), (false, None));
    assert_eq!(stage.files(), before);
    assert_eq!(Stage::of(&[]).told(), Vec::<String>::new());
}

#[test]
fn a_ledger_that_is_gone_is_begun_again_and_no_count_changes() {
    let stage = Stage::of(&[
        ("sheets/kelp.toml", sheet(2, 1, "as_of = 7").as_bytes()),
        ("sheets/oars.toml", sheet(4, 0, "as_of = 3").as_bytes()),
        ("pages/walk.toml", plan("stuck = 5").as_bytes()),
    ]);
    insta::assert_snapshot!(stage.told().join("\n"));
    stage.mend();
    insta::assert_snapshot!("begun_again", stage.text("ledger.toml"));
    assert_eq!((stage.left("kelp/A"), stage.left("kelp/L"), stage.left("oars/A")), (2, 1, 4));
    assert!(stage.text("sheets/kelp.toml").contains("as_of = 8\n"));
    assert!(stage.text("sheets/kelp.toml").contains("A = 2 # a\n"));
    assert_eq!(stage.text("pages/walk.toml"), plan("stuck = 5"));
}

#[test]
fn entries_that_can_be_read_are_kept_as_they_are_written() {
    let mut ledger = b"# mine\n".to_vec();
    ledger.extend(added(1, "\"kelp/A\" = 1").replace("kind", "# one\nkind").into_bytes());
    ledger.extend(
        b"[[entry]]\nnumber = 2\ndate = \"2031-01-02\"\nkind = \"added\"\nchips = { \"kelp/A\" = \n\n",
    );
    ledger.extend(added(3, "\"kelp/L\" = 1").into_bytes());
    ledger.extend(
        b"[[entry]]\nnumber = 4\ndate = \"2031-01-02\"\nkind = \"lost\"\nchips = { \"kelp/A\" = 1 }\n\n",
    );
    ledger.extend(added(5, "\"kelp/L\" = 1").into_bytes());
    ledger.extend(b"\0\0\0\0\xff");
    let stage =
        Stage::of(&[("sheets/kelp.toml", sheet(2, 1, "as_of = 5").as_bytes()), ("ledger.toml", &ledger)]);
    assert!(stage.stash().load().unwrap().is_ledger_damaged);
    insta::assert_snapshot!(stage.told().join("\n"));
    let mended = stage.mend();
    assert_eq!(fs::read(mended.kept.unwrap().join("ledger.toml")).unwrap(), ledger);
    let text = stage.text("ledger.toml");
    let kept = added(1, "\"kelp/A\" = 1").replace("kind", "# one\nkind")
        + &added(3, "\"kelp/L\" = 1")
        + &added(5, "\"kelp/L\" = 1");
    assert_eq!(text, format!("# mine\n\n{}\n", kept.trim_end()));
    assert_eq!((stage.left("kelp/A"), stage.left("kelp/L")), (2, 1));
}

#[test]
fn a_ledger_of_nothing_but_noise_is_begun_again() {
    for noise in [
        &b"\xff\xfe\0\0 ]] = = [["[..],
        b"entry = 3\n",
        b"[[entry]\nnumber = 1",
        b"number = \"",
        b"[entry]\nnumber = 1\n",
    ] {
        let stage =
            Stage::of(&[("sheets/kelp.toml", sheet(2, 1, "as_of = 5").as_bytes()), ("ledger.toml", noise)]);
        assert!(stage.told().iter().any(|one| one.starts_with("ledger.toml:")), "{:?}", stage.told());
        let mended = stage.mend();
        assert_eq!(fs::read(mended.kept.unwrap().join("ledger.toml")).unwrap(), noise);
        assert_eq!((stage.left("kelp/A"), stage.left("kelp/L")), (2, 1));
    }
}

#[test]
fn a_ledger_written_in_another_way_is_read_as_a_whole() {
    let inline =
        "entry = [{ number = 2, date = \"2031-01-02\", kind = \"added\", chips = { \"kelp/A\" = 1 } }]\n";
    let stage = Stage::of(&[
        ("sheets/kelp.toml", sheet(2, 1, "as_of = 5").as_bytes()),
        ("ledger.toml", inline.as_bytes()),
    ]);
    stage.mend();
    assert_eq!(stage.stash().load().unwrap().ledger.entries().len(), 2);
}

#[test]
fn counts_behind_the_ledger_are_brought_up() {
    let stage = Stage::of(&[
        ("sheets/kelp.toml", sheet(2, 1, "as_of = 1").as_bytes()),
        (
            "ledger.toml",
            (added(1, "\"kelp/A\" = 1") + &added(2, "\"kelp/A\" = 3") + &added(3, "\"kelp/L\" = -4"))
                .as_bytes(),
        ),
    ]);
    insta::assert_snapshot!(stage.told().join("\n"), @r"
    sheets/kelp.toml: its counts do not include what the ledger has from entry 2 to 3 | mending counts that in
    sheets/kelp.toml: more was used than there was of kelp/L | mending counts 0; count these anew
    ");
    stage.mend();
    assert_eq!(stage.text("sheets/kelp.toml"), sheet(5, 0, "as_of = 3"));
}

#[test]
fn counts_changed_by_hand_over_an_entry_are_asked_about() {
    let had = stuck(2, "\"kelp/A\" = 1, \"kelp/L\" = 1")
        .replace("\n\n", "\nhad = { \"kelp/A\" = 3, \"kelp/L\" = 1 }\n");
    let files = |as_of: u32| {
        Stage::of(&[
            ("sheets/kelp.toml", sheet(6, 1, &format!("as_of = {as_of}")).as_bytes()),
            ("pages/walk.toml", plan("stuck = 2").as_bytes()),
            ("ledger.toml", (added(1, "\"kelp/A\" = 1") + &had).as_bytes()),
        ])
    };
    let stage = files(1);
    insta::assert_snapshot!(stage.told().join("\n"), @r"
    sheets/kelp.toml: kelp/A (3 before, 6 now) changed by hand before entry 2 of the ledger was counted in it | mending counts that in now; if your counts include it already, write as_of = 2 into the file first
    ");
    let loaded = stage.stash().load().unwrap();
    assert_eq!(stage.left("kelp/A"), 6, "what the file says");
    insta::assert_snapshot!(loaded.problems.to_string(), @r"
    sheets/kelp.toml:1:1: warning: as_of: kelp/A (3 before, 6 now) changed by hand before entry 2 of the ledger was counted in it; `oddment mend --write` counts that in now, or, if your counts include it already, write as_of = 2 into the file
    ");
    stage.mend();
    assert_eq!(stage.text("sheets/kelp.toml"), sheet(5, 0, "as_of = 2"));
    assert_eq!(files(2).told(), Vec::<String>::new(), "the other way out");
}

#[test]
fn a_sheet_ahead_of_the_ledger_is_written_into_it() {
    let stage = Stage::of(&[
        ("sheets/kelp.toml", sheet(2, 1, "as_of = 9").as_bytes()),
        ("sheets/none.toml", b"form = \"tile\"\nheight = 20\ncolour = \"teal\"\nas_of = 12\n[letters]\n"),
        ("sheets/odd.toml", sheet(2, 1, "as_of = 4294967295").as_bytes()),
        ("ledger.toml", added(3, "\"kelp/A\" = 1").as_bytes()),
    ]);
    insta::assert_snapshot!(stage.told().join("\n"), @r"
    sheets/kelp.toml: its counts include entry 9, and the ledger ends with 3: entries were lost | mending leaves the counts as they are, and writes them into the ledger as counted today
    sheets/none.toml: its counts include entry 12, and the ledger ends with 3: entries were lost | mending leaves the counts as they are, and writes them into the ledger as counted today
    sheets/odd.toml: as_of = 4294967295 is a number that no entry can have | by hand: take the line as_of out: without it the counts are your own, and include all there was
    ");
    stage.mend();
    let ledger = stage.stash().load().unwrap().ledger;
    assert_eq!(ledger.last(), 13, "above all that any sheet speaks of");
    assert!(
        stage.text("ledger.toml").starts_with(added(3, "\"kelp/A\" = 1").trim_end())
            || stage.text("ledger.toml").starts_with('#')
    );
    assert_eq!(stage.text("sheets/kelp.toml"), sheet(2, 1, "as_of = 13"));
}

#[test]
fn entries_out_of_order_or_with_one_number_are_told_apart() {
    let (one, two, three) =
        (added(1, "\"kelp/A\" = 1"), stuck(2, "\"kelp/A\" = 1, \"kelp/L\" = 1"), added(3, "\"kelp/L\" = 2"));
    let other = added(3, "\"oars/A\" = 5, \"kelp/A\" = 1");
    let stage = Stage::of(&[
        ("sheets/kelp.toml", sheet(2, 1, "as_of = 3").as_bytes()),
        ("sheets/oars.toml", sheet(2, 1, "as_of = 2").as_bytes()),
        ("pages/walk.toml", plan("stuck = 2").as_bytes()),
        ("ledger.toml", format!("{two}{one}{two}{three}{other}").as_bytes()),
    ]);
    insta::assert_snapshot!(stage.told().join("\n"), @r"
    ledger.toml: entry 1 stands after entry 2 | mending puts them in order
    ledger.toml: entry 2 stands here twice | mending leaves one of the two out
    ledger.toml: two entries that differ have the number 3 | mending gives the later one the number 4; counts that include 3 stay as they are: see whether they are right
    ");
    stage.mend();
    let numbers: Vec<u32> =
        stage.stash().load().unwrap().ledger.entries().iter().map(|one| one.number).collect();
    assert_eq!(numbers, [1, 2, 3, 4, 5]);
    // The sheet that counted the entry in keeps its counts, the one that did not gets it.
    assert_eq!((stage.left("kelp/A"), stage.left("kelp/L"), stage.left("oars/A")), (2, 1, 7));
}

#[test]
fn counts_below_zero_become_zero() {
    let text = "form = \"tile\"\nheight = 20\ncolour = \"teal\"\n[letters]\nA = -2 # a\nB = { left = -1, width = \"9 mm\" }\nC = [{ left = 2 }, { mark = \"x\", left = -3 }]\nD = 4\n";
    let stage = Stage::of(&[("sheets/kelp.toml", text.as_bytes())]);
    insta::assert_snapshot!(stage.told().join("\n"), @r"
    sheets/kelp.toml: it counts fewer than none of A, B, C | mending writes 0; count these anew
    ");
    stage.mend();
    assert_eq!(stage.text("sheets/kelp.toml"), text.replace("-2", "0").replace("-1", "0").replace("-3", "0"));
}

#[test]
fn a_plan_that_does_not_agree_is_told_and_only_its_owner_can_tell_what_is_on_the_page() {
    let mend = |plans: &[(&str, String)]| {
        let kelp = sheet(2, 1, "as_of = 3");
        let ledger = stuck(1, "\"kelp/A\" = 1, \"kelp/L\" = 1") + &added(3, "\"kelp/A\" = 1");
        let mut files = vec![("sheets/kelp.toml", kelp.as_bytes()), ("ledger.toml", ledger.as_bytes())];
        files.extend(plans.iter().map(|(name, text)| (*name, text.as_bytes())));
        let stage = Stage::of(&files);
        let told = stage.told().join("\n");
        stage.mend();
        (told, stage)
    };
    // A crash before it was marked.
    let (told, stage) = mend(&[("pages/walk.toml", plan(""))]);
    insta::assert_snapshot!(told, @r"
    pages/walk.toml: it does not say all that the ledger has of what is stuck down on it | mending marks in it what is stuck down
    ");
    assert!(stage.text("pages/walk.toml").contains("stuck = 1"));
    // Entry 2 is lost, and all sheets include it: a copy of the strip under another name.
    let (told, stage) =
        mend(&[("pages/walk.toml", plan("stuck = 1")), ("pages/pier.toml", plan("stuck = 2"))]);
    insta::assert_snapshot!(told, @r"
    pages/pier.toml: its title is stuck down by entry 2, which the ledger does not have | mending writes the entry again, with this day; all counts stay as they are
    ");
    assert_eq!((stage.left("kelp/A"), stage.stash().load().unwrap().ledger.entries().len()), (2, 3));
    // A copy of a plan; letters that differ; an entry that sticks nothing down; an entry to come.
    let copy = mend(&[("pages/walk.toml", plan("stuck = 1")), ("pages/pier.toml", plan("stuck = 1"))]).0;
    let differs = mend(&[("pages/walk.toml", plan("stuck = 1").replace("kelp/L", "kelp/A"))]).0;
    let no_stick = mend(&[("pages/walk.toml", plan("stuck = 3").replace("title", "x"))]).0;
    let to_come = mend(&[("pages/walk.toml", plan("stuck = 8"))]).0;
    let gone = mend(&[("pages/pier.toml", plan("").replace("kelp/A", "moss/A"))]).0;
    insta::assert_snapshot!([copy, differs, no_stick, to_come, gone].join("\n"), @r"
    pages/pier.toml: its title is stuck down by entry 1, which is about walk | by hand: if it is a copy of walk, take the line stuck = 1 out of it
    pages/walk.toml: its title has other letters stuck down than the ledger: kelp/A x 2; the ledger has kelp/A, kelp/L | by hand: look at the page. Where the plan is wrong, write into it what is there. Where it is right, `oddment lift walk --strip title` and `oddment stick walk --strip title` write it down anew; then see whether the sheets count right
    pages/walk.toml: its title is stuck down by entry 3, which sticks nothing down | by hand: if they are on the page, `oddment lift walk --strip title` and `oddment stick walk --strip title` write that down anew; if not, take the line stuck = 3 out
    pages/walk.toml: its title is stuck down by entry 8, which the ledger does not have | by hand: if they are on the page, `oddment lift walk --strip title` and `oddment stick walk --strip title` write that down anew; if not, take the line stuck = 8 out
    pages/pier.toml: its title has letters that no sheet has: moss/A | by hand: swap in others, or bring the sheet back; a sheet whose file was renamed tells its old name in was
    ");
    // Another plan of its name, or one that was changed by hand before it was marked.
    let (another, stage) = mend(&[("pages/walk.toml", plan("").replace("kelp/L", "kelp/A"))]);
    insta::assert_snapshot!(another, @r"
    pages/walk.toml: by the ledger its title has kelp/A, kelp/L stuck down, and other letters stand in it | by hand: if it is another page than walk was, give its file another name; if it is that page, write into it what is there, and mending marks it
    ");
    assert!(!stage.text("pages/walk.toml").contains("stuck"));
    // A plan that was renamed is the same page.
    assert_eq!(mend(&[("pages/pier.toml", plan("stuck = 1"))]).0, "");
}

#[test]
fn lifting_and_sticking_anew_is_a_way_out() {
    let stage = Stage::of(&[
        ("sheets/kelp.toml", sheet(2, 1, "as_of = 1").as_bytes()),
        ("pages/walk.toml", plan("stuck = 8").as_bytes()),
        ("ledger.toml", stuck(1, "\"kelp/A\" = 1").as_bytes()),
    ]);
    assert_eq!(stage.told().len(), 1, "{:?}", stage.told());
    let stash = stage.stash();
    let Access::Writer(lock) = stash.ask_to_write().unwrap() else { unreachable!("nobody else is here") };
    let file = stash.find_plan("walk").unwrap();
    for lifting in [true, false] {
        let loaded = stash.load().unwrap();
        let plan = stash.open_plan(&file, &loaded.colours, &loaded.stash).unwrap().plan;
        let on = (&file, &plan, 0);
        let done = if lifting {
            stash.lift(&lock, on, oddment::files::Lift::All, DAY, &loaded.colours)
        } else {
            stash.stick(&lock, on, DAY, &loaded.colours)
        };
        assert!(done.unwrap().is_some());
    }
    drop(lock);
    assert_eq!(stage.told(), Vec::<String>::new());
    assert_eq!((stage.left("kelp/A"), stage.left("kelp/L")), (2, 1));
}

#[test]
fn what_a_crash_left_is_taken_in_or_away() {
    let weed = sheet(3, 3, "as_of = 2");
    let stage = Stage::of(&[
        ("sheets/kelp.toml", sheet(2, 1, "as_of = 1").as_bytes()),
        ("sheets/.waiting-2-weed", weed.as_bytes()),
        ("sheets/.waiting-3-moss", weed.as_bytes()),
        ("sheets/.waiting-kelp", b"?"),
        ("sheets/.writing-abc.part", b"for"),
        ("pages/.writing-def.part", b""),
        ("kept-aside/2031-11-04-1/sheets/.writing-x.part", b"f"),
        (
            "ledger.toml",
            (added(1, "\"kelp/A\" = 1") + &added(2, "\"weed/A\" = 3, \"weed/L\" = 3")).as_bytes(),
        ),
    ]);
    insta::assert_snapshot!(stage.told().join("\n"), @r"
    sheets/.waiting-2-weed: the new sheet weed of entry 2 was not taken in yet | mending takes it in as sheets/weed.toml
    sheets/.waiting-3-moss: it was left by a program that was stopped before it took the new sheet moss in | mending keeps a copy aside and takes it away
    sheets/.waiting-kelp: its name tells neither an entry nor a sheet, and nothing waits for it | mending keeps a copy aside and takes it away
    sheets/.writing-abc.part: it was left by a program that was stopped while it wrote | mending takes it away: it was never whole
    pages/.writing-def.part: it was left by a program that was stopped while it wrote | mending takes it away: it was never whole
    kept-aside/2031-11-04-1/sheets/.writing-x.part: it was left by a program that was stopped while it wrote | mending takes it away: it was never whole
    ");
    stage.mend();
    assert_eq!(stage.text("sheets/weed.toml"), weed);
    let names: Vec<String> = stage.files().into_keys().collect();
    assert_eq!(names, ["ledger.toml", "sheets/kelp.toml", "sheets/weed.toml"]);
}

#[test]
fn names_that_two_sheets_share_and_files_with_errors_are_left_to_the_owner() {
    let stage = Stage::of(&[
        ("sheets/kelp.toml", sheet(2, 1, "was = [\"weed\", \"oars\"]").as_bytes()),
        ("sheets/moss.toml", sheet(2, 1, "was = [\"weed\"]").as_bytes()),
        ("sheets/oars.toml", sheet(2, 1, "").as_bytes()),
        ("sheets/bad.toml", b"form = 'tle'\nheight = '12 mm'\ncolour = 'teal'\n[letters]\nA = -1\n"),
        ("pages/walk.toml", b"[[strip]]\nwording = 'AB\n"),
        ("trials/walk.toml", b"format = 9\n"),
        ("wishes.toml", b"[[wish]]\n"),
        ("on-sale.toml", b"[[sheet]]\nform = 'tile'\nheight = '12 mm'\ncolour = 'teal'\nsort = 1\n[sheet.letters]\nA = 1000\n"),
        ("taste.toml", b"[ends]\npoints = -1\n"),
    ]);
    let before = stage.files();
    insta::assert_snapshot!(stage.told().join("\n"), @r#"
    sheets/kelp.toml: it was called weed, by its line was, and so is or was moss: what is told of weed counts on both | by hand: take "weed" out of was, in the one that never had the name
    sheets/kelp.toml: it was called oars, by its line was, and so is or was oars: what is told of oars counts on both | by hand: take "oars" out of was, in the one that never had the name
    taste.toml:2:10: ends.points: -1 makes no sense here; write 0.0 to 1000.0 (an end of the line that is not in the main colour) | by hand: set it right in the file; mending leaves the file as it is
    sheets/bad.toml:1:8: form: "tle" is none of tile, die-cut; did you mean tile? | by hand: set it right in the file; mending leaves the file as it is
    sheets/bad.toml:5:5: letters.A: -1 is no count that serves; write a whole number from 0 to 999 | by hand: set it right in the file; mending leaves the file as it is
    pages/walk.toml:2:14: invalid literal string, expected `'`; a line is key = value, such as E = 3 or height = "12 mm" | by hand: set it right in the file; mending leaves the file as it is
    wishes.toml:1:1: wish.wording: it is missing; add wording = "HARBOUR LIGHTS" or what it is to say | by hand: set it right in the file; mending leaves the file as it is
    on-sale.toml:7:5: sheet.letters.A: 1000 is no count that serves; write a whole number from 0 to 999 | by hand: set it right in the file; mending leaves the file as it is
    trials/walk.toml:1:1: strip: a plan needs a strip; add [[strip]] with a wording | by hand: set it right in the file; mending leaves the file as it is
    trials/walk.toml:1:10: format: 9 is a format that this program does not know; it reads 1 | by hand: set it right in the file; mending leaves the file as it is
    "#);
    let mended = stage.mend();
    assert_eq!((mended.is_written, mended.kept), (false, None));
    assert_eq!(stage.files(), before);
}

#[test]
fn each_mending_keeps_its_own_copies() {
    let stage = Stage::of(&[
        ("sheets/kelp.toml", sheet(-2, 1, "").as_bytes()),
        ("kept-aside/2031-11-05-1/x", b"older"),
    ]);
    let kept = stage.mend().kept.unwrap();
    assert!(kept.ends_with("kept-aside/2031-11-05-2"), "{}", kept.display());
    fs::write(stage.folder.path().join("sheets/kelp.toml"), sheet(-3, 1, "")).unwrap();
    assert!(stage.mend().kept.unwrap().ends_with("kept-aside/2031-11-05-3"));
    assert_eq!(fs::read_to_string(kept.join("sheets/kelp.toml")).unwrap(), sheet(-2, 1, ""));
}

#[test]
fn a_sheet_that_cannot_be_read_is_told_before_the_plans_and_these_are_not_blamed() {
    let sheet = sheet(2, 1, "").replace("form = \"tile\"", "form = \"tiles\"");
    let more = "[[strip.letter]]\nslot = 3\nchip = \"gone/B\"\n";
    let stage = Stage::of(&[
        ("sheets/kelp.toml", sheet.as_bytes()),
        ("pages/walk.toml", (plan("").replace("\"AL\"", "\"ALB\"") + more).as_bytes()),
    ]);
    let told = stage.told();
    assert!(told[0].starts_with("sheets/kelp.toml:2:"), "{told:?}");
    assert!(
        told[1].starts_with("pages/walk.toml: its title has letters that no sheet has: gone/B |"),
        "{told:?}"
    );
    assert_eq!(told.len(), 2, "{told:?}");
}
