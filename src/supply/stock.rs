//! What is left, laid out so that a wording can be looked up in it.
//!
//! Must not know any wording.

use crate::letter::{Character, StandInKind, find_stand_in};
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
use super::rows::{Rows, strike};

/// What is left of a stash, ready to be asked what it can spell.
#[derive(Debug)]
pub struct Supply {
    asking: Asking,
    alphabet: Alphabet,
    bands: Vec<Band>,
    groups: Vec<Group>,
    /// The group of each character.
    group_of: Vec<u16>,
    quick: Quick,
}

/// Counts for a first look.
#[derive(Debug)]
struct Quick {
    /// Letters that serve for a character as itself.
    own: Rows,
    /// Letters that serve so for either of two cases of one shape.
    pairs: Rows,
    /// For each character the other case of one shape, and the row of the two.
    partner: Vec<Option<(u16, usize)>>,
    /// Letters that serve for a character in any way.
    any: Rows,
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
        let quick = Quick::count(&groups, &alphabet, bands.len());
        Self { asking, alphabet, bands, groups, group_of, quick }
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

    /// Whether `demand` can be met, and the band of the largest letters that meets it so; `alive` is room to work in.
    pub(super) fn judge(&self, demand: &Demand, alive: &mut Vec<u8>) -> (Verdict, Option<BandIx>) {
        if !demand.foreign.is_empty() {
            return (Verdict::Short, None);
        }
        self.own_letters(demand, alive);
        if let Some(band) = highest(alive) {
            return (Verdict::Now, Some(band));
        }
        self.enough(demand, alive);
        let shares = self.shares(demand);
        for band in living(alive) {
            if self.serves(&shares, Heights::Within(band)) {
                return (Verdict::StandIns, Some(band));
            }
        }
        if self.serves(&shares, Heights::Mixed) { (Verdict::MixedHeights, None) } else { (Verdict::Short, None) }
    }

    /// Marks the bands in which every letter is there as itself.
    fn own_letters(&self, demand: &Demand, alive: &mut Vec<u8>) {
        alive.clear();
        alive.resize(self.bands.len(), 1);
        for &(number, letters) in &demand.needs {
            // More than a row can tell: left to the exact way.
            let Ok(needs) = u8::try_from(letters) else { return alive.fill(0) };
            strike(alive, self.quick.own.row(usize::from(number)), needs);
            let Some((partner, row)) = self.quick.partner[usize::from(number)] else { continue };
            let other = demand.needs.iter().find(|need| need.0 == partner && partner > number);
            if let Some(&(_, others)) = other {
                let Ok(both) = u8::try_from(letters + others) else { return alive.fill(0) };
                strike(alive, self.quick.pairs.row(row), both);
            }
        }
    }

    /// Marks the bands in which no character alone lacks letters, whoever else wants them.
    pub(super) fn enough(&self, demand: &Demand, alive: &mut Vec<u8>) {
        alive.clear();
        alive.resize(self.bands.len(), 1);
        for &(number, letters) in &demand.needs {
            strike(alive, self.quick.any.row(usize::from(number)), u8::try_from(letters).unwrap_or(u8::MAX));
        }
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
        let assign = |(group, needs): &Share| assign(needs, &self.groups[*group].offers(heights).all);
        shares.iter().map(assign).collect()
    }

    fn serves(&self, shares: &[Share], heights: Heights) -> bool {
        let is_met = |(group, needs): &Share| assign(needs, &self.groups[*group].offers(heights).all).short.is_empty();
        shares.iter().all(is_met)
    }
}

impl Quick {
    fn count(groups: &[Group], alphabet: &Alphabet, bands: usize) -> Self {
        let mut partner = vec![None; alphabet.len()];
        let mut pairs = 0;
        for number in (0u16..).take(alphabet.len()) {
            let other = one_shape(alphabet.character(number)).and_then(|other| alphabet.number(&other));
            if let Some(other) = other.filter(|&other| other > number) {
                partner[usize::from(number)] = Some((other, pairs));
                partner[usize::from(other)] = Some((number, pairs));
                pairs += 1;
            }
        }
        let own = Rows::count(groups, alphabet.len(), bands, |way| way.is_own.then_some(usize::from(way.wanted)));
        let any = Rows::count(groups, alphabet.len(), bands, |way| Some(usize::from(way.wanted)));
        let pairs = Rows::count(groups, pairs, bands, |way| {
            partner[usize::from(way.wanted)].filter(|_| way.is_own).map(|(_, row)| row)
        });
        Self { own, pairs, partner, any }
    }
}

/// The other case of a character, where both have one shape.
fn one_shape(character: &Character) -> Option<Character> {
    let cases = [character.to_upper()?, character.to_lower()?];
    let other = cases.into_iter().find(|other| other != character)?;
    find_stand_in(character, &other, StandInKind::OtherCase).filter(|row| row.same_shape).map(|_| other)
}

/// The bands that are marked, the highest first.
pub(super) fn living(alive: &[u8]) -> impl Iterator<Item = BandIx> + '_ {
    let marked = alive.iter().enumerate().rev().filter(|&(_, &mark)| mark == 1);
    marked.map(|(place, _)| BandIx(u16::try_from(place).unwrap_or(u16::MAX)))
}

fn highest(alive: &[u8]) -> Option<BandIx> {
    living(alive).next()
}
