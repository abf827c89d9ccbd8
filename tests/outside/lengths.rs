//! Lengths against the inch and the paper sizes of the standards, and against every text that may be typed.
//!
//! Must not know how lengths are kept.
#![expect(clippy::unwrap_used, reason = "a length of a test that cannot be read fails the test")]

use oddment::measure::{Length, Unit};
use proptest::prelude::*;

fn mm(text: &str) -> Length {
    Length::parse(text, Unit::Millimetre).unwrap()
}

/// International yard and pound agreement, 1959: the yard is 0.9144 m exactly, so the inch, a thirty-sixth of it, is
/// 25.4 mm.
#[test]
fn an_inch_is_25_4_mm() {
    assert_eq!(mm("1 in") * 36, mm("914.4 mm"));
    for (inches, same) in [("1 in", "25.4 mm"), ("12 in", "304.8 mm"), ("1/64 in", "0.396875 mm")] {
        assert_eq!(mm(inches), mm(same), "{inches}");
    }
    for sixty_fourths in 1..=768 {
        let text = format!("{} {}/64 in", sixty_fourths / 64, sixty_fourths % 64);
        assert_eq!(mm(&text) * 64, mm("25.4 mm") * sixty_fourths, "{text}");
    }
}

/// ISO 216:2007, the A series, in whole millimetres: each is the one before cut in half across its longer side, what is
/// left over dropped. A0 is 841 x 1189 mm. (The table from memory.)
#[test]
fn sheets_of_the_a_series_halve() {
    let series = [(841, 1189), (594, 841), (420, 594), (297, 420), (210, 297), (148, 210), (105, 148)];
    for pair in series.windows(2) {
        let (whole, half) = (pair[0], pair[1]);
        let halved = Length::from_mm(whole.1) / 2;
        assert_eq!(Length::from_mm(half.1), Length::from_mm(whole.0));
        assert!(halved - Length::from_mm(half.0) < Length::from_mm(1), "{whole:?} {half:?}");
    }
    assert_eq!((mm("21 cm"), mm("29.7 cm")), (Length::from_mm(210), Length::from_mm(297)), "A4");
    assert_eq!((mm("14.8 cm"), mm("21 cm")), (Length::from_mm(148), Length::from_mm(210)), "A5");
}

/// ANSI/ASME Y14.1, size A (letter): 8.5 x 11 in, which metric tables print as 215.9 x 279.4 mm. (From memory.)
#[test]
fn letter_paper_in_millimetres() {
    assert_eq!((mm("8 1/2 in").number(), mm("11\"").number()), ("215.9 mm".into(), "279.4 mm".into()));
}

/// The Unicode Character Database: the numeric values of the vulgar fractions, U+00BC to U+00BE and U+2150 to U+215E.
/// (From memory.)
#[test]
fn every_vulgar_fraction_has_its_value() {
    let table = [
        ("¼½¾", &[(1, 4), (1, 2), (3, 4)][..]),
        ("⅐⅑⅒⅓⅔", &[(1, 7), (1, 9), (1, 10), (1, 3), (2, 3)]),
        ("⅕⅖⅗⅘⅙⅚", &[(1, 5), (2, 5), (3, 5), (4, 5), (1, 6), (5, 6)]),
        ("⅛⅜⅝⅞", &[(1, 8), (3, 8), (5, 8), (7, 8)]),
    ];
    for (characters, values) in table {
        assert_eq!(characters.chars().count(), values.len());
        for (character, (top, bottom)) in characters.chars().zip(values) {
            for whole in ["", "2", "2 ", "2-"] {
                let text = format!("{whole}{character} in");
                let spelled = format!("{whole}{}{top}/{bottom} in", if whole == "2" { " " } else { "" });
                assert_eq!(mm(&text), mm(&spelled), "{text}");
            }
        }
    }
}

/// A ruler's spelling, right or nearly right.
fn spelled() -> impl Strategy<Value = String> {
    let piece = prop::sample::select(vec![
        "-",
        "−",
        "+",
        " ",
        "1",
        "12",
        "999999999999999999",
        "0",
        ".",
        "/",
        "⁄",
        "½",
        "⅞",
        "\"",
        "”",
        "″",
        "''",
        "mm",
        "cm",
        "in",
        "inch",
        "e",
        "\u{7}",
        "é",
        "\u{2028}",
        "nan",
    ]);
    prop::collection::vec(piece, 0..8).prop_map(|pieces| pieces.concat())
}

/// As a whole number of nanometres up to 5 m either way.
const FAR: i64 = 5_000_000_000;

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn what_files_hold_reads_back_the_same(nm in -FAR..=FAR, inches in any::<bool>()) {
        let length = Length::from_nm(nm);
        let unit = if inches { Unit::Inch } else { Unit::Millimetre };
        prop_assert_eq!(Length::parse(&length.number(), unit), Ok(length));
    }

    #[test]
    fn what_is_shown_lies_within_half_a_mark(nm in -FAR / 2..=FAR / 2) {
        let length = Length::from_nm(nm);
        for (unit, half) in [(Unit::Millimetre, 50_000), (Unit::Inch, 793_750)] {
            let read = mm(&length.show(unit));
            prop_assert!((read - length).abs().nm() <= half, "{} for {nm} nm", length.show(unit));
        }
    }

    #[test]
    fn any_length_can_be_shown(nm in any::<i64>()) {
        let length = Length::from_nm(nm);
        prop_assert!(length.show(Unit::Millimetre).ends_with(" mm"));
        prop_assert!(length.show(Unit::Inch).ends_with(" in"));
        prop_assert!(length.number().ends_with(" mm"));
    }

    #[test]
    fn any_text_is_a_length_in_range_or_told_without_control_characters(
        text in prop_oneof![any::<String>(), spelled()],
        inches in any::<bool>(),
    ) {
        match Length::parse(&text, if inches { Unit::Inch } else { Unit::Millimetre }) {
            Ok(length) => prop_assert_eq!(length.as_offset(), Ok(length)),
            Err(error) => prop_assert!(!error.to_string().chars().any(char::is_control), "{:?}", error),
        }
    }

    #[test]
    fn a_bare_number_is_its_spelling(thousandths in -196_000_i32..196_000) {
        let number = f64::from(thousandths) / 1000.0;
        let spelled = mm(&format!("{number} in"));
        prop_assert_eq!(Length::from_number(number, Unit::Inch), Ok(spelled));
        prop_assert_eq!(spelled.nm(), i64::from(thousandths) * 25_400);
    }
}
