//! Writes the strips of a plan, and what stands in their slots.
//!
//! Strips are told apart by role and letters by slot, so that each keeps its comments. Must not know the page.

use toml_edit::{Item, Table, Value};

use crate::letter::StandInKind;
use crate::measure::Length;
use crate::plan::Plan;
use crate::title::{ByHand, Rules, Setting, Sticker, Stood, Strip};

use super::entry::Entry;
use super::pen::{Pen, angle, length, point, tables, text};
use super::plan::Written;
use super::strip::usual_role;

pub(super) fn strips(pen: &mut Pen<'_>, root: &mut Table, old: Option<&Written>, plan: &Plan) {
    let before: &[Strip] = old.map_or(&[], |old| old.plan.strips());
    let entries = |place: usize| old.and_then(|old| old.entries.get(place)).map_or(&[][..], Vec::as_slice);
    let found = |strip: &Strip| before.iter().position(|earlier| earlier.role() == strip.role());
    let places: Vec<Option<usize>> = plan.strips().iter().map(found).collect();
    let same_order = places.iter().copied().eq((0..before.len()).map(Some));
    let same = |(strip, place): (&Strip, &Option<usize>)| {
        place.is_some_and(|place| before[place] == *strip && is_told(entries(place), strip))
    };
    if same_order && plan.strips().iter().zip(&places).all(same) {
        return;
    }
    pen.touch();
    let Some(listed) = tables(root, "strip") else { return };
    if !same_order {
        pen.rearrange(listed, &places);
    }
    for (now, ((strip, place), table)) in plan.strips().iter().zip(places).zip(listed.iter_mut()).enumerate()
    {
        pen.adopt(table);
        // A role that was told by the place alone is written out where the place is another now.
        if !table.contains_key("role") && usual_role(now).as_ref() != Some(strip.role()) {
            pen.set(table, "role", text(strip.role().as_str()));
        }
        match place {
            Some(place) => changed(pen, table, &before[place], strip),
            None => added(pen, table, strip),
        }
        letters(pen, table, place.map_or(&[][..], entries), strip);
    }
}

/// Whether the entries of a file tell what stands on `strip`, each in its slot.
fn is_told(entries: &[Entry], strip: &Strip) -> bool {
    let standing = strip.letters().iter().flatten().count();
    standing == entries.len() && entries.iter().all(|entry| is_kept(entry, strip))
}

fn is_kept(entry: &Entry, strip: &Strip) -> bool {
    let asks = strip.wording().slots().get(entry.slot - 1).map(|asked| &asked.character);
    strip.letter(entry.slot - 1) == Some(&entry.stood)
        && (entry.asked.is_none() || entry.asked.as_ref() == asks)
}

fn added(pen: &mut Pen<'_>, table: &mut Table, strip: &Strip) {
    pen.set(table, "role", text(strip.role().as_str()));
    pen.set(table, "wording", text(strip.wording().text()));
    changed(pen, table, &Strip::new(strip.role().clone(), strip.wording().clone()), strip);
}

fn changed(pen: &mut Pen<'_>, table: &mut Table, old: &Strip, new: &Strip) {
    pen.put(table, "wording", (old.wording(), new.wording()), |_, wording| Some(text(wording.text())));
    pen.put(table, "at", (&old.place.at, &new.place.at), |_, at| at.map(point));
    pen.put(table, "turn", (&old.place.turn, &new.place.turn), |_, turn| Some(angle(*turn)));
    rules(pen, table, &old.rules, &new.rules);
    setting(pen, table, &old.setting, &new.setting);
    pen.put(table, "accepted", (&old.accepted, &new.accepted), |_, accepted| {
        (!accepted.is_empty()).then(|| accepted.iter().map(|id| text(id)).collect())
    });
    pen.put(table, "stuck", (&old.stuck, &new.stuck), |_, stuck| stuck.map(|entry| i64::from(entry).into()));
}

fn rules(pen: &mut Pen<'_>, table: &mut Table, old: &Rules, new: &Rules) {
    pen.put(table, "tall", (&old.tall, &new.tall), |_, tall| {
        tall.map(|(least, most)| [length(least), length(most)].into_iter().collect())
    });
    pen.put(table, "room", (&old.room, &new.room), |_, room| room.map(length));
    pen.put(table, "case", (&old.case, &new.case), |_, case| Some(text(case.as_str())));
    pen.put(table, "forms", (&old.forms, &new.forms), |_, forms| Some(text(forms.as_str())));
    pen.put(table, "mix", (&old.mix, &new.mix), |_, mix| Some(text(mix.as_str())));
    pen.put(table, "on", (&old.on, &new.on), |pen, on| Some(pen.tint(on.as_ref()?)));
}

fn setting(pen: &mut Pen<'_>, table: &mut Table, old: &Setting, new: &Setting) {
    let spelled = |_: &Pen<'_>, gap: &Length| Some(length(*gap));
    pen.put(table, "gap", (&old.gap, &new.gap), spelled);
    pen.put(table, "word_gap", (&old.word_gap, &new.word_gap), spelled);
    pen.put(table, "line_gap", (&old.line_gap, &new.line_gap), spelled);
    pen.put(table, "spacing", (&old.spacing, &new.spacing), |_, spacing| Some(text(spacing.as_str())));
    pen.put(table, "line_up", (&old.line_up, &new.line_up), |_, line_up| Some(text(line_up.as_str())));
}

/// Changes, takes out and adds entries, slot by slot.
fn letters(pen: &mut Pen<'_>, table: &mut Table, entries: &[Entry], strip: &Strip) {
    if is_told(entries, strip) {
        return;
    }
    let Some(listed) = tables(table, "letter") else { return };
    let mut slots: Vec<usize> = entries.iter().map(|entry| entry.slot).collect();
    for (place, entry) in entries.iter().enumerate().rev() {
        if strip.letter(entry.slot - 1).is_none() {
            let gone = listed.remove(place);
            slots.remove(place);
            pen.keep_comment(&gone);
            if let Some(next) = listed.get_mut(place) {
                pen.adopt(next);
            }
        }
    }
    let standing =
        strip.letters().iter().enumerate().filter_map(|(slot, stood)| Some((slot + 1, stood.as_ref()?)));
    for (slot, stood) in standing {
        let Some(asked) = strip.wording().slots().get(slot - 1) else { continue };
        let asked = text(asked.character.as_str());
        let earlier = entries.iter().find(|entry| entry.slot == slot);
        if earlier.is_none() {
            let place = slots.iter().position(|other| *other > slot).unwrap_or(slots.len());
            slots.insert(place, slot);
            listed.insert(place, Table::new());
        }
        let place = slots.iter().position(|other| *other == slot);
        let Some(table) = place.and_then(|place| listed.get_mut(place)) else { continue };
        match earlier {
            Some(earlier) if is_kept(earlier, strip) => {}
            Some(earlier) => {
                if earlier.asked.is_some() && table.get("for").and_then(Item::as_str) != asked.as_str() {
                    pen.set(table, "for", asked);
                }
                stand(pen, table, Some(&earlier.stood), stood);
            }
            None => {
                pen.set(table, "slot", i64::try_from(slot).unwrap_or(i64::MAX).into());
                pen.set(table, "for", asked);
                stand(pen, table, None, stood);
            }
        }
    }
}

fn stand(pen: &mut Pen<'_>, table: &mut Table, old: Option<&Stood>, new: &Stood) {
    sticker(pen, table, old.map(|old| &old.sticker), &new.sticker);
    let straight = Stood::straight(new.sticker.clone());
    let old = old.unwrap_or(&straight);
    pen.put(table, "nudge", (&old.nudge, &new.nudge), |_, nudge| Some(length(*nudge)));
    pen.put(table, "raise", (&old.raise, &new.raise), |_, raise| Some(length(*raise)));
    pen.put(table, "tilt", (&old.tilt, &new.tilt), |_, tilt| Some(angle(*tilt)));
    pen.put(table, "pinned", (&old.pinned, &new.pinned), |_, pinned| Some((*pinned).into()));
    pen.put(table, "loose", (&old.loose, &new.loose), |_, loose| loose.then(|| true.into()));
}

/// The keys of a chip and those of a thing by hand exclude each other.
fn sticker(pen: &mut Pen<'_>, table: &mut Table, old: Option<&Sticker>, new: &Sticker) {
    let (old_chip, old_hand) = told(old);
    let (chip, hand) = told(Some(new));
    pen.put(table, "chip", (&old_chip.0, &chip.0), |_, id| id.as_deref().map(text));
    pen.put(table, "as", (&old_chip.1, &chip.1), |_, kind| kind.map(text));
    pen.put(table, "by", (&old_hand.is_some(), &hand.is_some()), |_, by| by.then(|| text("hand")));
    let of = |hand: Option<&ByHand>| {
        (hand.map(|hand| hand.label.clone()), hand.map(|hand| hand.width), hand.and_then(|hand| hand.height))
    };
    let ((old_label, old_width, old_height), (label, width, height)) = (of(old_hand), of(hand));
    pen.put(table, "label", (&old_label, &label), |_, label| label.as_deref().map(text));
    let spelled = |_: &Pen<'_>, measure: &Option<Length>| -> Option<Value> { measure.map(length) };
    pen.put(table, "width", (&old_width, &width), spelled);
    pen.put(table, "height", (&old_height, &height), spelled);
    let colour = |hand: Option<&ByHand>| hand.and_then(|hand| hand.colour.clone());
    pen.put(table, "colour", (&colour(old_hand), &colour(hand)), |pen, tint| Some(pen.tint(tint.as_ref()?)));
}

/// Name and kind of stand-in of a chip, and the thing by hand.
fn told(sticker: Option<&Sticker>) -> ((Option<String>, Option<&'static str>), Option<&ByHand>) {
    match sticker {
        None => ((None, None), None),
        Some(Sticker::Chip { id, stands_in }) => {
            ((Some(id.to_string()), stands_in.map(StandInKind::as_str)), None)
        }
        Some(Sticker::Hand(hand)) => ((None, None), Some(hand)),
    }
}
