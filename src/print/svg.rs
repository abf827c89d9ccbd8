//! A sheet as an SVG drawing (W3C SVG 1.1), one millimetre of it one millimetre of paper; its words stay words, and a reader who
//! hears it meets headings, lists and tables (WAI-ARIA 1.2 roles).
//!
//! Must not know what an order is, nor where a drawing is kept.

use std::fmt::Write as _;
use std::io;

use quick_xml::Writer;
use quick_xml::events::{BytesDecl, BytesEnd, BytesStart, BytesText, Event};

use crate::measure::{Colour, Polygon};

use super::about::About;
use super::face::Face;
use super::sheet::{Cell, Mark, Pen, Piece, Sense, Shape, Sheet, Words};
use super::xml::sound;

/// What holds for all words of a drawing. Kerning and ligatures would make them narrower than they were measured.
const LETTERING: [(&str, &str); 5] = [
    ("font-family", "DejaVu Sans, sans-serif"),
    ("style", "font-kerning:none;font-variant-ligatures:none"),
    ("text-rendering", "geometricPrecision"),
    ("stroke-linejoin", "round"),
    ("xml:space", "preserve"),
];

/// What each drawing says of itself.
const OF_AN_ORDER: &str = "a sheet of its placement order";

/// Whether a drawing's text is that of a sheet made by [`svg`].
#[must_use]
pub fn is_sheet_of_order(text: &str) -> bool {
    text.split_once("<desc>")
        .and_then(|(_, rest)| rest.split_once("</desc>"))
        .is_some_and(|(told, _)| told.contains(OF_AN_ORDER))
}

/// `sheet` as an SVG file, ends in a line break. The same sheet always gives the same text.
#[must_use]
pub fn svg(sheet: &Sheet, about: &About) -> String {
    let mut drawing = Drawing { out: Writer::new_with_indent(Vec::new(), b' ', 1), open: Vec::new() };
    // Memory takes whatever is written to it.
    let _ = drawing.whole(sheet, about);
    let mut text = String::from_utf8_lossy(&drawing.out.into_inner()).into_owned();
    text.push('\n');
    text
}

/// What pieces stand in together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Group {
    List,
    /// From which piece on.
    ListItem(usize),
    Table(usize),
    Row(usize),
}

/// A drawing as far as it is written, and the groups that the next piece would stand in.
struct Drawing {
    out: Writer<Vec<u8>>,
    open: Vec<Group>,
}

impl Drawing {
    fn whole(&mut self, sheet: &Sheet, about: &About) -> io::Result<()> {
        let (width, height) = (mm(sheet.size.width.mm()), mm(sheet.size.height.mm()));
        self.out.write_event(Event::Decl(BytesDecl::new("1.0", Some("UTF-8"), None)))?;
        let mut root = BytesStart::new("svg");
        root.extend_attributes([
            ("xmlns", "http://www.w3.org/2000/svg"),
            ("version", "1.1"),
            ("width", &format!("{width}mm")),
            ("height", &format!("{height}mm")),
            ("viewBox", &format!("0 0 {width} {height}")),
            ("xml:lang", about.language),
            ("role", "graphics-document document"),
        ]);
        root.extend_attributes(LETTERING);
        self.out.write_event(Event::Start(root))?;
        let (title, told, name) = (&about.title, &sheet.told, &about.name);
        self.told("title", &format!("{title} ({told})"))?;
        let size = format!("{width} x {height} mm");
        self.told("desc", &format!("{name}: {OF_AN_ORDER}, {size}. Print it at 100 %."))?;
        // Paper is white, whatever is behind a drawing that is looked at.
        let paper = self.out.create_element("rect");
        let paper =
            paper.with_attributes([("width", width.as_str()), ("height", &height), ("fill", "#ffffff")]);
        paper.write_empty()?;
        for (place, piece) in sheet.pieces.iter().enumerate() {
            self.stand_in(place, &piece.sense)?;
            self.piece(piece)?;
        }
        self.close(0)?;
        self.out.write_event(Event::End(BytesEnd::new("svg")))
    }

    /// Words that stand for the element they are in.
    fn told(&mut self, element: &str, text: &str) -> io::Result<()> {
        self.out.create_element(element).write_text_content(BytesText::new(&sound(text)))?;
        Ok(())
    }

    /// Closes and opens groups so that a piece of that sense stands where it belongs.
    fn stand_in(&mut self, place: usize, sense: &Sense) -> io::Result<()> {
        let item = self.open.get(1).copied().filter(|group| matches!(group, Group::ListItem(_)));
        let wanted = match sense {
            // An ornament may stand between two cells of a row.
            Sense::Ornament => return Ok(()),
            Sense::Bullet => vec![Group::List, Group::ListItem(place)],
            Sense::Item => vec![Group::List, item.unwrap_or(Group::ListItem(place))],
            Sense::Cell(cell) => vec![Group::Table(cell.table), Group::Row(cell.row)],
            _ => Vec::new(),
        };
        let kept = self.open.iter().zip(&wanted).take_while(|(open, wanted)| open == wanted).count();
        self.close(kept)?;
        for group in &wanted[kept..] {
            let role = match group {
                Group::List => "list",
                Group::ListItem(_) => "listitem",
                Group::Table(_) => "table",
                Group::Row(_) => "row",
            };
            self.out.write_event(Event::Start(BytesStart::new("g").with_attributes([("role", role)])))?;
        }
        self.open = wanted;
        Ok(())
    }

    /// Closes all groups but the `kept` outermost.
    fn close(&mut self, kept: usize) -> io::Result<()> {
        for _ in self.open.drain(kept..) {
            self.out.write_event(Event::End(BytesEnd::new("g")))?;
        }
        Ok(())
    }

    fn piece(&mut self, piece: &Piece) -> io::Result<()> {
        let attributes = attributes(&piece.sense);
        let group = BytesStart::new("g").with_attributes(borrowed(&attributes));
        let end = group.to_end().into_owned();
        self.out.write_event(Event::Start(group))?;
        if let Sense::Drawing(stands_in) = &piece.sense {
            self.told("title", stands_in)?;
        }
        for mark in &piece.marks {
            match mark {
                Mark::Words(words) => self.words(words)?,
                Mark::Shape(shape) => self.shape(shape)?,
                Mark::Line { from, to, pen } => self.line(*from, *to, pen)?,
            }
        }
        self.out.write_event(Event::End(end))
    }

    fn words(&mut self, words: &Words) -> io::Result<()> {
        let width = words.width();
        // A length of 0 is an error to some readers.
        if width <= 0.0 {
            return Ok(());
        }
        let mut attributes =
            vec![("x", mm(words.at.0)), ("y", mm(words.at.1)), ("font-size", mm(words.size))];
        if words.face == Face::Strong {
            attributes.push(("font-weight", "bold".into()));
        }
        // Where the face is not there, another one keeps to the room.
        attributes.extend([("textLength", mm(width)), ("lengthAdjust", "spacingAndGlyphs".into())]);
        let text = self.out.create_element("text").with_attributes(borrowed(&attributes));
        text.write_text_content(BytesText::new(&sound(&words.text)))?;
        Ok(())
    }

    fn shape(&mut self, shape: &Shape) -> io::Result<()> {
        let fill = shape.fill.map_or_else(|| "none".into(), Colour::hex);
        let mut attributes = vec![("fill", fill), ("fill-rule", "nonzero".into())];
        attributes.extend(shape.pen.iter().flat_map(drawn_with));
        attributes.push(("d", outline(&shape.outline)));
        self.empty("path", &attributes)
    }

    fn line(&mut self, from: (f64, f64), to: (f64, f64), pen: &Pen) -> io::Result<()> {
        let ends = [("x1", from.0), ("y1", from.1), ("x2", to.0), ("y2", to.1)];
        let mut attributes: Vec<_> = ends.into_iter().map(|(name, at)| (name, mm(at))).collect();
        attributes.extend(drawn_with(pen));
        self.empty("line", &attributes)
    }

    fn empty(&mut self, element: &str, attributes: &[(&str, String)]) -> io::Result<()> {
        self.out.create_element(element).with_attributes(borrowed(attributes)).write_empty()?;
        Ok(())
    }
}

fn borrowed<'a>(attributes: &'a [(&str, String)]) -> impl Iterator<Item = (&'a str, &'a str)> {
    attributes.iter().map(|(name, value)| (*name, value.as_str()))
}

/// What a piece is to a reader who hears it.
fn attributes(sense: &Sense) -> Vec<(&'static str, String)> {
    let (role, more) = match sense {
        Sense::Title => ("heading", Some(("aria-level", "1".into()))),
        Sense::Heading => ("heading", Some(("aria-level", "2".into()))),
        Sense::Subheading => ("heading", Some(("aria-level", "3".into()))),
        Sense::Paragraph => ("paragraph", None),
        Sense::Bullet | Sense::Item => ("group", None),
        Sense::Cell(Cell { names, spans, .. }) => {
            let role = if *names { "columnheader" } else { "cell" };
            (role, (*spans > 1).then(|| ("aria-colspan", spans.to_string())))
        }
        Sense::Drawing(_) => ("img", None),
        Sense::Ornament => return vec![("aria-hidden", "true".into())],
    };
    std::iter::once(("role", role.to_owned())).chain(more).collect()
}

/// A pen's attributes.
fn drawn_with(pen: &Pen) -> Vec<(&'static str, String)> {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "0 to 255")]
    let level = (pen.grey.clamp(0.0, 1.0) * 255.0).round() as u8;
    let grey = Colour { r: level, g: level, b: level };
    let mut attributes = vec![("stroke", grey.hex()), ("stroke-width", mm(pen.width))];
    attributes
        .extend(pen.dash.map(|(dash, space)| ("stroke-dasharray", format!("{} {}", mm(dash), mm(space)))));
    attributes
}

/// Closed outlines as the data of a path; those without an area are left out.
fn outline(polygons: &[Polygon]) -> String {
    let mut data = String::new();
    for polygon in polygons.iter().filter(|polygon| polygon.len() > 1) {
        for (place, &(x, y)) in polygon.iter().enumerate() {
            data.push(if place == 0 { 'M' } else { ' ' });
            let _ = write!(data, "{} {}", mm(x), mm(y));
        }
        data.push('Z');
    }
    data
}

/// Millimetres to the thousandth, as short as can be.
fn mm(length: f64) -> String {
    let text = format!("{length:.3}");
    let short = text.trim_end_matches('0').trim_end_matches('.');
    if short == "-0" { "0".into() } else { short.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::{Length, Size};

    fn about() -> About {
        About { title: "LANTERN <WALK>".into(), name: "walk & \"home\"".into(), language: "en-GB" }
    }

    fn sheet(pieces: Vec<Piece>) -> Sheet {
        let size = Size { width: Length::from_nm(215_900_000), height: Length::from_nm(279_400_000) };
        Sheet { size, told: "what to pull".into(), pieces }
    }

    fn said(sense: Sense, text: &str) -> Piece {
        let words = Words { at: (10.0, 20.000_4), size: 3.5, face: Face::Plain, text: text.into() };
        Piece { sense, marks: vec![Mark::Words(words)] }
    }

    fn drawn(marks: Vec<Mark>) -> String {
        svg(&sheet(vec![Piece { sense: Sense::Drawing("a bar of 100 mm".into()), marks }]), &about())
    }

    #[test]
    fn a_sheet_is_as_large_as_its_paper_and_says_what_it_is() {
        let text = svg(&sheet(Vec::new()), &about());
        for part in [
            "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\"",
            "width=\"215.9mm\" height=\"279.4mm\" viewBox=\"0 0 215.9 279.4\" xml:lang=\"en-GB\"",
            "<title>LANTERN &lt;WALK&gt; (what to pull)</title>",
            "<desc>walk &amp; &quot;home&quot;: a sheet of its placement order, 215.9 x 279.4 mm. Print it at 100 %.</desc>",
        ] {
            assert!(text.contains(part), "{part}: {text}");
        }
        assert!(text.ends_with("</svg>\n"), "{text}");
    }

    #[test]
    fn names_with_markup_and_what_xml_cannot_write_stay_words() {
        let text = svg(&sheet(vec![said(Sense::Paragraph, "<b>'&\" \u{0}\u{ffff} é")]), &about());
        assert!(text.contains(">&lt;b&gt;&apos;&amp;&quot; [U+0000][U+FFFF] é</text>"), "{text}");
        assert!(text.contains("<text x=\"10\" y=\"20\" font-size=\"3.5\" textLength="), "{text}");
        assert!(!svg(&sheet(vec![said(Sense::Paragraph, "")]), &about()).contains("<text"));
    }

    #[test]
    fn lines_and_shapes_are_drawn_without_noise() {
        let pen = Pen { width: 0.2, dash: Some((1.0, 0.5)), grey: 0.5 };
        let line = Mark::Line { from: (0.1 + 0.2, -0.000_01), to: (100.3, 0.0), pen };
        let square = vec![(0.0, 0.0), (1.0, 0.0), (1.0, 2.345_67)];
        let shape = Shape { outline: vec![square.clone(), square, vec![(9.0, 9.0)]], fill: None, pen: None };
        let text = drawn(vec![line, Mark::Shape(shape)]);
        for part in [
            "  <g role=\"img\">\n  <title>a bar of 100 mm</title>".trim_start(),
            "<line x1=\"0.3\" y1=\"0\" x2=\"100.3\" y2=\"0\" stroke=\"#808080\" stroke-width=\"0.2\" stroke-dasharray=\"1 0.5\"/>",
            "<path fill=\"none\" fill-rule=\"nonzero\" d=\"M0 0 1 0 1 2.346ZM0 0 1 0 1 2.346Z\"/>",
        ] {
            assert!(text.contains(part), "{part}: {text}");
        }
    }

    /// The roles of a sheet's groups, each with how deep it stands.
    fn roles(pieces: Vec<Piece>) -> Vec<(usize, String)> {
        let text = svg(&sheet(pieces), &about());
        let groups = text.lines().filter(|line| line.trim_start().starts_with("<g "));
        let depth = |line: &str| line.len() - line.trim_start().len();
        groups.map(|line| (depth(line), line.split('"').nth(1).unwrap_or_default().to_owned())).collect()
    }

    #[test]
    fn items_and_cells_stand_in_lists_and_tables() {
        let cell = |table, row, names| Sense::Cell(Cell { table, row, names, spans: 1 });
        let told = roles(vec![
            said(Sense::Title, "Placement order"),
            said(Sense::Bullet, "1"),
            said(Sense::Item, "carrier"),
            said(Sense::Bullet, "2"),
            said(Sense::Item, "ruler"),
            said(cell(0, 0, true), "no"),
            said(cell(0, 1, false), "1"),
            said(Sense::Ornament, "-"),
            said(cell(0, 1, false), "L"),
            said(Sense::Paragraph, "done"),
        ]);
        let expected = [
            (1, "heading"),
            (1, "list"),
            (2, "listitem"),
            (3, "group"),
            (3, "group"),
            (2, "listitem"),
            (3, "group"),
            (3, "group"),
            (1, "table"),
            (2, "row"),
            (3, "columnheader"),
            (2, "row"),
            (3, "cell"),
            (3, "true"),
            (3, "cell"),
            (1, "paragraph"),
        ];
        assert_eq!(told, expected.map(|(depth, role)| (depth, role.to_owned())));
    }
}
