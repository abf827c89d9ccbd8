//! A subtitle nearly as high as the title.

use crate::measure::{Hundredths, Length, Points, Unit};

use super::finding::{Finding, Level};
use super::taste::{Knob, Taste};
use super::telling::tell_length;

/// The line's height of the subtitle, at `place`, is above its share of the title's.
pub(super) fn find(
    place: usize,
    title: Length,
    subtitle: Length,
    taste: &Taste,
    unit: Unit,
) -> Option<Finding> {
    let share = Hundredths::from_f64(subtitle.mm() / title.mm());
    if share <= taste.ratio(Knob::SmallRatio) {
        return None;
    }
    let (own, above) = (tell_length(subtitle, unit), tell_length(title, unit));
    let message =
        format!("the subtitle is {own} high under a title of {above}; smaller letters would sit back");
    let points = Points::ZERO;
    Some(Finding {
        id: "small",
        level: Level::Note,
        points,
        strip: place,
        slots: Vec::new(),
        message,
        accepted: false,
    })
}
