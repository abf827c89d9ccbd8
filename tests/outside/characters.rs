//! Characters and wordings against the Unicode standard.
//!
//! Must not know how the program splits a text.
#![expect(clippy::unwrap_used, reason = "a published text that cannot be read fails the test")]

use oddment::letter::{Character, Evidence, STAND_INS, StandInKind, normalise};
use oddment::title::Wording;
use unicode_security::confusable_detection::skeleton;

use super::canonical_forms::CANONICAL_FORMS;
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

/// Unicode Character Database, NormalizationTest.txt 15.0.0 (UAX #15).
#[test]
fn texts_and_characters_are_kept_in_nfc() {
    assert!(CANONICAL_FORMS.len() > 90);
    let mut characters = 0;
    for &(written, kept) in CANONICAL_FORMS {
        assert_eq!(normalise(written), kept, "{}", written.escape_unicode());
        assert_eq!(normalise(kept), kept, "{}", kept.escape_unicode());
        if let Ok(character) = Character::new(written) {
            assert_eq!(character.as_str(), kept, "{}", written.escape_unicode());
            characters += 1;
        }
    }
    assert!(characters > 80, "{characters}");
}

/// Unicode Technical Standard #39, by the data of the crate unicode-security: a look-alike claims to be found there
/// if and only if it is, and every other one claims no more than practice.
#[test]
fn look_alikes_are_confusable_where_they_claim_it() {
    let look_alike = |text: &str| skeleton(text).collect::<String>();
    let mut claims = 0;
    for row in STAND_INS.iter().filter(|row| row.kind == StandInKind::LookAlike) {
        let found = look_alike(row.wanted) == look_alike(row.used);
        let claimed = if found { Evidence::Confusable } else { Evidence::Practice };
        assert_eq!(row.evidence, claimed, "{} for {}", row.used, row.wanted);
        claims += usize::from(found);
    }
    let elsewhere = STAND_INS.iter().filter(|row| row.evidence == Evidence::Confusable).count();
    assert_eq!(claims, elsewhere, "only look-alikes are confusable");
    assert_eq!(claims, 8, "0 and O, and I, l and 1, both ways");
}
