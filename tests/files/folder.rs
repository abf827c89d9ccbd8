//! Folders on a disk: loading all of it, saving without loss, trials, the lock, the sample.

use std::fs;
use std::path::Path;

use oddment::files::{Access, FilesError, Loaded, PlanSlug, StashFolder, replace_file, unpack_sample};
use oddment::measure::ColourNames;
use oddment::plan::Plan;
use oddment::stash::{ChipId, Stash};
use oddment::title::{Edit, Sticker, Stood, Strip, Wording};
use tempfile::TempDir;

const SHEET: &str = "form = 'tile'\nheight = 12\ncolour = 'teal'\n[letters]\nA = 1\n";

#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
fn folder(files: &[(&str, &str)]) -> (TempDir, StashFolder) {
    let temp = tempfile::tempdir().unwrap();
    for (name, text) in files {
        let path = temp.path().join(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, text).unwrap();
    }
    let folder = StashFolder::at(temp.path());
    (temp, folder)
}

#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
fn load(folder: &StashFolder) -> Loaded {
    folder.load().unwrap()
}

#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
fn text(path: &Path) -> String {
    fs::read_to_string(path).unwrap()
}

fn told(loaded: &Loaded) -> Vec<String> {
    loaded.problems.all().iter().map(ToString::to_string).collect()
}

#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
fn titled(wording: &str) -> Plan {
    Plan::titled(Wording::new(wording).unwrap())
}

#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
fn standing(plan: &Plan, slot: usize, chip: &str) -> Plan {
    let mut strips: Vec<Strip> = plan.strips().to_vec();
    let id = ChipId::parse(chip).unwrap();
    let stood = Some(Stood::straight(Sticker::Chip { id, stands_in: None }));
    let _ = Edit::Letter { slot, stood }.apply(&mut strips[0]);
    Plan::new(plan.name.clone(), plan.page.clone(), strips).unwrap()
}

#[test]
fn one_bad_file_hides_no_other_and_all_are_told() {
    let (_temp, folder) = folder(&[
        ("sheets/kelp.toml", SHEET),
        ("sheets/bad.toml", "form = 'tile'\nheight = 'x'\ncolour = 'y'\n[letters]\n"),
        ("sheets/Not A Slug.toml", SHEET),
        ("sheets/notes.txt", "nothing of ours"),
        ("sheets/.kelp.toml", "left by an editor"),
        ("pages/quay.toml", "[[strip]]\nwording = 'AB'\n[[strip.letter]]\nslot = 1\nchip = 'bad/A'\n"),
        ("pages/torn.toml", "[[strip]]\nwording = 'AB\n"),
        ("wishes.toml", "[[wish]]\nwording = 'QUAY'\n[[wish]]\n"),
        ("taste.toml", "[colours]\nkraft = '#c8a27a'\n[ends]\npoints = -1\n"),
    ]);
    let loaded = load(&folder);
    assert_eq!(
        told(&loaded),
        [
            "taste.toml:4:10: ends.points: -1 makes no sense here; write 0.0 to 1000.0 (an end of the line that is not in the main colour)",
            "sheets/Not A Slug.toml:1:1: \"Not A Slug\" holds 'N'; an id is made of small letters a-z, figures and hyphens; rename the file",
            "sheets/bad.toml:2:10: height: \"x\" is no length; write one such as \"12 mm\", \"1.2 cm\" or \"1 1/4 in\"",
            "sheets/bad.toml:3:10: colour: \"y\" is no colour; write a CSS name, \"#rrggbb\", or name it in taste.toml under [colours]",
            "pages/quay.toml:5:8: warning: strip.letter.chip: the stash has no sheet \"bad\" that can be used; the slot shows as missing",
            "pages/torn.toml:2:14: invalid literal string, expected `'`; a line is key = value, such as E = 3 or height = \"12 mm\"",
            "wishes.toml:3:1: wish.wording: it is missing; add wording = \"HARBOUR LIGHTS\" or what it is to say",
        ]
    );
    assert_eq!(loaded.stash.sheets().len(), 1);
    assert_eq!(loaded.wishes.len(), 1);
    let plans: Vec<_> =
        loaded.plans.iter().map(|plan| (plan.file.slug().as_str(), plan.plan.is_some())).collect();
    assert_eq!(plans, [("quay", true), ("torn", false)]);
    let stands = loaded.plans[0].plan.as_ref().map(|plan| plan.strips()[0].chips().count());
    assert_eq!(stands, Some(1), "a letter whose chip is gone stays");
}

#[test]
fn a_folder_that_is_not_there_is_an_empty_stash() {
    let (temp, _) = folder(&[]);
    let folder = StashFolder::at(temp.path().join("not/there"));
    assert!(folder.is_empty() && load(&folder).stash.is_empty());
    let (_temp, full) = self::folder(&[("sheets/kelp.toml", SHEET)]);
    assert!(!full.is_empty());
}

#[test]
fn a_file_where_a_folder_should_be_is_told() {
    let (temp, _) = folder(&[("stash", "x")]);
    let loaded = StashFolder::at(temp.path().join("stash")).load();
    assert!(matches!(loaded, Err(FilesError::NoFolder(_))));
}

#[test]
fn bytes_that_are_no_text_are_told_with_their_place() {
    let (temp, folder) = folder(&[("sheets/kelp.toml", "")]);
    assert!(fs::write(temp.path().join("sheets/kelp.toml"), b"form = 'tile'\nname = '\xe9t\xe9'\n").is_ok());
    assert_eq!(
        told(&load(&folder)),
        ["sheets/kelp.toml:2:9: here is a byte that is no UTF-8; save the file as UTF-8"]
    );
}

#[test]
fn many_sheets_come_in_the_order_of_their_names() {
    let names: Vec<String> = (0..40).map(|number| format!("sheets/s{number:02}.toml")).collect();
    let files: Vec<(&str, &str)> = names.iter().map(|name| (name.as_str(), SHEET)).collect();
    let (_temp, folder) = folder(&files);
    let loaded = load(&folder);
    let ids: Vec<String> =
        loaded.stash.sheets().iter().map(|sheet| format!("sheets/{}.toml", sheet.id)).collect();
    assert_eq!(ids, names);
}

#[test]
#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
fn a_plan_is_made_found_opened_and_saved() {
    let (temp, folder) = folder(&[("sheets/kelp.toml", SHEET)]);
    let loaded = load(&folder);
    let slug = PlanSlug::from_title("  Grandma's QUAY — Été!");
    assert_eq!(slug.as_str(), "grandmas-quay-t");
    let file = folder.new_plan(&slug, &titled("AB"), &loaded.colours).unwrap();
    assert!(matches!(folder.new_plan(&slug, &titled("AB"), &loaded.colours), Err(FilesError::PlanThere(_))));
    assert_eq!(folder.free_slug(&slug).as_str(), "grandmas-quay-t-2");
    let by_path = folder.find_plan(file.path().to_str().unwrap()).unwrap();
    assert_eq!((folder.find_plan("grandmas-quay-t").unwrap(), by_path), (file.clone(), file.clone()));
    let missing = folder.find_plan("grandma-quay-t").unwrap_err();
    assert_eq!(
        missing.to_string(),
        "there is no page plan \"grandma-quay-t\"; did you mean grandmas-quay-t?"
    );

    let commented = text(file.path()) + "# mine\n";
    fs::write(file.path(), &commented).unwrap();
    let plan = standing(&titled("AB"), 0, "kelp/A");
    folder.save_plan(&file, &plan, &loaded.colours).unwrap();
    assert!(text(file.path()).ends_with("# mine\n"), "written by hand since it was opened");
    let open = folder.open_plan(&file, &loaded.colours, &loaded.stash).unwrap();
    assert_eq!((open.plan, open.warnings.len()), (plan, 0));
    let left_about: Vec<_> = fs::read_dir(temp.path().join("pages")).unwrap().collect();
    assert_eq!(left_about.len(), 1, "no temporary file stays");
}

#[test]
#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
fn a_plan_that_was_broken_by_hand_is_not_written_over() {
    let (_temp, folder) = folder(&[("pages/quay.toml", "[[strip]]\nwording = 3\n")]);
    let file = folder.find_plan("quay").unwrap();
    let refused = folder.save_plan(&file, &titled("AB"), &ColourNames::default()).unwrap_err();
    assert_eq!(refused.to_string(), "pages/quay.toml:2:11: strip.wording: 3 is no text; put it in quotes");
    assert_eq!(text(file.path()), "[[strip]]\nwording = 3\n");
}

#[test]
#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
fn a_trial_waits_until_it_is_saved_or_let_go() {
    let (_temp, folder) = folder(&[("pages/quay.toml", "[[strip]]\nwording = 'AB'\n")]);
    let (own, stash) = (ColourNames::default(), Stash::default());
    let file = folder.find_plan("quay").unwrap();
    let trial = standing(&titled("AB"), 1, "kelp/B");
    assert!(folder.trial(&file, &own, &stash).unwrap().is_none());
    folder.keep_trial(&file, &trial, &own).unwrap();
    assert_eq!(text(file.path()), "[[strip]]\nwording = 'AB'\n", "the plan itself is untouched");
    assert!(load(&folder).plans[0].has_trial);
    assert_eq!(folder.trials().unwrap(), std::slice::from_ref(&file));
    assert_eq!(folder.trial(&file, &own, &stash).unwrap().unwrap().plan, trial);
    folder.save_plan(&file, &trial, &own).unwrap();
    assert!(folder.trial(&file, &own, &stash).unwrap().is_none());
    folder.keep_trial(&file, &trial, &own).unwrap();
    folder.drop_trial(&file).unwrap();
    folder.drop_trial(&file).unwrap();
    assert!(folder.trials().unwrap().is_empty());
}

#[test]
#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
fn plans_elsewhere_have_trials_of_their_own() {
    let (temp, folder) = folder(&[
        ("pages/quay.toml", "[[strip]]\nwording = 'AB'\n"),
        ("out/quay.toml", "[[strip]]\nwording = 'C'\n"),
    ]);
    let (own, stash) = (ColourNames::default(), Stash::default());
    let outside = folder.find_plan(temp.path().join("out/quay.toml").to_str().unwrap()).unwrap();
    folder.keep_trial(&outside, &titled("D"), &own).unwrap();
    assert_eq!(folder.trial(&outside, &own, &stash).unwrap().map(|open| open.plan), Some(titled("D")));
    assert!(folder.trial(&folder.find_plan("quay").unwrap(), &own, &stash).unwrap().is_none());
}

#[test]
#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
fn one_writer_at_a_time() {
    let (_temp, folder) = folder(&[]);
    let first = folder.ask_to_write().unwrap();
    assert!(first.may_write());
    assert!(matches!(folder.ask_to_write().unwrap(), Access::OtherWriter));
    drop(first);
    assert!(folder.ask_to_write().unwrap().may_write());
}

#[test]
fn what_a_killed_writer_left_is_taken_away() {
    let (temp, folder) =
        folder(&[("pages/.writing-x1.part", "half"), ("pages/quay.toml", ""), ("pages/.mine", "")]);
    assert!(folder.ask_to_write().is_ok_and(|access| access.may_write()));
    let stays = |name: &str| temp.path().join("pages").join(name).exists();
    assert_eq!([".writing-x1.part", "quay.toml", ".mine"].map(stays), [false, true, true]);
}

#[cfg(unix)]
mod unix {
    //! Modes, links and folders that take no changes.

    use std::os::unix::fs::{PermissionsExt as _, symlink};

    use super::*;

    fn mode(path: &Path) -> u32 {
        fs::metadata(path).map_or(0, |data| data.permissions().mode() & 0o777)
    }

    #[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
    fn set_mode(path: &Path, mode: u32) {
        fs::set_permissions(path, fs::Permissions::from_mode(mode)).unwrap();
    }

    #[test]
    #[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
    fn the_mode_stays_and_a_link_is_followed() {
        let (temp, _) = folder(&[("real/a.toml", "old")]);
        let (real, link) = (temp.path().join("real/a.toml"), temp.path().join("link.toml"));
        set_mode(&real, 0o640);
        symlink("real/a.toml", &link).unwrap();
        replace_file(&link, b"new").unwrap();
        assert_eq!((text(&real).as_str(), mode(&real)), ("new", 0o640));
        assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
        let dangling = temp.path().join("dangling.toml");
        symlink("real/b.toml", &dangling).unwrap();
        replace_file(&dangling, b"b").unwrap();
        assert_eq!(text(&temp.path().join("real/b.toml")), "b");
    }

    #[test]
    #[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
    fn what_is_no_file_stays_what_it_is() {
        let (temp, _) = folder(&[]);
        let (socket, link) = (temp.path().join("socket"), temp.path().join("walk.pdf"));
        let _open = std::os::unix::net::UnixListener::bind(&socket).unwrap();
        symlink("socket", &link).unwrap();
        let error = replace_file(&link, b"x").unwrap_err().to_string();
        assert!(error.contains("it is no file but a device"), "{error}");
        assert!(!fs::metadata(&socket).unwrap().is_file());
    }

    #[test]
    #[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
    fn links_in_a_circle_are_told() {
        let (temp, _) = folder(&[]);
        symlink("b", temp.path().join("a")).unwrap();
        symlink("a", temp.path().join("b")).unwrap();
        let error = replace_file(&temp.path().join("a"), b"x").unwrap_err().to_string();
        assert!(
            error.ends_with("its symbolic links lead round in a circle; what it held is untouched"),
            "{error}"
        );
    }

    #[test]
    fn what_takes_no_changes_is_told_and_untouched() {
        let (temp, folder) = folder(&[("pages/quay.toml", "old"), ("pages/mine.toml", "old")]);
        let path = temp.path().join("pages/mine.toml");
        set_mode(&path, 0o444);
        let told = replace_file(&path, b"new").map_err(|error| error.to_string());
        let wanted = format!(
            "cannot write {}: you may not; see who may read and write there; what it held is untouched",
            path.display()
        );
        assert_eq!((told, text(&path).as_str()), (Err(wanted), "old"));
        let pages = temp.path().join("pages");
        set_mode(&pages, 0o555);
        let refused = replace_file(&pages.join("quay.toml"), b"new");
        set_mode(&pages, 0o755);
        assert!(matches!(refused, Err(FilesError::Write { .. })));
        assert_eq!(text(&pages.join("quay.toml")), "old");
        set_mode(temp.path(), 0o555);
        let access = folder.ask_to_write();
        set_mode(temp.path(), 0o755);
        assert!(matches!(access, Ok(Access::ReadOnly)));
    }

    #[test]
    fn a_file_in_place_of_a_folder_is_told() {
        let (temp, _) = folder(&[("trials", "x")]);
        let told =
            replace_file(&temp.path().join("trials/quay.toml"), b"x").map_err(|error| error.to_string());
        let why = "a part of the path is a file where a folder should be; look at the path";
        assert!(told.is_err_and(|told| told.contains(why)));
    }
}

#[test]
#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
fn the_sample_unpacks_and_is_without_fault() {
    let (temp, _) = folder(&[]);
    let to = temp.path().join("sample");
    unpack_sample(&to).unwrap();
    let folder = StashFolder::at(&to);
    let loaded = load(&folder);
    assert_eq!(told(&loaded), Vec::<String>::new());
    assert!(loaded.stash.sheets().len() >= 14 && loaded.plans.len() >= 2 && !loaded.wishes.is_empty());
    assert!(loaded.colours.iter().count() > 0);
    for entry in &loaded.plans {
        let before = text(entry.file.path());
        folder.save_plan(&entry.file, entry.plan.as_ref().unwrap(), &loaded.colours).unwrap();
        assert_eq!(text(entry.file.path()), before);
    }
    assert!(matches!(unpack_sample(&to), Err(FilesError::InTheWay(_))));
}
