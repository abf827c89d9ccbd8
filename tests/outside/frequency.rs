//! How often letters are needed, against a published table.
//!
//! Must not know how the program comes by a weight.
#![expect(clippy::unwrap_used, reason = "a published letter that cannot be read fails the test")]

use oddment::letter::{Character, share, weight};
use oddment::measure::{Colour, Length, Tint};
use oddment::stash::{
    Finish, Form, HeightOf, Label, Letter, Make, Paint, Record, Sheet, SheetId, Size, Stash,
};
use oddment::supply::Running;

/// Letters in English text, in per cent: the table `english` of PyPI letter-frequency-languages 0.0.6
/// (`letter_frequency_languages/letter_frequency.py`).
const ENGLISH: [(&str, f64); 26] = [
    ("a", 8.167),
    ("b", 1.492),
    ("c", 2.782),
    ("d", 4.253),
    ("e", 12.702),
    ("f", 2.228),
    ("g", 2.015),
    ("h", 6.094),
    ("i", 6.966),
    ("j", 0.153),
    ("k", 0.772),
    ("l", 4.025),
    ("m", 2.406),
    ("n", 6.749),
    ("o", 7.507),
    ("p", 1.929),
    ("q", 0.095),
    ("r", 5.987),
    ("s", 6.327),
    ("t", 9.056),
    ("u", 2.758),
    ("v", 0.978),
    ("w", 2.360),
    ("x", 0.150),
    ("y", 1.974),
    ("z", 0.074),
];

/// The commonest letters of another count, most frequent first: of 743,842,922,727 words in scanned books, as published
/// on the web in 2012. From memory.
const BOOKS: &str = "etaoinsrhldcumfpgwybvkxjqz";

fn of(text: &str) -> f64 {
    weight(&Character::new(text).unwrap())
}

#[test]
fn weights_are_linear_in_the_published_table() {
    let (most, least) = (12.702, 0.772);
    for (letter, share) in ENGLISH {
        let expected = ((share - least) / (most - least)).max(0.0);
        for case in [letter.to_owned(), letter.to_uppercase()] {
            assert!((of(&case) - expected).abs() < 1e-12, "{case}: {} and not {expected}", of(&case));
        }
    }
}

#[test]
fn the_commoner_letter_weighs_more() {
    let mut order = ENGLISH;
    order.sort_by(|a, b| b.1.total_cmp(&a.1));
    let weights: Vec<f64> = order.iter().map(|(letter, _)| of(letter)).collect();
    assert!(weights[..22].windows(2).all(|pair| pair[0] > pair[1]), "{weights:?}");
    assert!(order[21..].iter().all(|(letter, _)| of(letter) == 0.0), "K and the four rarer ones");
}

/// No letter stands more than three places from where a count of other texts has it.
#[test]
fn another_count_has_nearly_the_same_order() {
    let mut order = ENGLISH;
    order.sort_by(|a, b| b.1.total_cmp(&a.1));
    for (place, (letter, _)) in order.iter().enumerate() {
        let other = BOOKS.find(letter).unwrap();
        assert!(place.abs_diff(other) <= 3, "{letter}: {place} and {other}");
    }
}

#[test]
fn shares_are_those_of_the_published_table() {
    for (letter, published) in ENGLISH {
        for case in [letter.to_owned(), letter.to_uppercase()] {
            let share = f64::from(share(&Character::new(&case).unwrap()).unwrap()) / 1_000.0;
            assert!((share - published).abs() < 1e-9, "{case}: {share} and not {published}");
        }
    }
}

/// With as many of each letter, they run out in the order of the published table; each after as much text as its share says.
#[test]
fn letters_run_out_in_the_order_of_the_published_table() {
    let seven = |letter: &str| Letter::plain(Character::new(letter).unwrap(), None, 7);
    let sheet = Sheet {
        id: SheetId::new("all-alike").unwrap(),
        label: Label::default(),
        make: Make {
            form: Form::Tile,
            finish: Finish::Matte,
            neutral: false,
            joined: false,
            plain_tile: false,
        },
        size: Size {
            height: Length::from_mm(20),
            height_of: HeightOf::Capital,
            tile_width: None,
            thick: None,
        },
        paint: Paint { colours: vec![Tint::plain(Colour::BLACK)], outline: None, tile: None },
        letters: ENGLISH
            .iter()
            .flat_map(|(letter, _)| [seven(letter), seven(&letter.to_uppercase())])
            .collect(),
        record: Record::default(),
    };
    let running = Running::new(&Stash::new(vec![sheet]), |_| 0);
    let mut order = ENGLISH;
    order.sort_by(|a, b| b.1.total_cmp(&a.1));
    assert_eq!(running.letters.len(), 26);
    for (one, (letter, percent)) in running.letters.iter().zip(order) {
        assert_eq!(one.letter.as_str().to_lowercase(), letter);
        assert_eq!((one.capitals, one.small), (7, 7));
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "whole letters of text")]
        let text = (14.0 / percent * 100.0) as u64;
        assert!(one.text.abs_diff(text) <= 1, "{letter}: {} and not {text}", one.text);
    }
}
