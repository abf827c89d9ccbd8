//! Why a letter stands where it does, in words with the figures that count.
//!
//! Must not know how the letter was found.

use crate::checks::{
    Alternate, Candidate, Knob, Look, Reach, Scene, StripView, alternates, lying_view, room_of, tell_length,
    tell_promised,
};
use crate::letter::Character;
use crate::measure::{Length, Points};
use crate::plan::{Plan, Spoken};
use crate::stash::{ChipIx, Stash};
use crate::title::Layout;

use super::letter_told::looks;

/// The reasons for the letter in `slot` of the strip at `place`, a sentence each; none where no sticker stands there.
/// `but` is added where another letter would cost less.
#[must_use]
pub fn reasons(
    plan: &Plan,
    (place, slot): (usize, usize),
    stash: &Stash,
    scene: &Scene,
    but: &str,
) -> Vec<String> {
    let strip = &plan.strips()[place];
    let view = lying_view(plan, strip, &Layout::of(strip, stash), stash, scene);
    let Some(look) = view.fills()[slot].look() else { return Vec::new() };
    let supply = Supply { stash, scene };
    let mut told: Vec<String> = [
        Some(supply.choice(&view, slot, look)),
        tell_promised(look.chip, &Spoken::by(plan, stash), stash, scene),
        supply.colour(look),
        Some(Supply::costs(&view, slot)),
    ]
    .into_iter()
    .flatten()
    .collect();
    told.extend(supply.next_best(plan, (place, slot), (view.score(), look), but));
    told
}

/// What letters there are.
struct Supply<'a> {
    stash: &'a Stash,
    scene: &'a Scene,
}

impl Supply<'_> {
    /// The chips that carry `character` and are not all spoken for by other plans.
    fn left(&self, character: &Character) -> Vec<ChipIx> {
        let has = |chip: &&ChipIx| self.stash.chip(**chip).on_hand() > self.scene.elsewhere.times(**chip);
        self.stash.carrying(character).iter().filter(has).copied().collect()
    }

    /// How much of a choice there was: `the only S within 15 % of 25 mm`.
    fn choice(&self, view: &StripView<'_>, slot: usize, look: &Look) -> String {
        let wanted = view.wanted(slot);
        let spoken = wanted.spoken();
        let left = self.left(wanted);
        let alike = self.scene.taste.ratio(Knob::HeightRatio);
        let near = format!(
            "within {} % of {}",
            alike.get() - 100,
            tell_length(view.height().unwrap_or_default(), self.scene.unit)
        );
        let line = view.height();
        let is_near = |height: Option<Length>| match (height, line) {
            (Some(height), Some(line)) => height.ratio(line) <= alike,
            _ => true,
        };
        let height = |chip: ChipIx| view.look(Candidate { chip, stands_in: None }, slot).height;
        let close = left.iter().filter(|&&chip| is_near(height(chip))).count();
        if let Some(kind) = look.stands_in {
            let own = self.stash.chip(look.chip).letter.character.spoken();
            return match (left.len(), close) {
                (0, _) => format!("{own}, {kind}, stands in: no {spoken} is left"),
                (_, 0) => format!("{own}, {kind}, stands in: no {spoken} is left {near}"),
                (_, n) => {
                    let are = if n == 1 { "is" } else { "are" };
                    format!("{own}, {kind}, stands in, though {} {are} left {near}", kinds_of(n, &spoken))
                }
            };
        }
        match (left.len(), is_near(look.height), close) {
            (1, ..) => format!("the only kind of {spoken} that is left"),
            (all, true, 1) if look.height.is_some() => {
                format!("the only {spoken} {near}, of {all} kinds that are left")
            }
            (_, true, close) if look.height.is_some() => {
                format!("one of {} {near}", kinds_of(close, &spoken))
            }
            (all, true, _) => format!("one of {} that are left", kinds_of(all, &spoken)),
            (all, false, close) => {
                let own =
                    look.height.zip(line).map_or_else(String::new, |(own, line)| view.beside(own, line));
                format!("{own}; of {} that are left {} {near}", kinds_of(all, &spoken), none_or(close))
            }
        }
    }

    /// What its colour is to the page; nothing where the page has no colours.
    fn colour(&self, look: &Look) -> Option<String> {
        let palette = &self.scene.palette;
        let apart = look.tone.apart?;
        let colour = self.stash.chip(look.chip).colours().first()?.name().into_owned();
        let family = palette.name(look.tone.family);
        Some(match () {
            () if apart <= self.scene.taste.ratio(Knob::FamilyReach) => {
                let main = if look.tone.main { ", the main colour" } else { "" };
                let by = if family == colour { String::new() } else { format!(": {apart} from {family}") };
                format!("its {colour} is on the page{by}{main}")
            }
            () if look.tone.neutral => format!("its {colour} goes with any page"),
            () => format!("its {colour} is not on the page: {apart} from the nearest colour there"),
        })
    }

    /// What it costs by itself, check by check.
    fn costs(view: &StripView<'_>, slot: usize) -> String {
        let mut costs: Vec<(&str, Points)> = Vec::new();
        for check in view.heard().filter(|check| matches!(check.reach, Reach::Letter(_))) {
            view.instances(check, |slots, points| {
                if slots == [slot] {
                    costs.push((check.id, points));
                }
            });
        }
        costs.sort_by_key(|&(_, points)| -points);
        let sum: Points = costs.iter().map(|&(_, points)| points).sum();
        match costs.as_slice() {
            [] => "by itself it costs nothing".into(),
            [(id, points)] => format!("by itself it costs {points} ({id})"),
            _ => {
                let each: Vec<String> = costs.iter().map(|(id, points)| format!("{id} {points}")).collect();
                format!("by itself it costs {sum}: {}", each.join(", "))
            }
        }
    }

    /// What the best other letter that is to be had would change, all else as it is: one that is better but too long for
    /// the line's room, and the best that is not too long.
    fn next_best(
        &self,
        plan: &Plan,
        at: (usize, usize),
        (score, look): (Points, &Look),
        but: &str,
    ) -> Vec<String> {
        let all = alternates(plan, at.0, at.1, self.stash, self.scene);
        let own = Candidate { chip: look.chip, stands_in: look.stands_in };
        let others = || all.iter().filter(|one| one.candidate != own);
        let better = others().find(|one| one.too_long.is_some() && one.score <= score);
        let mut told: Vec<String> =
            better.map(|one| self.too_long(plan, at.0, one, score)).into_iter().collect();
        told.push(match (others().find(|one| one.too_long.is_none()), others().next()) {
            (None, None) => "no other letter is to be had for it".into(),
            (None, Some(_)) => "no other letter would leave the line within its room".into(),
            (Some(other), _) => {
                let (name, by) = (self.name(other), other.score - score);
                match by.tenths() {
                    0 => format!("{name} would do as well"),
                    1.. => format!("{name}, the next best here, would cost {by} more"),
                    _ => format!("{name} would cost {} less here{but}", -by),
                }
            }
        });
        told
    }

    /// A letter that would do, were there room for it.
    fn too_long(&self, plan: &Plan, place: usize, other: &Alternate, score: Points) -> String {
        let tell = |length: Option<Length>| tell_length(length.unwrap_or_default(), self.scene.unit);
        let (over, room) = (tell(other.too_long), tell(room_of(&plan.strips()[place], &plan.page)));
        let would = match (score - other.score).tenths() {
            0 => "do as well".to_owned(),
            _ => format!("cost {} less here", score - other.score),
        };
        format!(
            "{} would {would}, but the line would be {over} longer than its room of {room}",
            self.name(other)
        )
    }

    /// `N of 01 Lit windows (mustard 22 mm, turned)`.
    fn name(&self, other: &Alternate) -> String {
        let chip = self.stash.chip(other.candidate.chip);
        let how = other.candidate.stands_in.map_or_else(String::new, |kind| format!(", {kind}"));
        let (character, looks) = (chip.letter.character.spoken(), looks(chip, self.scene.unit));
        format!("{character} of {} ({looks}{how})", chip.sheet.told())
    }
}

/// `1 kind of E`, `3 kinds of E`.
pub(super) fn kinds_of(count: usize, spoken: &str) -> String {
    format!("{count} kind{} of {spoken}", if count == 1 { "" } else { "s" })
}

fn none_or(count: usize) -> String {
    match count {
        0 => "none is".into(),
        1 => "one is".into(),
        more => format!("{more} are"),
    }
}
