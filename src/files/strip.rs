//! Reads one strip of a page plan.
//!
//! Must not know the page.

use crate::measure::{Length, Point};
use crate::stash::Stash;
use crate::title::{CaseRule, FormRule, LineUp, Mix, Role, Rules, Setting, Spacing, Strip, Wording};

use super::entry;
pub(super) use super::entry::Entry;
use super::reader::{Found, Keys};

const KNOWN: &[&str] = &[
    "role", "wording", "tall", "at", "turn", "room", "gap", "word_gap", "line_gap", "spacing", "line_up",
    "case", "forms", "mix", "on", "accepted", "stuck", "letter",
];

/// Reads the strip at `place` of the plan, from 0.
pub(super) fn read(keys: Keys<'_>, place: usize, stash: Option<&Stash>) -> Option<(Strip, Vec<Entry>)> {
    keys.know(KNOWN);
    keys.require("wording", "wording = \"LANTERN WALK\" or what it is to say");
    // A text over several lines ends them as its file does.
    let wording = keys.read("wording", |found| {
        Wording::new(&found.text()?.replace("\r\n", "\n")).map_err(|error| error.to_string())
    });
    let role = keys.read("role", |found| Role::new(found.text()?).map_err(|error| error.to_string()));
    let role = match role {
        None if keys.has("role") => None,
        None => {
            let usual = usual_role(place);
            if usual.is_none() {
                keys.require("role", "role = \"label\" or a word of your own, for the third strip and after");
            }
            usual
        }
        given => given,
    };
    let mut strip = Strip::new(role.clone().unwrap_or_else(Role::title), wording.clone().unwrap_or_default());
    strip.rules = rules(keys, &strip.rules);
    strip.setting = setting(keys, strip.setting);
    strip.place.at = keys.lengths("at", Length::as_offset).map(|(x, y)| Point { x, y });
    strip.place.turn = keys.angle("turn").unwrap_or_default();
    strip.accepted = keys.list("accepted", Found::text).into_iter().map(str::to_owned).collect();
    strip.stuck = keys.count("stuck", 0..=u32::MAX);
    let entries = entry::read(keys, wording.as_ref(), stash);
    if wording.is_some() {
        entry::stand(keys, &mut strip, &entries);
    }
    (role.is_some() && wording.is_some()).then_some((strip, entries))
}

/// The role that the strip at `place` has or would have without one.
pub(super) fn role(keys: Keys<'_>, place: usize) -> Option<Role> {
    if keys.has("role") { keys.text("role").and_then(|role| Role::new(role).ok()) } else { usual_role(place) }
}

/// The role of a strip that tells none, by its place in the plan.
pub(super) fn usual_role(place: usize) -> Option<Role> {
    match place {
        0 => Some(Role::title()),
        1 => Some(Role::subtitle()),
        _ => None,
    }
}

fn rules(keys: Keys<'_>, usual: &Rules) -> Rules {
    let tall = keys.lengths("tall", Length::as_size);
    if tall.is_some_and(|(least, most)| least > most) {
        let message = "the least height is above the greatest; write the least first";
        keys.error(keys.place_of("tall"), "tall", message.into());
    }
    Rules {
        case: keys.word("case", CaseRule::ALL, CaseRule::as_str).unwrap_or(usual.case),
        forms: keys.word("forms", FormRule::ALL, FormRule::as_str).unwrap_or(usual.forms),
        mix: keys.word("mix", Mix::ALL, Mix::as_str).unwrap_or(usual.mix),
        tall,
        room: keys.size("room"),
        on: keys.tint("on"),
    }
}

fn setting(keys: Keys<'_>, usual: Setting) -> Setting {
    Setting {
        gap: keys.offset("gap").unwrap_or(usual.gap),
        word_gap: keys.offset("word_gap").unwrap_or(usual.word_gap),
        line_gap: keys.offset("line_gap").unwrap_or(usual.line_gap),
        spacing: keys.word("spacing", Spacing::ALL, Spacing::as_str).unwrap_or(usual.spacing),
        line_up: keys.word("line_up", LineUp::ALL, LineUp::as_str).unwrap_or(usual.line_up),
    }
}
