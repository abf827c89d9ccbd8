//! The layers' own check, held against made-up sources: it must find what is wrong, and only that.
//!
//! Must not read the real sources.

use super::floors::{circles, offences};
use super::source::{functions, paths, tokens};
use std::collections::BTreeMap;
use std::fmt::Write;

/// The offences of a source whose header is in order, without their file.
fn wrong(file: &str, body: &str) -> Vec<String> {
    let found = offences(file, &format!("//! Made up.\n{body}"));
    found.into_iter().map(|offence| offence.trim_start_matches(&format!("src/{file}:")).to_owned()).collect()
}

#[test]
fn a_use_of_a_higher_floor_is_found_however_it_is_written() {
    let said = "crate::plan::Plan is used by title (floor 4) and stands on floor 5";
    assert_eq!(wrong("title/strip.rs", "use crate::plan::Plan;"), [format!("2: {said}")]);
    assert_eq!(wrong("title/strip.rs", "use crate::{measure::Length,\n plan::{History, Plan}};").len(), 2);
    assert_eq!(wrong("title/strip.rs", "\nfn of(plan: &crate::plan::Plan) {}"), [format!("3: {said}")]);
    assert_eq!(wrong("title/strip.rs", "use super::super::plan::Plan;").len(), 1);
    assert_eq!(wrong("title/strip/slot.rs", "use super::super::super::plan::Plan;").len(), 1);
    assert_eq!(wrong("title/mod.rs", "use super::plan::Plan as Whole;").len(), 1);
    assert_eq!(wrong("words.rs", "use crate::measure::Length;").len(), 1);
}

#[test]
fn neighbours_on_one_floor_do_not_use_each_other() {
    for (file, neighbour) in [
        ("title/a.rs", "page"),
        ("files/a.rs", "print"),
        ("files/a.rs", "screen"),
        ("print/a.rs", "screen"),
        ("screen/a.rs", "files"),
        ("checks/a.rs", "supply"),
        ("terminal/a.rs", "cli"),
        ("cli/a.rs", "screen"),
    ] {
        assert_eq!(wrong(file, &format!("use crate::{neighbour}::Thing;")).len(), 1, "{file} {neighbour}");
    }
}

#[test]
fn lower_floors_and_ones_own_are_free() {
    let body = "use crate::{letter::Character, title::Wording};\nuse super::super::stash::Stash;\nuse std::{fmt, rc::Rc};\n\
                use super::slot::Slot;\nuse crate::words::words;\nuse std::time::Duration;";
    assert_eq!(wrong("title/strip.rs", body), [""; 0]);
    assert_eq!(wrong("cli/new.rs", "use crate::terminal::run;\nuse std::io;"), [""; 0]);
}

#[test]
fn the_pure_floors_reach_for_nothing_outside() {
    for path in [
        "std::fs::File",
        "std::{env, fmt}",
        "std::time::Instant",
        "std::time::{Duration, SystemTime}",
        "std::time",
        "std::process::exit",
        "std::thread",
        "std::net::TcpStream",
        "std::io::{self, Write}",
        "tempfile::NamedTempFile",
    ] {
        assert!(!wrong("app/state.rs", &format!("use {path};")).is_empty(), "{path}");
        assert_eq!(wrong("files/sheet.rs", &format!("use {path};")), [""; 0], "{path}");
    }
    assert_eq!(wrong("measure/length.rs", "fn now() { let _ = std::time::Instant::now(); }").len(), 1);
}

#[test]
fn the_terminal_and_the_screen_keep_their_libraries_to_themselves() {
    assert_eq!(wrong("app/a.rs", "use crossterm::event::KeyCode;").len(), 1);
    assert_eq!(wrong("screen/a.rs", "use crossterm::event::KeyCode;").len(), 1);
    assert_eq!(wrong("cli/a.rs", "use ratatui::widgets::Block;").len(), 1);
    assert_eq!(wrong("terminal/a.rs", "use ratatui::widgets::Block;").len(), 1);
    assert_eq!(wrong("terminal/a.rs", "use ratatui::{Frame, Terminal, backend::Backend};"), [""; 0]);
    assert_eq!(wrong("screen/a.rs", "use ratatui::widgets::Block;"), [""; 0]);
}

#[test]
fn comments_and_texts_name_nothing() {
    let body = r##"/// See crate::plan::Plan. /* use crate::plan; */
/* /* nested: crate::plan::Plan */ crate::plan::Plan */
const A: &str = "use crate::plan::Plan; \" crate::plan::Plan";
const B: &str = r#"crate::plan::Plan " "#;
const C: (char, char) = ('"', '\'');
fn of<'a>(a: &'a str) -> &'a str { a }
const D: &[u8] = b"crate::plan::Plan";
"##;
    assert_eq!(wrong("title/strip.rs", body), [""; 0]);
    assert_eq!(wrong("title/strip.rs", &format!("{body}use crate::plan::Plan;"))[0][..2], *"9:");
}

#[test]
fn a_missing_header_a_long_file_and_a_long_function_are_found() {
    assert_eq!(
        offences("title/strip.rs", "// A strip.\n"),
        ["src/title/strip.rs:1: does not open with //! and what it is for"]
    );
    assert_eq!(wrong("title/strip.rs", &"\n".repeat(400)), ["401: has 401 lines, more than 400"]);
    assert_eq!(wrong("title/strip.rs", &"\n".repeat(399)), [""; 0]);
    let long = |lines: usize| {
        format!("trait Asked {{ fn asked(&self); }}\nfn long() {{{}}}", "\n".repeat(lines - 1))
    };
    assert_eq!(wrong("main.rs", &long(61)), ["3: fn long takes 61 lines, more than 60"]);
    assert_eq!(wrong("main.rs", &long(60)), [""; 0]);
    assert_eq!(wrong("cupboard/jar.rs", ""), ["1: cupboard has no floor"]);
}

#[test]
fn two_modules_that_use_each_other_are_found_through_the_folder_too() {
    let folder = |strip: &str, slot: &str| {
        let files = [("mod.rs", "mod slot; mod strip; pub use slot::Slot; pub use strip::{Strip, Role};")];
        let files = files.into_iter().chain([("strip.rs", strip), ("slot.rs", slot)]);
        circles(&files.map(|(name, text)| (name.to_owned(), text.to_owned())).collect::<BTreeMap<_, _>>())
    };
    assert_eq!(folder("use super::slot::Slot;", "use super::Role;"), ["slot and strip use each other"]);
    assert_eq!(folder("use super::{Slot, Role};", "use super::Slot;"), [""; 0]);
}

#[test]
fn a_use_tree_is_read_to_its_leaves() {
    let read = paths(&tokens(
        "pub use a::{self, b::{c as d, e::*,}, f}; let x = g::h::<i>(); fn y() -> impl Z + use<> {}",
    ));
    let mut leaves = String::new();
    for path in read {
        let _ = write!(leaves, "{} ", path.parts.join("::"));
    }
    assert_eq!(leaves, "a a::b::c a::b::e::* a::f g::h ");
}

#[test]
fn functions_are_measured_from_their_name_to_their_brace() {
    let measured =
        functions(&tokens("fn a(x: [u8; 2])\n-> fn(u8) -> u8 {\n if x { y }\n}\nfn b();\nfn c() {}"));
    let told: Vec<_> = measured.iter().map(|each| (each.name.as_str(), each.line, each.lines)).collect();
    assert_eq!(told, [("a", 1, 4), ("c", 6, 1)]);
}
