//! What another hand changes in a stash's folder, and what the program's own does not count as.
//!
//! Must not know what a change leads to.

#![expect(clippy::unwrap_used, reason = "a test may fail loudly")]

use std::fs::{self, File};
use std::path::Path;
use std::time::{Duration, SystemTime};

use oddment::files::{
    Access, Change, FilesError, How, Lift, Part, PlanFile, PlanSlug, Seen, StashFolder, unpack_sample,
};
use oddment::plan::Plan;
use oddment::stash::{ChipId, Deed, Kind};
use oddment::title::{Edit, Sticker, Stood, Wish, Wording};
use tempfile::TempDir;

/// The sample in a folder, as it was seen, and the plan that is open.
struct Place {
    temp: TempDir,
    folder: StashFolder,
    seen: Seen,
    plan: PlanFile,
}

impl Place {
    fn new() -> Self {
        let temp = TempDir::new().unwrap();
        let path = temp.path().join("stash");
        unpack_sample(&path).unwrap();
        let folder = StashFolder::at(path);
        let seen = folder.load().unwrap().seen;
        let plan = folder.find_plan("lantern-walk").unwrap();
        Self { temp, folder, seen, plan }
    }

    fn path(&self, name: &str) -> std::path::PathBuf {
        self.folder.path().join(name)
    }

    fn add(&self, name: &str, text: &str) {
        let old = fs::read_to_string(self.path(name)).unwrap_or_default();
        fs::write(self.path(name), old + text).unwrap();
    }

    fn changes(&mut self) -> Vec<Change> {
        self.folder.changes_since(&mut self.seen, &self.plan).unwrap()
    }

    fn told(&mut self) -> Vec<(String, Part, How)> {
        self.changes().into_iter().map(|change| (change.file, change.part, change.how)).collect()
    }
}

fn one(file: &str, part: Part, how: How) -> Vec<(String, Part, How)> {
    vec![(file.to_owned(), part, how)]
}

/// Gives a file the time of its last change back that it had.
fn set_back(path: &Path, to: SystemTime) {
    File::options().write(true).open(path).unwrap().set_modified(to).unwrap();
}

#[test]
fn each_file_is_told_for_what_it_is_until_the_stash_is_read_anew() {
    for (file, part) in [
        ("sheets/kelp-caps.toml", Part::Sheet),
        ("taste.toml", Part::Taste),
        ("wishes.toml", Part::Wishes),
        ("on-sale.toml", Part::OnSale),
        ("keys.toml", Part::Keys),
        ("pages/lantern-walk.toml", Part::ThisPlan),
    ] {
        let mut place = Place::new();
        assert_eq!(place.told(), []);
        place.add(file, "# seen\n");
        assert_eq!(place.told(), one(file, part, How::Changed));
        assert_eq!(place.told(), one(file, part, How::Changed), "still");
        place.seen = place.folder.load().unwrap().seen;
        assert_eq!(place.told(), []);
        fs::remove_file(place.path(file)).unwrap();
        assert_eq!(place.told(), one(file, part, How::Gone));
        place.seen = place.folder.load().unwrap().seen;
        assert_eq!(place.told(), []);
    }
}

#[test]
fn what_appears_is_told_and_what_is_none_of_the_stash_is_not() {
    let mut place = Place::new();
    for file in ["sheets/.kelp.toml", "sheets/notes.txt", "trials/lantern-walk.toml", "notes.toml"] {
        fs::create_dir_all(place.path(file).parent().unwrap()).unwrap();
        place.add(file, "# none of ours\n");
    }
    assert_eq!(place.told(), []);
    place.add("sheets/new.toml", "# a sheet\n");
    place.add("pages/new.toml", "# a plan\n");
    place.add("ledger.toml", "# the ledger\n");
    let told = place.told();
    assert_eq!(
        told,
        [
            ("ledger.toml".into(), Part::Ledger, How::Appeared),
            ("pages/new.toml".into(), Part::OtherPlan, How::Appeared),
            ("sheets/new.toml".into(), Part::Sheet, How::Appeared),
        ]
    );
}

#[test]
fn a_change_that_keeps_length_and_time_is_seen() {
    let mut place = Place::new();
    let sheet = place.path("sheets/kelp-caps.toml");
    let long_ago = SystemTime::now() - Duration::from_hours(1);
    set_back(&sheet, long_ago);
    place.seen = place.folder.load().unwrap().seen;
    let text = fs::read_to_string(&sheet).unwrap();
    let other = text.replacen("height", "Height", 1);
    assert!(other != text && other.len() == text.len());
    fs::write(&sheet, other).unwrap();
    set_back(&sheet, long_ago);
    assert_eq!(place.told(), one("sheets/kelp-caps.toml", Part::Sheet, How::Changed));
    fs::write(&sheet, text).unwrap();
    assert_eq!(place.told(), [], "it is as it was");
}

#[test]
fn a_file_that_is_put_in_the_place_of_another_is_seen_and_the_same_again_is_not() {
    let mut place = Place::new();
    let (sheet, beside) = (place.path("sheets/kelp-caps.toml"), place.path("sheets/.beside"));
    fs::copy(&sheet, &beside).unwrap();
    fs::rename(&beside, &sheet).unwrap();
    assert_eq!(place.told(), []);
    fs::write(&beside, "name = 'other'\n").unwrap();
    fs::rename(&beside, &sheet).unwrap();
    assert_eq!(place.told().len(), 1);
}

#[test]
fn the_programs_own_hand_is_not_told_and_another_after_it_is() {
    let mut place = Place::new();
    let Access::Writer(lock) = place.folder.ask_to_write().unwrap() else {
        return assert_eq!(1, 0, "locked");
    };
    let loaded = place.folder.load().unwrap();
    let id = ChipId::parse("net-floats/C").unwrap();
    let mut plan = Plan::titled(Wording::new("C").unwrap());
    plan.edit_strip(
        0,
        Edit::Letter { slot: 0, stood: Some(Stood::straight(Sticker::Chip { id, stands_in: None })) },
    );
    let slug = PlanSlug::new("sea").unwrap();
    let file = place.folder.new_plan(&slug, &plan, &loaded.colours).unwrap();
    assert_eq!(place.told(), []);
    place.folder.keep_trial(&file, &plan, &loaded.colours).unwrap();
    let aside = place.folder.set_trial_aside(&file).unwrap();
    assert!(aside.exists());
    let stuck = place.folder.stick(&lock, (&file, &plan, 0), "2026-05-01", &loaded.colours).unwrap().unwrap();
    assert_eq!(place.told(), []);
    place.folder.lift(&lock, (&file, &stuck, 0), Lift::All, "2026-05-02", &loaded.colours).unwrap();
    let sheet = loaded.stash.sheets()[0].clone();
    let deed =
        Deed { kind: Kind::Counted, of: None, chips: [(ChipId::parse("net-floats/C").unwrap(), 5)].into() };
    place.folder.record(&lock, deed, "2026-05-03").unwrap();
    let made = oddment::stash::Sheet { id: oddment::stash::SheetId::new("fresh").unwrap(), ..sheet };
    let more = Deed { kind: Kind::Added, of: None, chips: [].into() };
    place.folder.take_in(&lock, &[made], more, "2026-05-04").unwrap();
    assert_eq!(place.told(), []);
    let wish = Wish { wording: Wording::new("SEA AIR").unwrap(), note: None };
    place.folder.add_wish(&lock, &wish).unwrap();
    assert_eq!(place.told(), []);
    place.folder.drop_wish(&lock, &wish.wording).unwrap();
    assert_eq!(place.told(), []);
    place.add("sheets/net-floats.toml", "# by hand\n");
    assert_eq!(place.told(), one("sheets/net-floats.toml", Part::Sheet, How::Changed));
    // The same content as the program's own, after another's: told as well once that was taken in.
    let own = fs::read_to_string(place.path("sheets/fresh.toml")).unwrap();
    place.add("sheets/fresh.toml", "# by hand\n");
    place.seen = place.folder.load().unwrap().seen;
    fs::write(place.path("sheets/fresh.toml"), own).unwrap();
    assert_eq!(place.told(), one("sheets/fresh.toml", Part::Sheet, How::Changed));
}

#[test]
fn a_change_over_what_was_just_written_is_told() {
    let mut place = Place::new();
    let loaded = place.folder.load().unwrap();
    let plan = place.folder.open_plan(&place.plan, &loaded.colours, &loaded.stash).unwrap().plan;
    let other = Plan::new(Some("Other".into()), plan.page.clone(), plan.strips().to_vec()).unwrap();
    place.folder.save_plan(&place.plan, &other, &loaded.colours).unwrap();
    place.add("pages/lantern-walk.toml", "# by hand\n");
    assert_eq!(place.told(), one("pages/lantern-walk.toml", Part::ThisPlan, How::Changed));
}

#[test]
fn a_plan_that_lies_elsewhere_is_seen_when_it_was_added() {
    let mut place = Place::new();
    let path = place.temp.path().join("beside.toml");
    fs::write(&path, "[[strip]]\nwording = 'SEA'\n").unwrap();
    place.plan = place.folder.find_plan(path.to_str().unwrap()).unwrap();
    place.seen.add_plan(&place.plan);
    assert_eq!(place.told(), []);
    fs::write(&path, "[[strip]]\nwording = 'TIDE'\n").unwrap();
    let changes = place.changes();
    assert_eq!((changes.len(), changes[0].part, changes[0].how), (1, Part::ThisPlan, How::Changed));
    assert_eq!(changes[0].path, path);
}

#[test]
fn a_folder_that_is_gone_or_empty_is_told_and_not_made_anew() {
    let mut place = Place::new();
    let loaded = place.folder.load().unwrap();
    let plan = place.folder.open_plan(&place.plan, &loaded.colours, &loaded.stash).unwrap().plan;
    fs::remove_dir_all(place.folder.path()).unwrap();
    let gone = |result: Result<(), FilesError>| matches!(result, Err(FilesError::Gone(_)));
    assert!(gone(place.folder.changes_since(&mut place.seen, &place.plan).map(drop)));
    assert!(gone(place.folder.keep_trial(&place.plan, &plan, &loaded.colours)));
    assert!(gone(place.folder.save_plan(&place.plan, &plan, &loaded.colours)));
    assert!(!place.folder.path().exists());
    fs::create_dir(place.folder.path()).unwrap();
    assert!(gone(place.folder.changes_since(&mut place.seen, &place.plan).map(drop)));
}

#[cfg(unix)]
#[test]
fn the_lock_is_known_to_lock_this_folder_and_no_other() {
    let place = Place::new();
    let Access::Writer(lock) = place.folder.ask_to_write().unwrap() else {
        return assert_eq!(1, 0, "locked");
    };
    assert!(lock.holds());
    let away = place.temp.path().join("away");
    fs::rename(place.folder.path(), &away).unwrap();
    assert!(!lock.holds());
    unpack_sample(place.folder.path()).unwrap();
    assert!(!lock.holds());
    assert!(matches!(place.folder.ask_to_write().unwrap(), Access::Writer(_)));
    assert!(!lock.holds(), "another file of that name");
}
