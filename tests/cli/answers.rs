//! What the commands answer, in words and in JSON.
//!
//! Must not know how an answer is made.

use serde_json::Value;

use super::shell::{Stash, oddment, told};

fn json(text: &str) -> Value {
    assert!(text.starts_with("{\"format\":1,"), "{text}");
    assert_eq!(text.matches('\n').count(), 1, "one line: {text}");
    serde_json::from_str(text).unwrap()
}

fn keys(value: &Value) -> Vec<&str> {
    value.as_object().unwrap().keys().map(String::as_str).collect()
}

#[track_caller]
fn has(value: &Value, wanted: &[&str]) {
    for key in wanted {
        assert!(keys(value).contains(key), "no {key} in {value}");
    }
}

/// Points have one decimal at most, however they are summed.
#[track_caller]
fn is_points(value: &Value) {
    let text = value.to_string();
    let decimals = text.split_once('.').map_or(0, |(_, decimals)| decimals.len());
    assert!(value.is_number() && decimals <= 1, "{text} is no figure such as 17.3");
}

#[test]
fn check_answers_in_json() {
    let stash = Stash::sample();
    let answer = stash.run(&["check", "quayside-supper", "--json"]);
    assert_eq!((answer.code, answer.err.as_str()), (0, ""));
    let value = json(&answer.out);
    has(&value, &["score", "strips", "place", "findings"]);
    is_points(&value["score"]);
    let mut sum = 0.0;
    for strip in value["strips"].as_array().unwrap() {
        has(strip, &["role", "score", "height"]);
        is_points(&strip["score"]);
        sum += strip["score"].as_f64().unwrap();
    }
    assert!((sum - value["score"].as_f64().unwrap()).abs() < 0.05);
    assert_eq!(value["strips"][0]["role"], "title");
    let findings = value["findings"].as_array().unwrap();
    assert!(!findings.is_empty());
    for finding in findings {
        has(finding, &["id", "level", "points", "strip", "slots", "message"]);
        is_points(&finding["points"]);
        assert!(["stop", "warn", "note"].contains(&finding["level"].as_str().unwrap()), "{finding}");
        assert!(finding["slots"].as_array().unwrap().iter().all(|slot| slot.as_u64().unwrap() >= 1));
    }
}

#[test]
fn check_tells_the_same_in_words() {
    let stash = Stash::sample();
    let value = json(&stash.run(&["check", "lantern-walk", "--json"]).out);
    let words = stash.run(&["check", "lantern-walk"]);
    assert_eq!(words.code, 0);
    assert!(words.out.starts_with("title: LANTERN WALK: score "), "{}", words.out);
    for finding in value["findings"].as_array().unwrap() {
        assert!(words.out.contains(finding["message"].as_str().unwrap()), "{finding}");
    }
}

#[test]
fn a_letter_stood_twice_ends_with_1() {
    let stash = Stash::sample();
    stash.write(
        "pages/twice.toml",
        "[[strip]]\nwording = 'AA'\n[[strip.letter]]\nslot = 1\nchip = 'kelp-caps/A'\n\
         [[strip.letter]]\nslot = 2\nchip = 'kelp-caps/A'\n",
    );
    let answer = stash.run(&["check", "twice", "--json"]);
    assert_eq!(answer.code, 1, "{answer:?}");
    let value = json(&answer.out);
    assert_eq!(value["findings"][0]["level"], "stop");
    assert_eq!(value["findings"][0]["id"], "twice");
    assert_eq!(stash.run(&["check", "twice"]).code, 1);
}

#[test]
fn check_takes_a_path_and_the_flags_on_either_side() {
    let stash = Stash::sample();
    let by_name = stash.run(&["check", "quayside-supper", "--json"]).out;
    let path = stash.path().join("pages/quayside-supper.toml");
    assert_eq!(stash.run(&["check", path.to_str().unwrap(), "--json"]).out, by_name);
    let folder = stash.path();
    let folder = folder.to_str().unwrap();
    for args in [
        ["--stash", folder, "--json", "check", "quayside-supper"],
        ["--json", "check", "--stash", folder, "quayside-supper"],
    ] {
        let answer = told(oddment(&args));
        assert_eq!((answer.code, answer.out), (0, by_name.clone()), "{args:?}: {}", answer.err);
    }
    let mut command = oddment(&["check", "quayside-supper", "--json"]);
    command.env("ODDMENT_STASH", folder);
    assert_eq!(told(command).out, by_name);
}

#[test]
fn order_prints_eighty_columns_and_writes_the_same() {
    let stash = Stash::sample();
    let printed = stash.run(&["order", "quayside-supper"]);
    assert_eq!((printed.code, printed.err.as_str()), (0, ""));
    assert!(printed.out.contains("date ______\nQuayside supper, 215.9 mm x 279.4 mm\n"), "{}", printed.out);
    for line in printed.out.lines() {
        assert!(line.chars().count() <= 80, "{line}");
    }
    for told in
        ["2. Pull from the sheets", "12: Net floats", "n turned upside down for u", "button (8 mm wide)"]
    {
        assert!(printed.out.contains(told), "{told}");
    }
    let file = stash.path().join("orders/supper.txt");
    let written = stash.run(&["order", "quayside-supper", "-o", file.to_str().unwrap()]);
    assert_eq!((written.code, written.out.as_str()), (0, ""));
    assert_eq!(std::fs::read_to_string(&file).unwrap(), printed.out);
    let inches = stash.run(&["order", "quayside-supper", "--unit", "in", "--form", "text"]);
    assert_eq!(inches.code, 0);
    assert!(inches.out.contains(" in") && inches.out != printed.out);
}

#[test]
fn stash_lists_every_sheet_and_counts_them() {
    let stash = Stash::sample();
    let value = json(&stash.run(&["stash", "--json"]).out);
    let sheets = value["sheets"].as_array().unwrap();
    let files = std::fs::read_dir(stash.path().join("sheets")).unwrap().count();
    assert_eq!(sheets.len(), files);
    for sheet in sheets {
        has(sheet, &["id", "name", "form", "height", "letters"]);
        for letter in sheet["letters"].as_array().unwrap() {
            has(letter, &["chip", "character", "colour", "left", "spoken_for"]);
        }
    }
    let words = stash.run(&["stash"]);
    assert_eq!(words.code, 0);
    for sheet in sheets {
        assert!(words.out.contains(sheet["id"].as_str().unwrap()), "{sheet}");
    }
}

#[test]
fn one_sheet_tells_its_letters_and_what_is_spoken_for() {
    let stash = Stash::sample();
    let value = json(&stash.run(&["stash", "kelp-caps", "--json"]).out);
    let sheet = &value["sheets"][0];
    assert_eq!((value["sheets"].as_array().unwrap().len(), &sheet["height"]), (1, &Value::from(23.0)));
    let letter = |chip: &str| {
        let letters = sheet["letters"].as_array().unwrap();
        letters.iter().find(|letter| letter["chip"] == chip).unwrap().clone()
    };
    let coral = letter("kelp-caps/S:coral");
    assert_eq!(
        (&coral["left"], &coral["spoken_for"], &coral["colour"]),
        (&1.into(), &1.into(), &"coral".into())
    );
    assert_eq!((&letter("kelp-caps/E")["left"], &letter("kelp-caps/D")["left"]), (&0.into(), &3.into()));
    let words = stash.run(&["stash", "kelp-caps"]).out;
    assert!(words.contains("kelp-caps/S:coral") && words.contains("1 spoken for"), "{words}");
}

#[test]
fn new_makes_a_plan_that_opens() {
    let stash = Stash::sample();
    let args =
        ["new", "Night ferry's end", "--wording", "NIGHT|FERRY", "--page-size", "A4", "--ground", "tar"];
    let answer = stash.run(&args);
    assert_eq!((answer.code, answer.err.as_str()), (0, ""));
    let path = stash.path().join("pages/night-ferrys-end.toml");
    assert_eq!(answer.out, format!("{}\nopen it with: oddment night-ferrys-end\n", path.display()));
    insta::assert_snapshot!(stash.read("pages/night-ferrys-end.toml"), @r#"
    format = 1
    name = "Night ferry's end"
    size = "A4"
    ground = "tar"

    [[strip]]
    role = "title"
    wording = "NIGHT\nFERRY"
    "#);
    let checked = json(&stash.run(&["check", "night-ferrys-end", "--json"]).out);
    let findings = checked["findings"].as_array().unwrap();
    assert_eq!(findings.iter().filter(|finding| finding["id"] == "missing").count(), 10);
    let value = json(&stash.run(&["new", "Second", "--json"]).out);
    assert_eq!(value["plan"], "second");
}

#[test]
fn new_makes_the_folder_where_there_is_none() {
    let stash = Stash::nowhere();
    assert_eq!(stash.run(&["new", "first"]).code, 0);
    assert!(stash.path().join("pages/first.toml").is_file());
}

#[test]
fn a_folder_that_is_not_there_is_an_empty_stash() {
    let stash = Stash::nowhere();
    let answer = stash.run(&["stash"]);
    assert_eq!(answer.code, 0);
    assert!(answer.out.starts_with("no sheets yet; "), "{}", answer.out);
    assert_eq!(stash.run(&["stash", "--json"]).out, "{\"format\":1,\"sheets\":[]}\n");
    assert!(!stash.path().exists(), "looking makes nothing");
}
