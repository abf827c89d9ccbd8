//! How rulers and people spell lengths: units, decimals and fractions.
//!
//! Must not know what range serves.

/// Nanometres in a millimetre.
pub(super) const MM: i64 = 1_000_000;
/// Nanometres in an inch: 25.4 mm exactly (international yard and pound agreement, 1959).
pub(super) const INCH: i64 = 25_400_000;

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
    const VULGAR: [(char, i128, i128); 15] = [
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
    ];
    let last = text.chars().last()?;
    let (whole, part) = if let Some(&(_, top, bottom)) = VULGAR.iter().find(|row| row.0 == last) {
        (text.strip_suffix(last)?, Some((top, bottom)))
    } else if let Some((before, bottom)) = text.split_once(['/', '⁄']) {
        let (whole, top) = before.trim_end().rsplit_once([' ', '-']).unwrap_or(("", before.trim_end()));
        (whole, Some((digits(top)?, digits(bottom.trim())?)))
    } else {
        (text, None)
    };
    let whole = whole.trim_end_matches([' ', '-']);
    match part {
        None => decimal(whole),
        Some((_, 0)) => None,
        Some(part) if whole.is_empty() => Some(part),
        Some((top, bottom)) => Some((digits(whole)?.checked_mul(bottom)?.checked_add(top)?, bottom)),
    }
}

/// Up to nine digits, nothing else: enough for 5 m in nanometres.
fn digits(text: &str) -> Option<i128> {
    let plain = !text.is_empty() && text.len() <= 9 && text.bytes().all(|byte| byte.is_ascii_digit());
    plain.then(|| text.parse().ok())?
}

fn decimal(text: &str) -> Option<(i128, i128)> {
    let Some((whole, part)) = text.split_once('.') else { return Some((digits(text)?, 1)) };
    // What is beyond nine decimals of any unit is below a nanometre.
    let part = part.get(..part.len().min(9)).filter(|_| part.bytes().all(|byte| byte.is_ascii_digit()))?;
    let (whole, top) = match (whole.is_empty(), part.is_empty()) {
        (true, true) => return None,
        (true, false) => (0, digits(part)?),
        (false, true) => (digits(whole)?, 0),
        (false, false) => (digits(whole)?, digits(part)?),
    };
    let bottom = 10_i128.pow(u32::try_from(part.len()).ok()?);
    Some((whole * bottom + top, bottom))
}
