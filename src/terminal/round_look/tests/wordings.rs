//! The wordings on a real stash: words of one's own that cannot be read, another plan.
//!
//! Must not know a terminal.

use std::fs;

use super::*;
use crate::app::{LookedAt, View};
use crate::title::CaseRule;

#[test]
fn words_that_cannot_be_read_are_told_and_the_english_ones_looked_through() {
    let mut room = Room::new();
    fs::write(room.path("words.txt"), b"bay\n\xff\n").unwrap();
    for (keys, found) in [("4 g 1 - 2 enter", &["A"][..]), ("g ctrl-u 9 enter", &[])] {
        room.press(keys);
        assert!(room.said().contains("words.txt:2:1"), "{}", room.said());
        while room.desk.is_working() {
            let _ = room.desk.work();
        }
        let ideas: Vec<&str> = room.desk.state.ideas().iter().map(|idea| idea.text.as_str()).collect();
        assert_eq!(ideas, found, "{keys}");
    }
}

#[test]
fn another_plan_leaves_the_wordings_as_they_are() {
    let mut room = Room::new();
    room.write("pages/pier.toml", "[[strip]]\nwording = 'BB'\n");
    room.write("wishes.toml", "[[wish]]\nwording = 'BA'\n");
    room.look();
    room.press("4 w A A B enter K down space O home enter");
    assert_eq!(room.desk.state.file.slug.as_deref(), Some("pier"));
    room.press("4");
    let wordings = &room.desk.state.wordings;
    assert_eq!((room.desk.state.look.view, wordings.looked_at), (View::Wording, LookedAt::Wish));
    assert_eq!(wordings.typed.as_deref(), Some("AAB"));
    assert_eq!(wordings.rules.case, CaseRule::AsWritten);
    assert!(wordings.must.contains("BA"));
}

#[test]
fn wishes_that_cannot_be_read_are_not_told_to_be_none() {
    let mut room = Room::new();
    room.press("4");
    for (text, amiss) in
        [("[[wish]]\nwording = 'BA'\n", false), ("[[wish]\n", true), ("[[wish]]\nwording = 'AB'\n", false)]
    {
        room.write("wishes.toml", text);
        assert!(room.look());
        let shelf = &room.desk.state.shelf;
        assert_eq!((shelf.wishes.is_empty(), shelf.are_wishes_amiss), (amiss, amiss), "{text}");
    }
}
