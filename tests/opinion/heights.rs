//! A second opinion on the height that a line is compared by, and on what a letter's own height costs.
//!
//! Must not know `oddment::checks`. Heights are whole nanometres, points whole tenths.

use oddment::page::Page;
use oddment::title::Strip;

use super::terms::Terms;

/// The heights that suit a strip, least and most.
pub(crate) fn suits(strip: &Strip, page: &Page) -> Option<(i64, i64)> {
    let share = |least: i64, most: i64| {
        let size = page.size?;
        let side = size.width.nm().min(size.height.nm());
        Some((side * least / 100, side * most / 100))
    };
    match (strip.rules.tall, strip.role().as_str()) {
        (Some((least, most)), _) => Some((least.nm(), most.nm())),
        (None, "title") => share(6, 13),
        (None, "subtitle") => share(2, 5),
        _ => None,
    }
}

/// The larger over the smaller in whole hundredths, half up.
pub(crate) fn ratio(a: i64, b: i64) -> i64 {
    let (small, large) = (a.min(b), a.max(b));
    (200 * large + small) / (2 * small)
}

/// What a letter's height costs in a line compared by another.
pub(crate) fn height_points(own: i64, line: i64) -> i64 {
    let r = ratio(own, line);
    if r <= 115 || (own - line).abs() <= 1_500_000 { 0 } else { (8 * (r - 115)).min(400) }
}

/// The height that a line of letters of these heights is compared by.
pub(crate) fn line_height(heights: &[i64], suits: Option<(i64, i64)>) -> Option<i64> {
    let within = |height: i64| suits.map_or(height, |(least, most)| height.max(least).min(most));
    let cost = |line: i64| heights.iter().map(|&own| height_points(own, line)).sum::<i64>();
    heights.iter().map(|&height| within(height)).min_by_key(|&line| (cost(line), -line))
}

/// The terms that look at a letter's height.
pub(crate) fn by_height(own: i64, line: i64) -> Terms {
    vec![("height", height_points(own, line)), ("near", (ratio(own, line) - 100).min(15))]
}
