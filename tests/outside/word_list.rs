//! The carried words, against the published lists that they were taken from: SCOWL (Spell Checker Oriented Word Lists)
//! 2020.12.07, in the files of the Debian package scowl 2020.12.07-2.
//!
//! Must not know how the list was made.

use std::collections::HashSet;

use oddment::supply::WordList;

/// How many entries without an apostrophe `english-words` and `british-words` have, in the classes 10, 20, 35, 40, 50, 55, 60
/// and 70 of commonness.
const ENTRIES: [(usize, usize); 8] = [
    (3939, 45),
    (6775, 176),
    (27336, 915),
    (4562, 185),
    (17079, 652),
    (5520, 210),
    (9481, 421),
    (33257, 1313),
];

/// Words with the class that they stand in there, commonest first.
const CLASSES: [(&str, u32); 8] = [
    ("water", 10),
    ("theatre", 20),
    ("harbour", 35),
    ("lantern", 35),
    ("fête", 35),
    ("quay", 35),
    ("lightship", 55),
    ("tideway", 60),
];

/// Spellings of `british-words`, each with the one that `american-words` has in its place.
const SPELLINGS: [(&str, &str); 8] = [
    ("harbour", "harbor"),
    ("colour", "color"),
    ("theatre", "theater"),
    ("grey", "gray"),
    ("favourite", "favorite"),
    ("jewellery", "jewelry"),
    ("marvellous", "marvelous"),
    ("realise", "realize"),
];

/// Left out are letters by themselves, units such as kW, and what lists of offensive words mark: fewer than one in a hundred.
#[test]
fn nearly_all_that_was_published_is_carried() {
    let published: usize = ENTRIES.iter().map(|(english, british)| english + british).sum();
    let carried = WordList::english().len();
    assert_eq!(published, 111_866);
    assert!(carried < published && carried * 100 > published * 99, "{carried} of {published}");
}

/// A word stands no further down than its class and all before it are long, and no further up than those before it, all but
/// one in a hundred.
#[test]
fn a_word_stands_where_its_class_is() {
    let list = WordList::english();
    let words: Vec<&str> = list.words().collect();
    let numbers = [10, 20, 35, 40, 50, 55, 60, 70];
    for (word, class) in CLASSES {
        let at = words.iter().position(|other| *other == word).unwrap_or(usize::MAX);
        let until = |through: bool| -> usize {
            let classes = numbers.iter().zip(ENTRIES);
            let before = classes.filter(|(number, _)| **number < class || through && **number == class);
            before.map(|(_, (english, british))| english + british).sum()
        };
        assert!(at < until(true) && at * 100 >= until(false) * 99, "{word} at {at}");
    }
}

#[test]
fn the_spelling_is_british() {
    let list = WordList::english();
    let words: HashSet<&str> = list.words().collect();
    for (british, american) in SPELLINGS {
        assert!(words.contains(british) && !words.contains(american), "{british}");
    }
}
