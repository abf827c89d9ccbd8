//! What these tests tell of a page: `kind WxH@X,Y` for each thing, the lowest first, and where the strips lie.
//!
//! Must not know any key.

use std::fmt::Write;

use oddment::app::{State, Thing};
use oddment::measure::Angle;
use oddment::page::Outline;

/// The page in the notation of these tests, the chosen thing in brackets.
pub(super) fn page(state: &State) -> String {
    let (plan, chosen) = (state.trial.plan(), state.thing());
    let size = plan
        .page
        .size
        .map_or_else(|| "no size".to_owned(), |size| format!("{}x{}", size.width.mm(), size.height.mm()));
    let ground = plan.page.ground.as_ref().map_or_else(String::new, |tint| format!(" {}", tint.name()));
    let near = if state.page.near { " near" } else { "" };
    let mut text = format!("{size}{ground}{near}");
    let turned =
        |turn: Angle| if turn == Angle::ZERO { String::new() } else { format!("~{}", turn.number()) };
    for thing in state.things().rev() {
        let told = match thing {
            Thing::Element(place) => {
                let element = &plan.page.elements[place];
                let lie = element.lie;
                let (size, at) = (lie.size, lie.at);
                let mut told = format!(
                    "{} {}x{}@{},{}",
                    element.kind,
                    size.width.mm(),
                    size.height.mm(),
                    at.x.mm(),
                    at.y.mm()
                );
                told += &turned(lie.turn);
                let words = [
                    (lie.outline == Outline::Round).then_some("round"),
                    element.original.then_some("original"),
                    element.cover.map(oddment::page::Cover::as_str),
                    element.bed.map(|bed| if bed { "bed" } else { "no-bed" }),
                    element.name.as_deref(),
                ];
                for word in words
                    .into_iter()
                    .flatten()
                    .map(str::to_owned)
                    .chain(element.colours.iter().map(|tint| tint.name().into_owned()))
                {
                    let _ = write!(told, " {word}");
                }
                told
            }
            Thing::Strip(place) => {
                let strip = &plan.strips()[place];
                match strip.place.at {
                    Some(at) => {
                        format!("{}@{},{}{}", strip.role(), at.x.mm(), at.y.mm(), turned(strip.place.turn))
                    }
                    None => strip.role().to_string(),
                }
            }
        };
        text += &if thing == chosen { format!("; [{told}]") } else { format!("; {told}") };
    }
    text
}
