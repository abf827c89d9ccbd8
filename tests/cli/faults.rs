//! Wrong use, bad input, a system that fails: the message on standard error, and the exit status.
//!
//! Must not know where a fault is found.

use std::fs;
use std::io;

use super::shell::{Stash, oddment, told};

#[test]
fn wrong_use_ends_with_2() {
    for args in [
        &["check"][..],
        &["check", "a", "b"],
        &["--bogus"],
        &["order", "quay", "--form", "woodcut"],
        &["new"],
        &["completions", "abacus"],
        &["suggest"],
        &["suggest", "quay", "--count", "0"],
        &["suggest", "quay", "--count", "101"],
        &["suggest", "quay", "--seconds", "0"],
        &["suggest", "quay", "--seconds", "-1"],
        &["suggest", "quay", "--seconds", "nan"],
        &["suggest", "quay", "--seconds", "soon"],
        &["--sample", "--stash", "x"],
        &["quay", "check", "quay"],
        &["--sample", "check", "quay"],
    ] {
        let answer = told(oddment(args));
        assert_eq!((answer.code, answer.out.as_str()), (2, ""), "{args:?}");
        assert!(!answer.err.is_empty(), "{args:?}");
    }
}

#[test]
fn without_a_terminal_the_bench_refuses() {
    let answer = told(oddment(&["--sample"]));
    assert_eq!(answer.code, 2);
    assert!(answer.err.contains("start oddment from a terminal"), "{}", answer.err);
}

#[test]
fn an_unknown_plan_is_told_with_the_nearest() {
    let stash = Stash::sample();
    for command in ["check", "order", "suggest"] {
        let answer = stash.run(&[command, "lantern-wlak"]);
        assert_eq!((answer.code, answer.out.as_str()), (2, ""));
        assert_eq!(
            answer.err,
            "oddment: there is no page plan \"lantern-wlak\"; did you mean lantern-walk?\n"
        );
    }
    let answer = stash.run(&["check", "sea\u{1b}[31m"]);
    assert_eq!(answer.code, 2);
    assert!(!answer.err.contains('\u{1b}'), "{:?}", answer.err);
}

#[test]
fn an_unknown_sheet_is_told() {
    let answer = Stash::sample().run(&["stash", "kelp-capz"]);
    assert_eq!((answer.code, answer.out.as_str()), (2, ""));
    assert!(answer.err.contains("there is no sheet \"kelp-capz\""), "{}", answer.err);
}

#[test]
fn a_bad_sheet_is_told_by_line_and_column_and_the_rest_is_listed() {
    let stash = Stash::sample();
    stash.write("sheets/broken.toml", "colour = 'teal'\nform = 'tle'\nheight = '12 mm'\n[letters]\nA = -1\n");
    stash.write("sheets/torn.toml", b"form = '\xff'\n");
    let answer = stash.run(&["stash"]);
    assert_eq!(answer.code, 2);
    insta::assert_snapshot!(answer.err, @r#"
    sheets/broken.toml:2:8: form: "tle" is none of tile, die-cut; did you mean tile?
    sheets/broken.toml:5:5: letters.A: -1 is no count that serves; write a whole number from 0 to 999
    sheets/torn.toml:1:9: here is a byte that is no UTF-8; save the file as UTF-8
    "#);
    assert!(answer.out.contains("kelp-caps") && !answer.out.contains("broken"), "{}", answer.out);
    let checked = stash.run(&["check", "quayside-supper"]);
    assert_eq!((checked.code, checked.err), (0, answer.err));
}

#[test]
fn a_bad_plan_is_told_and_not_judged() {
    let stash = Stash::sample();
    stash.write("pages/bad.toml", "[[strip]]\nwording = 3\n");
    let answer = stash.run(&["check", "bad"]);
    assert_eq!((answer.code, answer.out.as_str()), (2, ""));
    assert_eq!(answer.err.matches("pages/bad.toml:2:").count(), 1, "{}", answer.err);
    stash.write("sheets/bad.toml", "form = 'tle'\n");
    let both = stash.run(&["suggest", "bad"]).err;
    assert!(both.contains("sheets/bad.toml:1:") && both.ends_with(&answer.err), "{both}");
}

#[test]
fn new_takes_no_plan_s_place_and_reads_its_words() {
    let stash = Stash::sample();
    let before = stash.read("pages/lantern-walk.toml");
    for (args, told) in [
        (&["new", "Lantern Walk"][..], "there is a page plan \"lantern-walk\" already"),
        (&["new", "x", "--ground", "teel"], "--ground: \"teel\" is no colour"),
        (&["new", "x", "--page-size", "huge"], "--page-size: "),
        (&["new", "x", "--wording", "A|B|C"], "--wording: it has 3 lines"),
        (&["new", " "], "a page's name is a line of text"),
    ] {
        let answer = stash.run(args);
        assert_eq!((answer.code, answer.out.as_str()), (2, ""), "{args:?}");
        assert!(answer.err.contains(told), "{args:?}: {}", answer.err);
    }
    assert_eq!(stash.read("pages/lantern-walk.toml"), before);
    assert!(!stash.path().join("pages/x.toml").exists());
}

#[test]
fn a_broken_pipe_is_quiet() {
    let stash = Stash::sample();
    let folder = stash.path();
    let folder = folder.to_str().unwrap();
    for args in [
        &["stash", "--stash", folder][..],
        &["check", "quayside-supper", "--json", "--stash", folder],
        &["order", "quayside-supper", "--stash", folder],
        &["suggest", "quayside-supper", "--strip", "subtitle", "--stash", folder],
        &["suggest", "quayside-supper", "--strip", "subtitle", "--json", "--stash", folder],
        &["spell", "HARBOUR", "--explain", "--stash", folder],
        &["ideas", "--count", "5", "--stash", folder],
        &["restock", "--stash", folder],
        &["restock", "--json", "--stash", folder],
        &["completions", "zsh"],
        &["man"],
        &["--help"],
    ] {
        let (reader, writer) = io::pipe().unwrap();
        drop(reader);
        let mut command = oddment(args);
        let output = command.stdout(writer).stderr(std::process::Stdio::piped()).spawn().unwrap();
        let output = output.wait_with_output().unwrap();
        assert_eq!((output.status.code(), output.stderr), (Some(0), Vec::new()), "{args:?}");
    }
}

#[test]
fn a_file_in_place_of_the_folder_is_told() {
    let stash = Stash::nowhere();
    fs::write(stash.path(), "x").unwrap();
    let answer = stash.run(&["stash"]);
    assert_eq!(answer.code, 2);
    assert!(answer.err.ends_with("is no folder; a stash is a folder with sheets in it\n"), "{}", answer.err);
}

#[test]
fn a_read_only_folder_can_be_read_and_not_written() {
    let stash = Stash::sample();
    let set = |read_only: bool| {
        let mut permissions = fs::metadata(stash.path()).unwrap().permissions();
        permissions.set_readonly(read_only);
        fs::set_permissions(stash.path(), permissions).unwrap();
    };
    set(true);
    assert_eq!(stash.run(&["check", "quayside-supper"]).code, 0);
    let refused = stash.run(&["new", "x"]);
    set(false);
    assert_eq!((refused.code, refused.out.as_str()), (2, ""), "{}", refused.err);
    assert!(refused.err.contains("takes no changes"), "{}", refused.err);
}

#[test]
fn a_place_that_cannot_be_made_ends_with_3() {
    let stash = Stash::nowhere();
    fs::write(stash.path(), "x").unwrap();
    let beneath = stash.path().join("within");
    let answer = told(oddment(&["new", "x", "--stash", beneath.to_str().unwrap()]));
    assert_eq!((answer.code, answer.out.as_str()), (3, ""), "{}", answer.err);
}
