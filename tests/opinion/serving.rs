//! A second opinion on which chips may stand for what, written from the rules alone.
//!
//! Must not know `oddment::checks`.

use oddment::letter::{Character, StandInKind, find_stand_in, stand_ins};
use oddment::stash::{ChipIx, Finish, Form, Stash};
use oddment::title::{CaseRule, Strip};

/// Whether a chip may stand in `slot`, by the rules alone.
pub(crate) fn may_stand(
    strip: &Strip,
    slot: usize,
    chip: ChipIx,
    kind: Option<StandInKind>,
    stash: &Stash,
) -> bool {
    let wanted = strip.rules.wanted(&strip.wording().slots()[slot].character);
    let (make, letter) = (stash.chip(chip).sheet.make, stash.chip(chip).letter);
    let Some(kind) = kind else { return letter.character == wanted };
    let Some(row) = find_stand_in(&wanted, &letter.character, kind) else { return false };
    let can_be_cut =
        make.form == Form::DieCut && !matches!(make.finish, Finish::Chipboard | Finish::Wood | Finish::Puffy);
    match kind {
        StandInKind::OtherCase => strip.rules.case == CaseRule::Any,
        StandInKind::Trimmed => can_be_cut,
        StandInKind::Turned | StandInKind::LookAlike => {
            !row.turn.is_turned() || make.form == Form::DieCut || make.plain_tile
        }
    }
}

/// Every chip of the stash that carries `wanted` or a character of the table that serves for it, whatever it is made of.
pub(crate) fn options(stash: &Stash, wanted: &Character) -> Vec<(ChipIx, Option<StandInKind>)> {
    let itself = stash.carrying(wanted).iter().map(|&chip| (chip, None));
    let rows = stand_ins(wanted);
    let others =
        rows.iter().flat_map(|row| stash.carrying(&row.used).iter().map(|&chip| (chip, Some(row.kind))));
    itself.chain(others).collect()
}
