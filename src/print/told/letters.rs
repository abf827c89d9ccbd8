//! The order in full: the letters of each strip as they stand, one row a letter.
//!
//! Must not know columns or millimetres.

use crate::checks::tell_length;
use crate::letter::StandInKind;
use crate::measure::{Length, Tint, Unit};
use crate::order::{Order, Spot, Step, StripOrder, Used, UsedLetter};
use crate::stash::Mark;
use crate::title::LineUp;

use super::{Block, LetterRow, LetterTable, Row, stuck_told};

pub(super) fn blocks<'a>(order: &Order, unit: Unit) -> Vec<Block<'a>> {
    let mut blocks = vec![Block::part(4, "The letters, as they stand from left to right")];
    let legends: Vec<Vec<String>> = order.strips.iter().map(|strip| legend(strip, unit)).collect();
    let shared = |line: &&String| legends.iter().all(|legend| legend.contains(line));
    let note = |line: &String| Block::Note(line.clone());
    blocks.extend(legends.first().into_iter().flatten().filter(shared).map(note));
    for (strip, legend) in order.strips.iter().zip(&legends) {
        blocks.push(Block::Subheading(format!("The {}{}", strip.role, stuck_told(strip))));
        blocks.extend(legend.iter().filter(|line| !shared(line)).map(note));
        blocks.push(Block::Letters(LetterTable { unit: suffix(unit), rows: rows(strip, unit) }));
    }
    blocks
}

fn rows(strip: &StripOrder, unit: Unit) -> Vec<Row> {
    let mut rows = Vec::new();
    let mut line = 0;
    for step in &strip.steps {
        if step.line > line {
            rows.push(Row::Line("second line"));
            line = step.line;
        }
        rows.push(Row::Letter(Box::new(row(step, unit))));
    }
    rows
}

fn row(step: &Step, unit: Unit) -> LetterRow {
    let (used, source, colours, mut notes) = match &step.used {
        Used::Letter(letter) => (
            letter.character.spoken(),
            letter.sheet.to_string(),
            letter.colours.iter().map(|tint| tint.colour).collect(),
            of_letter(letter, step),
        ),
        Used::Thing(thing) => {
            let tall = tell_length(thing.height.unwrap_or(thing.width), unit);
            let colour = thing.colour.as_ref();
            let mut notes = vec!["by hand, no sticker".to_owned(), format!("{tall} high")];
            notes.extend(colour.map(|tint| tint.name().into_owned()));
            let colours = colour.iter().map(|tint: &&Tint| tint.colour).collect();
            ("-".into(), thing.label.clone(), colours, notes)
        }
        Used::Missing(chip) => {
            let gone = chip.as_ref().map(|id| format!("{id} is no longer in the stash"));
            ("-".into(), "MISSING".into(), Vec::new(), gone.into_iter().collect())
        }
    };
    notes.extend(raised(step.stance.raise, unit));
    notes.extend(step.stance.tilt_told());
    LetterRow {
        number: step.number.to_string(),
        wanted: step.wanted.spoken(),
        used,
        source,
        figures: figures(step, unit),
        colours,
        notes: notes.join("; "),
    }
}

fn of_letter(letter: &UsedLetter, step: &Step) -> Vec<String> {
    let colour = letter.colour();
    // A mark that only names the colour is not said twice.
    let mark = letter.mark.as_ref().map(Mark::as_str).filter(|mark| *mark != colour);
    let mut notes = vec![format!("{}, {colour}", letter.form)];
    notes.extend(mark.map(|mark| format!("the {mark} one")));
    notes.extend(letter.stand_in(&step.wanted));
    if letter.serves.is_some_and(|serves| serves.kind == StandInKind::Trimmed) {
        notes.push("on its backing, before it is pulled; cut on the mat, away from the fingers".into());
    }
    notes
}

/// What the columns mean for this strip, a line each.
fn legend(strip: &StripOrder, unit: Unit) -> Vec<String> {
    let (across, along) = match strip.carriers.first().map(|carrier| carrier.first.up.is_some()) {
        None => ("the beginning of its line", "the feet of the first line up"),
        Some(true) => ("the page's left edge", "the page's bottom edge up"),
        Some(false) => ("the page's left edge", "the page's top edge down"),
    };
    let mut legend = vec![
        format!("left: from {across} to the letter's leftmost point"),
        format!("lowest: from {along} to its lowest point, a tail included"),
        "gap: from the one before on its line".into(),
    ];
    if strip.is_turned() {
        legend.push(
            "on this turned strip, left and lowest are told of the lower left corner of the box around the letter; gaps and \
             widths run along the strip"
                .into(),
        );
    }
    if strip.steps.iter().any(|step| step.stance.estimated) {
        legend.push("~: nobody measured this width; where a letter differs, keep the gap: what stands after it shifts".into());
    }
    if strip.steps.iter().any(|step| step.stance.tilt_told().is_some()) {
        legend.push("a tilted letter is measured straight, then tilted about its middle".into());
    }
    if strip.line_up == LineUp::Middle {
        legend.push("letters line up by their middles: small ones stand above the line of feet".into());
    }
    if let Some(second) = strip.lines.get(1) {
        let below = tell_length(second.feet.abs(), unit);
        legend.push(format!("the second line's feet are {below} below the first's"));
    }
    legend
}

fn figures(step: &Step, unit: Unit) -> [String; 4] {
    let stance = &step.stance;
    let strip_spot = (stance.left, stance.over);
    let page_spot = |spot: Spot| (spot.left, spot.up.unwrap_or(spot.down));
    let (across, lowest) = step.corner.map_or(strip_spot, page_spot);
    let mark = if stance.estimated { "~" } else { "" };
    [
        bare(across, unit),
        bare(lowest, unit),
        stance.gap.map_or_else(|| "-".into(), |gap| bare(gap, unit)),
        format!("{mark}{}", bare(stance.width, unit)),
    ]
}

fn raised(raise: Length, unit: Unit) -> Option<String> {
    let told = tell_length(raise.abs(), unit);
    // What is less than a ruler's parts of an inch show is told in millimetres.
    let told = if told.starts_with("0 ") { tell_length(raise.abs(), Unit::Millimetre) } else { told };
    match raise.cmp(&Length::ZERO) {
        std::cmp::Ordering::Less => Some(format!("lowered {told} below the line")),
        std::cmp::Ordering::Equal => None,
        std::cmp::Ordering::Greater => Some(format!("raised {told} off the line")),
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
