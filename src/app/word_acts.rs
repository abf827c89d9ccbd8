//! What can be done in the wording's view.
//!
//! Must not know which key asked.

use crate::stash::Sheet;
use crate::supply::Idea;
use crate::title::{CaseRule, FormRule, Wish, Wording};

use super::action::Action;
use super::ahead::{Ahead, ahead_told};
use super::answer_told::{answer_explained, share_explained};
use super::asking::Question;
use super::effect::Effect;
use super::filter::read_heights;
use super::input::{Mouse, MouseAct};
use super::over::Over;
use super::panes::{WordPanes, word_panes};
use super::state::State;
use super::typing::{What, from_breaks, with_breaks};
use super::view::View;
use super::wordings::{Judged, LookedAt, Said, WordingList, Wordings};

/// Steps towards the most wishes together, for each sheet on sale: some tens of milliseconds at most.
const AHEAD: u64 = 50_000;

impl State {
    pub(super) fn act_on_wordings(&mut self, action: Action) -> Vec<Effect> {
        let page = isize::try_from(self.wording_rows()).unwrap_or(10);
        match action {
            Action::WordingUp => self.walk_wordings(-1),
            Action::WordingDown => self.walk_wordings(1),
            Action::WordingPageUp => self.walk_wordings(-page),
            Action::WordingPageDown => self.walk_wordings(page),
            Action::WordingFirst => self.walk_wordings(isize::MIN / 2),
            Action::WordingLast => self.walk_wordings(isize::MAX / 2),
            Action::OtherList => self.other_list(),
            Action::UseWording => self.use_wording(),
            Action::AddWish => return self.add_wish(),
            Action::DropWish => self.ask_to_drop_wish(),
            Action::MustWish => self.must_wish(),
            Action::SparePlans => {
                self.wordings.rules.spare_plans ^= true;
                self.wordings.forget();
            }
            Action::SpellCase => {
                self.wordings.rules.case = next(CaseRule::ALL, self.wordings.rules.case);
                self.wordings.forget();
            }
            Action::SpellForms => {
                self.wordings.rules.forms = next(FormRule::ALL, self.wordings.rules.forms);
                self.wordings.forget();
            }
            Action::FindIdeas => self.type_ideas(),
            Action::LookAhead => return vec![Effect::LookAhead],
            Action::ExplainWording => self.explain_wording(),
            Action::SpellHeights => {
                let text = self.wordings.rules.tall.map_or_else(String::new, |(least, most)| {
                    format!("{}-{}", least.show(self.unit()), most.show(self.unit())).replace(' ', "")
                });
                self.type_in(What::SpellHeights, &text);
            }
            _ => {}
        }
        Vec::new()
    }

    /// Where the panes of the view lie.
    #[must_use]
    pub fn word_panes(&self) -> WordPanes {
        word_panes(self.look.columns, self.look.rows)
    }

    /// How many wishes, or ideas, are seen at once.
    #[must_use]
    pub fn wording_rows(&self) -> usize {
        usize::from(self.word_panes().wishes.height.saturating_sub(1)).max(1)
    }

    /// Moves both lists so that what is chosen is seen.
    pub(super) fn scroll_wordings(&mut self) {
        let (rows, wishes, ideas) = (self.wording_rows(), self.shelf.wishes.len(), self.ideas().len());
        self.wordings.wish.scroll(rows, wishes);
        self.wordings.idea.scroll(rows, ideas);
    }

    /// How many rows the list in hand has.
    pub(super) fn wordings_listed(&self) -> usize {
        match self.wordings.list {
            WordingList::Wishes => self.shelf.wishes.len(),
            WordingList::Ideas => self.ideas().len(),
        }
    }

    /// The wording that is looked at, `|` for a line break.
    #[must_use]
    pub fn wording_looked_at(&self) -> String {
        if let Over::Typing(typing) = &self.over
            && typing.what == What::Spell
        {
            return typing.text().to_owned();
        }
        let wish =
            || self.shelf.wishes.get(self.wordings.wish.chosen).map(|wish| with_breaks(wish.wording.text()));
        let found = match self.looked_at() {
            LookedAt::Wish => wish(),
            LookedAt::Idea => self.idea().map(|idea| idea.text.clone()),
            LookedAt::Typed => None,
        };
        let own = || with_breaks(self.strip().wording().text());
        found.or_else(|| self.wordings.typed.clone()).unwrap_or_else(own)
    }

    /// Where the wording is from that is looked at: it is not a wish or an idea that is there no longer.
    #[must_use]
    pub fn looked_at(&self) -> LookedAt {
        match self.wordings.looked_at {
            LookedAt::Wish if self.shelf.wishes.get(self.wordings.wish.chosen).is_none() => LookedAt::Typed,
            LookedAt::Idea if self.idea().is_none() => LookedAt::Typed,
            from => from,
        }
    }

    /// The wording beside which the idea is to stand that is looked at, `|` for a line break: what is said is said of both.
    #[must_use]
    pub fn beside_looked_at(&self) -> Option<&str> {
        let beside = self.wordings.ideas.as_ref()?.beside.as_deref()?;
        (self.looked_at() == LookedAt::Idea && !beside.trim().is_empty()).then_some(beside)
    }

    /// The idea that is looked at.
    fn idea_looked_at(&self) -> Option<&Idea> {
        let is_typed = matches!(&self.over, Over::Typing(typing) if typing.what == What::Spell);
        (self.wordings.looked_at == LookedAt::Idea && !is_typed).then(|| self.idea()).flatten()
    }

    /// Asks the stash what is not known yet of the wordings that are seen, while they are.
    pub(super) fn judge_wordings(&mut self) {
        if self.look.view != View::Wording {
            return;
        }
        let own = self.trial.spoken();
        if self.wordings.judged.as_ref().is_none_or(|judged| !judged.is_for(self.wordings.rules, own)) {
            self.wordings.judge(&self.shelf, own);
            self.work.begin();
        }
        let text = self.wording_looked_at();
        let within = self.idea_looked_at().map(|idea| idea.place);
        if let Some(judged) = &mut self.wordings.judged {
            judged.look_at(&text, within);
        }
    }

    /// Begins to type a wording.
    pub(super) fn type_wording(&mut self) {
        let text = self.wording_looked_at();
        self.type_in(What::Spell, &text);
    }

    pub(super) fn take_spelled(&mut self, text: &str) -> Result<(), String> {
        Wording::new(&from_breaks(text)).map_err(|error| error.to_string())?;
        self.wordings.typed = Some(text.to_owned());
        self.wordings.looked_at = LookedAt::Typed;
        Ok(())
    }

    pub(super) fn take_heights(&mut self, text: &str) -> Result<(), String> {
        let text = text.trim();
        let tall = if text.is_empty() {
            None
        } else {
            Some(read_heights(text, self.unit()).ok_or("write two heights, such as 18-26")?)
        };
        self.wordings.rules.tall = tall;
        self.wordings.forget();
        Ok(())
    }

    fn walk_wordings(&mut self, by: isize) {
        let rows = self.wording_rows();
        let (wishes, ideas) = (self.shelf.wishes.len(), self.ideas().len());
        let wordings = &mut self.wordings;
        // The first step only goes to where the list stands.
        let (walk, len, looked_at) = match wordings.list {
            WordingList::Wishes => (&mut wordings.wish, wishes, LookedAt::Wish),
            WordingList::Ideas => (&mut wordings.idea, ideas, LookedAt::Idea),
        };
        let by = if wordings.looked_at == looked_at || by.unsigned_abs() > 1 { by } else { 0 };
        walk.walk(by, len);
        walk.scroll(rows, len);
        if len > 0 {
            wordings.looked_at = looked_at;
        }
    }

    fn other_list(&mut self) {
        self.wordings.list = match self.wordings.list {
            WordingList::Wishes => WordingList::Ideas,
            WordingList::Ideas => WordingList::Wishes,
        };
        self.walk_wordings(0);
    }

    /// Gives the wording to the strip in hand, and goes to the bench.
    fn use_wording(&mut self) {
        let text = self.wording_looked_at();
        match self.take_wording(&text) {
            Ok(()) => self.go_to(View::Bench),
            Err(why) => self.complain(why),
        }
    }

    /// Tells which letters run out first, what each of these sheets would unlock, and what spent sheets still make.
    pub fn look_ahead(&mut self, on_sale: Vec<Sheet>) {
        let wishes: Vec<Wording> = self.shelf.wishes.iter().map(|wish| wish.wording.clone()).collect();
        let rules = self.wordings.rules;
        let asking = rules.asking(&self.shelf.scene.taste);
        let spare = |chip| rules.spared(chip, &self.shelf, self.trial.spoken());
        let ahead = Ahead::new(&self.shelf.stash, &asking, spare, &wishes, on_sale, AHEAD);
        let told = ahead_told(&ahead).join("\n");
        self.show_page("looking ahead", &told);
    }

    /// Tells what stands in for what, and what is short.
    fn explain_wording(&mut self) {
        self.judge_wordings();
        let Some(judged) = &self.wordings.judged else { return };
        let Judged { supply, now: Some(now), .. } = &**judged else { return };
        let text = match &now.said {
            Ok(Said { answer, nearest, demand, .. }) => {
                let answers = (answer, nearest.as_ref());
                let told = answer_explained(answers, demand, supply, &self.shelf.stash, self.unit());
                let share = judged.set.share_of(self.wordings.wish.chosen);
                let share = share.filter(|_| self.wordings.looked_at == LookedAt::Wish);
                told + &share.map_or_else(String::new, |share| {
                    let told = share_explained(share, supply, &self.shelf.stash, self.unit());
                    format!("\n\nWith the other wishes that are made: {told}")
                })
            }
            Err(why) => why.clone(),
        };
        let beside = self.beside_looked_at().map_or_else(String::new, |beside| format!(" beside {beside}"));
        let heading = format!("what the stash says to {}{beside}", now.text);
        self.show_page(&heading, &text);
    }

    fn add_wish(&mut self) -> Vec<Effect> {
        let wording = match Wording::new(&from_breaks(&self.wording_looked_at())) {
            Ok(wording) if wording.is_empty() => {
                let key = self.key_told(Action::Wording);
                self.say(format!("type a wording first ({key})"));
                return Vec::new();
            }
            Ok(wording) => wording,
            Err(error) => {
                self.complain(error.to_string());
                return Vec::new();
            }
        };
        if self.shelf.wishes.iter().any(|wish| wish.is_for(&wording)) {
            self.say("this is wished for already");
            return Vec::new();
        }
        let dropped = self.wordings.dropped.as_ref().filter(|dropped| dropped.is_for(&wording));
        let wish = Wish { note: dropped.and_then(|dropped| dropped.note.clone()), wording };
        if self.may_keep() { vec![Effect::AddWish(wish)] } else { Vec::new() }
    }

    fn ask_to_drop_wish(&mut self) {
        let Some(wish) = self.shelf.wishes.get(self.wordings.wish.chosen) else {
            return self.say("there is no wish yet");
        };
        let wording = wish.wording.clone();
        if self.may_keep() {
            self.over = Over::Question(Question::DropWish(wording));
        }
    }

    fn must_wish(&mut self) {
        let Some(wish) = self.shelf.wishes.get(self.wordings.wish.chosen) else {
            return self.say("there is no wish yet");
        };
        let text = wish.wording.text().to_owned();
        if !self.wordings.must.remove(&text) {
            self.wordings.must.insert(text);
        }
        let Some(judged) = &mut self.wordings.judged else { return };
        judged.set_wishes(&self.shelf.wishes, &self.wordings.must);
        let one_line = |&wish: &usize| with_breaks(self.shelf.wishes[wish].wording.text());
        let refused: Vec<String> = judged.set.refused().iter().map(one_line).collect();
        self.work.begin();
        if !refused.is_empty() {
            self.say(format!("{} cannot be made besides what must be", refused.join(", ")));
        }
    }

    /// A wish was dropped: it is looked at, and can be wished for again.
    pub fn hold_dropped(&mut self, wish: Wish) {
        self.wordings.typed = Some(with_breaks(wish.wording.text()));
        self.wordings.looked_at = LookedAt::Typed;
        self.wordings.dropped = Some(wish);
    }

    /// The wishes as they are now, after one was added or dropped.
    pub fn take_wishes(&mut self, wishes: Vec<Wish>, told: impl Into<String>) {
        let is_longer = wishes.len() > self.shelf.wishes.len();
        // A list with errors is not written.
        (self.shelf.wishes, self.shelf.are_wishes_amiss) = (wishes, false);
        if is_longer {
            self.wordings.wish.chosen = self.shelf.wishes.len() - 1;
        }
        self.scroll_wordings();
        self.wordings.forget();
        self.say(told);
        self.judge_wordings();
    }

    /// Goes on with what was asked of the same stash beside another plan; it is asked anew.
    pub fn take_wordings(&mut self, wordings: Wordings) {
        self.wordings = wordings;
        self.wordings.forget();
        self.scroll_wordings();
        self.judge_wordings();
    }

    /// A click chooses a wish or an idea; the wheel walks.
    pub(super) fn mouse_on_wordings(&mut self, mouse: Mouse) {
        let panes = self.word_panes();
        let holds = |area: super::panes::Area| area.holds(mouse.column, mouse.row);
        let list = match () {
            () if holds(panes.wishes) => WordingList::Wishes,
            () if holds(panes.ideas) => WordingList::Ideas,
            () => return,
        };
        match mouse.what {
            MouseAct::WheelUp | MouseAct::WheelDown => {
                self.wordings.list = list;
                self.walk_wordings(if mouse.what == MouseAct::WheelUp { -1 } else { 1 });
            }
            MouseAct::Press if mouse.row > panes.wishes.y => {
                let row = usize::from(mouse.row - panes.wishes.y - 1);
                let (walk, len) = match list {
                    WordingList::Wishes => (self.wordings.wish, self.shelf.wishes.len()),
                    WordingList::Ideas => (self.wordings.idea, self.ideas().len()),
                };
                if walk.top + row < len {
                    self.wordings.list = list;
                    match list {
                        WordingList::Wishes => self.wordings.wish.chosen = walk.top + row,
                        WordingList::Ideas => self.wordings.idea.chosen = walk.top + row,
                    }
                    self.walk_wordings(0);
                }
            }
            _ => {}
        }
    }
}

/// The one after `now`; after the last the first.
fn next<T: Copy + PartialEq>(all: &[T], now: T) -> T {
    let place = all.iter().position(|one| *one == now).map_or(0, |place| (place + 1) % all.len());
    all[place]
}
