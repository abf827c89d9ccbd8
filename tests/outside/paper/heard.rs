//! What a reader aloud finds in a file: its tree of parts in their order, and its bookmarks (ISO 32000-1, 14.7 and 12.3.3).
//!
//! Must not know where anything is drawn.
#![expect(clippy::unwrap_used, reason = "a tree that cannot be read back fails the test")]

use lopdf::{Dictionary, Object, ObjectId};

use super::{Read, entry, name, numbers, text, within};

/// A part of the whole.
#[derive(Debug, Clone, Default)]
pub(crate) struct Heard {
    /// How many parts it is within.
    pub(crate) depth: usize,
    pub(crate) role: String,
    /// What is said in it itself.
    pub(crate) text: String,
    pub(crate) alt: Option<String>,
    /// `Scope`, `ColSpan`, `ListNumbering` and their likes, as they are written.
    pub(crate) attributes: Vec<(String, String)>,
    /// How far a drawing reaches, in points: left, bottom, right, top.
    pub(crate) reach: Option<Vec<f64>>,
    /// The pages that it is on, from 0.
    pub(crate) pages: Vec<usize>,
}

impl Heard {
    pub(crate) fn attribute(&self, name: &str) -> Option<&str> {
        self.attributes.iter().find(|(each, _)| each == name).map(|(_, value)| value.as_str())
    }
}

/// All parts, each before those within it. What a page marks and what the tree names must be the same, each way.
pub(crate) fn heard(read: &Read) -> Vec<Heard> {
    let catalog = read.file.catalog().unwrap();
    let root = within(&read.file, catalog, "StructTreeRoot");
    let pages: Vec<ObjectId> = read.file.get_pages().into_values().collect();
    let mut ear = Ear { read, pages, heard: Vec::new(), named: Vec::new() };
    for child in root.get(b"K").unwrap().as_array().unwrap() {
        ear.hear(child.as_reference().unwrap(), 0);
    }
    ear.named.sort_unstable();
    let mut marked: Vec<(usize, i64)> = Vec::new();
    for (place, page) in read.pages.iter().enumerate() {
        let parts = page.words.iter().map(|one| one.part).chain(page.strokes.iter().map(|one| one.part));
        let parts = parts.chain(page.outlines.iter().map(|one| one.part));
        marked.extend(parts.flatten().map(|part| (place, part)));
    }
    marked.sort_unstable();
    marked.dedup();
    // A part whose marks draw nothing is named all the same.
    assert!(marked.iter().all(|part| ear.named.binary_search(part).is_ok()), "{marked:?} {:?}", ear.named);
    ear.heard
}

struct Ear<'a> {
    read: &'a Read,
    pages: Vec<ObjectId>,
    heard: Vec<Heard>,
    named: Vec<(usize, i64)>,
}

impl Ear<'_> {
    fn hear(&mut self, id: ObjectId, depth: usize) {
        let read = self.read;
        let element = read.file.get_dictionary(id).unwrap();
        let file = &read.file;
        let mut one = Heard {
            depth,
            role: name(entry(file, element, "S").unwrap()),
            alt: entry(file, element, "Alt").map(text),
            ..Heard::default()
        };
        for attributes in entry(file, element, "A").into_iter().flat_map(|all| all.as_array().unwrap()) {
            told(attributes.as_dict().unwrap(), &mut one);
        }
        let place = self.heard.len();
        self.heard.push(one);
        for child in entry(file, element, "K").unwrap().as_array().unwrap() {
            match child {
                Object::Reference(below) => {
                    let parent = file.get_dictionary(*below).unwrap().get(b"P").unwrap();
                    assert_eq!(parent.as_reference().unwrap(), id);
                    self.hear(*below, depth + 1);
                }
                Object::Integer(number) => self.say(place, id, (element, *number)),
                Object::Dictionary(held) => {
                    self.say(place, id, (held, held.get(b"MCID").unwrap().as_i64().unwrap()));
                }
                other => unreachable!("{other:?} in the tree"),
            }
        }
    }

    /// Adds what is marked by a number on the page that `holder` names, which must name the part in turn.
    fn say(&mut self, place: usize, id: ObjectId, (holder, number): (&Dictionary, i64)) {
        let page = holder.get(b"Pg").unwrap().as_reference().unwrap();
        let at = self.pages.iter().position(|each| *each == page).unwrap();
        let file = &self.read.file;
        let key = file.get_dictionary(page).unwrap().get(b"StructParents").unwrap().as_i64().unwrap();
        let root = within(file, file.catalog().unwrap(), "StructTreeRoot");
        let rows = entry(file, within(file, root, "ParentTree"), "Nums").unwrap().as_array().unwrap();
        let row = rows.chunks(2).find(|row| row[0].as_i64().unwrap() == key).unwrap();
        let owners = file.dereference(&row[1]).unwrap().1.as_array().unwrap();
        assert_eq!(owners[usize::try_from(number).unwrap()].as_reference().unwrap(), id);
        assert!(!self.named.contains(&(at, number)), "one mark in two parts");
        self.named.push((at, number));
        let one = &mut self.heard[place];
        one.text += &self.read.pages[at].text(Some(number));
        one.pages.push(at);
    }
}

fn told(attributes: &Dictionary, one: &mut Heard) {
    for (key, value) in attributes {
        let key = String::from_utf8(key.clone()).unwrap();
        match value {
            Object::Name(_) => one.attributes.push((key, name(value))),
            Object::Integer(number) => one.attributes.push((key, number.to_string())),
            Object::Array(_) if key == "BBox" => one.reach = Some(numbers(value)),
            _ => {}
        }
    }
}

/// The bookmarks: how deep, the title, the page.
pub(crate) fn bookmarks(read: &Read) -> Vec<(usize, String, usize)> {
    let catalog = read.file.catalog().unwrap();
    let Some(outlines) = entry(&read.file, catalog, "Outlines") else { return Vec::new() };
    let mut found = Vec::new();
    follow(read, outlines.as_dict().unwrap(), 0, &mut found);
    found
}

fn follow(read: &Read, above: &Dictionary, depth: usize, found: &mut Vec<(usize, String, usize)>) {
    let mut next = above.get(b"First").ok();
    while let Some(id) = next {
        let item = read.file.get_dictionary(id.as_reference().unwrap()).unwrap();
        let to = entry(&read.file, item, "Dest").unwrap().as_array().unwrap()[0].as_reference().unwrap();
        let page = read.file.get_pages().into_values().position(|page| page == to).unwrap();
        found.push((depth, text(item.get(b"Title").unwrap()), page));
        follow(read, item, depth + 1, found);
        next = item.get(b"Next").ok();
    }
}
