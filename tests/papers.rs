//! The papers: README, manual pages and program say the same.
//!
//! Must not know how anything is done, only what it is called.

#![expect(clippy::unwrap_used, reason = "a test may stop at the first surprise")]

use std::process::Command;

use oddment::app::{ACTIONS, Key};
use oddment::checks::{CHECKS, Measure, THRESHOLDS};
use oddment::files::CsvColumn;

const README: &str = include_str!("../README.md");
const COMMAND_PAGE: &str = include_str!("../man/oddment.1");
const FILES_PAGE: &str = include_str!("../man/oddment-files.5");

/// What reads the files, each with the heading of the manual under which its keys stand.
const READERS: [(&str, &str); 6] = [
    ("SHEETS", include_str!("../src/files/sheet.rs")),
    ("PAGE PLANS", include_str!("../src/files/plan.rs")),
    ("PAGE PLANS", include_str!("../src/files/strip.rs")),
    ("PAGE PLANS", include_str!("../src/files/entry.rs")),
    ("WISHES", include_str!("../src/files/wishes.rs")),
    ("ON SALE", include_str!("../src/files/on_sale.rs")),
];

/// What the program prints for `arguments`.
fn printed(arguments: &[&str]) -> String {
    let output = Command::new(env!("CARGO_BIN_EXE_oddment")).args(arguments).output().unwrap();
    assert!(output.status.success(), "{arguments:?}: {}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).unwrap()
}

/// The part of the manual under one heading.
fn section(heading: &str) -> &'static str {
    let (_, rest) = FILES_PAGE.split_once(&format!("\n.Sh {heading}\n")).unwrap();
    rest.split_once("\n.Sh ").map_or(rest, |(part, _)| part)
}

/// Whether a part of the manual has an entry of its own for a word.
fn tells(part: &str, word: &str) -> bool {
    part.lines().any(|line| line == format!(".It Ic {word}"))
}

/// The texts in quotes of a piece of Rust.
fn quoted(text: &str) -> impl Iterator<Item = &str> {
    text.split('"').skip(1).step_by(2)
}

/// The keys that a reader knows: what its `KNOWN` lists hold, and what it hands to `know`.
fn known(source: &str) -> Vec<&str> {
    let lists = source.split("const KNOWN").skip(1).map(|rest| rest.split_once("];").unwrap().0);
    let handed = source.split(".know(&[").skip(1).map(|rest| rest.split_once("])").unwrap().0);
    lists.chain(handed).flat_map(quoted).collect()
}

/// The rows of the README's table under one heading: the texts in backticks of the first column.
fn readme_table(heading: &str) -> Vec<Vec<&'static str>> {
    let (_, rest) = README.split_once(&format!("\n## {heading}\n")).unwrap();
    let table = rest.split("\n## ").next().unwrap();
    let rows = table.lines().filter(|line| line.starts_with("| `"));
    rows.map(|row| row.split(" | ").next().unwrap().split('`').skip(1).step_by(2).collect()).collect()
}

#[test]
fn the_manual_of_the_command_is_what_the_program_prints() {
    assert_eq!(printed(&["man"]), COMMAND_PAGE, "make it anew: cargo run -- man > man/oddment.1");
}

#[test]
fn the_manual_names_every_action() {
    let page = COMMAND_PAGE.replace("\\-", "-");
    for row in ACTIONS {
        assert!(page.contains(&format!("\\fB{}\\fR (", row.name)), "{}", row.name);
    }
}

#[test]
fn the_manual_tells_every_threshold_with_its_values() {
    for row in THRESHOLDS {
        let unit = match row.measure {
            Measure::Points => "In points",
            Measure::Ratio => "A ratio",
            Measure::Length => "A length",
            Measure::Count => "A count",
        };
        let (usual, least, most) = (row.spell(row.usual), row.spell(row.least), row.spell(row.most));
        let mut help = row.help.to_owned();
        help[..1].make_ascii_uppercase();
        let entry =
            format!("\n.It Ic {}\n{help}.\n{unit}, usually {usual}; from {least} to {most}.\n", row.key);
        assert!(FILES_PAGE.contains(&entry), "the manual lacks:{entry}");
    }
}

#[test]
fn the_manual_tells_every_key_of_every_file() {
    for (heading, source) in READERS {
        let keys = known(source);
        assert!(!keys.is_empty(), "{heading}");
        for key in keys {
            assert!(tells(section(heading), key), "{heading}: {key}");
        }
    }
}

#[test]
fn the_manual_tells_every_column_of_a_table() {
    for column in CsvColumn::ALL {
        assert!(tells(section("TABLES"), column.as_str()), "{column}");
    }
}

#[test]
fn the_manual_names_every_check() {
    for id in CHECKS.iter().map(|check| check.id).chain(["room", "twice", "wrong", "promised", "small"]) {
        assert!(tells(section("CHECKS"), id), "{id}");
    }
}

#[test]
fn the_readme_knows_the_commands_that_there_are() {
    let help = printed(&["--help"]);
    let (_, listed) = help.split_once("Commands:\n").unwrap();
    let (listed, _) = listed.split_once("\n\n").unwrap();
    // A name stands two columns in; a line further in goes on with the help before it.
    let names = listed.lines().filter(|line| line.starts_with("  ") && !line.starts_with("   "));
    let commands: Vec<&str> = names.filter_map(|line| line.split_whitespace().next()).collect();
    let mut told = Vec::new();
    for row in readme_table("Commands") {
        match row[0].split_whitespace().nth(1).unwrap() {
            option if option.starts_with("--") => assert!(help.contains(option), "{option}"),
            word if word.starts_with(|c: char| c.is_lowercase()) => told.push(word),
            plan => assert_eq!(plan, "PLAN"),
        }
    }
    let help_itself = |command: &&&str| **command != "help";
    assert_eq!(told, commands.iter().filter(help_itself).copied().collect::<Vec<_>>());
    assert!(help.contains("--stash") && help.contains("--json"));
}

#[test]
fn the_readme_shows_the_mix_that_is_found() {
    let folder = tempfile::TempDir::new().unwrap();
    let stash = folder.path().join("stash");
    oddment::files::unpack_sample(&stash).unwrap();
    let (stash, ample) = (stash.to_str().unwrap(), "600");
    let plain = ["suggest", "lantern-walk", "--strip", "title", "--explain", "--stash"];
    assert!(README.contains(&format!("-- {} sample-stash\n", plain.join(" "))));
    let mix = printed(&[&plain[..], &[stash, "--seconds", ample]].concat());
    assert!(README.contains(&format!("```text\n{mix}```\n")), "put it in the README:\n{mix}");
}

#[test]
fn the_readme_knows_keys_that_work() {
    let rows = readme_table("Keys");
    assert!(rows.len() > 15, "{rows:?}");
    for key in rows.into_iter().flatten() {
        assert!(Key::parse(key).is_ok(), "{key}");
        assert!(ACTIONS.iter().any(|row| row.keys.contains(&key)), "{key} does nothing");
    }
}
