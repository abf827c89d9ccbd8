//! A benchmark of sticking a title down: the ledger, every sheet that it takes from, and the plan.
//!
//! On the disk, and in memory, where to make sure of a file costs nothing: what is left there is the program's own. The rival
//! does what must be done at least: the same bytes of the same files, each written, synced and renamed, and nothing read.
//! Must not know how a deed is recorded.

use std::collections::BTreeMap;
use std::fs::{self, File};
use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::time::Instant;

use oddment::files::{Access, Lift, PlanSlug, StashFolder};
use oddment::stash::{ChipId, Deed, Kind};
use tempfile::TempDir;

use super::{figures, made, millis, ratio};

/// Sheets of the largest stash, and the entries of its ledger.
const STASH: (usize, u32) = (1_000, 300);

/// A title of twenty letters from twenty sheets.
const TITLE: &str = "LANTERNS ON THE OLD QUAY";

const DAY: &str = "2031-11-05";

/// Measures on the disk, and in memory where there is such a folder.
pub(crate) fn stick() {
    println!(
        "\nsticking a title of 20 letters down, 1,000 sheets, against writing the same bytes with std::fs"
    );
    on("disk", &std::env::temp_dir());
    if Path::new("/dev/shm").is_dir() {
        on("memory", Path::new("/dev/shm"));
    }
}

fn on(name: &str, place: &Path) {
    let (stash, beside) = (TempDir::new_in(place).unwrap(), TempDir::new_in(place).unwrap());
    made::write(stash.path(), STASH.0, STASH.1).unwrap();
    fs::write(stash.path().join("pages/title.toml"), plan()).unwrap();
    let folder = StashFolder::at(stash.path());
    let Access::Writer(lock) = folder.ask_to_write().unwrap() else { unreachable!("nobody else is here") };
    let file = folder.plan_called(&PlanSlug::new("title").unwrap());
    let chips = chips().map(|chip| (ChipId::parse(&chip).unwrap(), 1)).collect();
    folder.record(&lock, Deed { kind: Kind::Added, of: None, chips }, DAY).unwrap();
    let (mut ours, mut rival, mut files) = (Vec::new(), Vec::new(), 0);
    for _ in 0..15 {
        let loaded = folder.load().unwrap();
        let plan = folder.open_plan(&file, &loaded.colours, &loaded.stash).unwrap().plan;
        let before = texts(stash.path());
        let begun = Instant::now();
        let stuck = folder.stick(&lock, (&file, &plan, 0), DAY, &loaded.colours).unwrap().unwrap();
        ours.push(begun.elapsed());
        let changed: Vec<(PathBuf, Vec<u8>)> =
            texts(stash.path()).into_iter().filter(|(path, text)| before.get(path) != Some(text)).collect();
        files = changed.len();
        let begun = Instant::now();
        for (path, text) in &changed {
            write(&beside.path().join(path.file_name().unwrap()), text);
        }
        rival.push(begun.elapsed());
        folder.lift(&lock, (&file, &stuck, 0), Lift::All, DAY, &loaded.colours).unwrap();
    }
    let ((ours, slow), (rival, _)) = (figures(&mut ours), figures(&mut rival));
    println!(
        "  {name:<6} {} (p99 {})  std::fs, {files} files {}  {}",
        millis(ours),
        millis(slow),
        millis(rival),
        ratio(ours, rival)
    );
}

/// Written so that a crash leaves the old content or the new.
fn write(path: &Path, text: &[u8]) {
    let fresh = path.with_extension("part");
    let mut file = File::create(&fresh).unwrap();
    file.write_all(text).unwrap();
    file.sync_all().unwrap();
    fs::rename(&fresh, path).unwrap();
    File::open(path.parent().unwrap()).unwrap().sync_all().unwrap();
}

/// Every file of a stash with its content.
fn texts(stash: &Path) -> BTreeMap<PathBuf, Vec<u8>> {
    let within = |name: &str| fs::read_dir(stash.join(name)).unwrap().map(|entry| entry.unwrap().path());
    let files = within("sheets").chain(within("pages")).chain([stash.join("ledger.toml")]);
    files.map(|path| (path.clone(), fs::read(path).unwrap())).collect()
}

fn plan() -> String {
    let mut text = format!("[[strip]]\nwording = \"{TITLE}\"\nroom = \"900 mm\"\n");
    for (slot, chip) in (1..).zip(chips()) {
        text += &format!("\n[[strip.letter]]\nslot = {slot}\nchip = \"{chip}\"\n");
    }
    text
}

/// A letter of the title from every 49th sheet or the one after: three in four have capitals.
fn chips() -> impl Iterator<Item = String> {
    let letters = TITLE.chars().filter(|letter| !letter.is_whitespace());
    (0..).zip(letters).map(|(place, letter)| format!("sheet-{:04}/{letter}", place * 48 + 1))
}
