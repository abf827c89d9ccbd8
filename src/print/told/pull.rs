//! What to take off the sheets, sheet by sheet.
//!
//! Must not know columns or millimetres.

use crate::order::{Order, Pull, PulledLetter};

use super::{Block, Taken, TakenLetter};

pub(super) fn blocks<'a>(order: &Order) -> Vec<Block<'a>> {
    let pulled = if order.pulls.is_empty() {
        Block::Paragraph("Nothing.".into())
    } else {
        Block::Pulls(order.pulls.iter().map(taken).collect())
    };
    vec![Block::part(2, "Pull from the sheets"), pulled]
}

fn taken(pull: &Pull) -> Taken {
    Taken {
        sheet: format!("{} ({})", pull.sheet, pull.form),
        letters: pull.letters.iter().map(letter).collect(),
    }
}

fn letter(letter: &PulledLetter) -> TakenLetter {
    let colour = letter.colour();
    // A mark that only names the colour is not said twice.
    let marked = letter.mark.as_ref().is_some_and(|mark| mark.as_str() != colour);
    let first = match letter.trimmed {
        0 => String::new(),
        all if all == letter.count => "; trim first".into(),
        some => format!("; trim {some} first"),
    };
    TakenLetter {
        count: letter.count,
        called: if marked { letter.called() } else { letter.character.spoken() },
        colour: format!("{colour}{first}"),
        colours: letter.colours.iter().map(|tint| tint.colour).collect(),
    }
}
