//! The layers: every folder of `src/` stands on its floor, and every file keeps the habits of the house.
//!
//! Must not know what any of the code does.

#![expect(clippy::unwrap_used, reason = "a source that cannot be read is a failure")]

mod floors;
mod made_up;
mod source;

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

/// Every Rust file under a folder of the package, by its path within that folder, with its text.
fn sources(folder: &str) -> BTreeMap<String, String> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join(folder);
    let mut files = BTreeMap::new();
    let mut folders: Vec<PathBuf> = vec![root.clone()];
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|extension| extension == "rs") {
                let name = path.strip_prefix(&root).unwrap().to_str().unwrap().replace('\\', "/");
                files.insert(name, fs::read_to_string(&path).unwrap());
            }
        }
    }
    assert!(files.len() > 1, "no sources under {}", root.display());
    files
}

fn assert_none(offences: &[String]) {
    assert!(offences.is_empty(), "\n{}\n", offences.join("\n"));
}

#[test]
fn every_file_of_the_house_stands_on_its_floor() {
    let offences: Vec<String> =
        sources("src").iter().flat_map(|(file, text)| floors::offences(file, text)).collect();
    assert_none(&offences);
}

#[test]
fn every_test_file_says_what_it_is_for_and_ends_in_time() {
    let files = sources("tests");
    let offences = files.iter().flat_map(|(file, text)| {
        floors::shape(text).into_iter().map(move |offence| format!("tests/{file}:{offence}"))
    });
    assert_none(&offences.collect::<Vec<_>>());
}

#[test]
fn no_two_modules_use_each_other() {
    let mut folders: BTreeMap<String, BTreeMap<String, String>> = BTreeMap::new();
    for (file, text) in sources("src") {
        if let Some((folder, name)) = file.rsplit_once('/') {
            folders.entry(folder.to_owned()).or_default().insert(name.to_owned(), text);
        }
    }
    let offences = folders.iter().flat_map(|(folder, files)| {
        floors::circles(files).into_iter().map(move |circle| format!("src/{folder}: {circle}"))
    });
    assert_none(&offences.collect::<Vec<_>>());
}

#[test]
fn the_folders_of_one_floor_are_told_apart() {
    let mut names: Vec<&str> = floors::FLOORS.iter().map(|(name, _)| *name).collect();
    names.sort_unstable();
    names.dedup();
    assert_eq!(names.len(), floors::FLOORS.len());
    assert!(floors::FLOORS.iter().all(|(_, floor)| *floor < floors::TOP.1));
}
