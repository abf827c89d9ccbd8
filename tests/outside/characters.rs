//! Characters and wordings against the Unicode standard.
//!
//! Must not know how the program splits a text.
#![expect(clippy::unwrap_used, reason = "a published text that cannot be read fails the test")]

use oddment::letter::{Character, Evidence, STAND_INS, normalise};
use oddment::title::Wording;
use unicode_security::confusable_detection::skeleton;

use super::grapheme_breaks::GRAPHEME_BREAKS;

/// Unicode Character Database, GraphemeBreakTest.txt 17.0.0 (UAX #29).
#[test]
fn slots_are_the_published_clusters() {
    assert!(GRAPHEME_BREAKS.len() > 80);
    for (text, clusters) in GRAPHEME_BREAKS {
        let wording = Wording::new(text).unwrap();
        let found: Vec<usize> =
            wording.slots().iter().map(|asked| asked.character.as_str().chars().count()).collect();
        assert_eq!(found, *clusters, "{}", text.escape_unicode());
    }
}

/// Unicode Standard Annex #15, figure 3 to 5 and table 1: singletons, canonical composites, several marks. From memory.
#[test]
fn characters_are_kept_in_nfc() {
    for (written, kept) in [
        ("A\u{30a}", "\u{c5}"),
        ("\u{212b}", "\u{c5}"),
        ("o\u{302}", "\u{f4}"),
        ("s\u{323}\u{307}", "\u{1e69}"),
        ("\u{1e0b}\u{323}", "\u{1e0d}\u{307}"),
        ("q\u{307}\u{323}", "q\u{323}\u{307}"),
        ("\u{1100}\u{1161}\u{11a8}", "\u{ac01}"),
    ] {
        assert_eq!(Character::new(written).unwrap().as_str(), kept, "{}", written.escape_unicode());
        assert_eq!(normalise(kept), kept);
    }
}

/// Unicode Technical Standard #39, by the data of the crate unicode-security: every look-alike that claims to be found
/// there is, and every other one claims no more than practice.
#[test]
fn look_alikes_are_confusable_where_they_claim_it() {
    let look_alike = |text: &str| skeleton(text).collect::<String>();
    let mut claims = 0;
    for row in STAND_INS {
        if row.evidence == Evidence::Confusable {
            assert_eq!(look_alike(row.wanted), look_alike(row.used), "{} for {}", row.used, row.wanted);
            claims += 1;
        }
    }
    assert!(claims >= 6);
}
