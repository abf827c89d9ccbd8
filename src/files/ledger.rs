//! Reads `ledger.toml`, and spells an entry to be added to it.
//!
//! The file only grows: an entry is text after all that stands there, which is never touched. Must not know folders.

use std::collections::BTreeMap;
use std::fmt::{Display, Write as _};

use crate::measure::ColourNames;
use crate::stash::{ChipId, Deed, Entry, Kind, Ledger, MOST_LEFT, OfStrip};

use super::found::Found;
use super::parallel;
use super::problem::Problems;
use super::reader::Keys;
use super::source::Source;

/// The file.
pub(super) const LEDGER: &str = "ledger.toml";

/// Numbers above this are never given by the program: they would leave it none to go on with.
pub(super) const HIGHEST: u32 = 4_000_000_000;

/// How an entry begins.
const ENTRY: &str = "\n[[entry]]";

/// Bytes of a piece. Small ones are read sooner than the whole, even one after the other: they stay near at hand.
const PIECE: usize = 8 << 10;

/// How it begins.
pub(super) const HEAD: &str =
    "# What was stuck down, lifted and counted. The program adds to it; what stands here stays as it is.\n";

const KNOWN: &[&str] = &["number", "date", "kind", "page", "strip", "slots", "chips", "had"];

/// Reads every `[[entry]]` of `text`; `file` is how problems call it. An entry with an error is told and left out.
#[must_use]
pub fn read_ledger(file: &str, text: &str) -> (Ledger, Problems) {
    let pieces = pieces(text);
    if pieces.len() > 1 {
        let read = parallel::map(&pieces, |piece| whole(file, piece));
        if let Some(entries) = joined(read) {
            return (Ledger::new(entries), Problems::new());
        }
    }
    let (entries, problems) = whole(file, text);
    (Ledger::new(entries), problems)
}

/// The text in pieces that each begin with an entry, or all of it. The entries of the pieces are those of the text as long
/// as no piece has a problem: a piece cut from within a text or a list has one, for it does not end what it began.
fn pieces(text: &str) -> Vec<&str> {
    let mut pieces = Vec::new();
    let mut rest = text;
    // The first piece has an entry too, after what stands before it.
    let mut least = text.find(ENTRY).map_or(text.len(), |first| first + PIECE);
    loop {
        least = (least..rest.len()).find(|&at| rest.is_char_boundary(at)).unwrap_or(rest.len());
        let Some(ahead) = rest[least..].find(ENTRY) else { break };
        let (piece, after) = rest.split_at(least + ahead + 1);
        pieces.push(piece);
        (rest, least) = (after, PIECE);
    }
    pieces.push(rest);
    pieces
}

/// The entries of all pieces; `None` where one has a problem, or they do not follow on one another.
fn joined(read: Vec<(Vec<Entry>, Problems)>) -> Option<Vec<Entry>> {
    let mut all: Vec<Entry> = Vec::new();
    for (entries, problems) in read {
        let follows = all.last().zip(entries.first()).is_none_or(|(last, next)| last.number < next.number);
        if !problems.is_empty() || !follows {
            return None;
        }
        all.extend(entries);
    }
    Some(all)
}

fn whole(file: &str, text: &str) -> (Vec<Entry>, Problems) {
    let none = ColourNames::default();
    let source = Source::new(file, text, &none);
    let mut entries: Vec<Entry> = Vec::new();
    if let Some(tree) = source.tree() {
        let keys = Keys::new(&source, tree.get_ref());
        keys.know(&["entry"]);
        for keys in keys.tables("entry") {
            let Some(entry) = entry(keys) else { continue };
            match entries.last().map(|last| last.number) {
                Some(last) if last >= entry.number => {
                    let number = entry.number;
                    let message = format!("entry {number} comes after {last}; each is above the one before");
                    keys.error(keys.place_of("number"), "number", message);
                }
                _ => entries.push(entry),
            }
        }
    }
    (entries, source.into_problems())
}

fn entry(keys: Keys<'_>) -> Option<Entry> {
    keys.know(KNOWN);
    keys.require("number", "number = 1 or the next");
    keys.require("kind", "kind = \"stuck\" or another");
    keys.require("chips", "chips = { \"sheet/letter\" = 1 }");
    let number = keys.count("number", 1..=u32::MAX - 1);
    let date = keys.read("date", |found| {
        let text = found.text()?;
        if is_date(text) {
            Ok(text)
        } else {
            Err(format!("{} is no day; write it as \"2031-11-05\"", found.piece()))
        }
    });
    let kind = keys.word("kind", Kind::ALL, Kind::as_str);
    let slots = keys.list("slots", |found| found.count(1..=u32::MAX));
    let of = keys.text("page").zip(keys.text("strip")).map(|(page, role)| OfStrip {
        page: page.to_owned(),
        role: role.to_owned(),
        slots,
    });
    let had = match keys.table("had") {
        Some(had) => counts(had, |value| value.count(0..=u32::from(MOST_LEFT)))?,
        None => BTreeMap::new(),
    };
    let had = had.into_iter().filter_map(|(chip, count)| Some((chip, u16::try_from(count).ok()?))).collect();
    let kind = kind?;
    let chips = counts(keys.table("chips")?, |value| count(value, kind))?;
    Some(Entry { number: number?, date: date?.to_owned(), deed: Deed { kind, of, chips }, had })
}

/// Each chip and its count; `None` where any has an error.
fn counts<T>(keys: Keys<'_>, count: impl Fn(Found<'_>) -> Result<T, String>) -> Option<BTreeMap<ChipId, T>> {
    let mut chips = BTreeMap::new();
    let mut whole = true;
    for (name, span, value) in keys.entries() {
        match (ChipId::parse(name), count(value)) {
            (Ok(chip), Ok(count)) => {
                chips.insert(chip, count);
            }
            (chip, count) => {
                whole = false;
                let message = chip.err().map(|error| error.to_string()).or(count.err());
                keys.error(span.start, name, message.unwrap_or_default());
            }
        }
    }
    whole.then_some(chips)
}

fn count(value: Found<'_>, kind: Kind) -> Result<i32, String> {
    let least = if kind == Kind::Added { -9_999 } else { 0 };
    let number = value
        .number()
        .filter(|number| number.fract() == 0.0 && (f64::from(least)..=9_999.0).contains(number));
    #[expect(clippy::cast_possible_truncation, reason = "bounded just before")]
    number
        .map(|number| number as i32)
        .ok_or_else(|| format!("{} is no count; write a whole number from {least} to 9999", value.piece()))
}

/// Whether a text is a day such as `2031-11-05`.
fn is_date(text: &str) -> bool {
    let shape = |(place, byte): (usize, u8)| {
        if matches!(place, 4 | 7) { byte == b'-' } else { byte.is_ascii_digit() }
    };
    text.len() == 10 && text.bytes().enumerate().all(shape)
}

/// Whether a line may be one of an entry of the least that makes it whole: its start, a key that is known, a comment.
pub(super) fn is_line_of_entry(line: &str) -> bool {
    let line = line.trim();
    let key = line.split('=').next().unwrap_or_default().trim();
    line.is_empty()
        || line.starts_with('#')
        || line.starts_with("[[")
        || line.contains('=') && key != "had" && KNOWN.contains(&key)
}

/// The text of the file with `entry` after all that is in `old`.
#[must_use]
pub(super) fn with_entry(old: &str, entry: &Entry) -> String {
    let mut text = if old.is_empty() { HEAD.to_owned() } else { old.to_owned() };
    if !text.ends_with('\n') {
        text.push('\n');
    }
    text + &entry_text(entry, if old.contains("\r\n") { "\r\n" } else { "\n" })
}

/// An entry spelled, with an empty line before it.
pub(super) fn entry_text(entry: &Entry, ends: &str) -> String {
    let mut text = String::new();
    let mut line = |key: &str, value: &str| {
        let _ = write!(text, "{key}{value}{ends}");
    };
    line("", "");
    line("[[entry]]", "");
    line("number = ", &entry.number.to_string());
    line("date = ", &quoted(&entry.date));
    line("kind = ", &quoted(entry.deed.kind.as_str()));
    if let Some(OfStrip { page, role, slots }) = &entry.deed.of {
        line("page = ", &quoted(page));
        line("strip = ", &quoted(role));
        if !slots.is_empty() {
            let slots: Vec<String> = slots.iter().map(ToString::to_string).collect();
            line("slots = ", &format!("[{}]", slots.join(", ")));
        }
    }
    line("chips = ", &spelled(&entry.deed.chips));
    if !entry.had.is_empty() {
        line("had = ", &spelled(&entry.had));
    }
    text
}

fn spelled(counts: &BTreeMap<ChipId, impl Display>) -> String {
    let counts = counts.iter().map(|(chip, count)| format!("{} = {count}", quoted(&chip.to_string())));
    format!("{{ {} }}", counts.collect::<Vec<_>>().join(", "))
}

fn quoted(text: &str) -> String {
    super::pen::text(text).to_string().trim().to_owned()
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
mod tests {
    use super::*;

    #[test]
    fn an_entry_added_is_read_again() {
        let chips = ["kelp/A", "kelp/\"", "kelp/\\", "a-b/é:red"].map(|id| (ChipId::parse(id).unwrap(), 2));
        let deed = Deed {
            kind: Kind::Stuck,
            of: Some(OfStrip { page: "walk".into(), role: "title".into(), slots: vec![1, 3] }),
            chips: chips.into(),
        };
        let had = deed.chips.keys().map(|chip| (chip.clone(), 5)).collect();
        let first = Entry { number: 3, date: "2031-11-05".into(), deed, had };
        let second = Entry {
            number: 4,
            deed: Deed { kind: Kind::Added, of: None, ..first.deed.clone() },
            had: BTreeMap::new(),
            ..first.clone()
        };
        let text = with_entry(&with_entry("", &first), &second);
        let (ledger, problems) = read_ledger("ledger.toml", &text);
        assert!(problems.is_empty(), "{problems:?}\n{text}");
        assert_eq!(ledger.entries(), [first.clone(), second]);
        let cut = with_entry("# mine\r\n", &first);
        assert!(cut.starts_with("# mine\r\n\r\n[[entry]]\r\n"));
    }

    #[test]
    fn a_long_ledger_is_read_as_if_it_was_in_one_piece() {
        let chips = [(ChipId::parse("kelp/É").unwrap(), 1)];
        let deed = Deed { kind: Kind::Added, of: None, chips: chips.into() };
        let entry =
            |number| Entry { number, date: "2031-11-05".into(), deed: deed.clone(), had: BTreeMap::new() };
        let text = (1..=400).fold(String::new(), |text, number| with_entry(&text, &entry(number)));
        assert!(pieces(&text).len() > 3);
        assert_eq!(pieces(&text).concat(), text);
        for (from, to) in [
            ("", ""),
            ("number = 300\n", "number = 299\n"),
            ("number = 300\n", "number = 300\nodd = 1\n"),
            ("number = 300\n", "number = 300\nodd = '''\n"),
            ("date = \"2031-11-05\"\nkind", "date = '''2031-11-05\nkind"),
            ("# What", "odd = '''\n# What"),
            ("# What", "odd = [\n# What"),
            ("# What", "entry = [ ]\n# What"),
        ] {
            let text = text.replacen(from, to, 1);
            let (entries, problems) = whole("ledger.toml", &text);
            assert_eq!(read_ledger("ledger.toml", &text), (Ledger::new(entries), problems), "{from} {to}");
        }
    }

    #[test]
    fn what_is_wrong_is_told() {
        let text = "[[entry]]\nnumber = 2\ndate = \"today\"\nkind = \"lost\"\nchips = { \"kelp\" = 1.5 }\n";
        let (ledger, problems) = read_ledger("ledger.toml", text);
        assert!(ledger.entries().is_empty());
        let told: Vec<String> = problems.all().iter().map(ToString::to_string).collect();
        assert_eq!(told.len(), 2, "{told:?}");
    }
}
