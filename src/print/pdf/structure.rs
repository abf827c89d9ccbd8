//! The tree of what is read, as the file has it.
//!
//! Must not know how sheets are read into a tree, nor how they are drawn.

use pdf_writer::types::{ListNumbering, StructRole, TableHeaderScope};
use pdf_writer::writers::{StructElement, StructTreeRoot};
use pdf_writer::{Pdf, Ref, TextStr};

use crate::print::Sheet;
use crate::print::column::printable;

use super::points::{rect, side};
use super::reach::reach;
use super::tags::{Element, Held, Told, Tree};

/// Writes the tree under `root`; `pages` are the sheets' pages.
pub(super) fn write(tree: &Tree, sheets: &[Sheet], root: Ref, pages: &[Ref], pdf: &mut Pdf, next: &mut Ref) {
    let elements: Vec<Ref> = tree.elements.iter().map(|_| next.bump()).collect();
    let owners: Vec<Ref> = tree.sheets.iter().map(|_| next.bump()).collect();
    let mut written: StructTreeRoot = pdf.indirect(root).start();
    written.children().items(elements.first().copied());
    let mut by_page = written.parent_tree();
    let mut entries = by_page.nums();
    for (key, &of_page) in (0..).zip(&owners) {
        entries.insert(key, of_page);
    }
    drop(entries);
    drop(by_page);
    written.parent_tree_next_key(i32::try_from(owners.len()).unwrap_or(i32::MAX));
    drop(written);
    for (tags, &of_page) in tree.sheets.iter().zip(&owners) {
        pdf.indirect(of_page).array().items(tags.owners.iter().map(|&owner| elements[owner]));
    }
    for (element, &id) in tree.elements.iter().zip(&elements) {
        let mut written = pdf.struct_element(id);
        written.kind(element.role).parent(element.parent.map_or(root, |parent| elements[parent]));
        told(element, sheets, &mut written);
        holds(element, &elements, pages, &mut written);
    }
}

/// What an element holds: its own pieces are looked for on the page of the first of them, unless they name another.
fn holds(element: &Element, elements: &[Ref], pages: &[Ref], written: &mut StructElement) {
    let first = element.holds.iter().find_map(|held| match held {
        Held::Piece { sheet, .. } => Some(*sheet),
        Held::Element(_) => None,
    });
    if let Some(sheet) = first {
        written.page(pages[sheet]);
    }
    let mut children = written.children();
    for held in &element.holds {
        match held {
            Held::Element(child) => {
                children.struct_element(elements[*child]);
            }
            Held::Piece { sheet, number } if Some(*sheet) == first => {
                children.marked_content_id(*number);
            }
            Held::Piece { sheet, number } => {
                children.marked_content_ref().page(pages[*sheet]).marked_content_id(*number);
            }
        }
    }
}

fn told(element: &Element, sheets: &[Sheet], written: &mut StructElement) {
    match element.told {
        Told::Nothing => {}
        Told::List { counted } => {
            let numbering = if counted { ListNumbering::Decimal } else { ListNumbering::Disc };
            written.attributes().push().list().list_numbering(numbering);
        }
        Told::Cell(cell) => {
            let spans = i32::try_from(cell.spans).unwrap_or(i32::MAX);
            if spans > 1 || element.role == StructRole::TH {
                let mut attributes = written.attributes();
                let mut table = attributes.push().table();
                if element.role == StructRole::TH {
                    table.scope(TableHeaderScope::Column);
                }
                if spans > 1 {
                    table.col_span(spans);
                }
            }
        }
        Told::Drawing { sheet, piece, words } => {
            written.alt(TextStr(&printable(words)));
            if let Some(reach) = reach(piece) {
                let height = side(sheets[sheet].size.height);
                written.attributes().push().layout().bbox(rect(reach, height));
            }
        }
    }
}
