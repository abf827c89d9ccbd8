//! The floors of the house: which folder may use which, and what else each must not name.
//!
//! Must not know how sources are found or read from the disk.

use super::source::{self, Path};
use std::collections::{BTreeMap, BTreeSet};

/// Each folder (or file) of `src/` with its floor. A folder uses only itself and what is on lower floors.
pub(super) const FLOORS: [(&str, u8); 16] = [
    ("words", 0),
    ("measure", 1),
    ("letter", 2),
    ("stash", 3),
    ("title", 4),
    ("page", 4),
    ("plan", 5),
    ("checks", 6),
    ("supply", 6),
    ("suggest", 7),
    ("order", 7),
    ("app", 8),
    ("files", 9),
    ("print", 9),
    ("screen", 9),
    ("terminal", 10),
];

/// The command line stands on the top floor too, but it starts the terminal's loop; nothing else uses it.
pub(super) const TOP: (&str, u8) = ("cli", 11);

/// The highest floor that touches neither disk, clock, terminal nor environment.
const LAST_PURE: u8 = 8;
/// What of the standard library reaches outside.
const OUTSIDE: [&str; 6] = ["fs", "env", "process", "thread", "net", "io"];
/// Other libraries that reach outside.
const OUTSIDE_CRATES: [&str; 2] = ["tempfile", "directories"];
/// Libraries that only the terminal's folder names.
const TERMINAL_CRATES: [&str; 3] = ["crossterm", "signal_hook", "rustix"];
/// What the terminal's folder may name of the drawing library: where cells go, not what they show.
const CANVAS: [&str; 3] = ["Terminal", "Frame", "backend"];

const LONGEST_FILE: usize = 400;
const LONGEST_FUNCTION: usize = 60;

/// The floor of a folder, if it has one.
pub(super) fn floor(folder: &str) -> Option<u8> {
    FLOORS.iter().chain([&TOP]).find(|(each, _)| *each == folder).map(|(_, floor)| *floor)
}

/// What is wrong with one source file; `file` is its path under `src/`, such as `title/strip.rs`.
pub(super) fn offences(file: &str, text: &str) -> Vec<String> {
    let tokens = source::tokens(text);
    let mut found = shape(text);
    for function in source::functions(&tokens) {
        if function.lines > LONGEST_FUNCTION {
            let long = format!("{}: fn {} takes {} lines", function.line, function.name, function.lines);
            found.push(format!("{long}, more than {LONGEST_FUNCTION}"));
        }
    }
    if !matches!(file, "lib.rs" | "main.rs") {
        let folder = folder(file);
        match floor(folder) {
            Some(floor) => {
                let paths = source::paths(&tokens);
                let each = paths.iter().filter_map(|path| {
                    let wrong = upward(file, folder, floor, path).or_else(|| outward(folder, floor, path))?;
                    Some(format!("{}: {} {wrong}", path.line, path.parts.join("::")))
                });
                found.extend(each);
            }
            None => found.push(format!("1: {folder} has no floor")),
        }
    }
    found.into_iter().map(|offence| format!("src/{file}:{offence}")).collect()
}

/// What is wrong with any source file, of whatever folder.
pub(super) fn shape(text: &str) -> Vec<String> {
    let mut found = Vec::new();
    if !text.starts_with("//! ") {
        found.push("1: does not open with //! and what it is for".to_owned());
    }
    let lines = text.lines().count();
    if lines > LONGEST_FILE {
        found.push(format!("{lines}: has {lines} lines, more than {LONGEST_FILE}"));
    }
    found
}

/// The folder, or the single file, that a path under `src/` belongs to.
fn folder(file: &str) -> &str {
    file.split('/').next().unwrap_or(file).trim_end_matches(".rs")
}

/// How many steps of `super` lead from a file's own module to the crate.
fn depth(file: &str) -> usize {
    file.trim_end_matches(".rs").split('/').filter(|part| *part != "mod").count()
}

/// A use of a folder that is not on a lower floor.
fn upward(file: &str, folder: &str, from: u8, path: &Path) -> Option<String> {
    let steps = path.parts.iter().take_while(|part| *part == "super").count();
    let target = match path.parts.first()?.as_str() {
        "crate" => path.parts.get(1)?.as_str(),
        "super" if steps >= depth(file) => path.parts.get(steps)?.as_str(),
        _ => return None,
    };
    match floor(target) {
        Some(_) if (folder, target) == ("cli", "screen") => {
            Some("is drawn by the terminal's folder, not by cli".to_owned())
        }
        // A step up out of a nested module ends at a neighbour, not at a folder.
        None if steps > 0 => None,
        None => Some(format!("is on no floor, and {folder} uses it")),
        Some(to) if to < from || target == folder => None,
        Some(to) => Some(format!("is used by {folder} (floor {from}) and stands on floor {to}")),
    }
}

/// A name that is kept to other floors: the outside world, the terminal, the drawing library.
fn outward(folder: &str, floor: u8, path: &Path) -> Option<String> {
    let word = |at: usize| path.parts.get(at).map_or("", String::as_str);
    let clock = word(1) == "time" && matches!(word(2), "" | "*" | "Instant" | "SystemTime");
    let outside = match word(0) {
        "std" | "core" => OUTSIDE.contains(&word(1)) || clock,
        other => OUTSIDE_CRATES.contains(&other),
    };
    let canvas = folder == "terminal" && CANVAS.contains(&word(1));
    if floor <= LAST_PURE && outside {
        Some(format!("reaches outside, and {folder} (floor {floor}) is pure"))
    } else if TERMINAL_CRATES.contains(&word(0)) && folder != "terminal" {
        Some(format!("is the terminal's, and {folder} names it"))
    } else if word(0) == "ratatui" && folder != "screen" && !canvas {
        Some(format!("is the screen's, and {folder} names it"))
    } else {
        None
    }
}

/// The pairs of modules of one folder that use each other. `files` are the folder's own, `mod.rs` with them, each with
/// its text; a name that `mod.rs` passes on counts as a use of the module it comes from.
pub(super) fn circles(files: &BTreeMap<String, String>) -> Vec<String> {
    let passed_on: BTreeMap<String, String> = files.get("mod.rs").map_or_else(BTreeMap::new, |text| {
        let paths = source::paths(&source::tokens(text));
        let named = paths.into_iter().filter(|path| path.parts.len() > 1 && path.parts[0] != "crate");
        named.filter_map(|path| Some((path.parts.last()?.clone(), path.parts.first()?.clone()))).collect()
    });
    let mut pairs = BTreeSet::new();
    for (file, text) in files.iter().filter(|(file, _)| *file != "mod.rs") {
        let module = file.trim_end_matches(".rs").to_owned();
        for path in source::paths(&source::tokens(text)) {
            if let [first, name, ..] = path.parts.as_slice()
                && first == "super"
            {
                let used = passed_on.get(name).unwrap_or(name).clone();
                pairs.insert((module.clone(), used));
            }
        }
    }
    let both = pairs.iter().filter(|(from, to)| from < to && pairs.contains(&(to.clone(), from.clone())));
    both.map(|(from, to)| format!("{from} and {to} use each other")).collect()
}
