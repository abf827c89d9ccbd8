//! Printed files read back by the crate `lopdf`, which the program does not write with.
//!
//! Must not know what was to be printed.
#![expect(clippy::unwrap_used, reason = "a file that cannot be read back fails the test")]

mod drawn;
mod fonts;
mod heard;

use lopdf::{Dictionary, Document, Object, ObjectId};

pub(crate) use drawn::{Drawn, Outline, Stroke};
pub(crate) use heard::{Heard, bookmarks, heard};

/// Millimetres in a point: an inch is 72 points (ISO 32000-1, 8.3.2.3) and 25.4 mm.
pub(crate) const POINT: f64 = 25.4 / 72.0;

/// The file and what is on each of its pages.
pub(crate) struct Read {
    pub(crate) file: Document,
    pub(crate) pages: Vec<Drawn>,
}

/// Reads a file.
pub(crate) fn read(bytes: &[u8]) -> Read {
    let file = Document::load_mem(bytes).unwrap();
    let pages = file.get_pages().into_values().map(|page| drawn::drawn(&file, page)).collect();
    Read { file, pages }
}

/// What a dictionary has under a name, wherever the file keeps it.
pub(crate) fn entry<'a>(file: &'a Document, dictionary: &'a Dictionary, name: &str) -> Option<&'a Object> {
    let found = dictionary.get(name.as_bytes()).ok()?;
    Some(file.dereference(found).unwrap().1)
}

/// A dictionary within a dictionary.
pub(crate) fn within<'a>(file: &'a Document, dictionary: &'a Dictionary, name: &str) -> &'a Dictionary {
    entry(file, dictionary, name).unwrap_or_else(|| unreachable!("no {name}")).as_dict().unwrap()
}

pub(crate) fn number(object: &Object) -> f64 {
    f64::from(object.as_float().unwrap())
}

pub(crate) fn numbers(object: &Object) -> Vec<f64> {
    object.as_array().unwrap().iter().map(number).collect()
}

pub(crate) fn name(object: &Object) -> String {
    String::from_utf8(object.as_name().unwrap().to_vec()).unwrap()
}

pub(crate) fn text(object: &Object) -> String {
    lopdf::decode_text_string(object).unwrap()
}

/// The unpacked bytes of a stream.
pub(crate) fn stream(object: &Object) -> Vec<u8> {
    object.as_stream().unwrap().get_plain_content().unwrap()
}

fn page(file: &Document, id: ObjectId) -> &Dictionary {
    file.get_dictionary(id).unwrap()
}
