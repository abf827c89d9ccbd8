//! The search for ideas, and for the wishes that can be made together: begun, taken on between keys, stopped.
//!
//! Must not know which key asked.

use crate::supply::{Idea, Verdict, WordList};

use super::action::Action;
use super::answer_told::verdict_told;
use super::effect::Effect;
use super::idea_line::IdeaLine;
use super::state::State;
use super::typing::{What, with_breaks};
use super::view::View;
use super::wordings::{IdeaSearch, IdeasAsked, Judged, LookedAt, Walk, WordingList};

impl State {
    /// The ideas found so far.
    #[must_use]
    pub fn ideas(&self) -> &[Idea] {
        let search = self.wordings.judged.as_ref().and_then(|judged| judged.ideas.as_ref());
        search.map_or(&[], IdeaSearch::found)
    }

    /// The chosen idea.
    pub(super) fn idea(&self) -> Option<&Idea> {
        self.ideas().get(self.wordings.idea.chosen)
    }

    pub(super) fn type_ideas(&mut self) {
        let text = self.wordings.ideas.as_ref().map_or_else(String::new, |asked| asked.text.clone());
        self.type_in(What::Ideas, &text);
    }

    /// Takes the line that says which ideas are looked for; a list of the user's own has to be read first.
    pub(super) fn take_idea_line(&mut self, text: &str) -> Result<Vec<Effect>, String> {
        let line = IdeaLine::read(text)?;
        let beside = line.beside.then(|| self.wording_beside());
        self.wordings.ideas =
            Some(IdeasAsked { text: text.trim().to_owned(), line, beside, list: WordList::english() });
        Ok(vec![Effect::LookForIdeas])
    }

    /// Looks for ideas: in the list of the user's own first, where there is one, then among the English words.
    pub fn look_for_ideas(&mut self, own: Option<String>) {
        self.judge_wordings();
        let (Some(asked), Some(judged)) = (&mut self.wordings.ideas, &mut self.wordings.judged) else {
            return;
        };
        if let Some(own) = own {
            asked.list = WordList::english().after(&own);
        }
        let beside = judged.look_for(asked);
        self.wordings.list = WordingList::Ideas;
        self.wordings.idea = Walk::default();
        self.wordings.looked_at = LookedAt::Typed;
        self.work.begin();
        if let Some(answer) = beside.filter(|answer| answer.band.is_none() && answer.verdict != Verdict::Now)
        {
            let told = verdict_told(&answer, self.unit());
            self.complain(format!("nothing can stand beside it: the wording itself is {told}"));
        }
    }

    /// Whether something is looked for among wordings, and seen.
    pub(super) fn works_on_wordings(&self) -> bool {
        let is_going =
            |judged: &Judged| judged.set.is_going() || judged.ideas.as_ref().is_some_and(|one| one.is_going);
        self.look.view == View::Wording && self.wordings.judged.as_deref().is_some_and(is_going)
    }

    /// What is looked for among wordings, and how it is stopped.
    pub(super) fn wordings_progress(&self) -> Option<String> {
        let judged = self.wordings.judged.as_ref()?;
        let what = match &judged.ideas {
            Some(search) if search.is_going => "ideas",
            _ => "more wishes together",
        };
        Some(format!("looking for {what} ({} stops)", self.key_told(Action::StopLooking)))
    }

    /// Takes that on: by so many words, or by so many steps towards the most wishes that can be made together.
    pub(super) fn work_on_wordings(&mut self, steps: u64) {
        let Some(judged) = &mut self.wordings.judged else { return };
        if let (Some(search), Some(asked)) = (&mut judged.ideas, &self.wordings.ideas)
            && search.is_going
        {
            search.work(&judged.supply, &asked.list, usize::try_from(steps).unwrap_or(usize::MAX));
            // The idea that is seen may be one that was just found again.
            return self.judge_wordings();
        }
        judged.set.work(&judged.supply, steps);
    }

    /// Stops what is looked for among wordings; what was found stays.
    pub(super) fn stop_wordings(&mut self) {
        let Some(judged) = &mut self.wordings.judged else { return };
        match &mut judged.ideas {
            Some(search) if search.is_going => search.is_going = false,
            _ => judged.set.stop(&judged.supply),
        }
    }

    /// The wording that ideas are to stand beside: an idea is none.
    fn wording_beside(&self) -> String {
        let typed = || self.wordings.typed.clone();
        let own = || with_breaks(self.strip().wording().text());
        match self.looked_at() {
            LookedAt::Idea => typed().unwrap_or_else(own),
            LookedAt::Typed | LookedAt::Wish => self.wording_looked_at(),
        }
    }
}
