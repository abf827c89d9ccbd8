//! What is drawn on a page: lines, shapes and words where they come to lie, in mm from its upper left corner, y down.
//!
//! Interprets the operators of ISO 32000-1, annex A, that draw without pictures, shadings and patterns; others stop the test.
#![expect(clippy::unwrap_used, reason = "a page that cannot be read back fails the test")]

use std::collections::BTreeMap;

use lopdf::content::{Content, Operation};
use lopdf::{Dictionary, Document, Object, ObjectId};

use super::fonts::{Font, fonts};
use super::{POINT, entry, name, number, numbers, page};

/// A page.
#[derive(Debug, Default)]
pub(crate) struct Drawn {
    /// Its width and height in mm.
    pub(crate) size: (f64, f64),
    pub(crate) strokes: Vec<Stroke>,
    pub(crate) outlines: Vec<Outline>,
    pub(crate) words: Vec<Said>,
    pub(crate) fonts: BTreeMap<String, Font>,
}

/// A straight line.
#[derive(Debug, Clone)]
pub(crate) struct Stroke {
    pub(crate) from: (f64, f64),
    pub(crate) to: (f64, f64),
    pub(crate) pen: Pen,
    /// The number of the marked content that it belongs to; `None`: an artifact.
    pub(crate) part: Option<i64>,
}

/// A path that is filled, or has more than one line.
#[derive(Debug, Clone)]
pub(crate) struct Outline {
    pub(crate) corners: Vec<Vec<(f64, f64)>>,
    pub(crate) fill: Option<[f64; 3]>,
    pub(crate) even_odd: bool,
    pub(crate) pen: Option<Pen>,
    pub(crate) part: Option<i64>,
}

/// How a line is drawn, in mm.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Pen {
    pub(crate) width: f64,
    pub(crate) dash: Vec<f64>,
    pub(crate) grey: f64,
}

/// Words that are shown at once.
#[derive(Debug, Clone)]
pub(crate) struct Said {
    pub(crate) text: String,
    pub(crate) at: (f64, f64),
    /// Of the face, in mm.
    pub(crate) size: f64,
    pub(crate) width: f64,
    pub(crate) font: String,
    pub(crate) codes: Vec<u16>,
    pub(crate) part: Option<i64>,
}

impl Drawn {
    /// Everything that is said, piece by piece, in the order in which it is drawn.
    pub(crate) fn text(&self, part: Option<i64>) -> String {
        self.words.iter().filter(|said| said.part == part).map(|said| said.text.as_str()).collect()
    }
}

/// Reads a page. Everything on it must be marked as a part of what is read, or as an artifact.
pub(super) fn drawn(file: &Document, id: ObjectId) -> Drawn {
    let page = page(file, id);
    let [left, bottom, right, top] = numbers(entry(file, page, "MediaBox").unwrap())[..] else {
        unreachable!("a box has four sides")
    };
    assert!(left == 0.0 && bottom == 0.0 && entry(file, page, "Rotate").is_none());
    assert!(entry(file, page, "CropBox").is_none() && entry(file, page, "UserUnit").is_none());
    let fonts = fonts(file, page);
    let size = (right * POINT, top * POINT);
    let state = State {
        // Points, y up, to mm, y down.
        matrix: [POINT, 0.0, 0.0, -POINT, 0.0, size.1],
        pen: Pen { width: 1.0, dash: Vec::new(), grey: 0.0 },
        fill: [0.0; 3],
        font: (String::new(), 0.0),
    };
    let mut hand = Hand {
        drawn: Drawn { size, fonts, ..Drawn::default() },
        state,
        kept: Vec::new(),
        path: Vec::new(),
        text: None,
        marked: Vec::new(),
    };
    for operation in Content::decode(&file.get_page_content(id)).unwrap().operations {
        hand.operate(&operation);
    }
    assert!(hand.kept.is_empty() && hand.path.is_empty() && hand.text.is_none() && hand.marked.is_empty());
    hand.drawn
}

type Matrix = [f64; 6];

/// First `inner`, then `outer`.
fn product(inner: Matrix, outer: Matrix) -> Matrix {
    let [a, b, c, d, e, f] = inner;
    let (x, y) = moved(outer, (e, f));
    let ((xa, ya), (xc, yc)) = (turned(outer, (a, b)), turned(outer, (c, d)));
    [xa, ya, xc, yc, x, y]
}

fn turned(matrix: Matrix, (x, y): (f64, f64)) -> (f64, f64) {
    (matrix[0] * x + matrix[2] * y, matrix[1] * x + matrix[3] * y)
}

fn moved(matrix: Matrix, point: (f64, f64)) -> (f64, f64) {
    let (x, y) = turned(matrix, point);
    (x + matrix[4], y + matrix[5])
}

/// How many times longer lengths become.
fn scale(matrix: Matrix) -> f64 {
    (matrix[0] * matrix[3] - matrix[1] * matrix[2]).abs().sqrt()
}

#[derive(Clone)]
struct State {
    matrix: Matrix,
    /// In units of the page's content.
    pen: Pen,
    fill: [f64; 3],
    font: (String, f64),
}

struct Hand {
    drawn: Drawn,
    state: State,
    kept: Vec<State>,
    /// Corners of each part of the path, in mm, and whether it is closed.
    path: Vec<(Vec<(f64, f64)>, bool)>,
    text: Option<Matrix>,
    marked: Vec<Option<i64>>,
}

impl Hand {
    fn operate(&mut self, Operation { operator, operands }: &Operation) {
        let given = || operands.iter().map(number).collect::<Vec<f64>>();
        let point = |at: usize| (number(&operands[at]), number(&operands[at + 1]));
        match operator.as_str() {
            "q" => self.kept.push(self.state.clone()),
            "Q" => self.state = self.kept.pop().unwrap(),
            "cm" => {
                let inner = given().try_into().unwrap();
                self.state.matrix = product(inner, self.state.matrix);
            }
            "w" => self.state.pen.width = given()[0],
            "d" => self.state.pen.dash = numbers(&operands[0]),
            "G" => self.state.pen.grey = given()[0],
            "g" => self.state.fill = [given()[0]; 3],
            "rg" => self.state.fill = given().try_into().unwrap(),
            "j" | "J" => {}
            "m" => self.path.push((vec![moved(self.state.matrix, point(0))], false)),
            "l" => self.line_to(point(0)),
            "c" => self.curve(point(0), point(2), point(4)),
            "y" => self.curve(point(0), point(2), point(2)),
            "h" => self.close(),
            "re" => {
                let ((x, y), (width, height)) = (point(0), point(2));
                self.path.push((vec![moved(self.state.matrix, (x, y))], false));
                for corner in [(x + width, y), (x + width, y + height), (x, y + height)] {
                    self.line_to(corner);
                }
                self.close();
            }
            "n" => self.path.clear(),
            "s" | "b" | "b*" => {
                self.close();
                self.paint(operator != "s", true, operator == "b*");
            }
            "S" => self.paint(false, true, false),
            "f" | "F" | "f*" => self.paint(true, false, operator == "f*"),
            "B" | "B*" => self.paint(true, true, operator == "B*"),
            "BMC" | "BDC" => self.begin(operands),
            "EMC" => drop(self.marked.pop().unwrap()),
            _ => self.speak(operator, operands),
        }
    }

    fn line_to(&mut self, to: (f64, f64)) {
        let to = moved(self.state.matrix, to);
        self.path.last_mut().unwrap().0.push(to);
    }

    /// In sixteen lines.
    fn curve(&mut self, first: (f64, f64), second: (f64, f64), to: (f64, f64)) {
        let corners = &mut self.path.last_mut().unwrap().0;
        let (from, matrix) = (*corners.last().unwrap(), self.state.matrix);
        let [first, second, to] = [first, second, to].map(|point| moved(matrix, point));
        for part in 1..=16 {
            let t = f64::from(part) / 16.0;
            let weights =
                [(1.0 - t).powi(3), 3.0 * t * (1.0 - t).powi(2), 3.0 * t * t * (1.0 - t), t.powi(3)];
            let sum = |of: fn((f64, f64)) -> f64| {
                [from, first, second, to]
                    .into_iter()
                    .zip(weights)
                    .map(|(point, weight)| weight * of(point))
                    .sum()
            };
            corners.push((sum(|point| point.0), sum(|point| point.1)));
        }
    }

    fn close(&mut self) {
        self.path.last_mut().unwrap().1 = true;
    }

    fn part(&self) -> Option<i64> {
        *self.marked.last().unwrap_or_else(|| unreachable!("something is drawn that is marked as nothing"))
    }

    fn paint(&mut self, filled: bool, stroked: bool, even_odd: bool) {
        let (path, part) = (std::mem::take(&mut self.path), self.part());
        let longer = scale(self.state.matrix);
        let pen = Pen {
            width: self.state.pen.width * longer,
            dash: self.state.pen.dash.iter().map(|length| length * longer).collect(),
            grey: self.state.pen.grey,
        };
        if let ([(corners, false)], false) = (&path[..], filled)
            && let [from, to] = corners[..]
        {
            return self.drawn.strokes.push(Stroke { from, to, pen, part });
        }
        let corners = path.into_iter().map(|(corners, _)| corners).collect();
        let (fill, pen) = (filled.then_some(self.state.fill), stroked.then_some(pen));
        self.drawn.outlines.push(Outline { corners, fill, even_odd, pen, part });
    }

    fn begin(&mut self, operands: &[Object]) {
        assert!(self.marked.is_empty(), "marked within what is marked");
        let properties: Option<&Dictionary> = operands.get(1).map(|object| object.as_dict().unwrap());
        let number = properties.map(|properties| properties.get(b"MCID").unwrap().as_i64().unwrap());
        assert_eq!(number.is_none(), name(&operands[0]) == "Artifact");
        self.marked.push(number);
    }

    /// The operators of text.
    fn speak(&mut self, operator: &str, operands: &[Object]) {
        match operator {
            "BT" => self.text = Some([1.0, 0.0, 0.0, 1.0, 0.0, 0.0]),
            "ET" => drop(self.text.take().unwrap()),
            "Tf" => self.state.font = (name(&operands[0]), number(&operands[1])),
            "Tm" => {
                let given: Vec<f64> = operands.iter().map(number).collect();
                self.text = Some(given.try_into().unwrap());
            }
            "Tj" => self.say(operands[0].as_str().unwrap()),
            _ => unreachable!("the operator {operator} is not known here"),
        }
    }

    fn say(&mut self, bytes: &[u8]) {
        let (key, size) = self.state.font.clone();
        let font = &self.drawn.fonts[&key];
        let codes: Vec<u16> = bytes.chunks(2).map(|pair| u16::from_be_bytes([pair[0], pair[1]])).collect();
        let text = codes.iter().map(|code| font.meant[code].as_str()).collect();
        let advance = size * codes.iter().map(|code| font.widths[code]).sum::<f64>();
        let matrix = self.text.unwrap();
        let whole = product(matrix, self.state.matrix);
        // Upright, from left to right.
        assert!(whole[0] > 0.0 && whole[3] < 0.0 && whole[1] == 0.0 && whole[2] == 0.0, "{whole:?}");
        self.text = Some(product([1.0, 0.0, 0.0, 1.0, advance, 0.0], matrix));
        let (size, width) = (size * scale(whole), advance * whole[0]);
        let at = (whole[4], whole[5]);
        let part = self.part();
        self.drawn.words.push(Said { text, at, size, width, font: key, codes, part });
    }
}
