//! Colours against published conversions, contrasts and names.
//!
//! Must not know how the program measures them.
#![expect(clippy::unwrap_used, reason = "a table of a test that cannot be read fails the test")]

use std::collections::BTreeMap;

use oddment::measure::{Colour, Lab, css_names};

fn hex(text: &str) -> Colour {
    Colour::from_hex(text).unwrap()
}

/// L*, and a* and b* by way of chroma and hue, lie within `by` of `[l, a, b]`.
fn assert_near(found: Lab, [l, a, b]: [f64; 3], by: f64, what: &str) {
    let (sin, cos) = found.hue_degrees().to_radians().sin_cos();
    let found = [found.l(), found.chroma() * cos, found.chroma() * sin];
    for (found, published) in found.into_iter().zip([l, a, b]) {
        assert!((found - published).abs() < by, "{what}: {found} for {published}");
    }
}

/// IEC 61966-2-1 gives the curve and the primaries, CIE 15 the step to L*a*b* under D65. The figures are those of PyPI
/// coloraide 8.13.1 (MIT), space `lab-d65`; it takes the white point from x = 0.3127, y = 0.3290, the program from
/// X = 0.95047, Z = 1.08883, which parts them by up to 0.01.
#[test]
fn srgb_comes_out_in_lab_as_another_library_has_it() {
    let table = [
        ("#ff0000", [53.2371, 80.0901, 67.2033]),
        ("#00ff00", [87.7355, -86.1816, 83.1866]),
        ("#0000ff", [32.3009, 79.1953, -107.8555]),
        ("#00ffff", [91.1148, -48.0789, -14.129]),
        ("#ff00ff", [60.3227, 98.2374, -60.8289]),
        ("#ffff00", [97.1386, -21.56, 94.4838]),
        ("#008080", [48.255, -28.8411, -8.4756]),
        ("#2f3e46", [25.2346, -3.8139, -6.868]),
        ("#ffffff", [100.0, 0.0, 0.0]),
        ("#c0c0c0", [77.7044, 0.0, 0.0]),
        ("#808080", [53.585, 0.0, 0.0]),
        ("#404040", [27.0934, 0.0, 0.0]),
        ("#000000", [0.0, 0.0, 0.0]),
    ];
    for (colour, published) in table {
        assert_near(hex(colour).lab(), published, 0.02, colour);
    }
}

/// L*a*b* under D50 turned to D65: the inverse of the CIE 15 formula, then the Bradford matrix `D50_to_D65` of the sample
/// code in CSS Color Module Level 4, "Sample code for Color Conversions" (the matrix from memory), then CIE 15 again.
fn from_d50([l, a, b]: [f64; 3]) -> [f64; 3] {
    let d50 = [0.3457 / 0.3585, 1.0, (1.0 - 0.3457 - 0.3585) / 0.3585];
    let d65 = [0.3127 / 0.3290, 1.0, (1.0 - 0.3127 - 0.3290) / 0.3290];
    let bradford = [
        [0.955_473_421_488_075, -0.023_098_454_948_764_71, 0.063_259_243_200_570_72],
        [-0.028_369_709_333_863_7, 1.009_995_398_081_304_1, 0.021_041_441_191_917_323],
        [0.012_314_014_864_481_998, -0.020_507_649_298_898_964, 1.330_365_926_242_124],
    ];
    let (kappa, epsilon) = (24_389.0_f64 / 27.0, 216.0_f64 / 24_389.0);
    let middle = (l + 16.0) / 116.0;
    let share = |f: f64| if f.powi(3) > epsilon { f.powi(3) } else { (116.0 * f - 16.0) / kappa };
    let xyz50 = [share(middle + a / 500.0) * d50[0], share(middle), share(middle - b / 200.0) * d50[2]];
    let root = |v: f64| if v > epsilon { v.cbrt() } else { (kappa * v + 16.0) / 116.0 };
    let f = [0, 1, 2].map(|i| {
        let across: f64 = bradford[i].iter().zip(xyz50).map(|(weight, value)| weight * value).sum();
        root(across / d65[i])
    });
    [116.0 * f[1] - 16.0, 500.0 * (f[0] - f[1]), 200.0 * (f[1] - f[2])]
}

/// Web Platform Tests, `css/css-color/lab-001.html` (from memory): the `lab()` that must look as `green`. The primaries in
/// `lab()` as PyPI coloraide 8.13.1 converts them.
#[test]
fn lab_of_style_sheets_comes_out_alike() {
    let table = [
        ("#008000", [46.2775, -47.5621, 48.5837]),
        ("#ff0000", [54.2905, 80.8049, 69.8910]),
        ("#00ff00", [87.8185, -79.2711, 80.9946]),
        ("#0000ff", [29.5683, 68.2874, -112.0297]),
    ];
    for (colour, published) in table {
        assert_near(hex(colour).lab(), from_d50(published), 0.03, colour);
    }
}

/// WCAG 2.2, "contrast ratio" and "relative luminance": black on white is 21:1, a colour on itself 1:1. The greys are the
/// ratios that guides to the criterion print (4.54 for #767676, the lightest grey above 4.5:1 on white; from memory), the
/// rest from PyPI coloraide 8.13.1, `contrast(method="wcag21")`.
#[test]
fn contrast_is_that_of_wcag() {
    let on_white = [
        ("#000000", 2100),
        ("#ffffff", 100),
        ("#767676", 454),
        ("#777777", 448),
        ("#949494", 303),
        ("#999999", 285),
        ("#595959", 700),
        ("#ff0000", 400),
        ("#00ff00", 137),
        ("#0000ff", 859),
        ("#2f3e46", 1106),
    ];
    for (colour, published) in on_white {
        let (one, white) = (hex(colour), Colour::WHITE);
        assert_eq!(one.contrast(white).get(), published, "{colour}");
        assert_eq!(white.contrast(one), one.contrast(white), "{colour}");
    }
}

/// WCAG 2.2, "relative luminance": L = 0.2126 R + 0.7152 G + 0.0722 B over linear channels.
#[test]
fn luminance_is_that_of_wcag() {
    let linear = |channel: u8| {
        let share = f64::from(channel) / 255.0;
        if share <= 0.04045 { share / 12.92 } else { ((share + 0.055) / 1.055).powf(2.4) }
    };
    for (name, colour) in css_names() {
        let published = 0.2126 * linear(colour.r) + 0.7152 * linear(colour.g) + 0.0722 * linear(colour.b);
        assert!((colour.luminance() - published).abs() < 0.000_1, "{name}");
    }
}

/// CSS Color Module Level 4, "Named Colors", as crates.io color-name 1.2 (MIT or Apache-2.0) carries the table.
#[test]
fn every_keyword_of_the_css_list() {
    // That crate spells them with a capital.
    let published: BTreeMap<String, [u8; 3]> =
        color_name::css::COLORS_DATA.iter().map(|(name, rgb)| (name.to_ascii_lowercase(), *rgb)).collect();
    let ours: BTreeMap<String, [u8; 3]> =
        css_names().map(|(name, colour)| (name.to_owned(), [colour.r, colour.g, colour.b])).collect();
    assert_eq!(published.len(), 148, "the table of Level 4 has 148 keywords");
    assert_eq!(ours, published);
    for (name, [r, g, b]) in published {
        let colour = Colour { r, g, b };
        assert_eq!(Colour::named(&name), Some(colour));
        assert_eq!(Colour::named(&name.to_ascii_uppercase()), Some(colour), "{name}");
        assert_eq!(Colour::named(colour.nearest_name()), Some(colour), "{name}");
    }
    assert_eq!(Colour::named("transparent"), None);
}

/// The nearest name is the one that a plain walk over the published table finds, ties aside.
#[test]
fn the_nearest_name_is_the_nearest() {
    let all = color_name::css::COLORS_DATA.map(|(_, [r, g, b])| Colour { r, g, b }.lab());
    for step in 0..512_u32 {
        let channel = |shift: u32| u8::try_from((step >> shift & 7) * 255 / 7).unwrap();
        let colour = Colour { r: channel(6), g: channel(3), b: channel(0) };
        let nearest =
            all.iter().map(|lab| lab.difference_exact(colour.lab())).min_by(f64::total_cmp).unwrap();
        let named = Colour::named(colour.nearest_name()).unwrap().lab().difference_exact(colour.lab());
        assert!((named - nearest).abs() < 1e-9, "{}: {}", colour.hex(), colour.nearest_name());
    }
}
