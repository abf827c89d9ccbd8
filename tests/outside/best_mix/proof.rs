//! The least score that the solver can prove: a model for each level of height that the strips could be compared by.
//!
//! Must not know `oddment::checks` or `oddment::suggest`.

use std::collections::BTreeMap;

use oddment::plan::Plan;
use oddment::title::{Sticker, Stood};

use super::cases::Likely;
use super::line::{Line, left};
use super::model::{Answer, Picks, Question, ask};
use crate::draw::filled;
use crate::opinion::{line_height, suits, sum, terms};

/// Nodes of one model's tree that the solver may look at: a count, so that every machine comes to the same end.
const NODES: u64 = 400;

/// What is to be proved of a case.
pub(super) struct Proof<'a> {
    case: &'a Likely,
    pub(super) lines: Vec<Line<'a>>,
    left: BTreeMap<usize, usize>,
}

/// What came of it.
pub(super) struct Least {
    /// The least score found, in tenths.
    pub(super) score: Option<i64>,
    /// Whether nothing scores less.
    pub(super) is_proved: bool,
}

impl<'a> Proof<'a> {
    pub(super) fn of(case: &'a Likely) -> Self {
        let lines: Vec<Line<'a>> = (0..case.plan.strips().len()).map(|place| Line::of(case, place)).collect();
        let letters = lines.iter().flat_map(|line| line.slots.iter().flatten());
        let left = letters
            .filter_map(|choice| choice.letter)
            .map(|(chip, _)| (chip.get(), left(&case.plan, &case.stash, chip)))
            .collect();
        Self { case, lines, left }
    }

    /// What the model says that `picks` scores.
    pub(super) fn score_in_model(&self, picks: &Picks) -> Option<f64> {
        let question = Question { picks: Some(picks.clone()), ..question(self.levels(picks)) };
        match ask(&self.lines, &self.left, &question, NODES) {
            Answer::Found { score, .. } => Some(score),
            Answer::None | Answer::Open => None,
        }
    }

    /// The least that letters, were they divisible, could score at the levels of `picks`: never above what it scores.
    pub(super) fn floor(&self, picks: &Picks) -> Option<f64> {
        let question = Question { whole: false, ..question(self.levels(picks)) };
        match ask(&self.lines, &self.left, &question, NODES) {
            Answer::Found { score, .. } => Some(score),
            Answer::None | Answer::Open => None,
        }
    }

    /// What the second opinion says that `picks` scores.
    pub(super) fn score(&self, picks: &Picks) -> i64 {
        let stash = &self.case.stash;
        let mut strips = Vec::new();
        for (line, picks) in self.lines.iter().zip(picks) {
            let mut letters = line.strip.letters().to_vec();
            for (slot, &pick) in picks.iter().enumerate() {
                if let Some((chip, stands_in)) = line.slots[slot][pick].letter {
                    let sticker = Sticker::Chip { id: stash.chip(chip).id(), stands_in };
                    letters[slot] = Some(Stood::straight(sticker));
                }
            }
            strips.push(filled(line.strip.clone(), letters));
        }
        let plan = Plan::new(None, self.case.plan.page.clone(), strips).unwrap();
        let of = |place| sum(&terms(&plan, place, stash, &self.case.other).unwrap());
        (0..plan.strips().len()).map(of).sum()
    }

    /// The level of each strip that its letters bring.
    fn levels(&self, picks: &Picks) -> Vec<Option<usize>> {
        let level = |(line, picks): (&Line<'_>, &Vec<usize>)| {
            let stood = picks.iter().enumerate().map(|(slot, &pick)| &line.slots[slot][pick]);
            let heights: Vec<i64> = stood.filter_map(super::line::Choice::height).collect();
            let height = line_height(&heights, suits(line.strip, &self.case.plan.page))?;
            Some(line.level_of(height))
        };
        self.lines.iter().zip(picks).map(level).collect()
    }

    /// Looks for the least score, below `most` only if that is given.
    pub(super) fn least(&self, most: Option<i64>) -> Least {
        let mut least = Least { score: None, is_proved: true };
        for levels in self.ways(most) {
            let mut asked = question(levels);
            loop {
                asked.most = least.score.or(most).map(just_below);
                match ask(&self.lines, &self.left, &asked, NODES) {
                    Answer::None => break,
                    Answer::Open => {
                        least.is_proved = false;
                        break;
                    }
                    Answer::Found { picks, score, least: is_least } => {
                        let brought = self.levels(&picks);
                        if brought == asked.levels {
                            let said = self.score(&picks);
                            assert!((score - number(said)).abs() < 1e-3, "model {score}, opinion {said}");
                            assert!(least.score.or(most).is_none_or(|best| said < best), "{said} is no less");
                            least.score = Some(said);
                            least.is_proved &= is_least;
                            break;
                        }
                        // Its letters bring another level: that one must be told of.
                        let before = asked.rivals.len();
                        for (place, brought) in brought.into_iter().enumerate() {
                            let rival = brought.filter(|_| brought != asked.levels[place]);
                            asked.rivals.extend(rival.map(|rival| (place, rival)));
                        }
                        assert!(asked.rivals.len() > before, "no level was brought");
                    }
                }
            }
        }
        least
    }

    /// Every level of every strip with every other's, save those that cannot score less by divisible letters.
    fn ways(&self, most: Option<i64>) -> Vec<Vec<Option<usize>>> {
        let levels = |line: &Line<'_>| -> Vec<Option<usize>> {
            (0..line.levels.len()).map(Some).chain([None]).collect()
        };
        let [title, subtitle] = self.lines.as_slice() else {
            return levels(&self.lines[0]).into_iter().map(|level| vec![level]).collect();
        };
        let floors = |line: &Line<'_>, place: usize| -> Vec<(Option<usize>, f64)> {
            let floor = |level: Option<usize>| {
                let question = Question { whole: false, ..question(vec![level]) };
                match ask(&self.lines[place..=place], &self.left, &question, NODES) {
                    Answer::Found { score, .. } => Some((level, score)),
                    Answer::None => None,
                    Answer::Open => Some((level, 0.0)),
                }
            };
            levels(line).into_iter().filter_map(floor).collect()
        };
        let (above, below) = (floors(title, 0), floors(subtitle, 1));
        let mut ways: Vec<(f64, Vec<Option<usize>>)> = Vec::new();
        for &(title, first) in &above {
            ways.extend(below.iter().map(|&(subtitle, second)| (first + second, vec![title, subtitle])));
        }
        ways.retain(|way| most.is_none_or(|most| way.0 <= just_below(most) + 1e-3));
        ways.sort_by(|a, b| a.0.total_cmp(&b.0));
        ways.into_iter().map(|way| way.1).collect()
    }
}

/// For the least score of whole letters at these levels.
fn question(levels: Vec<Option<usize>>) -> Question {
    Question { levels, rivals: Vec::new(), most: None, whole: true, picks: None }
}

#[expect(clippy::cast_precision_loss, reason = "scores are small")]
fn number(tenths: i64) -> f64 {
    tenths as f64
}

/// Less than `tenths`: scores are whole, so nearly one tenth less.
fn just_below(tenths: i64) -> f64 {
    number(tenths) - 0.9
}
