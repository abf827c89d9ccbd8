//! Saved orders: one file or one a sheet, and what goes and what stays beside them.

use std::fs;

use oddment::files::{FilesError, SavedOrder, StashFolder};
use tempfile::TempDir;

/// A stash with these plans and these saved orders; each of them says its own name.
#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
fn stash(plans: &[&str], orders: &[&str]) -> (TempDir, StashFolder) {
    let temp = tempfile::tempdir().unwrap();
    for folder in ["pages", "orders"] {
        fs::create_dir(temp.path().join(folder)).unwrap();
    }
    for plan in plans {
        fs::write(temp.path().join(format!("pages/{plan}.toml")), "").unwrap();
    }
    for name in orders {
        fs::write(temp.path().join("orders").join(name), "a sheet of old").unwrap();
    }
    let folder = StashFolder::at(temp.path());
    (temp, folder)
}

fn save(folder: &StashFolder, name: &str, extension: &str, count: usize) -> Result<SavedOrder, FilesError> {
    let files: Vec<Vec<u8>> = (1..=count).map(|place| format!("new {place}").into_bytes()).collect();
    folder.save_order(&folder.order_file(name, extension), &files, |text| text.starts_with("a sheet"))
}

#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
fn there(temp: &TempDir) -> Vec<String> {
    let names = fs::read_dir(temp.path().join("orders")).unwrap();
    let mut names: Vec<String> = names.map(|one| one.unwrap().file_name().into_string().unwrap()).collect();
    names.sort();
    names
}

#[test]
#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
fn sheets_of_a_longer_order_go_and_nothing_else() {
    let old = ["walk-1.svg", "walk-2.svg", "walk-3.svg", "walk-12.svg", "walk.svg"];
    let kept = ["walk-03.svg", "walk-x.svg", "walking-1.svg", "walk-3.pdf", "a-walk-3.svg", "walk-4.svg"];
    let (temp, folder) = stash(&["walk", "walk-4"], &[&old[..], &kept[..]].concat());
    fs::write(temp.path().join("orders/walk-5.svg"), "by somebody else").unwrap();
    let saved = save(&folder, "walk", "svg", 2).unwrap();
    let gone: Vec<_> = saved.removed.iter().map(|path| path.file_name().unwrap()).collect();
    assert_eq!(
        (saved.paths.len(), &gone[..]),
        (2, &["walk.svg", "walk-3.svg", "walk-12.svg"].map(AsRef::as_ref)[..])
    );
    assert_eq!(fs::read_to_string(&saved.paths[1]).unwrap(), "new 2");
    let mut left = [&kept[..], &["walk-1.svg", "walk-2.svg", "walk-5.svg"]].concat();
    left.sort_unstable();
    assert_eq!(there(&temp), left);
    let saved = save(&folder, "walk", "svg", 1).unwrap();
    assert!(saved.removed.is_empty(), "the new ones of this test are no sheets");
    assert_eq!(saved.paths, [temp.path().join("orders/walk.svg")]);
}

#[test]
fn no_sheet_takes_the_place_of_another_plans_order() {
    let (temp, folder) = stash(&["walk", "walk-2"], &["walk-2.svg"]);
    let refused = save(&folder, "walk", "svg", 3);
    assert!(matches!(refused, Err(FilesError::OrderThere(name)) if name == "walk-2"));
    assert_eq!(there(&temp), ["walk-2.svg"]);
    assert!(save(&folder, "walk", "svg", 1).is_ok_and(|saved| saved.removed.is_empty()));
    assert!(save(&folder, "walk", "pdf", 1).is_ok());
}

/// What is no sheet of an order stays as it is, and no sheet is written beside it; one file is written where it is asked for.
#[test]
#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
fn no_sheet_takes_the_place_of_what_is_none() {
    let (temp, folder) = stash(&["walk"], &["walk-1.svg"]);
    fs::write(temp.path().join("orders/walk-2.svg"), "by somebody else").unwrap();
    let refused = save(&folder, "walk", "svg", 3);
    assert!(matches!(refused, Err(FilesError::NoSheetThere(path)) if path.ends_with("orders/walk-2.svg")));
    assert_eq!(there(&temp), ["walk-1.svg", "walk-2.svg"]);
    assert_eq!(fs::read_to_string(temp.path().join("orders/walk-1.svg")).unwrap(), "a sheet of old");
    fs::write(temp.path().join("orders/walk.pdf"), "by somebody else").unwrap();
    assert!(save(&folder, "walk", "pdf", 1).is_ok());
}

#[cfg(unix)]
#[test]
#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
fn what_a_link_leads_to_stays() {
    let (temp, folder) = stash(&["walk"], &["kept"]);
    let orders = temp.path().join("orders");
    std::os::unix::fs::symlink("kept", orders.join("walk-7.svg")).unwrap();
    assert!(save(&folder, "walk", "svg", 2).unwrap().removed.is_empty());
    assert_eq!(there(&temp), ["kept", "walk-1.svg", "walk-2.svg", "walk-7.svg"]);
}
