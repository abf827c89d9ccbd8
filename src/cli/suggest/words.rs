//! The answer as people read it: a sentence, then a table a strip.
//!
//! Must not know the search.

use std::fmt::Write;

use unicode_width::UnicodeWidthStr;

use crate::checks::tell_length;
use crate::files::escaped;
use crate::measure::{Points, Unit};

use super::super::args::Suggest;
use super::answer::{Answer, Suggested, SuggestedLetter, SuggestedStrip, Terms, Written};

/// What each column tells, and whether it is set to the right.
const COLUMNS: [(&str, bool); 7] = [
    ("slot", true),
    ("letter", false),
    ("chip", false),
    ("height", true),
    ("colour", false),
    ("as", false),
    ("points", true),
];

/// The whole answer.
pub(super) fn of(answer: &Answer, suggest: &Suggest, unit: Unit) -> String {
    let mut text = verdict(answer, usize::from(suggest.count)) + "\n";
    let _ = writeln!(text, "as it stands now: {}", answer.now);
    for slot in &answer.empty {
        let _ = writeln!(
            text,
            "{}: nothing in the stash can stand for {} in slot {}",
            slot.strip, slot.wanted, slot.slot
        );
    }
    for (place, one) in answer.suggestions.iter().enumerate() {
        if suggest.count > 1 {
            let _ =
                write!(text, "\nsuggestion {} of {}: {}\n", place + 1, answer.suggestions.len(), one.score);
        }
        text += &suggestion(one, suggest.explain, unit);
    }
    if let Some(written) = &answer.written {
        text += &("\n".to_owned() + &told(written, answer) + "\n");
    }
    text
}

/// What is proved, in a sentence.
fn verdict(answer: &Answer, count: usize) -> String {
    if let Some(reason) = &answer.reason {
        return format!("impossible: {}", reason.message);
    }
    let (Some(first), Some(bound), Some(gap)) = (answer.suggestions.first(), answer.bound, answer.gap) else {
        return "the time was up before anything was found".into();
    };
    let score = first.score;
    let found = answer.suggestions.len();
    match answer.outcome {
        "best" if found < count => {
            format!(
                "the best mix there is: {score}; of the {count} asked for there are {found} that differ enough"
            )
        }
        "best" => format!("the best mix there is: {score}"),
        _ if gap <= Points::ZERO => {
            format!("no mix scores below {score}; the time was up before all that was asked for was found")
        }
        _ => format!("the best so far: {score}; none scores below {bound}, so at most {gap} could be gained"),
    }
}

fn suggestion(one: &Suggested, explain: bool, unit: Unit) -> String {
    let mut text = String::new();
    for strip in &one.strips {
        let height = strip
            .height
            .map_or_else(String::new, |height| format!(", letters about {}", tell_length(height, unit)));
        let wording = strip.wording.replace('\n', " / ");
        let _ = write!(text, "\n{}: {wording}: score {}{height}\n", strip.role, strip.score);
        text += &table(strip, explain, unit);
        if !strip.terms.0.is_empty() {
            let terms = if explain { listed(&strip.terms) } else { strip.terms.sum().to_string() };
            let _ = writeln!(text, "  the line as a whole: {terms}");
        }
    }
    for stop in &one.stops {
        let _ = writeln!(text, "stop  {stop}");
    }
    if one.checked != one.score {
        let _ = writeln!(
            text,
            "something else lies under a line of this length: once it stands, check says {}",
            one.checked
        );
    }
    text
}

/// A line for each letter, in columns as wide as they must be.
fn table(strip: &SuggestedStrip, explain: bool, unit: Unit) -> String {
    let head = COLUMNS.map(|(name, _)| name.to_owned());
    let rows: Vec<[String; 7]> =
        [head].into_iter().chain(strip.letters.iter().map(|letter| row(letter, unit))).collect();
    let wide = |column: usize| rows.iter().map(|row| row[column].width()).max().unwrap_or(0);
    let widths: [usize; 7] = std::array::from_fn(wide);
    let mut text = String::new();
    for (place, row) in rows.iter().enumerate() {
        let mut line = String::new();
        for (column, cell) in row.iter().enumerate() {
            let space = " ".repeat(widths[column] - cell.width());
            let (before, after) = if COLUMNS[column].1 { (space.as_str(), "") } else { ("", space.as_str()) };
            let _ = write!(line, "  {before}{cell}{after}");
        }
        if let Some(letter) = place.checked_sub(1).map(|letter| &strip.letters[letter]) {
            line += &remark(letter, explain);
        }
        text += line.trim_end();
        text.push('\n');
    }
    text
}

fn row(letter: &SuggestedLetter, unit: Unit) -> [String; 7] {
    let by_hand = || letter.by_hand.as_ref().map(|label| format!("by hand: {label}"));
    let chip = letter.chip.clone().or_else(by_hand).unwrap_or_else(|| "(empty)".into());
    let points = letter.points.sum();
    [
        letter.slot.to_string(),
        escaped(&letter.wanted),
        escaped(&chip),
        letter.height.map_or_else(String::new, |height| height.show(unit)),
        escaped(letter.colour.as_deref().unwrap_or("")),
        letter.stands_in.unwrap_or("").to_owned(),
        points.to_string(),
    ]
}

/// What stands after the columns: that a letter is left alone, who else speaks for it, and what its points are for.
fn remark(letter: &SuggestedLetter, explain: bool) -> String {
    let mut remarks = Vec::new();
    if letter.kept {
        remarks.push("left alone".to_owned());
    }
    if !letter.spoken_for.is_empty() {
        remarks.push(format!("also in {}", letter.spoken_for.join(" and ")));
    }
    if explain && !letter.points.0.is_empty() {
        remarks.push(listed(&letter.points));
    }
    if remarks.is_empty() { String::new() } else { "  ".to_owned() + &remarks.join("; ") }
}

fn listed(terms: &Terms) -> String {
    let told: Vec<String> = terms.0.iter().map(|(id, points)| format!("{id} {points}")).collect();
    told.join(", ")
}

fn told(written: &Written, answer: &Answer) -> String {
    let first = answer.suggestions.first().map(|first| first.score);
    match (written.letters, first) {
        (0, None) => "nothing written".into(),
        (0, Some(score)) if answer.now < score => {
            format!("nothing written: what stands there scores less, {}", answer.now)
        }
        (0, Some(_)) => "nothing written: the plan has it already".into(),
        (1, _) => format!("written: 1 letter, into {}", written.file),
        (letters, _) => format!("written: {letters} letters, into {}", written.file),
    }
}
