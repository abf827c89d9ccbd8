//! How often letters are needed, against a published table.
//!
//! Must not know how the program comes by a weight.
#![expect(clippy::unwrap_used, reason = "a published letter that cannot be read fails the test")]

use oddment::letter::{Character, weight};

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
