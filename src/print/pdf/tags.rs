//! What sheets are to a reader who hears them: headings, paragraphs, lists, tables and drawings, as a tree.
//!
//! Must not know how a tree is written down, nor how sheets are drawn.

use pdf_writer::types::StructRole;

use crate::print::{Cell, Mark, Piece, Sense, Sheet};

/// All elements in the order in which they are read; the first is the whole.
pub(super) struct Tree<'a> {
    pub(super) elements: Vec<Element<'a>>,
    pub(super) sheets: Vec<Tags>,
    pub(super) headings: Vec<Heading<'a>>,
}

/// How the pieces of a sheet are marked.
#[derive(Default)]
pub(super) struct Tags {
    /// For each piece, what it is and its number among the sheet's; `None`: nothing to a reader.
    pub(super) pieces: Vec<Option<(StructRole, i32)>>,
    /// For each number, the element that it belongs to.
    pub(super) owners: Vec<usize>,
}

/// A part of the whole.
pub(super) struct Element<'a> {
    pub(super) role: StructRole,
    /// `None`: it is the whole.
    pub(super) parent: Option<usize>,
    pub(super) holds: Vec<Held>,
    pub(super) told: Told<'a>,
}

/// What an element holds.
pub(super) enum Held {
    Element(usize),
    /// A piece of a sheet, by its number.
    Piece {
        sheet: usize,
        number: i32,
    },
}

/// What else there is to tell of an element.
pub(super) enum Told<'a> {
    Nothing,
    /// A list whose items are counted, or not.
    List {
        counted: bool,
    },
    Cell(Cell),
    /// A drawing on a sheet, with the words that stand in for it.
    Drawing {
        sheet: usize,
        piece: &'a Piece,
        words: &'a str,
    },
}

/// A heading, its level from 1.
pub(super) struct Heading<'a> {
    pub(super) level: i32,
    pub(super) sheet: usize,
    pub(super) piece: &'a Piece,
}

/// The list or table that the next piece may go on with.
#[derive(Clone, Copy)]
enum Open {
    Nothing,
    List { list: usize, item: Option<usize>, body: Option<usize> },
    Table { table: usize, row: usize, cell: Cell },
}

impl<'a> Tree<'a> {
    pub(super) fn of(sheets: &'a [Sheet]) -> Self {
        let mut tree = Self { elements: Vec::new(), sheets: Vec::new(), headings: Vec::new() };
        let whole = tree.begin(StructRole::Document, None, Told::Nothing);
        let mut reader = Reader { tree, whole, open: Open::Nothing };
        for (place, sheet) in sheets.iter().enumerate() {
            reader.tree.sheets.push(Tags::default());
            for piece in &sheet.pieces {
                reader.piece(place, piece);
            }
        }
        reader.tree
    }

    fn begin(&mut self, role: StructRole, parent: Option<usize>, told: Told<'a>) -> usize {
        let place = self.elements.len();
        self.elements.push(Element { role, parent, holds: Vec::new(), told });
        if let Some(parent) = parent {
            self.elements[parent].holds.push(Held::Element(place));
        }
        place
    }

    /// Gives a piece of the last sheet to an element, or to none.
    fn give(&mut self, sheet: usize, owner: Option<usize>) {
        let tags = &mut self.sheets[sheet];
        let Some(owner) = owner else { return tags.pieces.push(None) };
        let number = i32::try_from(tags.owners.len()).unwrap_or(i32::MAX);
        let element = &mut self.elements[owner];
        tags.pieces.push(Some((element.role, number)));
        tags.owners.push(owner);
        element.holds.push(Held::Piece { sheet, number });
    }
}

/// Reads pieces in their order.
struct Reader<'a> {
    tree: Tree<'a>,
    whole: usize,
    open: Open,
}

impl<'a> Reader<'a> {
    fn piece(&mut self, sheet: usize, piece: &'a Piece) {
        // A cell without words still stands between its neighbours, and a bullet without any still begins an item.
        let stands = !piece.marks.is_empty() || matches!(piece.sense, Sense::Cell(_) | Sense::Bullet);
        let owner = if stands { self.element(sheet, piece) } else { None };
        self.tree.give(sheet, owner.filter(|_| !piece.marks.is_empty()));
    }

    fn element(&mut self, sheet: usize, piece: &'a Piece) -> Option<usize> {
        let owner = match &piece.sense {
            Sense::Ornament => return None,
            Sense::Title => self.heading(1, sheet, piece),
            Sense::Heading => self.heading(2, sheet, piece),
            Sense::Subheading => self.heading(3, sheet, piece),
            Sense::Paragraph => self.alone(StructRole::P, Told::Nothing),
            Sense::Drawing(words) => self.alone(StructRole::Figure, Told::Drawing { sheet, piece, words }),
            Sense::Bullet => self.bullet(piece),
            Sense::Item => self.item(),
            Sense::Cell(cell) => self.cell(*cell),
        };
        Some(owner)
    }

    fn begin(&mut self, role: StructRole, parent: usize) -> usize {
        self.tree.begin(role, Some(parent), Told::Nothing)
    }

    /// What is no part of a list or table, and ends one.
    fn alone(&mut self, role: StructRole, told: Told<'a>) -> usize {
        self.open = Open::Nothing;
        self.tree.begin(role, Some(self.whole), told)
    }

    /// No level is ever left out.
    fn heading(&mut self, level: i32, sheet: usize, piece: &'a Piece) -> usize {
        let deepest = self.tree.headings.last().map_or(1, |last| last.level + 1);
        let level = level.min(deepest);
        self.tree.headings.push(Heading { level, sheet, piece });
        let role = match level {
            1 => StructRole::H1,
            2 => StructRole::H2,
            _ => StructRole::H3,
        };
        self.alone(role, Told::Nothing)
    }

    /// The list that is open, or a new one.
    fn list(&mut self, counted: bool) -> usize {
        if let Open::List { list, .. } = self.open {
            return list;
        }
        self.alone(StructRole::L, Told::List { counted })
    }

    fn bullet(&mut self, piece: &Piece) -> usize {
        let list = self.list(is_count(piece));
        let item = self.begin(StructRole::LI, list);
        self.open = Open::List { list, item: Some(item), body: None };
        if piece.marks.is_empty() { item } else { self.begin(StructRole::Lbl, item) }
    }

    /// An item behind another without a bullet between them goes on with it, on the next sheet.
    fn item(&mut self) -> usize {
        if let Open::List { body: Some(body), .. } = self.open {
            return body;
        }
        let list = self.list(false);
        let item = match self.open {
            Open::List { item: Some(item), .. } => item,
            _ => self.begin(StructRole::LI, list),
        };
        let body = self.begin(StructRole::LBody, item);
        self.open = Open::List { list, item: Some(item), body: Some(body) };
        body
    }

    fn cell(&mut self, cell: Cell) -> usize {
        let (table, row) = match self.open {
            Open::Table { table, row, cell: last } if last.table == cell.table => {
                (table, if last.row == cell.row { row } else { self.begin(StructRole::TR, table) })
            }
            _ => {
                let table = self.alone(StructRole::Table, Told::Nothing);
                (table, self.begin(StructRole::TR, table))
            }
        };
        self.open = Open::Table { table, row, cell };
        let role = if cell.names { StructRole::TH } else { StructRole::TD };
        self.tree.begin(role, Some(row), Told::Cell(cell))
    }
}

/// Whether a bullet is a number, as `3.`.
fn is_count(bullet: &Piece) -> bool {
    let Some(Mark::Words(words)) = bullet.marks.first() else { return false };
    let number = words.text.trim().strip_suffix('.');
    number.is_some_and(|number| !number.is_empty() && number.bytes().all(|byte| byte.is_ascii_digit()))
}
