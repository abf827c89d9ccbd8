//! A thing on the page as one typed line: `photo 6 x 4 in teal tan`, and what more can be said of it.
//!
//! Must not know what becomes of it.

use std::fmt::Write;

use crate::letter::normalise;
use crate::measure::{Angle, ColourNames, Point, Size, Tint, Unit};
use crate::page::{Cover, Element, Kind, Lie, Outline, Page};

use super::thing_place::{
    MAT, mat_under, read_place, read_size, read_turn, spell_size, usual_place, usual_size,
};

/// The most words of a colour's name.
const WORDS_OF_A_COLOUR: usize = 4;

/// What a line says.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Described {
    /// The thing.
    pub(super) thing: Element,
    /// The mat under it, where one is asked for.
    pub(super) mat: Option<Element>,
}

/// Reads a new thing: what it is, or its first letters; then, in any order, its size, its colours, `round`, `original`,
/// `never`, `edge` or `fine` for letters on it, `bed` or `no-bed`, `at X, Y`, `turn N`, `on` with the colours of a mat; last
/// `called` with its name. It lies in the middle of the page unless told otherwise.
pub(super) fn read_thing(
    text: &str,
    names: &ColourNames,
    unit: Unit,
    page: &Page,
) -> Result<Described, String> {
    let said = Said::read(text, names, unit)?;
    let size = said.size.unwrap_or_else(|| usual_size(said.kind, page));
    let at = said.at.unwrap_or_else(|| usual_place(said.kind, size, page));
    said.described(Lie { at, size, turn: Angle::ZERO, outline: Outline::Rect })
}

/// Reads a line that was made by [`spell_thing`] from `was` and changed since: what it does not tell stays, a thing's place,
/// size and turn.
pub(super) fn read_change(
    text: &str,
    names: &ColourNames,
    unit: Unit,
    was: &Element,
) -> Result<Described, String> {
    let said = Said::read(text, names, unit)?;
    let lie = Lie {
        at: said.at.unwrap_or(was.lie.at),
        size: said.size.unwrap_or(was.lie.size),
        outline: Outline::Rect,
        ..was.lie
    };
    said.described(lie)
}

/// The line that tells all of a thing but where it lies.
pub(super) fn spell_thing(thing: &Element, names: &ColourNames, unit: Unit) -> String {
    let mut line = format!("{} {}", thing.kind, spell_size(thing.lie.size, unit));
    for tint in &thing.colours {
        let _ = write!(line, " {}", names.spell(tint));
    }
    let words = [
        (thing.lie.outline == Outline::Round).then_some("round"),
        thing.original.then_some("original"),
        thing.cover.map(Cover::as_str),
        thing.bed.map(|bed| if bed { "bed" } else { "no-bed" }),
    ];
    for word in words.into_iter().flatten() {
        let _ = write!(line, " {word}");
    }
    if let Some(name) = &thing.name {
        let _ = write!(line, " called {name}");
    }
    line
}

/// What a line says, each only where it is said.
struct Said {
    kind: Kind,
    size: Option<Size>,
    at: Option<Point>,
    turn: Option<Angle>,
    outline: Outline,
    original: bool,
    rest: Rest,
}

/// The rest of it.
#[derive(Default)]
struct Rest {
    name: Option<String>,
    colours: Vec<Tint>,
    cover: Option<Cover>,
    bed: Option<bool>,
    mat: Option<Vec<Tint>>,
}

impl Said {
    fn read(text: &str, names: &ColourNames, unit: Unit) -> Result<Self, String> {
        let spaced = text.replace(',', " , ");
        let mut words: Vec<&str> = spaced.split_whitespace().collect();
        let called = words.iter().position(|word| *word == "called");
        let name = called.map(|_| text.split_once("called").map_or("", |(_, name)| name));
        words.truncate(called.unwrap_or(words.len()));
        let Some((first, words)) = words.split_first() else { return Err(kinds()) };
        let mut said = Self {
            kind: kind_called(first).ok_or_else(kinds)?,
            size: None,
            at: None,
            turn: None,
            outline: Outline::Rect,
            original: false,
            rest: Rest { name: name.and_then(name_of), ..Rest::default() },
        };
        let mut left = words;
        while let Some(word) = left.first() {
            left = &left[said.take(word, left, names, unit)?..];
        }
        Ok(said)
    }

    /// Takes what begins with `word`; gives back how many words it took.
    fn take(&mut self, word: &str, left: &[&str], names: &ColourNames, unit: Unit) -> Result<usize, String> {
        if is_figure(word) {
            let taken = measures(left);
            self.size = Some(read_size(&left[..taken].join(" "), unit)?);
            return Ok(taken);
        }
        match word {
            "," | "in" | "and" | "of" => {}
            "at" => {
                let taken = left[1..].iter().take_while(|word| is_of_a_place(word)).count();
                self.at = Some(read_place(&left[1..=taken].join(" "), unit)?.0);
                return Ok(taken + 1);
            }
            "turn" | "turned" => {
                self.turn = Some(read_turn(left.get(1).copied().unwrap_or(""))?);
                return Ok(2);
            }
            "on" => self.rest.mat = Some(Vec::new()),
            "original" => self.original = true,
            "bed" => self.rest.bed = Some(true),
            "no-bed" => self.rest.bed = Some(false),
            word => match (Outline::parse(word), Cover::parse(word)) {
                (Some(outline), _) => self.outline = outline,
                (_, Some(cover)) => self.rest.cover = Some(cover),
                _ => return self.rest.take_colour(left, names),
            },
        }
        Ok(1)
    }

    fn described(self, lie: Lie) -> Result<Described, String> {
        let lie = Lie { turn: self.turn.unwrap_or(lie.turn), outline: self.outline, ..lie };
        let Rest { name, colours, cover, bed, mat } = self.rest;
        let thing = Element { name, kind: self.kind, original: self.original, lie, colours, cover, bed };
        let mat = mat.map(|colours| mat_under(&thing, MAT, colours)).transpose()?;
        Ok(Described { thing, mat })
    }
}

impl Rest {
    /// Takes a colour of as many words as make one.
    fn take_colour(&mut self, left: &[&str], names: &ColourNames) -> Result<usize, String> {
        let most = left.len().min(WORDS_OF_A_COLOUR);
        let found =
            (1..=most).rev().find_map(|count| Some((names.read(&left[..count].join(" ")).ok()?, count)));
        let (tint, count) = match found {
            Some(found) => found,
            None => (names.read(left[0])?, 1),
        };
        self.mat.as_mut().unwrap_or(&mut self.colours).push(tint);
        Ok(count)
    }
}

/// A name as it is kept; `None`: nothing was typed.
pub(super) fn name_of(text: &str) -> Option<String> {
    let name = normalise(text.trim());
    (!name.is_empty()).then_some(name)
}

/// The kind of this name; of several that begin so, the first.
fn kind_called(word: &str) -> Option<Kind> {
    let word = word.to_lowercase();
    Kind::ALL.iter().copied().find(|kind| kind.as_str().starts_with(&word))
}

fn kinds() -> String {
    let kinds: Vec<&str> = Kind::ALL.iter().map(|kind| kind.as_str()).collect();
    format!("begin with what it is, or its first letters: {}", kinds.join(", "))
}

fn is_figure(word: &str) -> bool {
    word.starts_with(|c: char| c.is_ascii_digit() || c == '.' || "½¼¾⅛⅜⅝⅞⅓⅔".contains(c))
}

fn is_unit(word: &str) -> bool {
    matches!(word, "mm" | "cm" | "in" | "inch" | "inches" | "\"" | "”" | "″")
}

fn is_of_a_place(word: &str) -> bool {
    word == "," || is_unit(word) || is_figure(word.trim_start_matches(['-', '−']))
}

/// How many of the words belong to a size: figures, `x`, units; after a unit only `x` goes on with it.
fn measures(words: &[&str]) -> usize {
    let is_by = |word: &str| {
        word.strip_prefix(['x', 'X', '×']).is_some_and(|rest| rest.is_empty() || is_figure(rest))
    };
    let mut ended = false;
    let goes_on = |word: &&&str| {
        let goes_on = is_by(word) || (!ended && (is_figure(word) || is_unit(word)));
        ended = is_unit(word) || (is_figure(word) && word.ends_with(|c: char| c.is_alphabetic() || c == '"'));
        goes_on
    };
    words.iter().take_while(goes_on).count()
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
mod tests {
    use super::*;
    use crate::measure::{Colour, Length};

    fn names() -> ColourNames {
        let mut names = ColourNames::default();
        names.name("lamp glow", Colour { r: 0xf7, g: 0xdd, b: 0x9a });
        names
    }

    fn read(text: &str) -> Result<Described, String> {
        let side = Length::from_mm(300);
        let page = Page { size: Some(Size { width: side, height: side }), ..Page::default() };
        read_thing(text, &names(), Unit::Millimetre, &page)
    }

    fn told(text: &str) -> String {
        read(text).map_or_else(
            |wrong| wrong,
            |said| {
                let lie = said.thing.lie;
                let mat = said.mat.map_or_else(String::new, |mat| {
                    format!(" over {}", spell_thing(&mat, &names(), Unit::Millimetre))
                });
                let (x, y) = (lie.at.x.mm(), lie.at.y.mm());
                format!(
                    "{} @{x},{y}~{}{mat}",
                    spell_thing(&said.thing, &names(), Unit::Millimetre),
                    lie.turn.number()
                )
            },
        )
    }

    #[test]
    fn a_thing_in_one_line() {
        let cases = [
            ("photo 6 x 4 in teal tan", "photo 152.4 x 101.6 mm teal tan @73.8,99.2~0"),
            ("p 60x40 in teal", "a side of it: 1524 mm is too large; a page is at most 1 m a side"),
            ("p 60x40", "photo 60 x 40 mm @120,130~0"),
            ("pa in lamp glow", "paper 200 x 100 mm lamp glow @50,100~0"),
            ("border 12 x 1/2 in tan", "border 304.8 x 12.7 mm tan @-2.4,281.3~0"),
            ("b", "border 300 x 12 mm @0,282~0"),
            ("e 34 round coral", "embellishment 34 x 34 mm coral round @133,133~0"),
            ("j at 10, 20 mm turn -3 edge", "journaling 76 x 50 mm edge @10,20~-3"),
            ("j at 1 2 in", "journaling 76 x 50 mm @25.4,50.8~0"),
            (
                "label 40 x 10 never no-bed called what, we sang",
                "label 40 x 10 mm never no-bed called what, we sang @130,145~0",
            ),
            (
                "photo 50 x 40 mm original teal on tan",
                "photo 50 x 40 mm teal original @125,130~0 over mat 58 x 48 mm tan",
            ),
        ];
        for (text, is) in cases {
            assert_eq!(told(text), is, "{text}");
        }
    }

    #[test]
    fn what_cannot_be_read_is_told() {
        for (text, part) in [
            ("", "begin with what it is"),
            ("zebra", "photo, mat, paper"),
            ("photo tael", "spelled alike: teal"),
            ("photo 0 x 4", "above 0"),
            ("photo at 3", "from the left"),
            ("photo turn much", "no turn"),
            ("photo 6 x", "no length"),
        ] {
            let wrong = read(text).unwrap_err();
            assert!(wrong.contains(part), "{text}: {wrong}");
        }
    }

    #[test]
    fn what_is_spelled_reads_back() {
        for text in
            ["photo 6 x 4 in teal tan round original called first lantern, 1961", "mat lamp glow bed fine"]
        {
            let thing = read(text).unwrap().thing;
            for unit in [Unit::Millimetre, Unit::Inch] {
                let line = spell_thing(&thing, &names(), unit);
                assert_eq!(read_change(&line, &names(), unit, &thing).unwrap().thing, thing, "{line}");
            }
        }
    }

    #[test]
    fn one_colour_of_two_words_is_read_as_it_is_spelled() {
        let told = |text: &str| {
            let colours = names().read_several(text).unwrap();
            colours.iter().map(|tint| names().spell(tint)).collect::<Vec<_>>().join(", ")
        };
        for text in ["lamp glow", "teal", "lamp glow, teal"] {
            assert_eq!(told(text), text);
        }
        assert_eq!(told("tan teal"), "tan, teal");
    }

    #[test]
    fn what_is_put_where_something_lies_goes_a_little_beside_it() {
        let mut page = Page::default();
        for _ in 0..3 {
            let thing = read_thing("photo", &names(), Unit::Millimetre, &page).unwrap().thing;
            assert!(page.elements.iter().all(|other| other.lie.at != thing.lie.at));
            page.elements.push(thing);
        }
    }
}
