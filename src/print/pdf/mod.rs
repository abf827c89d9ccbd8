//! Sheets as a PDF 1.7 file (ISO 32000-1): at true size, its words real, its fonts within, its parts told to readers aloud.
//!
//! Must not know what an order is.

mod bookmarks;
mod content;
mod lettering;
mod metadata;
mod packed;
mod points;
mod reach;
mod structure;
mod tags;

use pdf_writer::types::TabOrder;
use pdf_writer::{Chunk, Filter, Finish, Name, Pdf, Rect, Ref, Settings, TextStr};

use super::{About, Face, Sheet};

use lettering::Lettering;
use packed::packed;
use points::{points, side};
use tags::Tree;

/// A file with a page for each of `sheets`, a millimetre of a sheet a millimetre of its page. The same sheets always make the
/// same bytes.
#[must_use]
pub fn pdf(sheets: &[Sheet], about: &About) -> Vec<u8> {
    let (tree, lettering) = (Tree::of(sheets), Lettering::of(sheets));
    let mut pdf = Pdf::with_settings(Settings { pretty: false });
    let mut next = Ref::new(1);
    let [whole, all_pages, root] = std::array::from_fn(|_| next.bump());
    let pages: Vec<Ref> = sheets.iter().map(|_| next.bump()).collect();
    let faces = lettering.write(&mut pdf, &mut next);
    pdf.pages(all_pages).kids(pages.iter().copied()).count(i32::try_from(pages.len()).unwrap_or(i32::MAX));
    for (place, sheet) in sheets.iter().enumerate() {
        let drawn = next.bump();
        let content = content::content(sheet, &tree.sheets[place], &lettering);
        pdf.stream(drawn, &packed(content.as_slice())).filter(Filter::FlateDecode);
        page(sheet, place, [all_pages, pages[place], drawn], &faces, &mut pdf);
    }
    structure::write(&tree, sheets, root, &pages, &mut pdf, &mut next);
    let bookmarks = bookmarks::write(&tree.headings, sheets, &pages, &mut pdf, &mut next);
    let metadata = metadata::write(about, &mut pdf, &mut next);
    let mut catalog = pdf.catalog(whole);
    catalog.pages(all_pages).metadata(metadata).lang(TextStr(about.language));
    catalog.mark_info().marked(true);
    catalog.pair(Name(b"StructTreeRoot"), root);
    if let Some(bookmarks) = bookmarks {
        catalog.outlines(bookmarks);
    }
    metadata::ask_of_viewers(&mut catalog);
    catalog.finish();
    pdf.finish()
}

/// A page, by the numbers of all pages, its own and its content's.
fn page(sheet: &Sheet, place: usize, [all, own, drawn]: [Ref; 3], faces: &[(Face, Ref)], pdf: &mut Chunk) {
    let mut page = pdf.page(own);
    let (width, height) = (side(sheet.size.width), side(sheet.size.height));
    page.parent(all).media_box(Rect::new(0.0, 0.0, points(width), points(height))).contents(drawn);
    page.tab_order(TabOrder::StructureOrder).struct_parents(i32::try_from(place).unwrap_or(i32::MAX));
    let mut resources = page.resources();
    let mut fonts = resources.fonts();
    for &(face, id) in faces {
        fonts.pair(lettering::name(face), id);
    }
}
