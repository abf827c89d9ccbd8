//! What is made from the parser and the table of actions: completions, the manual page, the help.
//!
//! Must not know how they are made.

use std::collections::BTreeSet;
use std::io::Write;
use std::process::{Command, Stdio};

use oddment::app::ACTIONS;

use super::shell::{Stash, oddment, of_repository, told};

const COMMANDS: [&str; 17] = [
    "new",
    "check",
    "suggest",
    "places",
    "order",
    "spell",
    "wishes",
    "ideas",
    "restock",
    "stash",
    "take-in",
    "count",
    "stick",
    "lift",
    "mend",
    "completions",
    "man",
];

#[test]
fn completions_name_every_command() {
    for shell in ["bash", "zsh", "fish"] {
        let answer = Stash::nowhere().run(&["completions", shell]);
        assert_eq!((answer.code, answer.err.as_str()), (0, ""), "{shell}");
        for command in COMMANDS {
            assert!(answer.out.contains(command), "{shell}: {command}");
        }
    }
}

#[test]
fn a_shell_can_read_its_completions() {
    let script = told(oddment(&["completions", "bash"])).out;
    // Where there is no such shell there is nothing to ask.
    let Ok(mut bash) = Command::new("bash").arg("-n").stdin(Stdio::piped()).spawn() else { return };
    bash.stdin.take().unwrap().write_all(script.as_bytes()).unwrap();
    assert!(bash.wait().unwrap().success());
}

#[test]
fn the_manual_page_is_the_one_in_the_repository() {
    let printed = told(oddment(&["man"]));
    assert_eq!(printed.code, 0);
    let hint = "write it anew: cargo run -- man > man/oddment.1";
    assert!(printed.out == of_repository("man/oddment.1"), "{hint}");
}

#[test]
fn the_manual_page_tells_every_command_and_action() {
    let page = of_repository("man/oddment.1").replace("\\-", "-");
    for command in COMMANDS {
        assert!(page.contains(&format!("\\fB{command}")), "{command}");
    }
    for row in ACTIONS {
        assert!(page.contains(&format!("\\fB{}\\fR", row.name)), "{}", row.name);
    }
}

#[test]
fn help_and_version_go_to_standard_output() {
    for (argument, start) in [("--help", "Make an album page's title"), ("--version", "oddment ")] {
        let answer = told(oddment(&[argument]));
        assert_eq!((answer.code, answer.err.as_str()), (0, ""));
        assert!(answer.out.starts_with(start), "{}", answer.out);
    }
}

/// Every key of an object and of those within it, but the characters that are lacking.
fn keys(value: &serde_json::Value, all: &mut BTreeSet<String>) {
    match value {
        serde_json::Value::Object(object) => {
            for (key, value) in object {
                all.insert(key.clone());
                if !["short", "cured"].contains(&key.as_str()) {
                    keys(value, all);
                }
            }
        }
        serde_json::Value::Array(values) => values.iter().for_each(|value| keys(value, all)),
        _ => {}
    }
}

#[test]
fn the_page_on_files_tells_every_key_of_what_is_said_of_wordings() {
    let page = of_repository("man/oddment-files.5");
    let (_, section) = page.split_once(".Sh ANSWERS IN JSON").unwrap();
    let (section, _) = section.split_once(".Sh MENDING").unwrap();
    let stash = Stash::sample();
    let nearly_spent = "form = 'tile'\nheight = '9 mm'\ncolour = 'tan'\n[letters]\nT = 1\nO = 1\nE = 1\n";
    stash.write("sheets/stub.toml", nearly_spent);
    let mut all = BTreeSet::new();
    for args in [
        &["spell", "LA F\u{ca}TE", "NO MOON TOO SOON", "--explain"][..],
        &["ideas", "--count", "1"],
        &["wishes", "--add", "PIER", "--note", "dusk"],
        &["wishes", "--drop", "PIER"],
        &["restock"],
    ] {
        let answer = stash.run(&[args, &["--json"]].concat());
        for line in answer.out.lines() {
            keys(&serde_json::from_str(line).unwrap(), &mut all);
        }
    }
    assert!(all.len() > 30, "{all:?}");
    for key in all {
        let told = section
            .lines()
            .any(|line| line.starts_with('.') && line.split([' ', ',']).any(|word| word == key));
        assert!(told, "{key} is not told");
    }
}
