//! The commands as a shell runs them: answers, messages, exit status.
//!
//! Must not know the program's insides.
#![expect(clippy::unwrap_used, reason = "a test may stop at the first surprise")]

use std::io::Read;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

use oddment::files::unpack_sample;
use serde_json::Value;
use tempfile::TempDir;

/// A copy of the sample in a folder of its own.
fn sample() -> (TempDir, PathBuf) {
    let folder = TempDir::new().unwrap();
    let path = folder.path().join("stash");
    unpack_sample(&path).unwrap();
    (folder, path)
}

fn oddment(stash: &Path, args: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_oddment"))
        .args(args)
        .env("ODDMENT_STASH", stash)
        .env_remove("NO_COLOR")
        .stdin(Stdio::null())
        .output()
        .unwrap()
}

fn out(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).unwrap()
}

fn err(output: &Output) -> String {
    String::from_utf8(output.stderr.clone()).unwrap()
}

fn code(output: &Output) -> i32 {
    output.status.code().unwrap()
}

fn json(output: &Output) -> Value {
    let text = out(output);
    assert!(text.starts_with("{\"format\":1,"), "{text}");
    serde_json::from_str(&text).unwrap()
}

#[test]
fn check_tells_findings_and_scores() {
    let (_folder, stash) = sample();
    let told = oddment(&stash, &["check", "quayside-supper"]);
    assert_eq!((code(&told), err(&told)), (0, String::new()));
    assert!(out(&told).contains("title: QUAYSIDE / SUPPER: score "), "{}", out(&told));
    let answer = json(&oddment(&stash, &["check", "quayside-supper", "--json"]));
    let sum: f64 =
        answer["strips"].as_array().unwrap().iter().map(|strip| strip["score"].as_f64().unwrap()).sum();
    assert!((sum - answer["score"].as_f64().unwrap()).abs() < 1e-9);
    for key in ["id", "level", "points", "strip", "slots", "message"] {
        assert!(answer["findings"][0].get(key).is_some(), "{key}");
    }
}

#[test]
fn a_stop_is_exit_1() {
    let (_folder, stash) = sample();
    let plan = stash.join("pages/lantern-walk.toml");
    let text = std::fs::read_to_string(&plan).unwrap();
    std::fs::write(&plan, text.replace("\"lit-windows/L\"", "\"lit-windows/K\"")).unwrap();
    let told = oddment(&stash, &["check", "lantern-walk"]);
    assert_eq!(code(&told), 1);
    assert!(out(&told).contains("K cannot stand for L in slot 1"), "{}", out(&told));
}

#[test]
fn new_writes_a_plan_once() {
    let (_folder, stash) = sample();
    let args =
        ["new", "Kelp & Kites", "--wording", "KELP|KITES", "--page-size", "8 x 8 in", "--ground", "teal"];
    let made = oddment(&stash, &args);
    assert_eq!((code(&made), err(&made)), (0, String::new()));
    let text = std::fs::read_to_string(stash.join("pages/kelp-kites.toml")).unwrap();
    assert!(text.contains("name = \"Kelp & Kites\"") && text.contains("8 x 8 in"), "{text}");
    let again = oddment(&stash, &args);
    assert_eq!(code(&again), 2);
    assert!(err(&again).contains("there is a page plan \"kelp-kites\" already"), "{}", err(&again));
    for (flag, value, told) in [
        ("--page-size", "square", "is no page size"),
        ("--ground", "tealish", "is no colour"),
        ("--wording", "A|B|C", "3 lines"),
    ] {
        let refused = oddment(&stash, &["new", "Other", flag, value]);
        assert_eq!(code(&refused), 2, "{flag}");
        assert!(err(&refused).contains(told), "{}", err(&refused));
    }
}

#[test]
fn order_is_printed_or_written() {
    let (folder, stash) = sample();
    let printed = oddment(&stash, &["order", "quayside-supper"]);
    assert_eq!(code(&printed), 0);
    assert!(out(&printed).starts_with("PLACEMENT ORDER\n"));
    assert!(out(&printed).lines().all(|line| unicode_width::UnicodeWidthStr::width(line) <= 80));
    let file = folder.path().join("order.txt");
    let written = oddment(&stash, &["order", "quayside-supper", "-o", file.to_str().unwrap()]);
    assert_eq!((code(&written), out(&written)), (0, String::new()));
    assert_eq!(std::fs::read_to_string(file).unwrap(), out(&printed));
    let nowhere = oddment(&stash, &["order", "quayside-supper", "-o", "/proc/none/order.txt"]);
    assert_eq!(code(&nowhere), 3, "{}", err(&nowhere));
}

#[test]
fn stash_lists_sheets_and_letters() {
    let (_folder, stash) = sample();
    let listed = oddment(&stash, &["stash"]);
    assert_eq!((code(&listed), err(&listed)), (0, String::new()));
    assert_eq!(out(&listed).lines().count(), 17);
    let answer = json(&oddment(&stash, &["stash", "kelp-caps", "--json"]));
    let letter = &answer["sheets"][0]["letters"][0];
    for key in ["chip", "character", "colour", "left", "spoken_for"] {
        assert!(letter.get(key).is_some(), "{key}");
    }
    let unknown = oddment(&stash, &["stash", "kelp-cups"]);
    assert_eq!(code(&unknown), 2);
    assert!(err(&unknown).contains("there is no sheet \"kelp-cups\""), "{}", err(&unknown));
}

#[test]
fn a_bad_sheet_is_told_and_the_rest_is_listed() {
    let (_folder, stash) = sample();
    let sheet = stash.join("sheets/kelp-caps.toml");
    let text = std::fs::read_to_string(&sheet).unwrap();
    std::fs::write(&sheet, format!("form = \"tyle\"\n{}", text.replacen("form", "was_form", 1))).unwrap();
    let listed = oddment(&stash, &["stash"]);
    assert_eq!(code(&listed), 2);
    assert_eq!(out(&listed).lines().count(), 16);
    assert!(err(&listed).contains("sheets/kelp-caps.toml:1:8: form: \"tyle\""), "{}", err(&listed));
}

#[test]
fn wrong_use_is_exit_2_and_says_what_would_do() {
    let (_folder, stash) = sample();
    let unknown = oddment(&stash, &["check", "lantern-wolk"]);
    assert_eq!(code(&unknown), 2);
    assert!(err(&unknown).contains("did you mean lantern-walk?"), "{}", err(&unknown));
    for args in
        [vec!["check"], vec!["--frob"], vec!["order", "x", "--form", "poem"], vec!["a-plan", "check", "b"]]
    {
        assert_eq!(code(&oddment(&stash, &args)), 2, "{args:?}");
    }
    let refused = oddment(&stash, &["lantern-walk"]);
    assert_eq!(code(&refused), 2, "no terminal to open the bench on");
    let file = stash.join("taste.toml");
    assert_eq!(code(&oddment(&file, &["stash"])), 2);
}

#[test]
fn an_empty_stash_is_no_fault() {
    let folder = TempDir::new().unwrap();
    let listed = oddment(&folder.path().join("none"), &["stash"]);
    assert_eq!(code(&listed), 0);
    assert!(out(&listed).contains("no sheets yet"));
}

#[test]
fn completions_and_manual_are_printed() {
    let folder = TempDir::new().unwrap();
    for shell in ["bash", "zsh", "fish"] {
        let script = oddment(folder.path(), &["completions", shell]);
        assert_eq!(code(&script), 0);
        assert!(out(&script).contains("oddment") && out(&script).contains("order"));
    }
    assert!(out(&oddment(folder.path(), &["man"])).contains(".SH KEYS"));
    assert!(out(&oddment(folder.path(), &["--version"])).starts_with("oddment "));
}

#[test]
fn a_closed_pipe_is_quiet() {
    let (_folder, stash) = sample();
    let mut child = Command::new(env!("CARGO_BIN_EXE_oddment"))
        .args(["completions", "zsh"])
        .env("ODDMENT_STASH", &stash)
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    drop(child.stdout.take());
    assert_eq!(child.wait().unwrap().code(), Some(0));
    let mut told = String::new();
    child.stderr.take().unwrap().read_to_string(&mut told).unwrap();
    assert_eq!(told, "");
}
