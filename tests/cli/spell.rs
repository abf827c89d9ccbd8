//! `spell`: what can be spelled from a stash of two small sheets.
//!
//! Must not know how a wording is judged.

use std::io::Write;
use std::process::Stdio;

use serde_json::{Value, json};

use super::shell::{Stash, Told, oddment, told};

/// Two sheets of unlike heights.
pub(super) fn small() -> Stash {
    let stash = Stash::nowhere();
    std::fs::create_dir_all(stash.path().join("sheets")).unwrap();
    std::fs::create_dir_all(stash.path().join("pages")).unwrap();
    let caps = "A = 2\nB = 1\nL = 1\nM = 1\nO = 1\nQ = 1\nS = 1\nT = 2\nW = 1\n0 = 1\n5 = 1\n";
    let head =
        "name = \"Sea caps\"\ntag = \"04\"\nform = \"die-cut\"\nheight = \"20 mm\"\ncolour = \"teal\"\n";
    stash.write("sheets/sea-caps.toml", format!("{head}[letters]\n{caps}"));
    let low = "name = \"Low \\u001b tide\"\nform = \"tile\"\nheight = \"10 mm\"\ncolour = \"coral\"\n[letters]\nE = 2\nA = 1\n";
    stash.write("sheets/low-tide.toml", low);
    stash
}

/// Runs a command with something to read on standard input.
pub(super) fn fed(stash: &Stash, args: &[&str], input: impl AsRef<[u8]>) -> Told {
    let mut command = oddment(args);
    command.arg("--stash").arg(stash.path()).stdin(Stdio::piped());
    let mut child = command.stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    let mut pipe = child.stdin.take().unwrap();
    // A command that has read enough closes it early.
    let _ = pipe.write_all(input.as_ref());
    drop(pipe);
    let output = child.wait_with_output().unwrap();
    let text = |bytes| String::from_utf8(bytes).unwrap();
    Told { code: output.status.code().unwrap(), out: text(output.stdout), err: text(output.stderr) }
}

/// The JSON objects of an answer, one a line.
pub(super) fn objects(text: &str) -> Vec<Value> {
    let object = |line: &str| {
        assert!(line.starts_with("{\"format\":1,"), "{line}");
        serde_json::from_str(line).unwrap()
    };
    text.lines().map(object).collect()
}

#[test]
fn each_verdict_is_told_on_a_line_and_a_short_one_ends_with_1() {
    let stash = small();
    let answer = stash.run(&["spell", "BOAT", "BOOT", "BEAT", "SASS", "LATE|MINT"]);
    assert_eq!((answer.code, answer.err.as_str()), (1, ""));
    insta::assert_snapshot!(answer.out, @r"
    BOAT: now, from letters of 20 mm
    BOOT: with stand-ins, from letters of 20 mm: O by 0, of 04 Sea caps
    BEAT: only with mixed heights
    SASS: short of S
    LATE / MINT: short of I, N
    ");
    let answer = stash.run(&["spell", "BOAT", "BOOT", "BEAT"]);
    assert_eq!(answer.code, 0, "none of them is short");
}

#[test]
fn other_programs_read_an_object_a_line() {
    let answer = small().run(&["spell", "--json", "BOAT", "BOOT", "BEAT", "LATE|MINT"]);
    assert_eq!((answer.code, answer.err.as_str()), (1, ""));
    let objects = objects(&answer.out);
    let told = |verdict: &str, wording: &str, band: Value, short: Value, stand_ins: Value| {
        json!({"format": 1, "wording": wording,
        "verdict": verdict, "band": band, "short": short, "stand_ins": stand_ins})
    };
    let zero = json!([{"wanted": "O", "chip": "sea-caps/0", "as": "look-alike", "letters": 1}]);
    let all = [
        told("now", "BOAT", json!([20.0, 20.0]), json!({}), json!([])),
        told("stand-ins", "BOOT", json!([20.0, 20.0]), json!({}), zero),
        told("mixed heights", "BEAT", Value::Null, json!({}), json!([])),
        told("short", "LATE\nMINT", Value::Null, json!({"I": 1, "N": 1}), json!([])),
    ];
    assert_eq!(objects, all);
}

#[test]
fn what_stands_in_is_explained_with_its_source_its_cost_and_a_caution() {
    let stash = small();
    let answer = stash.run(&["spell", "--explain", "BOOTO", "BEAT", "SASS"]);
    assert_eq!((answer.code, answer.err.as_str()), (1, ""));
    insta::assert_snapshot!(answer.out, @r"
    BOOTO
      It can be spelled with stand-ins, from letters of 20 mm: no other letters cost less than these stand-ins, 12.0 in all.
        O by Q trimmed, of 04 Sea caps: 8.0; common practice, no source
        O by 0, of 04 Sea caps: 4.0; confusable by Unicode Technical Standard #39
      Letters to choose from, each asked for so often, of 20 mm:
        B 1, of 1: 1 on 04 Sea caps
        O 3, of 1: 1 on 04 Sea caps
        T 1, of 2: 2 on 04 Sea caps
      By sizes, the largest letters first:
        with stand-ins, from letters of 20 mm: 12.0 in all
      Trimming: cut away from the fingers, on a cutting mat, with a fresh blade; practise on a letter nobody needs.
    BEAT
      It can be spelled only with letters of unlike heights side by side: no band of 1.25 to 1 has all of them.
      Within 20 mm, which comes nearest, it is short of E.
    SASS
      It cannot be spelled: it is short of S. No other use of the letters leaves less short.
        S by 5, of 04 Sea caps: 4.0; common practice, no source
      Within 20 mm, which comes nearest, it is short of S.
        S by 5, of 04 Sea caps: 4.0; common practice, no source
    ");
    let object = &objects(&stash.run(&["spell", "--explain", "--json", "BOOTO"]).out)[0];
    let trimmed = json!({"wanted": "O", "chip": "sea-caps/Q", "as": "trimmed", "letters": 1,
        "because": "common practice, no source", "cost": 8.0});
    assert_eq!(object["stand_ins"][0], trimmed);
    assert_eq!((&object["cost"], &object["nearest"]), (&json!(12.0), &Value::Null));
    assert!(object["cautions"][0].as_str().unwrap().contains("with a fresh blade, on a cutting mat"));
    let object = &objects(&stash.run(&["spell", "--explain", "--json", "BEAT"]).out)[0];
    assert_eq!(object["nearest"]["short"], json!({"E": 1}));
    assert_eq!((&object["nearest"]["band"], &object["cautions"]), (&json!([20.0, 20.0]), &json!([])));
}

#[test]
fn what_is_asked_of_the_letters_changes_the_answer() {
    let stash = small();
    let plan = "[[strip]]\nrole = \"title\"\nwording = \"B\"\n[[strip.letter]]\nslot = 1\nfor = \"B\"\nchip = \"sea-caps/B\"\n";
    stash.write("pages/bay.toml", plan);
    for (args, told) in [
        (&["BOAT"][..], "BOAT: now, from letters of 20 mm\n"),
        (&["BOAT", "--spare-plans"], "BOAT: short of B\n"),
        (
            &["boat"],
            "boat: only with mixed heights: a by A, of Low \\u{1b} tide; b by B, of 04 Sea caps; t by T, of 04 Sea caps\n",
        ),
        (&["boat", "--case", "upper"], "boat: now, from letters of 20 mm\n"),
        (&["boat", "--case", "as-written"], "boat: short of a, b, o, t\n"),
        (&["AE", "--forms", "tile"], "AE: now, from letters of 10 mm\n"),
        (&["AE", "--forms", "die-cut"], "AE: short of E\n"),
        (&["AA", "--tall", "18-22"], "AA: now, from letters of 20 mm\n"),
        (&["AA", "--tall", "0.3-0.5in"], "AA: short of A\n"),
    ] {
        let answer = stash.run(&[&["spell"], args].concat());
        assert_eq!((answer.out.as_str(), answer.err.as_str()), (told, ""), "{args:?}");
    }
}

#[test]
fn a_list_is_read_line_by_line() {
    let stash = small();
    let list = "\u{feff}# Titles\r\n\r\n  BOAT \r\nLATE|MAST\n\nSASS";
    stash.write("titles.txt", list);
    let file = stash.path().join("titles.txt");
    let answer = stash.run(&["spell", "TAB", "--list", file.to_str().unwrap()]);
    let told = "TAB: now, from letters of 20 mm\nBOAT: now, from letters of 20 mm\nLATE / MAST: only with mixed heights\nSASS: short of S\n";
    assert_eq!((answer.code, answer.out.as_str(), answer.err.as_str()), (1, told, ""));
    let answer = fed(&stash, &["spell", "--list", "-"], "TAB\n");
    assert_eq!(
        (answer.code, answer.out.as_str(), answer.err.as_str()),
        (0, "TAB: now, from letters of 20 mm\n", "")
    );
    let answer = fed(&stash, &["spell", "--list", "-"], "\n# nothing\n");
    let told = "oddment: standard input holds no wording; there is nothing to spell\n";
    assert_eq!((answer.code, answer.out.as_str(), answer.err.as_str()), (1, "", told));
}

#[test]
fn a_line_that_is_no_wording_is_told_and_the_others_are_answered() {
    let stash = small();
    let list = format!("TAB\n{}\nA|B|C\nA\u{1b}[31mB\n|\nBOAT\n", "A".repeat(201));
    let answer = fed(&stash, &["spell", "--list", "-", "--json"], list);
    assert_eq!(answer.code, 2);
    assert_eq!(objects(&answer.out).len(), 2, "{}", answer.out);
    insta::assert_snapshot!(answer.err, @r#"
    oddment: standard input:2: it asks for 201 letters; a strip holds at most 200
    oddment: standard input:3: it has 3 lines; a strip holds one or two
    oddment: standard input:4: "\u{1b}" holds a control character; a letter must be one that can be seen
    oddment: standard input:5: it says nothing; write what is to be spelled
    "#);
    let answer = fed(&stash, &["spell", "--list", "-"], b"TAB\nk\xe4lp\nBOAT\n");
    let told = "oddment: standard input:2: here is a byte that is no UTF-8; save the list as UTF-8\n";
    assert_eq!(
        (answer.code, answer.out.as_str(), answer.err.as_str()),
        (2, "TAB: now, from letters of 20 mm\n", told)
    );
    let answer = fed(&stash, &["spell", "--list", "-"], "A".repeat(100_000));
    assert_eq!((answer.code, answer.err.as_str()), (2, "oddment: standard input:1: this line is too long\n"));
}

#[test]
fn a_wrong_argument_is_told_before_anything_is_answered() {
    let stash = small();
    let long = "A".repeat(201);
    for (args, said) in [
        (&[][..], "WORDING"),
        (&["TAB", ""], "it says nothing"),
        (&["TAB", &long], "it asks for 201 letters; a strip holds at most 200"),
        (&["TAB", "A|B|C"], "it has 3 lines"),
        (&["TAB", "A\u{1b}B"], "holds a control character"),
        (&["TAB", "--case", "loud"], "loud"),
        (&["TAB", "--tall", "26-18"], "heights are a least and a greatest one"),
        (&["TAB", "--tall", "tall"], "heights are a least and a greatest one"),
        (&["TAB", "--list", "/nowhere/at-all.txt"], "it is not there; look at the path"),
        (&["TAB", "--list", "/"], "it is a folder where a file should be"),
    ] {
        let answer = stash.run(&[&["spell"], args].concat());
        assert_eq!((answer.code, answer.out.as_str()), (2, ""), "{args:?}");
        assert!(answer.err.contains(said) && !answer.err.contains('\u{1b}'), "{args:?}: {}", answer.err);
    }
}

#[test]
fn without_a_sheet_everything_is_short() {
    let answer = Stash::nowhere().run(&["spell", "TAB"]);
    assert_eq!((answer.code, answer.out.as_str()), (1, "TAB: short of A, B, T\n"));
    assert!(answer.err.starts_with("oddment: no sheets yet; "), "{}", answer.err);
}

#[test]
fn names_of_sheets_are_told_with_their_control_characters_spelled_out() {
    let answer = small().run(&["spell", "ee"]);
    let told = "ee: with stand-ins, from letters of 10 mm: 2 x e by E, of Low \\u{1b} tide\n";
    assert_eq!((answer.code, answer.out.as_str()), (0, told));
}

#[test]
fn whoever_has_read_enough_is_not_told_more() {
    let stash = small();
    let mut command = oddment(&["spell", "--list", "-", "--stash"]);
    let (reader, writer) = std::io::pipe().unwrap();
    drop(reader);
    command.arg(stash.path()).stdin(Stdio::piped()).stdout(writer).stderr(Stdio::piped());
    let mut child = command.spawn().unwrap();
    let mut pipe = child.stdin.take().unwrap();
    // More than any buffer holds: it would never be read to its end if nobody stopped.
    let fed = std::thread::spawn(move || while pipe.write_all(b"BOAT\n").is_ok() {});
    let output = child.wait_with_output().unwrap();
    fed.join().unwrap();
    assert_eq!((output.status.code(), output.stderr), (Some(0), Vec::new()));
}

#[test]
fn a_folder_that_is_none_is_told() {
    let stash = Stash::nowhere();
    std::fs::write(stash.path(), "x").unwrap();
    for command in [&["spell", "TAB"][..], &["wishes"], &["ideas"]] {
        let answer = stash.run(command);
        assert_eq!((answer.code, answer.out.as_str()), (2, ""), "{command:?}");
    }
    let mut command = oddment(&["wishes", "--add", "TAB", "--stash"]);
    command.arg(stash.path().join("within"));
    assert_eq!(told(command).code, 3);
}
