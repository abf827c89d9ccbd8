//! The slow, plain way to spell: every sticker on its own, every band of heights, every assignment.
//!
//! Written from what spelling means and from the proportions of the letters; must not know how the program goes about it.

use std::collections::BTreeMap;

use oddment::letter::{Character, Face, STAND_INS, StandInKind, Turn};
use oddment::measure::{Length, Points};
use oddment::stash::{Chip, ChipIx, Finish, Form};
use oddment::supply::{Asking, Verdict};
use oddment::title::{CaseRule, FormRule};

use super::super::drawn::character;
use super::drawn::Case;

/// Letters whose two cases are one letter.
const ONE_SHAPE: &str = "cosvwxz";

/// A sticker that could serve for a character.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Way {
    pub(super) chip: ChipIx,
    pub(super) kind: Option<StandInKind>,
    pub(super) is_own: bool,
    pub(super) cost: i32,
    pub(super) height: Option<Length>,
}

/// Heights that may be used.
#[derive(Debug, Clone, Copy)]
pub(super) enum Window {
    All,
    /// Those of the band that begins here.
    From(Length),
    Between(Length, Length),
}

/// What an assignment comes to, the worse first: letters lacking, tenths of a point, letters that stand in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Least {
    pub(super) lacking: u32,
    pub(super) cost: i32,
    pub(super) stand_ins: u32,
}

/// A wording with all that could serve for each of its letters.
pub(super) struct Tried {
    wanted: Vec<Character>,
    ways: BTreeMap<Character, Vec<Way>>,
    left: Vec<u32>,
}

/// Whether heights from `low` to `high` are one band: 1.25 to 1, rounded to a hundredth, half away from zero.
pub(super) fn is_band(low: Length, high: Length) -> bool {
    200 * high.nm() < 251 * low.nm()
}

impl Window {
    fn takes_in(self, height: Option<Length>) -> bool {
        let Some(height) = height else { return true };
        match self {
            Self::All => true,
            Self::From(low) => low <= height && is_band(low, height),
            Self::Between(low, high) => low <= height && height <= high,
        }
    }
}

impl Tried {
    pub(super) fn new(case: &Case) -> Self {
        let written = case.wording().slots().iter().map(|asked| asked.character.clone()).collect::<Vec<_>>();
        let wanted: Vec<Character> = written.iter().map(|one| by_case(one, case.asking.case)).collect();
        let ways = wanted.iter().map(|one| (one.clone(), ways(case, one))).collect();
        let left = case.stash.chips().map(|chip| u32::from(case.left(chip))).collect();
        Self { wanted, ways, left }
    }

    /// How many assignments there are to try, at most.
    pub(super) fn assignments(&self) -> usize {
        let choices = self.wanted.iter().map(|wanted| self.ways[wanted].len() + 1);
        choices.fold(1, usize::saturating_mul)
    }

    /// The verdict, and the least that it takes.
    pub(super) fn verdict(&self) -> (Verdict, Least) {
        let now = self.windows(true).map(|window| self.least(window, true)).min();
        if let Some(now) = now.filter(|least| least.lacking == 0) {
            return (Verdict::Now, now);
        }
        let within = self.least_of_all_bands();
        if within.lacking == 0 {
            return (Verdict::StandIns, within);
        }
        let mixed = self.least(Window::All, false);
        (if mixed.lacking == 0 { Verdict::MixedHeights } else { Verdict::Short }, mixed)
    }

    pub(super) fn least_of_all_bands(&self) -> Least {
        self.windows(false).map(|window| self.least(window, false)).min().unwrap()
    }

    /// Every height that counts of what serves; or of what serves as itself.
    pub(super) fn heights(&self, own: bool) -> Vec<Length> {
        let ways = self.ways.values().flatten().filter(|way| way.is_own || !own);
        let mut heights: Vec<Length> = ways.filter_map(|way| way.height).collect();
        heights.sort_unstable();
        heights.dedup();
        heights
    }

    /// Every band: each begins with the height of a sticker. Where there are none but small marks, any will do.
    fn windows(&self, own: bool) -> impl Iterator<Item = Window> {
        let heights = self.heights(own);
        let none = heights.is_empty().then_some(Window::All);
        none.into_iter().chain(heights.into_iter().map(Window::From))
    }

    pub(super) fn ways(&self, wanted: &Character) -> &[Way] {
        &self.ways[wanted]
    }

    /// How many slots want each character.
    pub(super) fn slots(&self) -> BTreeMap<Character, u32> {
        let mut slots = BTreeMap::new();
        for one in &self.wanted {
            *slots.entry(one.clone()).or_default() += 1;
        }
        slots
    }

    /// The best of all assignments with stickers of these heights; `own`: as themselves alone.
    pub(super) fn least(&self, window: Window, own: bool) -> Least {
        let choices = self.wanted.iter().map(|wanted| self.choices(wanted, window, own)).collect::<Vec<_>>();
        assign(&choices, &mut self.left.clone())
    }

    /// Whether letters serve as themselves in so many slots, when some stickers are taken.
    pub(super) fn serves_as_themselves(
        &self,
        open: &BTreeMap<Character, u32>,
        taken: &BTreeMap<ChipIx, u32>,
        window: Window,
    ) -> bool {
        let mut left = self.left.clone();
        for (chip, letters) in taken {
            left[chip.get()] -= letters;
        }
        let slots = open.iter().flat_map(|(wanted, &count)| (0..count).map(move |_| wanted));
        let choices = slots.map(|wanted| self.choices(wanted, window, true)).collect::<Vec<_>>();
        assign(&choices, &mut left).lacking == 0
    }

    fn choices(&self, wanted: &Character, window: Window, own: bool) -> Vec<&Way> {
        let fits = |way: &&Way| (way.is_own || !own) && window.takes_in(way.height);
        self.ways[wanted].iter().filter(fits).collect()
    }
}

/// Tries each choice for the first slot, or none, with everything that can follow.
fn assign(slots: &[Vec<&Way>], left: &mut [u32]) -> Least {
    let Some((first, rest)) = slots.split_first() else { return Least { lacking: 0, cost: 0, stand_ins: 0 } };
    let without = assign(rest, left);
    let mut best = Least { lacking: without.lacking + 1, ..without };
    for way in first {
        if left[way.chip.get()] > 0 {
            left[way.chip.get()] -= 1;
            let then = assign(rest, left);
            left[way.chip.get()] += 1;
            let (cost, stand_ins) = (then.cost + way.cost, then.stand_ins + u32::from(!way.is_own));
            best = best.min(Least { lacking: then.lacking, cost, stand_ins });
        }
    }
    best
}

/// The character that a case rule asks for; one whose other case is more than one stays.
fn by_case(written: &Character, rule: CaseRule) -> Character {
    let other = match rule {
        CaseRule::Any | CaseRule::AsWritten => return written.clone(),
        CaseRule::Upper => written.as_str().to_uppercase(),
        CaseRule::Lower => written.as_str().to_lowercase(),
    };
    if other.chars().count() == 1 { character(&other) } else { written.clone() }
}

/// Every sticker that serves for `wanted`, and how.
fn ways(case: &Case, wanted: &Character) -> Vec<Way> {
    let mut found = Vec::new();
    for ix in case.stash.chips().filter(|&ix| case.left(ix) > 0) {
        let (chip, asking) = (case.stash.chip(ix), &case.asking);
        for (kind, turn) in kinds(chip, wanted) {
            let one_shape =
                kind == Some(StandInKind::OtherCase) && ONE_SHAPE.contains(&wanted.as_str().to_lowercase());
            let way = Way {
                chip: ix,
                kind,
                is_own: kind.is_none() || one_shape,
                cost: if one_shape { 0 } else { kind.map_or(0, |kind| cost(asking, kind).tenths()) },
                height: (!Face::reference().is_exempt(wanted)).then(|| chip.effective_height(wanted, turn)),
            };
            let form = match asking.forms {
                FormRule::Any => true,
                FormRule::Tile => chip.sheet.make.form == Form::Tile,
                FormRule::DieCut => chip.sheet.make.form == Form::DieCut,
            };
            let case = kind != Some(StandInKind::OtherCase) || asking.case == CaseRule::Any;
            let tall =
                way.height.zip(asking.tall).is_none_or(|(it, (least, most))| it >= least && it <= most);
            if form && case && tall {
                found.push(way);
            }
        }
    }
    found
}

/// How a sticker can serve for `wanted`, with its turn; `None`: as itself.
fn kinds(chip: Chip<'_>, wanted: &Character) -> Vec<(Option<StandInKind>, Turn)> {
    let (used, make) = (&chip.letter.character, chip.sheet.make);
    if used == wanted {
        return vec![(None, Turn::None)];
    }
    let mut found = Vec::new();
    let lower = |one: &Character| one.as_str().to_lowercase();
    if lower(used) == lower(wanted) {
        found.push((Some(StandInKind::OtherCase), Turn::None));
    }
    for row in STAND_INS.iter().filter(|row| row.wanted == wanted.as_str() && row.used == used.as_str()) {
        let thick = matches!(make.finish, Finish::Chipboard | Finish::Wood | Finish::Puffy);
        let can = match row.kind {
            StandInKind::Trimmed => make.form == Form::DieCut && !thick,
            _ => row.turn == Turn::None || make.form == Form::DieCut || make.plain_tile,
        };
        if can {
            found.push((Some(row.kind), row.turn));
        }
    }
    found
}

fn cost(asking: &Asking, kind: StandInKind) -> Points {
    match kind {
        StandInKind::Turned => asking.costs.turned,
        StandInKind::LookAlike => asking.costs.look_alike,
        StandInKind::OtherCase => asking.costs.other_case,
        StandInKind::Trimmed => asking.costs.trimmed,
    }
}
