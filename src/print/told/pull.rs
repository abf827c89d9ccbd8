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
    let letter = |letter: &PulledLetter| TakenLetter {
        count: letter.count,
        called: letter.called(),
        colour: letter.colour(),
        colours: letter.colours.iter().map(|tint| tint.colour).collect(),
    };
    Taken {
        sheet: format!("{} ({})", pull.sheet, pull.form),
        letters: pull.letters.iter().map(letter).collect(),
    }
}
