//! A line longer than its room.

use crate::letter::Character;
use crate::measure::{Length, Points, Unit};
use crate::page::Page;
use crate::plan::Plan;
use crate::stash::Stash;
use crate::title::{Edit, Layout, Spacing, Sticker, Stood, Strip, standing_width};

use super::candidate::Candidate;
use super::finding::{Finding, Level};
use super::telling::tell_length;

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

/// The line of one slot with other letters there, against its room.
#[derive(Debug)]
pub(super) struct Squeeze {
    plan: Plan,
    at: (usize, usize),
    room: Length,
    layout: Layout,
}

impl Squeeze {
    /// The line of `slot` of the strip at `place`; `None` where any length will do.
    pub(super) fn new(plan: &Plan, (place, slot): (usize, usize), stash: &Stash) -> Option<Self> {
        let strip = &plan.strips()[place];
        let room = room_of(strip, &plan.page)?;
        Some(Self { plan: plan.clone(), at: (place, slot), room, layout: Layout::of(strip, stash) })
    }

    /// By how much the line would be longer than its room with `candidate` there, all else as it stands; `None` where
    /// it is not.
    pub(super) fn over(&mut self, candidate: Candidate, wanted: &Character, stash: &Stash) -> Option<Length> {
        let (place, slot) = self.at;
        let chip = stash.chip(candidate.chip);
        let length = if self.plan.strips()[place].setting.spacing == Spacing::Even {
            self.even_length(standing_width(chip, wanted, candidate.stands_in))
        } else {
            let sticker = Sticker::Chip { id: chip.id(), stands_in: candidate.stands_in };
            let was = self.plan.strips()[place].letter(slot);
            let stood = was.map_or_else(|| Stood::straight(sticker.clone()), |was| was.with(sticker.clone()));
            self.plan.edit_strip(place, Edit::Letter { slot, stood: Some(stood) });
            let layout = Layout::of(&self.plan.strips()[place], stash);
            layout.line_of(slot).map_or(Length::ZERO, |line| line.length)
        };
        (length > self.room).then(|| length - self.room)
    }

    /// The length of the line with a letter of `width` in the slot: what comes after it moves along.
    fn even_length(&self, width: Length) -> Length {
        let slot = self.at.1;
        let Some(line) = self.layout.line_of(slot) else { return Length::ZERO };
        let by = width - self.layout.letters[slot].width;
        let moved = |at: usize| if at > slot { by } else { Length::ZERO };
        let widened = |at: usize| if at >= slot { by } else { Length::ZERO };
        let left = line.slots.clone().map(|at| self.layout.letters[at].left + moved(at)).min();
        let right = line.slots.clone().map(|at| self.layout.letters[at].right() + widened(at)).max();
        right.unwrap_or_default() - left.unwrap_or_default()
    }
}

/// Rounded down to what a ruler reads, so that the gap told really fits.
fn floor_tenth(gap: Length, unit: Unit) -> String {
    let step = match unit {
        Unit::Millimetre => 100_000,
        Unit::Inch => 1_587_500,
    };
    tell_length(Length::from_nm(gap.nm() / step * step), unit)
}
