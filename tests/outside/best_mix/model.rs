//! The best arrangement as a mixed-integer linear model, written from the rules of the score: one variable for each letter in
//! each slot, and for each term what it takes to be spared.
//!
//! A model is for one level of height a strip; that the level is the one that its letters bring is said by rows too.
//! Must not know `oddment::checks` or `oddment::suggest`.

use std::collections::{BTreeMap, BTreeSet};

use microlp::{ComparisonOp, Error, OptimizationDirection, SolveOptions, SolveOutcome, Variable};
use oddment::title::Mix;

use super::line::{Choice, Line};

/// The place of the choice in each slot of each strip.
pub(super) type Picks = Vec<Vec<usize>>;

/// What a model is to say.
#[derive(Clone)]
pub(super) struct Question {
    /// For each strip the level that it is compared by; `None`: none of its letters has a height.
    pub(super) levels: Vec<Option<usize>>,
    /// Strips, and levels that must not suit their letters better.
    pub(super) rivals: Vec<(usize, usize)>,
    /// The most that the arrangement may score, in tenths.
    pub(super) most: Option<f64>,
    /// Whether letters are whole.
    pub(super) whole: bool,
    /// The arrangement, where only its score is asked.
    pub(super) picks: Option<Picks>,
}

/// What the solver says.
pub(super) enum Answer {
    /// There is no such arrangement.
    None,
    /// It found one, with its score, and whether that is the least.
    Found { picks: Picks, score: f64, least: bool },
    /// It came to no end.
    Open,
}

struct Model<'a> {
    lines: &'a [Line<'a>],
    question: &'a Question,
    problem: microlp::Problem,
    costs: Vec<(Variable, f64)>,
    /// For each strip and slot the variable of each choice.
    letters: Vec<Vec<Vec<Variable>>>,
}

/// What the solver makes of `question`; `left` tells how many of a chip there are.
pub(super) fn ask(
    lines: &[Line<'_>],
    left: &BTreeMap<usize, usize>,
    question: &Question,
    nodes: u64,
) -> Answer {
    let problem = microlp::Problem::new(OptimizationDirection::Minimize);
    let mut model = Model { lines, question, problem, costs: Vec::new(), letters: Vec::new() };
    for place in 0..lines.len() {
        model.add_letters(place);
        model.add_level(place);
        let mix = lines[place].mix;
        model.add_joined(place);
        if mix != Mix::Plain {
            model.add_places(place);
            model.add_variety(place);
        }
        if mix == Mix::Lively {
            model.add_pairs(place);
            model.add_counts(place);
        }
    }
    model.add_supply(left);
    model.add_most();
    model.solve(nodes)
}

fn one(variable: Variable) -> (Variable, f64) {
    (variable, 1.0)
}

#[expect(clippy::cast_precision_loss, reason = "points and slots are small")]
fn number(whole: i64) -> f64 {
    whole as f64
}

fn count(things: usize) -> f64 {
    number(i64::try_from(things).unwrap())
}

impl Model<'_> {
    /// A thing between 0 and 1 that costs so many tenths.
    fn part(&mut self, tenths: i64) -> Variable {
        self.remember(tenths, |problem, cost| problem.add_var(cost, (0.0, 1.0)))
    }

    /// A thing that is 0 or 1.
    fn whole(&mut self, tenths: i64) -> Variable {
        if !self.question.whole {
            return self.part(tenths);
        }
        self.remember(tenths, microlp::Problem::add_binary_var)
    }

    fn remember(&mut self, tenths: i64, add: impl Fn(&mut microlp::Problem, f64) -> Variable) -> Variable {
        let variable = add(&mut self.problem, number(tenths));
        if tenths != 0 {
            self.costs.push((variable, number(tenths)));
        }
        variable
    }

    fn row(&mut self, sum: Vec<(Variable, f64)>, is: ComparisonOp, bound: f64) {
        self.problem.add_constraint(sum, is, bound);
    }

    /// The letters in a slot that are such.
    fn such(&self, place: usize, slot: usize, is: impl Fn(&Choice) -> bool) -> Vec<(Variable, f64)> {
        let choices = &self.lines[place].slots[slot];
        let all = choices.iter().zip(&self.letters[place][slot]);
        all.filter(|(choice, _)| is(choice)).map(|(_, &variable)| one(variable)).collect()
    }

    fn such_in(
        &self,
        place: usize,
        slots: impl IntoIterator<Item = usize>,
        is: impl Fn(&Choice) -> bool,
    ) -> Vec<(Variable, f64)> {
        slots.into_iter().flat_map(|slot| self.such(place, slot, &is)).collect()
    }

    /// One choice a slot, with what it costs by itself and as an end of the line.
    fn add_letters(&mut self, place: usize) {
        let line = &self.lines[place];
        let (level, last) = (self.question.levels[place], line.slots.len() - 1);
        let main = line.page.as_ref().is_some_and(|page| page.main.is_some());
        let mut strip = Vec::new();
        for (slot, choices) in line.slots.iter().enumerate() {
            let mut row = Vec::new();
            for choice in choices {
                let end = main && line.mix != Mix::Plain && (slot == 0 || slot == last);
                let breaks = end && choice.seen.filled && !choice.seen.main;
                row.push(self.whole(line.cost(choice, level) + 60 * i64::from(breaks)));
            }
            self.row(row.iter().copied().map(one).collect(), ComparisonOp::Eq, 1.0);
            if let Some(picks) = &self.question.picks {
                let pick = row[picks[place][slot]];
                self.row(vec![one(pick)], ComparisonOp::Eq, 1.0);
            }
            strip.push(row);
        }
        self.letters.push(strip);
    }

    /// A letter brings the level that the line is compared by, and no rival that a letter brings suits better.
    fn add_level(&mut self, place: usize) {
        let line = &self.lines[place];
        let slots = 0..line.slots.len();
        let Some(level) = self.question.levels[place] else {
            let with = self.such_in(place, slots, |choice| choice.height().is_some());
            if !with.is_empty() {
                self.row(with, ComparisonOp::Le, 0.0);
            }
            return;
        };
        let brings =
            |choice: &Choice, level: usize| choice.height().is_some_and(|own| line.level_of(own) == level);
        let bringing = self.such_in(place, slots.clone(), |choice| brings(choice, level));
        self.row(bringing, ComparisonOp::Ge, 1.0);
        for &(_, rival) in self.question.rivals.iter().filter(|rival| rival.0 == place) {
            let there = self.part(0);
            for (letter, _) in self.such_in(place, slots.clone(), |choice| brings(choice, rival)) {
                self.row(vec![(there, 1.0), (letter, -1.0)], ComparisonOp::Ge, 0.0);
            }
            let worse = |choice: &Choice| line.weight(choice, level) - line.weight(choice, rival);
            // Ties go to the larger: a rival that is larger must be worse.
            let tie = i64::from(line.levels[rival].least > line.levels[level].least);
            let mut most = tie;
            let mut sum = Vec::new();
            for (slot, choices) in line.slots.iter().enumerate() {
                most += choices.iter().map(worse).max().unwrap_or(0).max(0);
                let terms = choices.iter().zip(&self.letters[place][slot]);
                sum.extend(terms.map(|(choice, &letter)| (letter, number(worse(choice)))));
            }
            sum.retain(|(_, weight)| *weight != 0.0);
            sum.push((there, number(most)));
            self.row(sum, ComparisonOp::Le, number(most - tie));
        }
    }

    /// Script beside a letter that is not of its sheet.
    fn add_joined(&mut self, place: usize) {
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
    fn add_places(&mut self, place: usize) {
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
    fn add_variety(&mut self, place: usize) {
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

    /// Neighbours of one family, and of one sheet in a word that is not wholly from it.
    fn add_pairs(&mut self, place: usize) {
        let asked = self.lines[place].strip.wording().slots();
        let words = self.lines[place].words();
        let mut whole: BTreeMap<(usize, String), Variable> = BTreeMap::new();
        for (word, slots) in words.iter().enumerate() {
            let each = slots.iter().map(|&slot| self.sheets(place, slot, |_| true));
            let common = each.reduce(|a, b| a.intersection(&b).cloned().collect()).unwrap_or_default();
            for sheet in common {
                let all = self.part(0);
                for &slot in slots {
                    let mut row = self.such(place, slot, |choice| sheet_of(choice) == Some(&sheet));
                    row.push((all, -1.0));
                    self.row(row, ComparisonOp::Ge, 0.0);
                }
                whole.insert((word, sheet), all);
            }
        }
        for slot in 1..asked.len() {
            if asked[slot - 1].line != asked[slot].line {
                continue;
            }
            let in_word = self.in_word(place, slot);
            let mut alike = None;
            for family in families(&self.lines[place]) {
                let of = |choice: &Choice| choice.seen.family == Some(family);
                let (before, here) = (self.such(place, slot - 1, of), self.such(place, slot, of));
                if !before.is_empty() && !here.is_empty() {
                    let alike = *alike.get_or_insert_with(|| self.part(if in_word { 30 } else { 10 }));
                    let sum = [before, here, vec![(alike, -1.0)]].concat();
                    self.row(sum, ComparisonOp::Le, 1.0);
                }
            }
            if !in_word {
                continue;
            }
            let (before, here) = [slot - 1, slot].map(|slot| self.sheets(place, slot, |_| true)).into();
            let mut piece = None;
            for sheet in before.intersection(&here) {
                let of = |choice: &Choice| sheet_of(choice) == Some(sheet);
                let piece = *piece.get_or_insert_with(|| self.part(20));
                let mut sum = self.such_in(place, [slot - 1, slot], of);
                sum.push((piece, -1.0));
                sum.extend(whole.get(&(asked[slot].word, sheet.clone())).map(|&all| (all, -1.0)));
                self.row(sum, ComparisonOp::Le, 1.0);
            }
        }
    }

    /// The main colour leads, and no family drowns the others.
    fn add_counts(&mut self, place: usize) {
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

    /// No chip more often than there are letters of it, on all strips together.
    fn add_supply(&mut self, left: &BTreeMap<usize, usize>) {
        for (&chip, &left) in left {
            let mut sum = Vec::new();
            let mut slots = 0;
            for (place, line) in self.lines.iter().enumerate() {
                for slot in 0..line.slots.len() {
                    let uses = |choice: &Choice| choice.letter.is_some_and(|one| one.0.get() == chip);
                    let here = self.such(place, slot, uses);
                    slots += usize::from(!here.is_empty());
                    sum.extend(here);
                }
            }
            if slots > left {
                self.row(sum, ComparisonOp::Le, count(left));
            }
        }
    }

    fn add_most(&mut self) {
        if let Some(most) = self.question.most {
            let costs = self.costs.clone();
            self.row(costs, ComparisonOp::Le, most);
        }
    }

    fn solve(self, nodes: u64) -> Answer {
        let mut options = SolveOptions::default();
        options.node_limit = Some(nodes);
        match self.problem.solve_with(options) {
            Err(Error::Infeasible) => Answer::None,
            Err(_) | Ok(SolveOutcome::Interrupted(_)) => Answer::Open,
            Ok(SolveOutcome::Solution(found)) => {
                let pick = |row: &Vec<Variable>| {
                    let value = |&place: &usize| found.var_value(row[place]);
                    (0..row.len()).max_by(|a, b| value(a).total_cmp(&value(b))).unwrap()
                };
                let picks = self.letters.iter().map(|strip| strip.iter().map(pick).collect()).collect();
                let least = found.status() == microlp::SolutionStatus::Optimal;
                Answer::Found { picks, score: found.objective(), least }
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
