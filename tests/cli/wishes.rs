//! `wishes`: the list, what can be made of it, and changes to it.
//!
//! Must not know how a wording is judged.

use serde_json::{Value, json};

use super::shell::Stash;
use super::spell::{objects, small};

const LIST: &str = "# Mine.\n[[wish]]\nwording = \"BOAT\" # soon\nnote = \"in May\"\n\n[[wish]]\nwording = \"TAB\"\n\n\
    [[wish]]\nwording = \"LOST\\nBOB\"\n";

#[test]
fn each_wish_is_told_and_the_most_that_can_be_made_together() {
    let stash = small();
    stash.write("wishes.toml", LIST);
    let answer = stash.run(&["wishes"]);
    assert_eq!((answer.code, answer.err.as_str()), (1, ""));
    insta::assert_snapshot!(answer.out, @r"
    BOAT: now, from letters of 20 mm
    TAB: now, from letters of 20 mm
    LOST / BOB: short of B
    together: 1 of 3 at once, and no more
      TAB: now, from letters of 20 mm
    ");
    let object = &objects(&stash.run(&["wishes", "--json", "--must", "TAB"]).out)[0];
    assert_eq!(object["wishes"][0]["note"], "in May");
    assert_eq!(object["wishes"][1]["note"], Value::Null);
    assert_eq!(
        (&object["wishes"][0]["verdict"], &object["wishes"][2]["short"]),
        (&json!("now"), &json!({"B": 1}))
    );
    let together = (&object["together"], &object["most"], &object["proven"], &object["refused"]);
    assert_eq!(together, (&json!(["TAB"]), &json!(1), &json!(true), &json!([])));
}

#[test]
fn a_wish_that_must_be_made_and_cannot_is_told() {
    let stash = small();
    stash.write("wishes.toml", "[[wish]]\nwording = \"BOAT\"\n[[wish]]\nwording = \"TAB\"\n");
    assert_eq!(stash.run(&["wishes"]).code, 0, "none is short alone");
    let answer = stash.run(&["wishes", "--must", "BOAT", "--must", "TAB"]);
    assert_eq!((answer.code, answer.err.as_str()), (1, ""));
    assert!(answer.out.ends_with(" cannot be made besides\n"), "{}", answer.out);
    let answer = stash.run(&["wishes", "--must", "BOATS"]);
    let told = "oddment: --must: \"BOATS\" is not wished for; `oddment wishes` lists what is\n";
    assert_eq!((answer.code, answer.out.as_str(), answer.err.as_str()), (2, "", told));
}

#[test]
fn a_title_is_wished_for_and_no_longer() {
    let stash = small();
    stash.write("wishes.toml", LIST);
    let answer = stash.run(&["wishes", "--add", "LATE|MAST", "--note", "the \"old\" one"]);
    assert_eq!((answer.code, answer.err.as_str()), (0, ""));
    assert!(
        answer.out.starts_with("added: LATE / MAST\nBOAT: now, from letters of 20 mm\n"),
        "{}",
        answer.out
    );
    let text = stash.read("wishes.toml");
    assert!(text.starts_with(LIST) && text.contains("LATE"), "{text}");
    let again = stash.run(&["wishes", "--add", "LATE|MAST"]);
    assert_eq!((again.code, again.out.as_str()), (2, ""));
    assert!(again.err.contains("is wished for already"), "{}", again.err);
    let dropped = stash.run(&["wishes", "--drop", "LATE|MAST", "--json"]);
    assert_eq!(dropped.code, 0);
    assert_eq!(objects(&dropped.out)[0]["dropped"], "LATE\nMAST");
    assert_eq!(stash.read("wishes.toml"), LIST);
    let unknown = stash.run(&["wishes", "--drop", "BAOT"]);
    assert_eq!((unknown.code, unknown.out.as_str()), (2, ""));
    assert!(unknown.err.contains("did you mean \"BOAT\"?"), "{}", unknown.err);
}

#[test]
fn wrong_use_changes_nothing() {
    let stash = small();
    stash.write("wishes.toml", LIST);
    for args in [
        &["--add", ""][..],
        &["--add", "A|B|C"],
        &["--add", "A", "--drop", "BOAT"],
        &["--add", "A", "--note", "a\u{1b}b"],
        &["--note", "a"],
        &["--drop", " "],
        &["--seconds", "0"],
    ] {
        let answer = stash.run(&[&["wishes"], args].concat());
        assert_eq!((answer.code, answer.out.as_str()), (2, ""), "{args:?}");
        assert!(!answer.err.is_empty() && !answer.err.contains('\u{1b}'), "{args:?}");
        assert_eq!(stash.read("wishes.toml"), LIST);
    }
}

#[test]
fn nothing_is_wished_for_yet() {
    let stash = small();
    let answer = stash.run(&["wishes"]);
    let told = "oddment: nothing is wished for yet; `oddment wishes --add WORDING` does so\n";
    assert_eq!((answer.code, answer.out.as_str(), answer.err.as_str()), (1, "", told));
    let object = &objects(&stash.run(&["wishes", "--json"]).out)[0];
    assert_eq!((&object["wishes"], &object["together"]), (&json!([]), &json!([])));
    let added = Stash::sample().run(&["wishes", "--add", "KELP"]);
    assert_eq!(added.code, 0, "{}", added.err);
}
