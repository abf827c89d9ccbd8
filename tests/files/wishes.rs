//! Wishes added and dropped: what else the file says stays to the byte, and what is wrong is told before anything is written.
//!
//! Must not know how a wish is written.

#![expect(clippy::unwrap_used, reason = "a test may fail loudly")]

use std::fs;
use std::path::PathBuf;

use oddment::files::{Access, FilesError, StashFolder, StashLock, unpack_sample};
use oddment::title::{Wish, Wording};
use proptest::prelude::*;
use tempfile::TempDir;

/// A stash with nothing but wishes, and the right to write to it.
struct Place {
    _temp: TempDir,
    folder: StashFolder,
    lock: StashLock,
}

impl Place {
    /// With this text in `wishes.toml`; `None`: without that file.
    fn with(text: Option<&str>) -> Self {
        let temp = TempDir::new().unwrap();
        let folder = StashFolder::at(temp.path());
        if let Some(text) = text {
            fs::write(temp.path().join("wishes.toml"), text).unwrap();
        }
        let lock = loop {
            // A test beside that starts a program may hold a copy of the lock for a moment.
            if let Access::Writer(lock) = folder.ask_to_write().unwrap() {
                break lock;
            }
        };
        Self { _temp: temp, folder, lock }
    }

    fn path(&self) -> PathBuf {
        self.folder.path().join("wishes.toml")
    }

    fn text(&self) -> String {
        fs::read_to_string(self.path()).unwrap()
    }

    fn add(&self, text: &str) -> Result<(), FilesError> {
        self.folder.add_wish(&self.lock, &Wish { wording: said(text), note: None })
    }

    fn drop(&self, text: &str) -> Result<Wish, FilesError> {
        self.folder.drop_wish(&self.lock, &said(text))
    }

    /// All that is wished for.
    fn wishes(&self) -> Vec<String> {
        let loaded = self.folder.load().unwrap();
        assert!(!loaded.problems.has_errors(), "{}", loaded.problems);
        loaded.wishes.iter().map(|wish| wish.wording.text().to_owned()).collect()
    }
}

fn said(text: &str) -> Wording {
    Wording::new(text).unwrap()
}

/// The file before, and after a wish for QUAY was added.
const ADDED: [(&str, &str); 9] = [
    ("", "[[wish]]\nwording = \"QUAY\"\n"),
    ("\u{feff}", "\u{feff}[[wish]]\nwording = \"QUAY\"\n"),
    ("# Titles.\n", "# Titles.\n\n[[wish]]\nwording = \"QUAY\"\n"),
    (
        "odd = 1\n[[wish]]\nwording='PIER' # short\n# or not\n\n[other] # kept\nx = 2\n# the end",
        "odd = 1\n[[wish]]\nwording='PIER' # short\n# or not\n\n[other] # kept\nx = 2\n# the end\n\n[[wish]]\nwording = \"QUAY\"\n",
    ),
    (
        "[[wish]]\r\nwording = 'PIER'\r\n# the end\r\n",
        "[[wish]]\r\nwording = 'PIER'\r\n# the end\r\n\r\n[[wish]]\r\nwording = \"QUAY\"\r\n",
    ),
    ("wish = []\n", "wish = [{ wording = \"QUAY\" }]\n"),
    (
        "wish = [{ wording = 'PIER' }] # all\n",
        "wish = [{ wording = 'PIER' }, { wording = \"QUAY\" }] # all\n",
    ),
    (
        "wish = [\n  # the first\n  { wording = 'PIER' }, # short\n  # more to come\n]\nodd = 1\n",
        "wish = [\n  # the first\n  { wording = 'PIER' }, # short\n  # more to come\n  { wording = \"QUAY\" },\n]\nodd = 1\n",
    ),
    (
        "wish = [\r\n  { wording = 'PIER' } # short\r\n]\r\n",
        "wish = [\r\n  { wording = 'PIER' } # short\r\n,\r\n  { wording = \"QUAY\" }]\r\n",
    ),
];

#[test]
fn a_wish_comes_last_and_nothing_else_changes() {
    for (before, after) in ADDED {
        let place = Place::with(Some(before));
        let mut wanted = place.wishes();
        wanted.push("QUAY".into());
        place.add("QUAY").unwrap();
        assert_eq!(place.text(), after);
        assert_eq!(place.wishes(), wanted, "{after}");
    }
    let place = Place::with(None);
    place.add("QUAY").unwrap();
    assert_eq!(place.text(), ADDED[0].1);
}

#[test]
fn a_wish_of_two_lines_with_a_note_is_read_as_it_was_made() {
    for before in ["", "wish = []", "[[wish]]\r\nwording = '''\r\nPIER\r\nBOATS'''\r\n"] {
        let place = Place::with(Some(before));
        let wish = Wish {
            wording: said("\u{201c}LA F\u{ca}TE\u{201d}\nDU \\PORT"),
            note: Some("for \"Ann\"\n\ttwice".into()),
        };
        place.folder.add_wish(&place.lock, &wish).unwrap();
        assert_eq!(place.folder.load().unwrap().wishes.last(), Some(&wish), "{}", place.text());
        assert_eq!(place.folder.drop_wish(&place.lock, &wish.wording).unwrap(), wish);
        assert_eq!(place.folder.load().unwrap().wishes.len(), usize::from(before.len() > 10));
    }
}

/// A file, the wish that is dropped, and the file after.
const DROPPED: [(&str, &str, &str); 14] = [
    ("[[wish]]\nwording = 'QUAY'\n", "QUAY", ""),
    ("# Titles.\n\n[[wish]]\nwording = 'QUAY'\n", "QUAY", "# Titles.\n"),
    ("# Titles.\n[[wish]]\nwording = 'QUAY'\n\n# the end\n", "QUAY", "# Titles.\n\n# the end\n"),
    (
        "# Titles.\n\n# about the quay\n[[wish]]\nwording = 'QUAY' # long\n# and dear\nnote = 'x'\n\n# about the pier\n[[wish]]\nwording = 'PIER'\n",
        "QUAY",
        "# Titles.\n\n# about the pier\n[[wish]]\nwording = 'PIER'\n",
    ),
    (
        "[[wish]]\nwording = 'PIER'\n# still the pier\n\n# about the quay\n[[wish]]\nwording = 'QUAY'\n\n[[wish]]\nwording = 'MOLE'\n",
        "QUAY",
        "[[wish]]\nwording = 'PIER'\n# still the pier\n\n[[wish]]\nwording = 'MOLE'\n",
    ),
    (
        "[[wish]]\nwording = 'PIER'\n# whose is this?\n[[wish]]\nwording = 'QUAY'\n[[wish]]\nwording = 'MOLE'\n",
        "QUAY",
        "[[wish]]\nwording = 'PIER'\n# whose is this?\n[[wish]]\nwording = 'MOLE'\n",
    ),
    (
        "odd = 1\n\n[[wish]]\nwording = 'QUAY'\nodd = 2\n[wish.more]\nx = 3\n\n[other]\ny = 4 # kept\n\n[[wish]]\nwording = 'PIER'\n",
        "QUAY",
        "odd = 1\n\n[other]\ny = 4 # kept\n\n[[wish]]\nwording = 'PIER'\n",
    ),
    (
        "\u{feff}[[wish]]\r\nwording = 'QUAY'\r\n\r\n[[wish]]\r\nwording = 'PIER'\r\n# the end",
        "QUAY",
        "\u{feff}[[wish]]\r\nwording = 'PIER'\r\n# the end",
    ),
    (
        "[[wish]]\r\nwording = 'PIER'\r\n\r\n# the quay\r\n[[wish]]\r\nwording = 'QUAY'\r\n",
        "QUAY",
        "[[wish]]\r\nwording = 'PIER'\r\n",
    ),
    // What looks like a comment is the end of a text.
    ("mine = '''\n\n# the mole'''\n[[wish]]\nwording = 'QUAY'\n", "QUAY", "mine = '''\n\n# the mole'''\n"),
    (
        "[[wish]]\nwording = 'PIER'\nnote = '''by\n\n# the mole'''\n[[wish]]\nwording = 'QUAY'\n",
        "QUAY",
        "[[wish]]\nwording = 'PIER'\nnote = '''by\n\n# the mole'''\n",
    ),
    ("wish = [{ wording = 'QUAY' }] # none left\n", "QUAY", "wish = [] # none left\n"),
    (
        "wish = [{ wording = 'QUAY' }, { wording = 'PIER' }, { wording = 'MOLE' }]\n",
        "QUAY",
        "wish = [{ wording = 'PIER' }, { wording = 'MOLE' }]\n",
    ),
    (
        "wish = [\n  { wording = 'PIER' }, # short\n  { wording = 'QUAY' }, # long\n  { wording = 'MOLE' },\n]\n",
        "QUAY",
        "wish = [\n  { wording = 'PIER' }, # short\n   # long\n  { wording = 'MOLE' },\n]\n",
    ),
];

#[test]
fn a_wish_goes_and_takes_nothing_along_that_belongs_to_others() {
    for (before, wording, after) in DROPPED {
        let place = Place::with(Some(before));
        let mut wanted = place.wishes();
        wanted.retain(|wish| wish != wording);
        assert_eq!(place.drop(wording).unwrap().wording, said(wording));
        assert_eq!(place.text(), after);
        assert_eq!(place.wishes(), wanted, "{after}");
    }
}

#[test]
fn what_was_added_is_dropped_without_a_trace() {
    let place = Place::with(None);
    unpack_sample(&place.folder.path().join("sample")).unwrap();
    let sample = fs::read_to_string(place.folder.path().join("sample/wishes.toml")).unwrap();
    for before in
        [sample.clone(), sample.replace('\n', "\r\n"), sample.replace("[[wish]]", "# mine\n[[wish]]")]
    {
        fs::write(place.path(), &before).unwrap();
        place.add("THE LAST\nFERRY").unwrap();
        assert!(place.text().starts_with(&before));
        place.drop("THE LAST\nFERRY").unwrap();
        assert_eq!(place.text(), before);
        for wish in place.wishes() {
            place.drop(&wish).unwrap();
        }
        assert!(
            place.wishes().is_empty() && place.text().starts_with("# Titles to make one day."),
            "{}",
            place.text()
        );
    }
}

#[test]
fn a_wording_is_wished_for_once_however_it_is_spelled() {
    let place = Place::with(Some("[[wish]]\nwording = \"CAF\u{c9} ISN\u{2019}T\\nOPEN\"\n"));
    let before = place.text();
    let told = place.add("CAFE\u{301}  ISN'T\nOPEN").unwrap_err();
    assert_eq!(told.to_string(), "\"CAF\u{c9}  ISN'T\\nOPEN\" is wished for already");
    assert!(told.is_input());
    assert_eq!(
        place.add("  ").unwrap_err().to_string(),
        "a wish has to say something; write what the title is to say"
    );
    assert_eq!(place.text(), before);
    place.add("Caf\u{e9} isn't\nopen").unwrap();
    assert_eq!(place.wishes().len(), 2);
}

#[test]
fn what_is_not_wished_for_cannot_be_dropped() {
    let place = Place::with(Some("[[wish]]\nwording = 'HARBOUR LIGHTS'\n"));
    let before = place.text();
    for (text, told) in [
        ("HARBOR LIGHTS", "\"HARBOR LIGHTS\" is not wished for; did you mean \"HARBOUR LIGHTS\"?"),
        ("QUAY", "\"QUAY\" is not wished for"),
    ] {
        assert_eq!(place.drop(text).unwrap_err().to_string(), told);
    }
    assert_eq!(place.text(), before);
    assert_eq!(Place::with(None).drop("QUAY").unwrap_err().to_string(), "\"QUAY\" is not wished for");
}

#[test]
fn a_file_with_errors_is_told_and_left_alone() {
    for (text, told) in [
        (
            "[[wish]]\n",
            "wishes.toml:1:1: wish.wording: it is missing; add wording = \"HARBOUR LIGHTS\" or what it is to say",
        ),
        (
            "[wish]\nwording = 'A'\n",
            "wishes.toml:1:1: wish: there may be several; start each with double brackets, [[wish]]",
        ),
        (
            "[[wish]]\nwording = ' '\n",
            "wishes.toml:2:11: wish.wording: it says nothing; write what it is to say, or take the wish out",
        ),
        (
            "[[wish]]\nwording = 'A\n",
            "wishes.toml:2:13: invalid literal string, expected `'`; a line is key = value, such as E = 3 or height = \"12 mm\"",
        ),
    ] {
        let place = Place::with(Some(text));
        let wanted = format!("{told}\nno wish is added or dropped before that is set right");
        assert_eq!(place.add("QUAY").unwrap_err().to_string(), wanted);
        assert_eq!(place.drop("A").unwrap_err().to_string(), wanted);
        assert_eq!(place.text(), text);
    }
    let place = Place::with(None);
    fs::write(place.path(), b"[[wish]]\nwording = 'CAF\xc9'\n").unwrap();
    let told = place.add("QUAY").unwrap_err().to_string();
    assert!(
        told.starts_with("wishes.toml:2:15: here is a byte that is no UTF-8; save the file as UTF-8"),
        "{told}"
    );
}

#[test]
fn a_folder_that_is_gone_is_not_made_anew_for_a_wish() {
    let place = Place::with(None);
    fs::remove_dir_all(place.folder.path()).unwrap();
    assert!(matches!(place.add("QUAY"), Err(FilesError::Gone(_))));
    assert!(!place.folder.path().exists());
}

/// Pieces of a file with wishes; `%` is the number of the piece.
const PIECES: [&str; 9] = [
    "[[wish]]\nwording = 'W%'\n",
    "[[wish]]\nnote = \"x\" # note\nwording = \"W%\\nTWO\" # own\nodd = 1\n",
    "[[wish]]\nwording = '''W%\nTWO'''\n[wish.more]\nx = { y = 1 } # own\n",
    "# kept %\n",
    "\n",
    "\n\n",
    "[[other]]\nx = 1 # kept\n",
    "[table%]\nx = '# kept'\n",
    "  # kept %\n\n",
];

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(64) })]

    #[test]
    fn any_wish_is_added_and_dropped_and_the_rest_is_left(
        pieces in proptest::collection::vec(0..PIECES.len(), 0..9),
        (returns, mark, is_cut) in (any::<bool>(), any::<bool>(), any::<bool>()),
    ) {
        let numbered = |(number, piece): (usize, &usize)| PIECES[*piece].replace('%', &number.to_string());
        let mut text: String = pieces.iter().enumerate().map(numbered).collect();
        if is_cut {
            text.truncate(text.trim_end().len());
        }
        let text = if mark { format!("\u{feff}{text}") } else { text };
        let text = if returns { text.replace('\n', "\r\n") } else { text };
        let place = Place::with(Some(&text));
        let before = place.wishes();
        place.add("QUAY").unwrap();
        prop_assert!(place.text().starts_with(&text));
        prop_assert_eq!(place.wishes(), [before.clone(), vec!["QUAY".into()]].concat());
        for dropped in &before {
            fs::write(place.path(), &text).unwrap();
            place.drop(dropped).unwrap();
            let after = place.text();
            prop_assert_eq!(place.wishes(), before.iter().filter(|wish| *wish != dropped).cloned().collect::<Vec<_>>());
            let kept = |text: &str| text.lines().filter(|line| line.contains("kept")).map(str::to_owned).collect::<Vec<_>>();
            let gone = kept(&text).len() - kept(&after).len();
            prop_assert!(gone <= 2, "no more than the comment right over it\n{}\n{}", text, after);
            let body = |text: &'_ str| text.trim_start_matches('\u{feff}').lines().map(str::to_owned).collect::<Vec<_>>();
            let mut rest = body(&text).into_iter();
            prop_assert!(body(&after).into_iter().all(|line| rest.any(|one| one == line)), "nothing new, in the same order\n{}\n{}", text, after);
            prop_assert_eq!(after.contains("\r\n"), returns && after.contains('\n'));
            prop_assert_eq!(after.starts_with('\u{feff}'), mark);
        }
    }
}
