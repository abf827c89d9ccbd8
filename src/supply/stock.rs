//! What is left, laid out so that a wording can be looked up in it.
//!
//! Must not know any wording.

use crate::letter::Character;
use crate::stash::{ChipIx, Stash};
use crate::title::{Wording, WordingError};

use super::Verdict;
use super::alphabet::Alphabet;
use super::asking::Asking;
use super::band::{Band, BandIx, bands};
use super::demand::Demand;
use super::flow::{Assignment, assign};
use super::gather::{characters, lots};
use super::group::{Group, Heights, groups};
use super::look::{Look, Wanted};

/// What is left of a stash, ready to be asked what it can spell.
#[derive(Debug)]
pub struct Supply {
    asking: Asking,
    alphabet: Alphabet,
    bands: Vec<Band>,
    groups: Vec<Group>,
    /// The group of each character.
    group_of: Vec<u16>,
    /// Letters that serve as themselves.
    own: Look,
    /// Letters that serve in any way.
    any: Look,
}

/// The letters of one group that a demand wants, with the group's number.
pub(super) type Share = (usize, Vec<(u16, u32)>);

impl Supply {
    /// Lays out what is left of `stash` and may be used by what is `asking`; `spare` says how many of a chip are kept for
    /// something else.
    #[must_use]
    pub fn new(stash: &Stash, asking: Asking, spare: impl Fn(ChipIx) -> u16) -> Self {
        let characters = characters(stash, &asking);
        let lots = lots(stash, &characters, &asking, spare);
        let bands = bands(lots.iter().flat_map(|lot| lot.ways.iter().filter_map(|way| way.height)).collect());
        let (groups, group_of) = groups(lots, characters.len(), &bands);
        let alphabet = Alphabet::new(characters, &asking);
        let own = Look::new(&groups, alphabet.len(), bands.len(), |way| way.is_own);
        let any = Look::new(&groups, alphabet.len(), bands.len(), |_| true);
        Self { asking, alphabet, bands, groups, group_of, own, any }
    }

    /// What is asked of the letters beyond the wording.
    #[must_use]
    pub const fn asking(&self) -> &Asking {
        &self.asking
    }

    /// The bands of heights that there are letters in, the lowest first.
    #[must_use]
    pub fn bands(&self) -> &[Band] {
        &self.bands
    }

    /// What `wording` asks for.
    #[must_use]
    pub fn demand(&self, wording: &Wording) -> Demand {
        let mut demand = Demand::default();
        demand.want_wording(wording, &self.alphabet, &self.asking);
        demand
    }

    /// What `text` asks for, into `demand`; a plain text is read without making a [`Wording`] of it.
    ///
    /// # Errors
    /// When `text` is no wording.
    pub fn read(&self, text: &str, demand: &mut Demand) -> Result<(), WordingError> {
        demand.read(text, &self.alphabet, &self.asking)
    }

    pub(super) fn character(&self, number: u16) -> &Character {
        self.alphabet.character(number)
    }

    pub(super) fn groups(&self) -> &[Group] {
        &self.groups
    }

    /// Whether `demand` can be met, and the band of the largest letters that meets it so; `wanted` is room to work in.
    pub(super) fn judge(&self, demand: &Demand, wanted: &mut Wanted) -> (Verdict, Option<BandIx>) {
        if !demand.foreign.is_empty() {
            return (Verdict::Short, None);
        }
        if demand.is_large() {
            return self.judge_large(demand);
        }
        self.own.ask(&demand.needs, wanted);
        let crowded = self.crowded(demand, wanted);
        if let Some(band) = self.own.highest(wanted, |band| self.serves_as_themselves(&crowded, band)) {
            return (Verdict::Now, Some(band));
        }
        self.any.ask(&demand.needs, wanted);
        if !self.any.is_enough_mixed(wanted) {
            return (Verdict::Short, None);
        }
        let crowded = self.crowded(demand, wanted);
        if let Some(band) = self.any.highest(wanted, |band| self.serves(&crowded, Heights::Within(band))) {
            return (Verdict::StandIns, Some(band));
        }
        let mixed = self.serves(&crowded, Heights::Mixed);
        (if mixed { Verdict::MixedHeights } else { Verdict::Short }, None)
    }

    /// The same of more letters than can be looked up.
    #[cold]
    fn judge_large(&self, demand: &Demand) -> (Verdict, Option<BandIx>) {
        let shares = self.shares(demand);
        let highest = |is_met: &dyn Fn(BandIx) -> bool| self.every_band().find(|&band| is_met(band));
        if let Some(band) = highest(&|band| self.serves_as_themselves(&shares, band)) {
            return (Verdict::Now, Some(band));
        }
        if let Some(band) = highest(&|band| self.serves(&shares, Heights::Within(band))) {
            return (Verdict::StandIns, Some(band));
        }
        let mixed = self.serves(&shares, Heights::Mixed);
        (if mixed { Verdict::MixedHeights } else { Verdict::Short }, None)
    }

    /// Every band, the highest first.
    pub(super) fn every_band(&self) -> impl Iterator<Item = BandIx> + use<> {
        (0..u16::try_from(self.bands.len()).unwrap_or(u16::MAX)).rev().map(BandIx)
    }

    /// The bands that could meet `demand`, by a quick look, the highest first.
    pub(super) fn likely_bands(&self, demand: &Demand) -> Vec<BandIx> {
        if demand.is_large() {
            return self.every_band().collect();
        }
        let (mut wanted, mut bands) = (Wanted::default(), Vec::new());
        self.any.ask(&demand.needs, &mut wanted);
        self.any.highest(&wanted, |band| {
            bands.push(band);
            false
        });
        bands
    }

    /// Goes through the bands that meet `demand` by letters as themselves or, with `stand_ins`, in any way, the highest first, until
    /// one `is_enough`. `wanted` is room to work in.
    pub(super) fn bands_that_meet(
        &self,
        demand: &Demand,
        stand_ins: bool,
        wanted: &mut Wanted,
        mut is_enough: impl FnMut(BandIx) -> bool,
    ) {
        if !demand.foreign.is_empty() {
            return;
        }
        let meets = |shares: &[Share], band: BandIx| {
            if stand_ins {
                self.serves(shares, Heights::Within(band))
            } else {
                self.serves_as_themselves(shares, band)
            }
        };
        if demand.is_large() {
            let shares = self.shares(demand);
            self.every_band().find(|&band| meets(&shares, band) && is_enough(band));
            return;
        }
        let look = if stand_ins { &self.any } else { &self.own };
        look.ask(&demand.needs, wanted);
        let crowded = self.crowded(demand, wanted);
        look.highest(wanted, |band| meets(&crowded, band) && is_enough(band));
    }

    /// How many letters of a band serve for a character as itself, by its number; no more than 255 are told.
    pub(super) fn own_in(&self, number: u16, band: BandIx) -> u8 {
        self.own.count_in(number, band)
    }

    /// What must be assigned because a look does not settle it: the shares of groups with a crowded character.
    fn crowded(&self, demand: &Demand, wanted: &Wanted) -> Vec<Share> {
        if wanted.crowded.is_empty() {
            return Vec::new();
        }
        let group = |number: u16| usize::from(self.group_of[usize::from(number)]);
        let mut shares = self.shares(demand);
        shares.retain(|share| wanted.crowded.iter().any(|&number| group(number) == share.0));
        shares
    }

    /// What `demand` wants, group by group.
    pub(super) fn shares(&self, demand: &Demand) -> Vec<Share> {
        let mut shares: Vec<Share> = Vec::new();
        for &need in &demand.needs {
            let group = usize::from(self.group_of[usize::from(need.0)]);
            match shares.iter_mut().find(|share| share.0 == group) {
                Some(share) => share.1.push(need),
                None => shares.push((group, vec![need])),
            }
        }
        shares
    }

    /// The assignment of least cost for each share.
    pub(super) fn assign(&self, shares: &[Share], heights: Heights) -> Vec<Assignment> {
        let assign = |(group, needs): &Share| assign(needs, self.groups[*group].offers(heights));
        shares.iter().map(assign).collect()
    }

    fn serves_as_themselves(&self, shares: &[Share], band: BandIx) -> bool {
        self.assign(shares, Heights::Within(band)).iter().all(|one| one.short.is_empty() && one.cost == 0)
    }

    fn serves(&self, shares: &[Share], heights: Heights) -> bool {
        let is_met =
            |(group, needs): &Share| assign(needs, self.groups[*group].offers(heights)).short.is_empty();
        shares.iter().all(is_met)
    }
}
