//! The wording's view: what is typed, the wishes, and what the stash says to them.
//!
//! Must not know how it is drawn.

use std::collections::BTreeSet;

use crate::checks::Taste;
use crate::measure::Length;
use crate::plan::Spoken;
use crate::stash::ChipIx;
use crate::supply::{Answer, Asking, BandIx, Demand, Idea, Ideas, Supply, Verdict, WordList};
use crate::title::{CaseRule, FormRule, Wish, Wording};

use super::idea_line::IdeaLine;
use super::letters_asked::asking_of;
use super::lists::step;
use super::shelf::Shelf;
use super::typing::from_breaks;
use super::wish_set::WishSet;

/// What is chosen in the wording's view, and what was found out.
#[derive(Debug, Default)]
pub struct Wordings {
    /// Which list has the keys.
    pub list: WordingList,
    /// Which wording is looked at.
    pub looked_at: LookedAt,
    /// The wording as it was typed last, `|` for a line break; `None`: the strip's.
    pub typed: Option<String>,
    /// The chosen wish, by its place, and the first that is drawn.
    pub wish: Walk,
    /// The chosen idea, and the first that is drawn.
    pub idea: Walk,
    /// Wishes that must be among those made together, by what they say.
    pub must: BTreeSet<String>,
    /// The wish that was dropped last: it can be wished for again, with its note.
    pub dropped: Option<Wish>,
    /// What is asked of the letters.
    pub rules: SpellRules,
    /// Which ideas are looked for; `None`: none yet.
    pub ideas: Option<IdeasAsked>,
    /// What the stash says; `None`: it has not been asked since it changed.
    pub judged: Option<Box<Judged>>,
}

/// The lists of the view.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum WordingList {
    /// The wishes.
    #[default]
    Wishes,
    /// The ideas.
    Ideas,
}

/// Which wording is looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum LookedAt {
    /// What was typed.
    #[default]
    Typed,
    /// The chosen wish.
    Wish,
    /// The chosen idea.
    Idea,
}

/// A place in a list, and the first row that is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Walk {
    /// The chosen row.
    pub chosen: usize,
    /// The first row that is drawn.
    pub top: usize,
}

/// What is asked of the letters.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SpellRules {
    /// Which case may stand for another.
    pub case: CaseRule,
    /// Which forms may be used.
    pub forms: FormRule,
    /// The least and the greatest height; `None`: any.
    pub tall: Option<(Length, Length)>,
    /// Whether letters that page plans speak for are left alone: other plans', and what stands on this one's strips.
    pub spare_plans: bool,
}

/// What the stash says to wordings.
#[derive(Debug)]
pub struct Judged {
    /// What is left, ready to be asked.
    pub supply: Supply,
    /// The answer to each wish.
    pub wishes: Vec<Answer>,
    /// What is said of the wording that is looked at.
    pub now: Option<Looked>,
    /// The wishes that can be made together.
    pub set: WishSet,
    /// The search for ideas; what it has found stays when it is at its end.
    pub ideas: Option<IdeaSearch>,
    /// What this plan's strips spoke for.
    own: Spoken,
}

/// Which ideas are looked for.
#[derive(Debug, Clone)]
pub struct IdeasAsked {
    /// As it was typed.
    pub text: String,
    /// What they must be.
    pub line: IdeaLine,
    /// The wording that they are to stand beside, `|` for a line break.
    pub beside: Option<String>,
    /// Where they are taken from.
    pub list: WordList<'static>,
}

/// A search for ideas.
#[derive(Debug)]
pub struct IdeaSearch {
    search: Ideas,
    is_done: bool,
    /// What the wording asks for that they are to stand beside.
    beside: Demand,
    /// Whether it is taken on whenever no key waits.
    pub is_going: bool,
}

/// What is said of a wording.
#[derive(Debug)]
pub struct Looked {
    /// The wording.
    pub text: String,
    /// The band that it was found in, if it is an idea.
    within: Option<BandIx>,
    /// What the stash says; or why it is no wording.
    pub said: Result<Said, String>,
}

/// What the stash says to a wording.
#[derive(Debug)]
pub struct Said {
    /// Whether it can be spelled, and how.
    pub answer: Answer,
    /// Where no band of heights serves: what comes nearest within one.
    pub nearest: Option<Answer>,
    /// The same size by size, the largest letters first, for all sizes that serve.
    pub by_size: Vec<Answer>,
    /// What was asked for.
    pub demand: Demand,
}

impl Default for SpellRules {
    fn default() -> Self {
        Self { case: CaseRule::Any, forms: FormRule::Any, tall: None, spare_plans: false }
    }
}

impl SpellRules {
    /// How many letters of a chip are left alone; `own` is what this plan's strips speak for.
    pub(super) fn spared(self, chip: ChipIx, shelf: &Shelf, own: &Spoken) -> u16 {
        if self.spare_plans { shelf.scene.elsewhere.times(chip) + own.times(chip) } else { 0 }
    }

    /// The same for the stash's own reckoning, at the costs that the user's taste gives to stand-ins.
    #[must_use]
    pub fn asking(self, taste: &Taste) -> Asking {
        Asking { case: self.case, forms: self.forms, tall: self.tall, ..asking_of(taste) }
    }
}

impl Wordings {
    /// What the stash said is not so any more.
    pub(super) fn forget(&mut self) {
        self.judged = None;
    }

    /// Asks what is left on `shelf`; `own` is what this plan's strips speak for. What was found before is looked for again.
    pub(super) fn judge(&mut self, shelf: &Shelf, own: &Spoken) {
        let mut judged = Judged::new(shelf, self.rules, own, &self.must);
        if let Some(asked) = &self.ideas {
            judged.look_for(asked);
        }
        self.idea = Walk::default();
        self.judged = Some(Box::new(judged));
    }
}

impl Walk {
    /// Goes `by` rows on, or back, in a list of `len`.
    pub(super) fn walk(&mut self, by: isize, len: usize) {
        self.chosen = step(self.chosen, by, len);
    }

    /// Moves the list so that the chosen row is seen among `rows`.
    pub(super) fn scroll(&mut self, rows: usize, len: usize) {
        self.chosen = self.chosen.min(len.saturating_sub(1));
        let lowest = (self.chosen + 1).saturating_sub(rows);
        self.top = self.top.clamp(lowest, self.chosen.max(lowest)).min(len.saturating_sub(rows).max(lowest));
    }
}

impl Judged {
    /// Asks what is left on `shelf` by `rules`; `spoken` says how many letters of each chip this plan's strips speak for.
    pub(super) fn new(shelf: &Shelf, rules: SpellRules, own: &Spoken, must: &BTreeSet<String>) -> Self {
        let spare = |chip| rules.spared(chip, shelf, own);
        let supply = Supply::new(&shelf.stash, rules.asking(&shelf.scene.taste), spare);
        let wishes = shelf.wishes.iter().map(|wish| supply.answer(&supply.demand(&wish.wording))).collect();
        let set = WishSet::new(&supply, &shelf.wishes, must);
        Self { supply, wishes, set, now: None, ideas: None, own: own.clone() }
    }

    /// Whether all this holds while the plan's strips speak for `own`.
    pub(super) fn is_for(&self, rules: SpellRules, own: &Spoken) -> bool {
        !rules.spare_plans || self.own == *own
    }

    /// Asks anew which of `wishes` can be made together, with those that `must` be.
    pub(super) fn set_wishes(&mut self, wishes: &[Wish], must: &BTreeSet<String>) {
        self.set = WishSet::new(&self.supply, wishes, must);
    }

    /// Begins to look for ideas; gives back what is said of the wording that they are to stand beside.
    pub(super) fn look_for(&mut self, asked: &IdeasAsked) -> Option<Answer> {
        let beside = asked.beside.as_deref().map(|text| Wording::new(&from_breaks(text)).unwrap_or_default());
        let demand = beside.as_ref().map(|wording| self.supply.demand(wording)).unwrap_or_default();
        let answer = beside.map(|_| self.supply.answer(&demand));
        let search = Ideas::new(asked.line.rules.clone(), demand.clone());
        self.ideas = Some(IdeaSearch { search, beside: demand, is_done: false, is_going: true });
        answer
    }

    /// Looks at `text`, `|` for a line break, unless it is looked at already; an idea within the band that it was found in, with
    /// the wording that it is to stand beside.
    pub(super) fn look_at(&mut self, text: &str, within: Option<BandIx>) {
        if self.now.as_ref().is_some_and(|now| now.text == text && now.within == within) {
            return;
        }
        let said = Wording::new(&from_breaks(text)).map_err(|error| error.to_string()).map(|wording| {
            let mut demand = self.supply.demand(&wording);
            if let (Some(_), Some(ideas)) = (within, &self.ideas) {
                demand.add(&ideas.beside);
            }
            let answer = match within {
                Some(band) => self.supply.answer_within(&demand, band),
                None => self.supply.answer(&demand),
            };
            let is_one_band = matches!(answer.verdict, Verdict::Now | Verdict::StandIns);
            let nearest = (!is_one_band).then(|| self.supply.nearest(&demand));
            Said { answer, nearest, by_size: self.supply.by_band(&demand), demand }
        });
        self.now = Some(Looked { text: text.to_owned(), within, said });
    }
}

impl IdeaSearch {
    /// What was found so far.
    #[must_use]
    pub fn found(&self) -> &[Idea] {
        self.search.found()
    }

    /// How many words were looked at so far.
    #[must_use]
    pub const fn looked_at(&self) -> usize {
        self.search.looked_at()
    }

    /// Whether all words were looked at.
    #[must_use]
    pub const fn is_done(&self) -> bool {
        self.is_done
    }

    /// Looks at so many more words.
    pub(super) fn work(&mut self, supply: &Supply, list: &WordList<'_>, words: usize) {
        if self.is_going && self.search.run(supply, list, words) {
            (self.is_going, self.is_done) = (false, true);
        }
    }
}
