//! A benchmark of printing an order: from the plan and the stash in memory to the bytes of the PDF.
//!
//! The rivals do what must be done at least: `pdf-writer` as many pages without anything on them, and `subsetter` both fonts
//! cut down to the same characters. Must not know how an order is set on sheets, nor how a file is written.

use std::collections::BTreeSet;
use std::fs;
use std::hint::black_box;
use std::path::Path;
use std::time::{Duration, Instant};

use oddment::files::{PlanSlug, StashFolder};
use oddment::measure::Unit;
use oddment::order::Order;
use oddment::page::Paper;
use oddment::plan::Plan;
use oddment::print::{About, Face, Head, Mark, Sheet, pdf, sheets};
use oddment::stash::Stash;
use pdf_writer::{Pdf, Rect, Ref};
use subsetter::{GlyphRemapper, subset};
use tempfile::TempDir;

use super::{figures, made, millis, ratio};

/// Two lines of a title and a subtitle, 160 letters together, from as many sheets as have them.
const LARGEST: [(&str, &str, &str); 2] = [
    (
        "title",
        "LANTERNS ALONG THE OLD QUAY ON THE LAST EVENING OF A LONG SUMMER\\nAND HOME BY THE HARBOUR WALL",
        "30 mm",
    ),
    (
        "subtitle",
        "WE SANG EVERY SONG WE KNEW AND SOME THAT WE DID NOT KNOW AT ALL AND CARRIED THE LIGHTS",
        "200 mm",
    ),
];

/// Measures.
pub(crate) fn order() {
    println!("\nan order to its PDF, against empty pages by pdf-writer and both fonts cut down by subsetter");
    for (name, count) in [("S", 10), ("L", 200)] {
        let folder = TempDir::new().unwrap();
        made::write(folder.path(), count, 0).unwrap();
        measure(&format!("{name}, a made-up page"), folder.path(), "page-00");
        if name == "L" {
            fs::write(folder.path().join("pages/largest.toml"), largest()).unwrap();
            measure("L, 160 letters", folder.path(), "largest");
        }
    }
    measure("the demo's page", Path::new("sample-stash"), "lantern-walk");
}

fn largest() -> String {
    let mut text = String::from("size = \"12 x 12 in\"\n");
    let mut place = 0;
    for (role, wording, down) in LARGEST {
        text += &format!(
            "\n[[strip]]\nrole = \"{role}\"\nwording = \"{wording}\"\nat = [\"10 mm\", \"{down}\"]\n"
        );
        let letters = wording.replace("\\n", " ");
        for (slot, letter) in (1..).zip(letters.chars().filter(|letter| !letter.is_whitespace())) {
            text += &format!(
                "\n[[strip.letter]]\nslot = {slot}\nchip = \"sheet-{:04}/{letter}\"\n",
                place % 66 * 3 + 1
            );
            place += 1;
        }
    }
    text
}

fn measure(name: &str, folder: &Path, slug: &str) {
    let stash = StashFolder::at(folder);
    let loaded = stash.load().unwrap();
    let file = stash.plan_called(&PlanSlug::new(slug).unwrap());
    let plan = stash.open_plan(&file, &loaded.colours, &loaded.stash).unwrap().plan;
    let (mut ours, mut to_bytes, mut empty, mut fonts) = (Vec::new(), Vec::new(), Vec::new(), Vec::new());
    let (mut pages, mut bytes) = (0, 0);
    for _ in 0..41 {
        let begun = Instant::now();
        let (about, sheets) = set(&plan, &loaded.stash);
        let set = begun.elapsed();
        let file = black_box(pdf(&sheets, &about));
        ours.push(begun.elapsed());
        to_bytes.push(ours[ours.len() - 1].saturating_sub(set));
        (pages, bytes) = (sheets.len(), file.len());
        empty.push(timed(|| blank(&sheets)));
        let used = used(&sheets);
        fonts.push(timed(|| cut_down(&used)));
    }
    let ((ours, slow), (to_bytes, _)) = (figures(&mut ours), figures(&mut to_bytes));
    let ((empty, _), (fonts, _)) = (figures(&mut empty), figures(&mut fonts));
    println!(
        "  {name:<18} {} (p99 {}; of it sheets to bytes {})  {pages} sheets, {} kB   empty pages {}   fonts {}  {}",
        millis(ours),
        millis(slow),
        millis(to_bytes),
        bytes / 1_000,
        millis(empty),
        millis(fonts),
        ratio(ours, empty + fonts)
    );
}

fn set(plan: &Plan, stash: &Stash) -> (About, Vec<Sheet>) {
    let (order, head) = (Order::of(plan, stash), Head::default());
    (About::of(&order, &head), sheets(&order, &head, Paper::A4, Unit::Millimetre).unwrap())
}

fn timed<T>(what: impl FnOnce() -> T) -> Duration {
    let begun = Instant::now();
    black_box(what());
    begun.elapsed()
}

/// As many pages of the same size, and nothing on them.
fn blank(sheets: &[Sheet]) -> Vec<u8> {
    let mut pdf = Pdf::new();
    let mut next = Ref::new(1);
    let (whole, all) = (next.bump(), next.bump());
    pdf.catalog(whole).pages(all);
    let pages: Vec<Ref> = sheets.iter().map(|_| next.bump()).collect();
    pdf.pages(all).kids(pages.iter().copied()).count(i32::try_from(pages.len()).unwrap());
    for page in pages {
        pdf.page(page).parent(all).media_box(Rect::new(0.0, 0.0, 595.276, 841.89));
    }
    pdf.finish()
}

/// The characters that sheets use.
fn used(sheets: &[Sheet]) -> BTreeSet<char> {
    let marks = sheets.iter().flat_map(|sheet| &sheet.pieces).flat_map(|piece| &piece.marks);
    let words = marks.filter_map(|mark| match mark {
        Mark::Words(words) => Some(&words.text),
        Mark::Shape(_) | Mark::Line { .. } => None,
    });
    words.flat_map(|text| text.chars()).collect()
}

fn cut_down(used: &BTreeSet<char>) -> [Vec<u8>; 2] {
    Face::ALL.map(|face| {
        let mut kept = GlyphRemapper::new();
        for glyph in used.iter().filter_map(|&c| face.glyph(c)) {
            kept.remap(glyph.0);
        }
        subset(face.data(), 0, &kept).unwrap()
    })
}
