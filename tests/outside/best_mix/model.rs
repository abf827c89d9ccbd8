//! The best arrangement as a mixed-integer linear model, written from the rules of the score: one variable for each letter in
//! each slot, and for each term what it takes to be spared.
//!
//! A model is for one level of height a strip; that the level is the one that its letters bring is said by rows too.
//! Must not know `oddment::checks` or `oddment::suggest`.

use std::collections::BTreeMap;

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

pub(super) struct Model<'a> {
    pub(super) lines: &'a [Line<'a>],
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
    for (place, line) in lines.iter().enumerate() {
        model.add_letters(place);
        model.add_level(place);
        model.add_joined(place);
        if line.mix != Mix::Plain {
            model.add_places(place);
            model.add_variety(place);
        }
        if line.mix == Mix::Lively {
            model.add_neighbours(place);
            model.add_fragments(place);
            model.add_counts(place);
        }
    }
    model.add_supply(left);
    model.add_most();
    model.solve(nodes)
}

pub(super) fn one(variable: Variable) -> (Variable, f64) {
    (variable, 1.0)
}

#[expect(clippy::cast_precision_loss, reason = "points and slots are small")]
fn number(whole: i64) -> f64 {
    whole as f64
}

pub(super) fn count(things: usize) -> f64 {
    number(i64::try_from(things).unwrap())
}

impl Model<'_> {
    /// A thing between 0 and 1 that costs so many tenths.
    pub(super) fn part(&mut self, tenths: i64) -> Variable {
        self.remember(tenths, |problem, cost| problem.add_var(cost, (0.0, 1.0)))
    }

    /// A thing that is 0 or 1.
    pub(super) fn whole(&mut self, tenths: i64) -> Variable {
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

    pub(super) fn row(&mut self, sum: Vec<(Variable, f64)>, is: ComparisonOp, bound: f64) {
        self.problem.add_constraint(sum, is, bound);
    }

    /// The letters in a slot that are such.
    pub(super) fn such(
        &self,
        place: usize,
        slot: usize,
        is: impl Fn(&Choice) -> bool,
    ) -> Vec<(Variable, f64)> {
        let choices = &self.lines[place].slots[slot];
        let all = choices.iter().zip(&self.letters[place][slot]);
        all.filter(|(choice, _)| is(choice)).map(|(_, &variable)| one(variable)).collect()
    }

    pub(super) fn such_in(
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
