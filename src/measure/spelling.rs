//! How rulers and people spell lengths: units, decimals and fractions.
//!
//! Must not know what range serves.

/// Nanometres in a millimetre.
pub(super) const MM: i64 = 1_000_000;
/// Nanometres in an inch: 25.4 mm exactly (international yard and pound agreement, 1959).
pub(super) const INCH: i64 = 25_400_000;
/// The most digits that are read of one number: two of them, multiplied, stay well inside an `i128`.
const DIGITS: usize = 18;

/// Parts the number from its unit; nanometres of the unit.
pub(super) fn split_unit(text: &str, bare: i64) -> (&str, i64) {
    const UNITS: [(&str, i64); 9] = [
        ("mm", MM),
        ("cm", 10 * MM),
        ("inches", INCH),
        ("inch", INCH),
        ("in", INCH),
        ("\"", INCH),
        ("”", INCH),
        ("″", INCH),
        ("''", INCH),
    ];
    UNITS.iter().find_map(|(unit, nm)| Some((text.strip_suffix(unit)?, *nm))).unwrap_or((text, bare))
}

/// A whole number, a decimal, a fraction, or a whole number and a fraction, as numerator and denominator.
pub(super) fn fraction(text: &str) -> Option<(i128, i128)> {
    const VULGAR: [(char, i128, i128); 18] = [
        ('½', 1, 2),
        ('¼', 1, 4),
        ('¾', 3, 4),
        ('⅛', 1, 8),
        ('⅜', 3, 8),
        ('⅝', 5, 8),
        ('⅞', 7, 8),
        ('⅓', 1, 3),
        ('⅔', 2, 3),
        ('⅕', 1, 5),
        ('⅖', 2, 5),
        ('⅗', 3, 5),
        ('⅘', 4, 5),
        ('⅙', 1, 6),
        ('⅚', 5, 6),
        ('⅐', 1, 7),
        ('⅑', 1, 9),
        ('⅒', 1, 10),
    ];
    let last = text.chars().last()?;
    let (before, top, bottom) = if let Some(&(_, top, bottom)) = VULGAR.iter().find(|row| row.0 == last) {
        (text.strip_suffix(last)?, top, bottom)
    } else if let Some((above, below)) = text.split_once(['/', '⁄']) {
        let above = above.trim_end();
        let before = above.trim_end_matches(|c: char| c.is_ascii_digit());
        (before, digits(above.strip_prefix(before)?)?, digits(below.trim_start())?)
    } else {
        return decimal(text);
    };
    let top = whole(before)?.checked_mul(bottom)?.checked_add(top)?;
    (bottom != 0).then_some((top, bottom))
}

/// Sixteenths as a whole and a lowest fraction: 19 is `1 3/16`.
pub(super) fn mixed(sixteenths: i128) -> String {
    let (whole, rest) = (sixteenths / 16, sixteenths % 16);
    if rest == 0 {
        return whole.to_string();
    }
    let shift = rest.trailing_zeros();
    let part = format!("{}/{}", rest >> shift, 16 >> shift);
    if whole == 0 { part } else { format!("{whole} {part}") }
}

/// The whole number before a fraction, parted from it by spaces, one hyphen or nothing; 0 where there is none.
fn whole(text: &str) -> Option<i128> {
    let text = text.trim_end();
    if text.is_empty() { Some(0) } else { digits(text.strip_suffix('-').unwrap_or(text).trim_end()) }
}

/// Up to [`DIGITS`] digits, nothing else.
fn digits(text: &str) -> Option<i128> {
    let plain = !text.is_empty() && text.len() <= DIGITS && text.bytes().all(|byte| byte.is_ascii_digit());
    plain.then(|| text.parse().ok())?
}

fn decimal(text: &str) -> Option<(i128, i128)> {
    let Some((whole, part)) = text.split_once('.') else { return Some((digits(text)?, 1)) };
    // Eighteen decimals of any unit are far below a nanometre.
    let part =
        part.get(..part.len().min(DIGITS)).filter(|_| part.bytes().all(|byte| byte.is_ascii_digit()))?;
    let (whole, top) = match (whole.is_empty(), part.is_empty()) {
        (true, true) => return None,
        (true, false) => (0, digits(part)?),
        (false, true) => (digits(whole)?, 0),
        (false, false) => (digits(whole)?, digits(part)?),
    };
    let bottom = 10_i128.pow(u32::try_from(part.len()).ok()?);
    Some((whole * bottom + top, bottom))
}
