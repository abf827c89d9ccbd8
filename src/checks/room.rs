//! A line longer than its room.

use crate::measure::{Length, Points};
use crate::page::Page;
use crate::title::{Layout, Strip};

use super::finding::{Finding, Level};
use super::telling::tell_length;
use crate::measure::Unit;

/// The longest line that `strip` may have: its own `room`, else what the page leaves between its margins; `None`: any.
#[must_use]
pub fn room_of(strip: &Strip, page: &Page) -> Option<Length> {
    strip.rules.room.or_else(|| page.room())
}

/// The line as laid out is longer than its room: by how much, and the gap that would make it fit.
pub(super) fn find(place: usize, strip: &Strip, page: &Page, layout: &Layout, unit: Unit) -> Option<Finding> {
    let room = room_of(strip, page)?;
    let line = layout.lines.iter().max_by_key(|line| line.length)?;
    let over = line.length - room;
    if over <= Length::ZERO {
        return None;
    }
    let joints = i64::try_from(line.slots.len()).unwrap_or(1) - 1;
    let words = strip.wording().words().filter(|word| line.slots.contains(&word.start)).count();
    let gaps = joints - i64::try_from(words).unwrap_or(1) + 1;
    let fitting = (gaps > 0).then(|| strip.setting.gap - over / gaps).filter(|&gap| gap >= Length::ZERO);
    let help = fitting.map_or_else(
        || "choose narrower letters or break the line".to_owned(),
        |gap| format!("a gap of {} would make it fit", floor_tenth(gap, unit)),
    );
    let (length, room) = (tell_length(line.length, unit), tell_length(room, unit));
    let message = format!(
        "the line is {length} long, {} more than its room of {room}; {help}",
        tell_length(over, unit)
    );
    let slots = line.slots.clone().collect();
    Some(Finding {
        id: "room",
        level: Level::Stop,
        points: Points::ZERO,
        strip: place,
        slots,
        message,
        accepted: false,
    })
}

/// Rounded down to what a ruler reads, so that the gap told really fits.
fn floor_tenth(gap: Length, unit: Unit) -> String {
    let step = match unit {
        Unit::Millimetre => 100_000,
        Unit::Inch => 1_587_500,
    };
    tell_length(Length::from_nm(gap.nm() / step * step), unit)
}
