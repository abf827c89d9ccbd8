//! The terms of the score beyond a letter by itself, as rows of the model: each costs its points unless it is spared.
//!
//! Must not know `oddment::checks` or `oddment::suggest`.

use std::collections::{BTreeMap, BTreeSet};

use microlp::{ComparisonOp, Variable};
use oddment::title::Mix;

use super::line::{Choice, Line};
use super::model::{Model, count, one};

impl Model<'_> {
    /// Script beside a letter that is not of its sheet.
    pub(super) fn add_joined(&mut self, place: usize) {
        for slot in 1..self.lines[place].slots.len() {
            if !self.in_word(place, slot) {
                continue;
            }
            let mut broken = None;
            for (script, beside) in [(slot - 1, slot), (slot, slot - 1)] {
                for sheet in self.sheets(place, script, |choice| {
                    choice.seen.letter.as_ref().is_some_and(|letter| letter.joined)
                }) {
                    let broken = *broken.get_or_insert_with(|| self.part(100));
                    let mut sum = self.such(place, script, |choice| sheet_of(choice) == Some(&sheet));
                    let goes = |choice: &Choice| !choice.seen.filled || sheet_of(choice) == Some(&sheet);
                    sum.extend(self.such(place, beside, goes).into_iter().map(|(letter, _)| (letter, -1.0)));
                    sum.push((broken, -1.0));
                    self.row(sum, ComparisonOp::Le, 0.0);
                }
            }
        }
    }

    fn in_word(&self, place: usize, slot: usize) -> bool {
        let asked = self.lines[place].strip.wording().slots();
        asked[slot - 1].word == asked[slot].word
    }

    /// The sheets that letters of a slot come from.
    fn sheets(&self, place: usize, slot: usize, is: impl Fn(&Choice) -> bool) -> BTreeSet<String> {
        let such = self.lines[place].slots[slot].iter().filter(|choice| is(choice));
        such.filter_map(sheet_of).cloned().collect()
    }

    /// Where the main colour and the second are wanted.
    pub(super) fn add_places(&mut self, place: usize) {
        let (line, n) = (&self.lines[place], self.lines[place].slots.len());
        let Some(page) = line.page.as_ref().filter(|_| n >= 5) else { return };
        if page.main.is_some() {
            let third = n.div_ceil(3);
            let mut sum = self.such_in(place, third..n - third, |choice| choice.seen.main);
            sum.push(one(self.part(40)));
            self.row(sum, ComparisonOp::Ge, 1.0);
        }
        if let Some(second) = page.second {
            for end in [0..3, n - 3..n] {
                let mut sum = self.such_in(place, end, |choice| choice.seen.family == Some((0, second)));
                sum.push(one(self.part(20)));
                self.row(sum, ComparisonOp::Ge, 1.0);
            }
        }
    }

    /// How many families there are to be: of letters, or of whole words.
    pub(super) fn add_variety(&mut self, place: usize) {
        let (line, n) = (&self.lines[place], self.lines[place].slots.len());
        if n < 5 {
            return;
        }
        let words = line.words();
        let mut want = line.page.as_ref().map_or(3, |page| page.without_ground.min(3));
        if line.mix == Mix::Words {
            want = want.min(words.len());
        }
        let mut sum = Vec::new();
        let counts = |family: &(u8, usize)| line.page.is_none() || family.0 == 0;
        for family in families(line).into_iter().filter(counts) {
            let of = |choice: &Choice| choice.seen.family == Some(family);
            let there = self.part(0);
            let mut ways = vec![(there, -1.0)];
            if line.mix == Mix::Words {
                for word in &words {
                    let whole = self.part(0);
                    for &slot in word {
                        let mut row = self.such(place, slot, of);
                        row.push((whole, -1.0));
                        self.row(row, ComparisonOp::Ge, 0.0);
                    }
                    ways.push(one(whole));
                }
            } else {
                ways.extend(self.such_in(place, 0..n, of));
            }
            self.row(ways, ComparisonOp::Ge, 0.0);
            sum.push(one(there));
        }
        for _ in 0..want {
            sum.push(one(self.part(80)));
        }
        if want > 0 {
            self.row(sum, ComparisonOp::Ge, count(want));
        }
    }

    /// Neighbours of one family.
    pub(super) fn add_neighbours(&mut self, place: usize) {
        let asked = self.lines[place].strip.wording().slots();
        for slot in 1..asked.len() {
            if asked[slot - 1].line != asked[slot].line {
                continue;
            }
            let tenths = if self.in_word(place, slot) { 30 } else { 10 };
            let mut alike = None;
            for family in families(&self.lines[place]) {
                let of = |choice: &Choice| choice.seen.family == Some(family);
                let (before, here) = (self.such(place, slot - 1, of), self.such(place, slot, of));
                if !before.is_empty() && !here.is_empty() {
                    let alike = *alike.get_or_insert_with(|| self.part(tenths));
                    self.row([before, here, vec![(alike, -1.0)]].concat(), ComparisonOp::Le, 1.0);
                }
            }
        }
    }

    /// Neighbours of one sheet in a word that is not wholly from it.
    pub(super) fn add_fragments(&mut self, place: usize) {
        let asked = self.lines[place].strip.wording().slots();
        let whole = self.whole_words(place);
        for slot in (1..asked.len()).filter(|&slot| self.in_word(place, slot)).collect::<Vec<_>>() {
            if asked[slot - 1].line != asked[slot].line {
                continue;
            }
            let [before, here] = [slot - 1, slot].map(|slot| self.sheets(place, slot, |_| true));
            let mut piece = None;
            for sheet in before.intersection(&here) {
                let piece = *piece.get_or_insert_with(|| self.part(20));
                let of = |choice: &Choice| sheet_of(choice) == Some(sheet);
                let mut sum = self.such_in(place, [slot - 1, slot], of);
                sum.push((piece, -1.0));
                sum.extend(whole.get(&(asked[slot].word, sheet.clone())).map(|&all| (all, -1.0)));
                self.row(sum, ComparisonOp::Le, 1.0);
            }
        }
    }

    /// For each word and each sheet that it could be wholly from, whether it is.
    fn whole_words(&mut self, place: usize) -> BTreeMap<(usize, String), Variable> {
        let mut whole = BTreeMap::new();
        for (word, slots) in self.lines[place].words().into_iter().enumerate() {
            let each = slots.iter().map(|&slot| self.sheets(place, slot, |_| true));
            let common = each.reduce(|a, b| a.intersection(&b).cloned().collect()).unwrap_or_default();
            for sheet in common {
                let all = self.part(0);
                for &slot in &slots {
                    let mut row = self.such(place, slot, |choice| sheet_of(choice) == Some(&sheet));
                    row.push((all, -1.0));
                    self.row(row, ComparisonOp::Ge, 0.0);
                }
                whole.insert((word, sheet), all);
            }
        }
        whole
    }

    /// The main colour leads, and no family drowns the others.
    pub(super) fn add_counts(&mut self, place: usize) {
        let (line, n) = (&self.lines[place], self.lines[place].slots.len());
        if n < 5 {
            return;
        }
        if let Some(main) = line.page.as_ref().and_then(|page| page.main) {
            let want = n.div_ceil(3);
            let mut sum = self.such_in(place, 0..n, |choice| choice.seen.family == Some((0, main)));
            sum.push((self.whole(40), count(want)));
            self.row(sum, ComparisonOp::Ge, count(want));
        }
        let most = 3 * n / 5;
        let mut drowned = None;
        for family in families(line) {
            let of = |choice: &Choice| choice.seen.family == Some(family);
            if (0..n).filter(|&slot| line.slots[slot].iter().any(of)).count() > most {
                let drowned = *drowned.get_or_insert_with(|| self.whole(60));
                let mut sum = self.such_in(place, 0..n, of);
                sum.push((drowned, -count(n - most)));
                self.row(sum, ComparisonOp::Le, count(most));
            }
        }
    }
}

fn sheet_of(choice: &Choice) -> Option<&String> {
    choice.seen.letter.as_ref().map(|letter| &letter.sheet)
}

fn families(line: &Line<'_>) -> BTreeSet<(u8, usize)> {
    line.slots.iter().flatten().filter_map(|choice| choice.seen.family).collect()
}
