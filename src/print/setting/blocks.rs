//! What is told, set block by block: headings, paragraphs, lists.
//!
//! Must not know sheets beyond how wide and high their room is.

use std::ops::RangeInclusive;
use std::rc::Rc;

use crate::measure::Size;
use crate::order::Map;

use super::super::map::map_piece;
use super::super::sheet::{Mark, Piece, Sense};
use super::super::told::{Block, Bullet, Heading, Item, Under, Warning};
use super::chunk::{Chunk, ornament};
use super::types::{BODY, HEAVY, NAME, NOTE, PART, STRONG, THIN, TITLE, Type, rule};
use super::{letters, pulls, room};

/// The longest line that the eye follows, in mm: about a hundred letters, the width of a sheet of Letter within its margins.
const WIDEST: f64 = 196.0;

/// How far a list is set in, and what is measured below its items once more.
const INSET: f64 = 2.0;
const FURTHER: f64 = 5.0;

/// A map below other words is at least so high, and no map is higher.
const MAP_HIGH: RangeInclusive<f64> = 70.0..=130.0;
/// Between its heading and a map.
const MAP_SPACE: f64 = 1.6;

/// Steps but for their heading and the last of them that are kept together take no more than this share of a sheet.
const STEPS_SHARE: f64 = 0.8;

/// Where a date is written by hand.
const DATE_RULE: f64 = 30.0;
/// Between the word and that rule.
const DATE_SPACE: f64 = 1.5;

/// Sets blocks, and counts tables as it goes.
#[derive(Debug)]
pub(super) struct Setter {
    width: f64,
    height: f64,
    /// How much of the sheet is left, where it is known.
    left: f64,
    tables: usize,
    part: Rc<str>,
}

impl Setter {
    /// For sheets of `size`.
    pub(super) fn on(size: Size) -> Self {
        let (width, height) = room(size);
        Self { width: width.min(WIDEST), height, left: 0.0, tables: 0, part: Rc::from("") }
    }

    /// With `left` mm of the sheet left.
    pub(super) fn with_left(self, left: f64) -> Self {
        Self { left, ..self }
    }

    /// `blocks` set, in their order.
    pub(super) fn chunks(&mut self, blocks: &[Block]) -> Vec<Chunk> {
        let (mut chunks, mut steps) = (Vec::new(), Vec::new());
        for (place, block) in blocks.iter().enumerate() {
            if let Block::Part(title) = block {
                self.part = Rc::from(told(title));
            }
            let set = self.block(block);
            chunks.extend(set.into_iter().map(|chunk| Chunk { part: Rc::clone(&self.part), ..chunk }));
            if is_step(block) && blocks.get(place + 1).is_some_and(is_step) {
                steps.push(chunks.len() - 1);
            }
        }
        // Steps are on one sheet, where one is high enough.
        let high: f64 = steps.iter().map(|&step| chunks[step].before + chunks[step].height).sum();
        if high <= STEPS_SHARE * self.height {
            for step in steps {
                chunks[step].held = true;
            }
        }
        chunks
    }

    fn block(&mut self, block: &Block) -> Vec<Chunk> {
        match block {
            Block::Heading(heading) => self.heading(heading),
            Block::Warning(warning) => self.warning(warning),
            Block::Part(title) => vec![self.part_heading(title)],
            Block::Subheading(title) => {
                vec![self.words(STRONG, Sense::Subheading, title).after(4.0).held()]
            }
            Block::Paragraph(text) => vec![self.words(BODY, Sense::Paragraph, text).after(1.6)],
            Block::Note(text) => vec![self.words(NOTE, Sense::Paragraph, text).held()],
            Block::Item(item) => vec![self.item(item).after(0.8)],
            Block::Pulls(taken) => pulls::list(taken, self.width),
            Block::Letters(letters) => letters::table(letters, self.width, self.table()),
            Block::Map(map) => self.map(map),
        }
    }

    fn table(&mut self) -> usize {
        self.tables += 1;
        self.tables - 1
    }

    fn words(&self, face: Type, sense: Sense, text: &str) -> Chunk {
        let (marks, height) = face.set(text, (0.0, 0.0), self.width);
        Chunk::of(vec![Piece { sense, marks }], height, face.line)
    }

    fn heading(&self, heading: &Heading) -> Vec<Chunk> {
        let mut title = self.words(TITLE, Sense::Title, heading.title).held();
        title.pieces.push(ornament(rule(0.0, self.width, title.height + 0.6, THIN)));
        title.height += 1.2;
        vec![title, self.words(NAME, Sense::Paragraph, &heading.page).after(1.0).held(), self.date(heading)]
    }

    /// The page's size and the day, not on the line of its name: behind words that run from right to left, figures would stand
    /// before them.
    fn date(&self, heading: &Heading) -> Chunk {
        let Some(date) = &heading.date else {
            let text = format!("{}, date", heading.size);
            // Every line is left room for the rule behind the last.
            let room = self.width - DATE_SPACE - DATE_RULE;
            let (marks, height) = BODY.set(&text, (0.0, 0.0), room);
            let last = BODY.wrap(&text, room).pop().unwrap_or_default();
            let mut blank = Chunk::of(vec![Piece { sense: Sense::Paragraph, marks }], height, BODY.line);
            let left = BODY.width(&last) + DATE_SPACE;
            let line = rule(left, left + DATE_RULE, BODY.foot(height - BODY.line) + 0.4, THIN);
            blank.pieces.push(ornament(line));
            return blank;
        };
        self.words(BODY, Sense::Paragraph, &format!("{}, {date}", heading.size))
    }

    fn part_heading(&self, title: &str) -> Chunk {
        let mut chunk = self.words(PART, Sense::Heading, title).after(6.0).held();
        chunk.pieces.push(ornament(rule(0.0, self.width, chunk.height + 0.3, THIN)));
        chunk.height += 1.2;
        chunk
    }

    /// Beside a heavy line, so that it is not overlooked.
    fn warning(&self, warning: &Warning) -> Vec<Chunk> {
        let (inset, room) = (4.0, self.width - 4.0);
        let (marks, height) = PART.set(warning.heading, (inset, 0.0), room);
        let heading = Chunk::of(vec![Piece { sense: Sense::Heading, marks }], height, PART.line);
        let mut chunks = vec![heading.after(5.0).held()];
        for text in &warning.items {
            let item = Item { bullet: Bullet::Point, text: text.clone(), under: Vec::new() };
            chunks.push(set_item(&item, STRONG, inset, room));
        }
        for chunk in &mut chunks {
            let line = Mark::Line { from: (0.5, 0.0), to: (0.5, chunk.height), pen: HEAVY };
            chunk.pieces.push(ornament(line));
        }
        chunks
    }

    /// As high as what is left of the sheet below its heading, or else on a sheet of its own; where its key is too long even for
    /// that, the key is parted.
    fn map(&self, map: &Map) -> Vec<Chunk> {
        let heading = self.part_heading("");
        let below = |left: f64| left - heading.height - MAP_SPACE;
        let (here, alone) = (below(self.left - heading.before), below(self.height));
        let piece = |room: f64| map_piece(map, (0.0, 0.0), (self.width, room.min(*MAP_HIGH.end())));
        let fits = |room: f64| Some(piece(room)).filter(|(_, height)| *height <= room);
        let here = Some(here).filter(|room| room >= MAP_HIGH.start()).and_then(fits);
        let (pieces, height) = here.unwrap_or_else(|| piece(alone));
        let whole = Chunk::of(pieces, height, height.max(1.0)).after(MAP_SPACE);
        if height <= alone { vec![whole] } else { whole.items() }
    }

    fn item(&self, item: &Item) -> Chunk {
        set_item(item, BODY, INSET, self.width - INSET)
    }
}

/// Whether it is one of the steps that follow each other.
const fn is_step(block: &Block) -> bool {
    matches!(block, Block::Item(Item { bullet: Bullet::Number(_), .. }))
}

/// An item from `left` on, in `room` mm.
fn set_item(item: &Item, face: Type, left: f64, room: f64) -> Chunk {
    let (bullet, heavy) = match item.bullet {
        Bullet::Point => ("\u{2022}".to_owned(), face),
        Bullet::Number(number) => (format!("{number}."), face),
        Bullet::Mind => ("!".to_owned(), STRONG),
    };
    let hang = (heavy.width(&bullet) + 1.6).max(4.0);
    let (left, room) = (left + hang, room - hang);
    let (mut marks, mut down) = face.set(&item.text, (left, 0.0), room);
    for under in &item.under {
        let (lines, height) = match under {
            Under::Words(text) => face.set(text, (left, down), room),
            Under::Measured(text) => {
                Type { face: STRONG.face, ..face }.set(text, (left + FURTHER, down), room - FURTHER)
            }
        };
        marks.extend(lines);
        down += height;
    }
    let bullet = Piece { sense: Sense::Bullet, marks: vec![heavy.mark(bullet, left - hang, 0.0)] };
    Chunk::of(vec![bullet, Piece { sense: Sense::Item, marks }], down, face.line)
}

/// A part's title without its number, as it stands in a list: `have at hand`.
fn told(title: &str) -> String {
    let title = title.split_once(". ").map_or(title, |(_, title)| title);
    let mut letters = title.chars();
    letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}
