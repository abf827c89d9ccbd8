//! The order in full: one row a letter, in columns of a fixed width.
//!
//! Must not know the rest of the order.

use crate::checks::tell_length;
use crate::measure::{Length, Unit};
use crate::order::{Spot, Step, StripOrder, Used};
use crate::title::LineUp;

use super::column::{left, printable, right, width};

/// Columns of a row's sheet, and of each of its lengths.
const SHEET: usize = 19;
const FIGURE: usize = 10;

/// Columns in front of a row's further lines.
pub(super) const INSET: usize = 15;

/// What stands over the columns.
pub(super) fn header(unit: Unit) -> String {
    let names = ["left", "feet", "gap", "width"].map(|name| format!("{name} {}", suffix(unit)));
    row("no", "for", "use", "sheet", &names)
}

/// One step: its row, then what else there is to know of it.
pub(super) fn told(step: &Step, unit: Unit) -> (String, String) {
    let (used, sheet, mut notes) = match &step.used {
        Used::Letter(letter) => {
            let sheet = printable(&letter.sheet.to_string());
            let mut notes = Vec::new();
            if width(&sheet) > SHEET {
                notes.push(sheet.clone());
            }
            notes.push(format!("{}, {}", letter.form, printable(&letter.colour())));
            notes.extend(letter.mark.as_ref().map(|mark| format!("the {} one", mark.as_str())));
            notes.extend(letter.stand_in(&step.wanted));
            (letter.character.spoken(), sheet, notes)
        }
        Used::Thing(thing) => {
            let label = printable(&thing.label);
            let colour = thing.colour.as_ref().map(|tint| printable(&tint.name()));
            let tall = tell_length(thing.height.unwrap_or(thing.width), unit);
            let notes = [Some("by hand, no sticker".into()), Some(format!("{tall} high")), colour];
            let long = (width(&label) > SHEET).then(|| label.clone());
            ("-".into(), label, long.into_iter().chain(notes.into_iter().flatten()).collect())
        }
        Used::Missing(chip) => {
            let gone = chip.as_ref().map(|id| format!("{id} is no longer in the stash"));
            ("-".into(), "MISSING".into(), vec![gone.unwrap_or_else(|| "nothing stands here yet".into())])
        }
    };
    notes.extend(raised(step.stance.raise, unit));
    notes.extend(step.stance.tilt_told());
    let number = step.number.to_string();
    (row(&number, &step.wanted.spoken(), &used, &sheet, &figures(step, unit)), notes.join("; "))
}

/// What the columns mean for this strip, a line each.
pub(super) fn legend(strip: &StripOrder, unit: Unit) -> Vec<String> {
    let (across, along) = match strip.carrier.map(|carrier| carrier.first.up.is_some()) {
        None => ("the first feet of the strip", "the feet of its first line up"),
        Some(true) => ("the page's left edge", "the page's bottom edge up"),
        Some(false) => ("the page's left edge", "the page's top edge down"),
    };
    let along_it = if strip.is_turned() { "; it runs along the turned strip" } else { "" };
    let mut legend = vec![
        format!("left: from {across} to the letter's lower left corner"),
        format!("feet: from {along} to that corner, a tail included"),
        format!("gap: from the one before on its line{along_it}"),
    ];
    if strip.steps.iter().any(|step| step.stance.estimated) {
        legend.push("~: nobody measured this width; where the letter differs, keep the gap".into());
    }
    if strip.steps.iter().any(|step| step.stance.tilt_told().is_some()) {
        legend.push("a tilted letter is measured straight, then tilted about its middle".into());
    }
    if strip.line_up == LineUp::Middle {
        legend.push("letters line up by their middles: small ones stand above the line of feet".into());
    }
    if let Some(second) = strip.lines.get(1) {
        legend.push(format!(
            "the second line's feet are {} below the first's",
            tell_length(second.abs(), unit)
        ));
    }
    legend
}

fn row(number: &str, wanted: &str, used: &str, sheet: &str, figures: &[String; 4]) -> String {
    let figures = figures.each_ref().map(|figure| right(figure, FIGURE)).join(" ");
    let (wanted, used) = (left(wanted, 4), left(used, 4));
    format!("{}  {wanted} {used} {} {figures}", right(number, 3), left(sheet, SHEET))
}

fn figures(step: &Step, unit: Unit) -> [String; 4] {
    let stance = &step.stance;
    let strip_spot = (stance.left, stance.over);
    let page_spot = |spot: Spot| (spot.left, spot.up.unwrap_or(spot.down));
    let (across, feet) = step.corner.map_or(strip_spot, page_spot);
    let mark = if stance.estimated { "~" } else { "" };
    [
        bare(across, unit),
        bare(feet, unit),
        stance.gap.map_or_else(|| "-".into(), |gap| bare(gap, unit)),
        format!("{mark}{}", bare(stance.width, unit)),
    ]
}

fn raised(raise: Length, unit: Unit) -> Option<String> {
    let told = tell_length(raise.abs(), unit);
    match raise.cmp(&Length::ZERO) {
        std::cmp::Ordering::Less => Some(format!("lowered {told}")),
        std::cmp::Ordering::Equal => None,
        std::cmp::Ordering::Greater => Some(format!("raised {told}")),
    }
}

/// A length without its unit, which stands over the column.
fn bare(length: Length, unit: Unit) -> String {
    let shown = length.show(unit);
    shown.strip_suffix(suffix(unit)).unwrap_or(&shown).trim_end().to_owned()
}

const fn suffix(unit: Unit) -> &'static str {
    match unit {
        Unit::Millimetre => "mm",
        Unit::Inch => "in",
    }
}
