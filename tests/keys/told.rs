//! What these tests tell of a sheet in hand, and of what is asked of the world.
//!
//! Must not know any key.

use oddment::app::{Effect, OrderSide, Stage, State, WordingList, verdict_told};
use oddment::order::Form;
use oddment::stash::Deed;
use oddment::supply::Answer;

/// The sheet in hand: the chosen field, or the chosen colour, or the letters lot by lot, the chosen one in brackets.
pub(super) fn in_hand(state: &State) -> String {
    let counting = state.sheets.counting.as_ref().unwrap();
    let sheet = &counting.sheet;
    match counting.stage {
        Stage::Fields => {
            let told = counting.field.spell(sheet, &state.shelf.names, state.unit());
            format!("{} {}", counting.field.label(), if told.is_empty() { "-" } else { &told })
        }
        Stage::Colour => {
            let name = counting.swatches.tint().map_or("none".into(), oddment::measure::Tint::name);
            format!("colour '{}' {name}", counting.swatches.begun)
        }
        Stage::Letters => {
            let lots = counting.tally.lots().iter().enumerate().map(|(place, lot)| {
                let letters = counting.tally.in_lot(place).into_iter();
                let letters = letters.map(|(character, count)| format!(" {character}{count}"));
                let told = format!("{}{}", lot.colours[0].name(), letters.collect::<String>());
                if place == counting.tally.chosen() { format!("[{told}]") } else { told }
            });
            format!("{:?}: {}", counting.count, lots.collect::<Vec<_>>().join("; "))
        }
    }
}

/// Which look of the order has the keys, how far it is scrolled; the form, the paper and the chosen sheet.
pub(super) fn order(state: &State) -> String {
    let view = &state.order;
    let side = match view.side {
        OrderSide::Words => format!("words from {}", view.words.top + 1),
        OrderSide::Sheets => "sheets".into(),
        OrderSide::Near => format!("near, {}", state.seen_of_paper().unwrap_or_else(|| "all of it".into())),
    };
    let told = match view.count() {
        _ if view.form == Form::Text => state.order_told(),
        0 => state.order_told(),
        count => format!("{} on {}, sheet {} of {count}", view.form, state.order_paper(), view.chosen + 1),
    };
    format!("{side}; {told}")
}

/// The wording that is looked at, what the stash says to it, and the chosen wish or idea.
pub(super) fn wording(state: &State) -> String {
    let now = state.wordings.judged.as_ref().and_then(|judged| judged.now.as_ref()).unwrap();
    let said = match &now.said {
        // The heights are left out.
        Ok(said) => verdict_told(&Answer { band: None, ..said.answer.clone() }, state.unit()),
        Err(why) => why.clone(),
    };
    let wishes = &state.shelf.wishes;
    let list = match state.wordings.list {
        WordingList::Wishes => {
            let chosen = state.wordings.wish.chosen;
            let must = state.wordings.must.contains(wishes[chosen].wording.text());
            format!("wish {} of {}{}", chosen + 1, wishes.len(), if must { ", must" } else { "" })
        }
        WordingList::Ideas => format!("idea {} of {}", state.wordings.idea.chosen + 1, state.ideas().len()),
    };
    format!("'{}' {said}; {list}", now.text)
}

/// Finds out between keys which wishes can be made together.
pub(super) fn settle_wishes(state: &mut State) {
    let is_going = |state: &State| {
        let judged = state.wordings.judged.as_ref();
        judged.is_some_and(|judged| judged.set.is_going() && judged.ideas.is_none())
    };
    while is_going(state) && state.is_working() {
        state.work_on(1000);
    }
}

/// An effect in few words.
pub(super) fn effect_told(effect: &Effect) -> String {
    let chips = |deed: &Deed| {
        let chips = deed.chips.iter().map(|(chip, count)| format!("{chip} {count}"));
        format!("{} {}", deed.kind, chips.collect::<Vec<_>>().join(", "))
    };
    match effect {
        Effect::TakeIn(sheet) => {
            let letters = sheet.letters.iter().map(|letter| {
                let mark =
                    letter.mark.as_ref().map_or_else(String::new, |mark| format!(":{}", mark.as_str()));
                format!("{}{mark} {}", letter.character, letter.left)
            });
            let letters = letters.collect::<Vec<_>>().join(", ");
            format!("TakeIn({}: {letters})", sheet.id)
        }
        Effect::Count(_, deed) => format!("Count({})", chips(deed)),
        Effect::AddWish(wish) => format!("AddWish({})", wish.wording.text()),
        Effect::DropWish(wording) => format!("DropWish({})", wording.text()),
        Effect::SaveSheet(sheet) => format!("SaveSheet({})", sheet.id),
        other => format!("{other:?}"),
    }
}
