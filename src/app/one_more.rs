//! What one more letter would do: the best mix with the stash as it is, against the best with one more of each kind.
//!
//! Must not know what a key does or how it is drawn.

use std::collections::{HashMap, HashSet};

use crate::checks::{Knob, Scene, candidates, tell_length};
use crate::letter::Character;
use crate::measure::{Length, Points};
use crate::plan::{Plan, Spoken};
use crate::stash::{ChipId, ChipIx, Letter, Sheet, Stash};
use crate::suggest::Problem;

use super::pursuit::{Pursuit, Run};
use super::reasons::kinds_of;
use super::shelf::Shelf;

/// How many gains are told.
const TOLD: usize = 3;

/// Of so many no letter is scarce.
const PLENTY: u32 = 4;

/// What one more letter would do.
#[derive(Debug)]
pub struct OneMore {
    plan: Plan,
    wanted: Character,
    /// The search for the best mix with the stash as it is.
    base: Pursuit,
    /// The kinds to be tried, the last one first.
    queue: Vec<Kind>,
    kinds: usize,
    trying: Option<(Told, Pursuit)>,
    gains: Vec<(Points, bool, Told)>,
    run: Run,
}

/// A kind of letter: that of a chip, or one that a sheet lacks.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Kind {
    sheet: usize,
    chip: Option<ChipIx>,
}

/// A kind in words.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Told {
    height: String,
    like: String,
}

impl OneMore {
    /// Asks what one more of `wanted` would do for `plan`.
    #[must_use]
    pub fn new(plan: &Plan, wanted: &Character, shelf: &Shelf) -> Self {
        let problem = Problem::new(plan, &shelf.stash, &shelf.scene, None);
        let mut queue = kinds(plan, wanted, shelf);
        queue.reverse();
        Self {
            plan: plan.clone(),
            wanted: wanted.clone(),
            base: Pursuit::new(problem, 1),
            kinds: queue.len(),
            queue,
            trying: None,
            gains: Vec::new(),
            run: Run::Going,
        }
    }

    /// Whether it is taken on whenever no key waits.
    #[must_use]
    pub fn is_going(&self) -> bool {
        self.run == Run::Going
    }

    /// Stops it, if it goes.
    pub fn stop(&mut self, why: Run) {
        self.run.stop(why);
    }

    /// Lets it go on from where it was; `false` where nothing is left to do.
    pub fn go_on(&mut self) -> bool {
        self.run.go_on()
    }

    /// Takes it on by about `steps` steps.
    pub fn work(&mut self, shelf: &Shelf, steps: u64) {
        if !self.is_going() {
            return;
        }
        if self.base.is_going() {
            self.base.work(steps);
        } else if let Some((told, mut pursuit)) = self.trying.take() {
            pursuit.work(steps);
            let gains = self.base.best().is_none_or(|best| pursuit.outcome().bound < best);
            if pursuit.is_going() && gains {
                self.trying = Some((told, pursuit));
            } else {
                self.settle(told, &pursuit);
            }
        } else if let Some(kind) = self.queue.pop() {
            self.trying = Some(self.try_kind(&kind, shelf));
        } else {
            self.run = Run::Done;
        }
    }

    fn settle(&mut self, told: Told, pursuit: &Pursuit) {
        let Some(score) = pursuit.best() else { return };
        if self.base.best().is_none_or(|best| score < best) {
            self.gains.push((score, pursuit.is_proved(), told));
            self.gains.sort_by_key(|&(score, ..)| score);
        }
    }

    /// Begins to look for the best mix with one more of `kind`.
    fn try_kind(&self, kind: &Kind, shelf: &Shelf) -> (Told, Pursuit) {
        let mut sheets = shelf.stash.sheets().to_vec();
        let sheet = &mut sheets[kind.sheet];
        let id = add_one(sheet, &self.wanted, kind.chip.map(|chip| shelf.stash.chip(chip).id()));
        let stash = Stash::new(sheets);
        let elsewhere = shelf.scene.elsewhere.moved(&shelf.stash, &stash);
        let scene = Scene::new(&stash, &self.plan.page, shelf.scene.taste.clone(), elsewhere);
        let told = stash.find(&id).map(|chip| {
            let chip = stash.chip(chip);
            let like = if kind.chip.is_some() { "those" } else { "the letters" };
            Told {
                height: tell_length(chip.shown_height(), shelf.unit()),
                like: format!("{like} of {}", chip.sheet.told()),
            }
        });
        let told = told.unwrap_or_else(|| Told { height: String::new(), like: id.to_string() });
        (told, Pursuit::new(Problem::new(&self.plan, &stash, &scene, None), 1))
    }

    /// The answer so far, a sentence each.
    #[must_use]
    pub fn lines(&self) -> Vec<String> {
        let wanted = self.wanted.spoken();
        let mut lines = vec![format!("the stash as it is: {}", self.base.progress())];
        let from = self.base.best().map_or_else(String::new, |best| format!("{best} to "));
        lines.extend(self.gains.iter().take(TOLD).map(|(score, proved, Told { height, like })| {
            let at_least = if *proved { "" } else { " or less" };
            format!("one more {wanted} of about {height} like {like}: {from}{score}{at_least}")
        }));
        let tried = self.kinds - self.queue.len() - usize::from(self.trying.is_some());
        let kinds = kinds_of(self.kinds, &wanted);
        lines.push(match self.run {
            Run::Going => format!("looking: {tried} of {kinds} tried"),
            Run::Stopped => format!("stopped: {tried} of {kinds} tried"),
            Run::OutOfTime => format!("stopped as it took long: {tried} of {kinds} tried (s goes on)"),
            Run::Done if self.kinds == 0 => {
                format!("no sheet with {wanted} is at hand that has not plenty of it")
            }
            Run::Done if self.gains.is_empty() => {
                format!("one more {wanted} would gain nothing: {kinds} tried")
            }
            Run::Done => {
                format!("{kinds} tried; with {} of them something would be gained", self.gains.len())
            }
        });
        lines
    }
}

/// One more letter on a sheet: of the chip called `id`, else a new one. Gives back what a plan calls it.
fn add_one(sheet: &mut Sheet, wanted: &Character, id: Option<ChipId>) -> ChipId {
    let mark = id.and_then(|id| id.mark);
    let is_it = |letter: &&mut Letter| letter.character == *wanted && letter.mark == mark;
    match sheet.letters.iter_mut().find(is_it) {
        Some(letter) => letter.left = letter.left.saturating_add(1),
        None => sheet.letters.push(Letter {
            character: wanted.clone(),
            mark: mark.clone(),
            left: 1,
            width: None,
            height: None,
            colours: Vec::new(),
        }),
    }
    ChipId { sheet: sheet.id.clone(), character: wanted.clone(), mark }
}

/// The kinds worth trying: every chip of that character of which one more could change anything, one of each look, and
/// what the sheets on the strips lack. What is used up comes first, then what stands on the strips.
fn kinds(plan: &Plan, wanted: &Character, shelf: &Shelf) -> Vec<Kind> {
    let (stash, spoken) = (&shelf.stash, Spoken::by(plan, &shelf.stash));
    let enough = enough(plan, wanted, shelf);
    let used: HashSet<usize> = plan
        .strips()
        .iter()
        .flat_map(crate::title::Strip::chips)
        .filter_map(|id| stash.find(id))
        .map(|chip| stash.sheet_place(chip))
        .collect();
    let mut found: Vec<(bool, bool, Kind)> = Vec::new();
    for &chip in stash.carrying(wanted) {
        let (seen, sheet) = (stash.chip(chip), stash.sheet_place(chip));
        let left = seen.on_hand().saturating_sub(shelf.scene.elsewhere.times(chip));
        if !enough.contains(&chip) {
            let spare = left > spoken.times(chip);
            found.push((spare, !used.contains(&sheet), Kind { sheet, chip: Some(chip) }));
        }
    }
    for &sheet in &used {
        let has = stash.chips_of(sheet).any(|chip| stash.chip(chip).letter.character == *wanted);
        if !has {
            found.push((false, false, Kind { sheet, chip: None }));
        }
    }
    found.sort_by_key(|(spare, strange, kind)| (*spare, *strange, kind.sheet, kind.chip));
    let mut looks = HashSet::new();
    let is_new = |kind: &Kind| {
        kind.chip.is_none_or(|chip| {
            let seen = stash.chip(chip);
            let look = (seen.shown_height(), seen.colours(), &seen.sheet.paint, seen.sheet.make);
            looks.insert(format!("{look:?}"))
        })
    };
    found.into_iter().map(|(_, _, kind)| kind).filter(is_new).collect()
}

/// The chips of `wanted` of which one more changes nothing whatever: there is one for every slot that it could serve, and
/// none of its size is scarce.
fn enough(plan: &Plan, wanted: &Character, shelf: &Shelf) -> HashSet<ChipIx> {
    let Shelf { stash, scene, .. } = shelf;
    let mut serves: HashMap<ChipIx, u16> = HashMap::new();
    for strip in plan.strips() {
        for asked in strip.wording().slots() {
            let chips: HashSet<ChipIx> = candidates(stash, strip, &strip.rules.wanted(&asked.character))
                .into_iter()
                .map(|one| one.chip)
                .collect();
            for chip in chips {
                *serves.entry(chip).or_default() += 1;
            }
        }
    }
    let chips = stash.carrying(wanted);
    let scarce: Vec<Length> = chips
        .iter()
        .filter(|&&chip| scene.look(stash, chip, wanted, None, None).fixed.left_alike < PLENTY)
        .map(|&chip| stash.chip(chip).shown_height())
        .collect();
    let band = scene.taste.ratio(Knob::ScarceBand);
    let is_enough = |chip: &ChipIx| {
        let seen = stash.chip(*chip);
        let left = seen.on_hand().saturating_sub(scene.elsewhere.times(*chip));
        left >= serves.get(chip).copied().unwrap_or(0)
            && !scarce.iter().any(|height| height.ratio(seen.shown_height()) <= band)
    };
    chips.iter().copied().filter(is_enough).collect()
}
