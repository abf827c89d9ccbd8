//! Sheets printed as PDF, read back: their size, what is drawn on them and where, what a reader aloud finds, the fonts.
//!
//! Must not know how the file is written. The sheets are invented.
#![expect(clippy::unwrap_used, reason = "a file that cannot be read back fails the test")]

use oddment::measure::{Colour, Length, Size};
use oddment::page::Paper;
use oddment::print::{About, Cell, Face, Mark, Pen, Piece, Sense, Shape, Sheet, Words, pdf};

use super::paper::{self, Heard, Read, bookmarks, entry, heard, name, text, within};

/// As near as two numbers of a printed file can be told apart, in mm.
const NEAR: f64 = 0.001;

fn about() -> About {
    About { title: "Låntern <walk> & ★".into(), name: "the harbour".into(), language: "en-GB" }
}

fn sheet(pieces: Vec<Piece>) -> Sheet {
    let size = Size { width: Length::from_mm(210), height: Length::from_mm(297) };
    Sheet { size, told: "a made-up sheet".into(), pieces }
}

fn said(at: (f64, f64), face: Face, text: &str) -> Mark {
    Mark::Words(Words { at, size: 3.5, face, text: text.into() })
}

/// A piece of words, a line each, 5 mm apart.
fn piece(sense: Sense, lines: &[&str]) -> Piece {
    let heights = (1..).map(|place| 20.0 + 5.0 * f64::from(place));
    let marks = heights.zip(lines).map(|(y, line)| said((10.0, y), Face::Plain, line)).collect();
    Piece { sense, marks }
}

/// The same with a box between its first words and the rest.
fn swatched(mut piece: Piece) -> Piece {
    let outline = vec![vec![(50.0, 20.0), (53.0, 20.0), (53.0, 23.0), (50.0, 23.0)]];
    piece.marks.insert(1, Mark::Shape(Shape { outline, fill: Some(Colour::BLACK), pen: None }));
    piece
}

fn cell(row: usize, names: bool, spans: usize, text: &str) -> Piece {
    let lines = if text.is_empty() { vec![] } else { vec![text] };
    piece(Sense::Cell(Cell { table: 0, row, names, spans }), &lines)
}

const PEN: Pen = Pen { width: 0.25, dash: None, grey: 0.0 };

fn line(from: (f64, f64), to: (f64, f64), pen: Pen) -> Mark {
    Mark::Line { from, to, pen }
}

fn read(sheets: &[Sheet]) -> Read {
    paper::read(&pdf(sheets, &about()))
}

#[track_caller]
fn near(ours: (f64, f64), theirs: (f64, f64)) {
    assert!((ours.0 - theirs.0).abs() < NEAR && (ours.1 - theirs.1).abs() < NEAR, "{ours:?} {theirs:?}");
}

/// ISO 216:2007, A4: 210 x 297 mm. ANSI/ASME Y14.1, size A: 8.5 x 11 in of 25.4 mm (1959): 215.9 x 279.4 mm. (Both from
/// memory.) In points, of which an inch has 72: 595.276 x 841.890, and 612 x 792.
#[test]
fn pages_are_as_large_as_the_paper() {
    let papers = [(Paper::A4, (210.0, 297.0)), (Paper::Letter, (215.9, 279.4))];
    for (paper, size) in papers {
        let upright = paper.size(None, oddment::measure::Unit::Millimetre).unwrap();
        let across = Size { width: upright.height, height: upright.width };
        let sheets = [upright, across].map(|size| Sheet { size, ..sheet(vec![]) });
        let pages = read(&sheets).pages;
        near(pages[0].size, size);
        near(pages[1].size, (size.1, size.0));
    }
    let square = Size { width: Length::from_nm(304_800_000), height: Length::from_nm(304_800_000) };
    near(read(&[Sheet { size: square, ..sheet(vec![]) }]).pages[0].size, (304.8, 304.8));
}

#[test]
fn lines_and_shapes_lie_where_the_sheet_has_them() {
    let dashed = Pen { width: 0.4, dash: Some((3.0, 1.5)), grey: 0.5 };
    let square = vec![(20.0, 30.0), (40.0, 30.0), (40.0, 60.0), (20.0, 60.0)];
    let hole = vec![(25.0, 35.0), (25.0, 55.0), (35.0, 55.0), (35.0, 35.0)];
    let teal = Colour { r: 0, g: 128, b: 128 };
    let shape = |fill, pen| Mark::Shape(Shape { outline: vec![square.clone(), hole.clone()], fill, pen });
    let marks = vec![
        line((10.0, 12.5), (110.0, 12.5), PEN),
        line((10.0, 280.0), (111.6, 280.0), dashed),
        shape(Some(teal), None),
        shape(Some(Colour::WHITE), Some(PEN)),
        shape(None, Some(dashed)),
        shape(None, None),
    ];
    let page = &read(&[sheet(vec![Piece { sense: Sense::Drawing("two bars".into()), marks }])]).pages[0];
    let [first, second] = &page.strokes[..] else { unreachable!("{:?}", page.strokes) };
    near(first.from, (10.0, 12.5));
    near(first.to, (110.0, 12.5));
    near(second.from, (10.0, 280.0));
    near(second.to, (111.6, 280.0));
    near((first.pen.width, second.pen.width), (0.25, 0.4));
    assert!(first.pen.dash.is_empty() && first.pen.grey == 0.0);
    near((second.pen.dash[0], second.pen.dash[1]), (3.0, 1.5));
    near((second.pen.grey, 0.0), (0.5, 0.0));
    assert_eq!(page.outlines.len(), 3, "what has neither filling nor edge is not drawn");
    for outline in &page.outlines {
        for (ours, theirs) in [&square, &hole].into_iter().zip(&outline.corners) {
            assert_eq!(ours.len(), theirs.len());
            ours.iter().zip(theirs).for_each(|(&ours, &theirs)| near(ours, theirs));
        }
        assert!(!outline.even_odd, "by the non-zero rule");
    }
    let fills: Vec<_> = page.outlines.iter().map(|outline| outline.fill).collect();
    assert_eq!(fills[1..], [Some([1.0; 3]), None]);
    let parts = fills[0].unwrap().map(|part| part * 255.0);
    assert!([0.0, 128.0, 128.0].iter().zip(parts).all(|(ours, theirs)| (ours - theirs).abs() < 0.01));
    let pens: Vec<bool> = page.outlines.iter().map(|outline| outline.pen.is_some()).collect();
    assert_eq!(pens, [false, true, true]);
}

#[test]
fn words_are_real_and_stand_where_the_sheet_has_them() {
    // Two spaces of one look; a letter that composition leaves apart; symbols; a Greek and a Latin A.
    let texts = ["LÅNTERN wa\u{a0}lk", "x\u{301} ★♥", "ΑA (\\)", "m\u{fb01}ne"];
    let marks =
        texts.iter().zip(1..).map(|(text, place)| said((12.0, 30.0 * f64::from(place)), Face::Plain, text));
    let mut marks: Vec<Mark> = marks.collect();
    marks.push(Mark::Words(Words { at: (100.0, 30.0), size: 7.0, face: Face::Strong, text: "Høme".into() }));
    let read = read(&[sheet(
        marks.into_iter().map(|mark| Piece { sense: Sense::Paragraph, marks: vec![mark] }).collect(),
    )]);
    let words = &read.pages[0].words;
    assert_eq!(
        words.iter().map(|said| said.text.as_str()).collect::<Vec<_>>(),
        [&texts[..], &["Høme"]].concat()
    );
    near(words[0].at, (12.0, 30.0));
    near(words[3].at, (12.0, 120.0));
    near((words[0].size, words[4].size), (3.5, 7.0));
    for said in words {
        let face = if said.font == "Plain" { Face::Plain } else { Face::Strong };
        near((said.width, 0.0), (face.width(&said.text, said.size), 0.0));
    }
}

/// ISO 14289-1, 7.21: the glyph of every character that is shown is within, its width in the file is the font's own, and it
/// has a meaning; ISO 32000-1, 9.6.4: the name of a part of a font begins with six capitals. The licence of the fonts
/// (`.licences/DejaVu.txt`): its notices go with every copy.
#[test]
fn every_glyph_is_within_and_is_the_faces_own() {
    let texts = ["LÅNTERN walk ★♥ x\u{301}", "Ǻ ǖ ½ — … 漢"];
    let marks =
        Face::ALL.iter().flat_map(|face| texts.map(|text| said((10.0, 20.0), *face, &Face::legible(text))));
    let read = read(&[sheet(vec![Piece { sense: Sense::Paragraph, marks: marks.collect() }])]);
    let mut seen = 0;
    for said in &read.pages[0].words {
        let font = &read.pages[0].fonts[&said.font];
        let (tag, name) = font.name.split_once('+').unwrap();
        assert!(tag.len() == 6 && tag.bytes().all(|byte| byte.is_ascii_uppercase()), "{tag}");
        let face = if said.font == "Plain" { Face::Plain } else { Face::Strong };
        assert_eq!(name, if face == Face::Plain { "DejaVuSans" } else { "DejaVuSans-Bold" });
        let (cut, whole) = (ttf_parser::Face::parse(&font.file, 0).unwrap(), face.font().unwrap());
        assert!(font.file.len() < face.data().len() / 10);
        let told =
            |id| cut.names().into_iter().find(|name| name.name_id == id).and_then(|name| name.to_string());
        assert!(told(ttf_parser::name_id::COPYRIGHT_NOTICE).unwrap().contains("Bitstream"));
        assert!(told(ttf_parser::name_id::LICENSE).unwrap().contains("permission notice"));
        for (code, c) in said.codes.iter().zip(said.text.chars()) {
            let (ours, theirs) =
                (ttf_parser::GlyphId(font.glyphs[usize::from(*code)]), face.glyph(c).unwrap());
            assert!(ours.0 != 0 && *code != 0, "{c}");
            assert_eq!(cut.glyph_bounding_box(ours), whole.glyph_bounding_box(theirs), "{c}");
            let advance = f64::from(cut.glyph_hor_advance(ours).unwrap()) / f64::from(cut.units_per_em());
            assert!((advance - font.widths[code]).abs() < 1e-4, "{c}");
            seen += 1;
        }
    }
    assert!(seen > 60);
}

fn tree(heard: &[Heard]) -> Vec<String> {
    heard
        .iter()
        .map(|one| format!("{}{} {}", " ".repeat(one.depth), one.role, one.text).trim_end().to_owned())
        .collect()
}

fn order() -> [Sheet; 2] {
    let rule = Piece { sense: Sense::Ornament, marks: vec![line((10.0, 20.0), (200.0, 20.0), PEN)] };
    let first = vec![
        piece(Sense::Title, &["Lantern", "walk"]),
        rule.clone(),
        piece(Sense::Heading, &["Pull"]),
        piece(Sense::Bullet, &["1."]),
        swatched(piece(Sense::Item, &["from the kelp sheet", "an N"])),
        piece(Sense::Bullet, &["2."]),
        piece(Sense::Item, &["from the blocks"]),
        rule.clone(),
    ];
    let second = vec![
        rule.clone(),
        piece(Sense::Item, &["an S"]),
        piece(Sense::Subheading, &["In full"]),
        cell(0, true, 2, "letter"),
        cell(0, true, 1, "left"),
        cell(1, false, 1, "N"),
        cell(1, false, 1, ""),
        rule,
        cell(1, false, 1, "12 mm"),
        Piece { sense: Sense::Paragraph, marks: vec![] },
        piece(Sense::Heading, &["Map"]),
        Piece {
            sense: Sense::Drawing("the page, <seen> from above".into()),
            marks: vec![line((10.0, 100.0), (110.0, 100.0), PEN), said((20.0, 90.0), Face::Strong, "north")],
        },
    ];
    [sheet(first), sheet(second)]
}

/// ISO 32000-1, 14.8.4: headings, lists and tables are told as what they are, in the order in which they are read.
#[test]
fn a_reader_aloud_finds_the_parts_in_order() {
    let read = read(&order());
    let heard = heard(&read);
    let expected = [
        "Document",
        " H1 Lantern walk",
        " H2 Pull",
        " L",
        "  LI",
        "   Lbl 1.",
        "   LBody from the kelp sheet an N",
        "  LI",
        "   Lbl 2.",
        "   LBody from the blocks an S",
        " H3 In full",
        " Table",
        "  TR",
        "   TH letter",
        "   TH left",
        "  TR",
        "   TD N",
        "   TD",
        "   TD 12 mm",
        " H2 Map",
        " Figure north",
    ];
    assert_eq!(tree(&heard), expected);
    let with = |role: &str| heard.iter().filter(|one| one.role == role).collect::<Vec<_>>();
    assert_eq!(with("L")[0].attribute("ListNumbering"), Some("Decimal"));
    assert_eq!(with("LBody")[1].pages, [0, 1], "an item goes on with on the next sheet");
    let spans: Vec<_> = with("TH").iter().map(|one| one.attribute("ColSpan")).collect();
    assert_eq!(spans, [Some("2"), None]);
    assert!(with("TH").iter().all(|one| one.attribute("Scope") == Some("Column")));
    let figure = with("Figure")[0];
    assert_eq!(figure.alt.as_deref(), Some("the page, <seen> from above"));
    let reach = figure.reach.clone().unwrap();
    near((reach[0] * paper::POINT, reach[2] * paper::POINT), (9.875, 110.125));
    near((297.0 - reach[1] * paper::POINT, 0.0), (100.125, 0.0));
    let listed = [(0, "Lantern walk", 0), (1, "Pull", 0), (2, "In full", 1), (1, "Map", 1)];
    assert_eq!(bookmarks(&read), listed.map(|(depth, title, page)| (depth, title.to_owned(), page)));
}

/// ISO 32000-1, 12.2 and 14.3; ISO 14289-1, 7.1 and 7.2: title shown, language said, tagged, tabs in the order of the parts;
/// asked not to be scaled.
#[test]
fn the_file_says_what_it_is_and_how_it_is_printed() {
    let bytes = pdf(&order(), &about());
    assert!(bytes.starts_with(b"%PDF-1.7"));
    let read = paper::read(&bytes);
    let (file, catalog) = (&read.file, read.file.catalog().unwrap());
    assert_eq!(text(catalog.get(b"Lang").unwrap()), "en-GB");
    assert!(within(file, catalog, "MarkInfo").get(b"Marked").unwrap().as_bool().unwrap());
    let asked = within(file, catalog, "ViewerPreferences");
    assert!(asked.get(b"DisplayDocTitle").unwrap().as_bool().unwrap());
    assert!(asked.get(b"PickTrayByPDFSize").unwrap().as_bool().unwrap());
    assert_eq!(name(asked.get(b"PrintScaling").unwrap()), "None");
    let about = within(file, &file.trailer, "Info");
    assert_eq!(text(about.get(b"Title").unwrap()), "Låntern <walk> & ★");
    assert!(about.get(b"CreationDate").is_err() && about.get(b"ModDate").is_err());
    let packet = String::from_utf8(paper::stream(entry(file, catalog, "Metadata").unwrap())).unwrap();
    assert!(packet.contains(">Låntern &lt;walk&gt; &amp; ★</rdf:li>"), "{packet}");
    for page in file.get_pages().into_values() {
        assert_eq!(name(file.get_dictionary(page).unwrap().get(b"Tabs").unwrap()), "S");
    }
}

#[test]
fn the_same_sheets_make_the_same_bytes() {
    assert_eq!(pdf(&order(), &about()), pdf(&order(), &about()));
}

#[test]
fn no_sheets_make_a_file_without_pages() {
    let read = read(&[]);
    assert!(read.pages.is_empty() && bookmarks(&read).is_empty());
    assert_eq!(tree(&heard(&read)), ["Document"]);
}

#[test]
fn long_names_are_whole() {
    let name = "Ahoy ".repeat(4_000);
    let read = read(&[sheet(vec![piece(Sense::Title, &[&name])])]);
    assert_eq!(read.pages[0].text(Some(0)), name);
    assert_eq!(bookmarks(&read)[0].1, name.trim());
}

mod anything {
    use super::*;
    use proptest::prelude::*;

    fn coordinate() -> impl Strategy<Value = f64> {
        prop_oneof![4 => -50.0..400.0, 1 => any::<f64>()]
    }

    fn point() -> impl Strategy<Value = (f64, f64)> {
        (coordinate(), coordinate())
    }

    fn pen() -> impl Strategy<Value = Pen> {
        let dash = prop::option::of((coordinate(), coordinate()));
        (coordinate(), dash, coordinate()).prop_map(|(width, dash, grey)| Pen { width, dash, grey })
    }

    fn mark() -> impl Strategy<Value = Mark> {
        let face = prop::sample::select(Face::ALL.to_vec());
        let text = prop_oneof![any::<String>(), "[<>&()\\\\\u{0}-\u{1f} a-zéåø★\u{202e}]{0,12}"];
        let words = (point(), coordinate(), face, text)
            .prop_map(|(at, size, face, text)| Mark::Words(Words { at, size, face, text }));
        let fill = prop::option::of(any::<(u8, u8, u8)>().prop_map(|(r, g, b)| Colour { r, g, b }));
        let outline = prop::collection::vec(prop::collection::vec(point(), 0..4), 0..3);
        let shape = (outline, fill, prop::option::of(pen()))
            .prop_map(|(outline, fill, pen)| Mark::Shape(Shape { outline, fill, pen }));
        let line = (point(), point(), pen()).prop_map(|(from, to, pen)| Mark::Line { from, to, pen });
        prop_oneof![words, shape, line]
    }

    fn sense() -> impl Strategy<Value = Sense> {
        let cell = (0..2_usize, 0..3_usize, any::<bool>(), 0..3_usize)
            .prop_map(|(table, row, names, spans)| Sense::Cell(Cell { table, row, names, spans }));
        let plain = [
            Sense::Title,
            Sense::Heading,
            Sense::Subheading,
            Sense::Paragraph,
            Sense::Bullet,
            Sense::Item,
            Sense::Ornament,
        ];
        prop_oneof![prop::sample::select(plain.to_vec()), cell, any::<String>().prop_map(Sense::Drawing)]
    }

    fn any_sheet() -> impl Strategy<Value = Sheet> {
        let pieces =
            (sense(), prop::collection::vec(mark(), 0..3)).prop_map(|(sense, marks)| Piece { sense, marks });
        let side = || prop_oneof![100_i64..400, Just(0), Just(-1), any::<i64>()].prop_map(Length::from_mm);
        (side(), side(), prop::collection::vec(pieces, 0..12))
            .prop_map(|(width, height, pieces)| Sheet { size: Size { width, height }, ..sheet(pieces) })
    }

    proptest! {
        #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(128) })]

        #[test]
        fn any_sheet_makes_a_file_that_can_be_read(
            sheets in prop::collection::vec(any_sheet(), 0..3),
            title in any::<String>(),
        ) {
            let read = paper::read(&pdf(&sheets, &About { title, ..about() }));
            prop_assert_eq!(read.pages.len(), sheets.len());
            let heard = heard(&read);
            let levels = heard.iter().filter_map(|one| one.role.strip_prefix('H')?.parse::<usize>().ok());
            let mut deepest = 0;
            for level in levels {
                prop_assert!(level <= deepest + 1, "a level is left out");
                deepest = level;
            }
            let within = |inner: &str, outer: &str| {
                let mut above: Vec<&str> = Vec::new();
                heard.iter().all(|one| {
                    above.truncate(one.depth);
                    let fits = one.role != inner || above.last() == Some(&outer);
                    above.push(&one.role);
                    fits
                })
            };
            for (inner, outer) in [("LI", "L"), ("Lbl", "LI"), ("LBody", "LI"), ("TR", "Table"), ("TD", "TR"), ("TH", "TR")] {
                prop_assert!(within(inner, outer), "{inner} is not in {outer}");
            }
        }
    }
}
