//! Seeded stashes of four sizes, as a folder of files.
//!
//! Must not know what is measured on them.

use std::collections::BTreeMap;
use std::fmt::Write;
use std::fs;
use std::path::Path;

/// A size of stash: its name and how many sheets it has, about forty letters each.
pub(crate) const SIZES: [(&str, usize); 4] = [("S", 10), ("M", 40), ("L", 200), ("XL", 1_000)];

const COLOURS: [&str; 10] =
    ["teal", "#d9a441", "coral", "white", "black", "#2f3e46", "orchid", "steelblue", "tan", "goldenrod"];
const FINISHES: [&str; 6] = ["matte", "gloss", "glitter", "foil", "puffy", "chipboard"];

/// Numbers by splitmix64 (Steele, Lea and Flood 2014; from memory): the same on every machine.
#[derive(Debug)]
pub(crate) struct Dice(u64);

impl Dice {
    pub(crate) fn new(seed: u64) -> Self {
        Self(seed)
    }

    pub(crate) fn below(&mut self, sides: usize) -> usize {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        usize::try_from((z ^ (z >> 31)) % sides as u64).unwrap_or(0)
    }
}

/// Writes a stash of `sheets` sheets, twenty page plans and a ledger of `entries` entries into `folder`.
pub(crate) fn write(folder: &Path, sheets: usize, entries: u32) -> std::io::Result<()> {
    let mut dice = Dice::new(sheets as u64);
    fs::create_dir_all(folder.join("sheets"))?;
    fs::create_dir_all(folder.join("pages"))?;
    let (ledger, as_of) = ledger(sheets, entries);
    fs::write(folder.join("ledger.toml"), ledger)?;
    // Every fourth sheet has small letters.
    for (place, as_of) in as_of.into_iter().enumerate() {
        let text = format!("as_of = {as_of}\n{}", sheet(&mut dice, place));
        fs::write(folder.join(format!("sheets/sheet-{place:04}.toml")), text)?;
    }
    for place in 0..20 {
        fs::write(folder.join(format!("pages/page-{place:02}.toml")), page(&mut dice, sheets))?;
    }
    fs::write(folder.join("taste.toml"), "[colours]\nmustard = \"#d9a441\"\n")
}

fn sheet(dice: &mut Dice, place: usize) -> String {
    let tile = dice.below(3) == 0;
    let mut text = format!(
        "name = \"Made sheet {place}\"\ntag = \"{place}\"\nform = \"{}\"\nheight = \"{}.{} mm\"\ncolour = \"{}\"\n",
        if tile { "tile" } else { "die-cut" },
        8 + dice.below(24),
        dice.below(10),
        COLOURS[dice.below(COLOURS.len())],
    );
    let _ = writeln!(text, "finish = \"{}\"\n\n[letters]", FINISHES[dice.below(FINISHES.len())]);
    let lower = has_small_letters(place);
    for letter in 'A'..='Z' {
        let letter = if lower { letter.to_ascii_lowercase() } else { letter };
        let common = "EASTRNOLI".contains(letter.to_ascii_uppercase());
        let left = if common { dice.below(2) } else { dice.below(6) };
        match dice.below(20) {
            0 => writeln!(text, "{letter} = {{ left = {left}, width = \"{} mm\" }}", 8 + dice.below(16)),
            1 => writeln!(
                text,
                "{letter} = [{{ left = {left} }}, {{ mark = \"other\", left = 1, colour = \"coral\" }}]"
            ),
            _ => writeln!(text, "{letter} = {left}"),
        }
        .unwrap_or_default();
    }
    for figure in "0123456789&!?.".chars() {
        let _ = writeln!(text, "\"{figure}\" = {}", dice.below(4));
    }
    text
}

/// A ledger of earlier pages' titles, letters counted in now and then; and the last entry that names each sheet.
fn ledger(sheets: usize, entries: u32) -> (String, Vec<u32>) {
    let mut dice = Dice::new(u64::from(entries));
    let (mut text, mut as_of) = (String::from("# What was.\n"), vec![0; sheets]);
    for number in 1..=entries {
        let counted = dice.below(4) == 0;
        let chips: BTreeMap<usize, char> = (0..4 + dice.below(16))
            .map(|_| (dice.below(sheets), char::from(b'A' + u8::try_from(dice.below(26)).unwrap_or(0))))
            .collect();
        let kind = if counted { "added" } else { "stuck" };
        let _ = writeln!(text, "\n[[entry]]\nnumber = {number}\ndate = \"2031-11-05\"\nkind = \"{kind}\"");
        if !counted {
            let _ = writeln!(text, "page = \"earlier-{number}\"\nstrip = \"title\"");
        }
        let told = chips.iter().map(|(&sheet, &letter)| {
            as_of[sheet] = number;
            let small = has_small_letters(sheet);
            let letter = if small { letter.to_ascii_lowercase() } else { letter };
            format!("\"sheet-{sheet:04}/{letter}\" = 1")
        });
        let told: Vec<String> = told.collect();
        let _ = writeln!(text, "chips = {{ {} }}", told.join(", "));
    }
    (text, as_of)
}

const fn has_small_letters(place: usize) -> bool {
    place.is_multiple_of(4)
}

/// The wording of the plans: a title of 24 letters and a subtitle.
const TITLE: &str = "LANTERNS ALONG THE OLD QUAYS";
const SUBTITLE: &str = "and home by the last ferry";

fn page(dice: &mut Dice, sheets: usize) -> String {
    let mut text = String::from("name = \"Made page\"\nsize = \"12 x 12 in\"\nground = \"#2f3e46\"\n");
    for place in 0..8 {
        let kinds = ["paper", "mat", "photo", "border", "journaling", "label", "embellishment", "photo"];
        let _ = write!(
            text,
            "\n[[element]]\nkind = \"{}\"\nat = [\"{} mm\", \"{} mm\"]\nsize = [\"{} mm\", \"{} mm\"]\nturn = {}\ncolours = [\"{}\", \"{}\"]\n",
            kinds[place],
            dice.below(200),
            dice.below(200),
            40 + dice.below(100),
            30 + dice.below(80),
            dice.below(8),
            COLOURS[dice.below(COLOURS.len())],
            COLOURS[dice.below(COLOURS.len())],
        );
    }
    for (role, wording, at) in [("title", TITLE, 150), ("subtitle", SUBTITLE, 200)] {
        let _ = write!(
            text,
            "\n[[strip]]\nrole = \"{role}\"\nwording = \"{wording}\"\nat = [\"10 mm\", \"{at} mm\"]\nroom = \"600 mm\"\n"
        );
        for (slot, letter) in wording.chars().filter(|c| !c.is_whitespace()).enumerate() {
            let mut sheet = dice.below(sheets);
            while has_small_letters(sheet) != letter.is_lowercase() {
                sheet = dice.below(sheets);
            }
            let _ = write!(
                text,
                "\n[[strip.letter]]\nslot = {}\nfor = \"{letter}\"\nchip = \"sheet-{:04}/{letter}\"\n",
                slot + 1,
                sheet
            );
        }
    }
    text
}
