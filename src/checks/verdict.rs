//! The verdict on a plan: every finding and the score.
//!
//! Must not know how it is shown.

use crate::measure::{Length, Points};
use crate::plan::Plan;
use crate::stash::Stash;
use crate::title::{Layout, Strip};

use super::finding::{Finding, Level};
use super::lying::{self, Lying, Seen};
use super::reach::{Check, Reach};
use super::scene::Scene;
use super::under::under;
use super::view::StripView;
use super::{QUIET, promised, room, small, twice, wrong};

/// What the checks say of a plan.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Verdict {
    /// The sum over the strips; lower is better.
    pub score: Points,
    /// What is amiss with the places of the strips on the page, apart from the score; `None` where none is placed on a
    /// page.
    pub place: Option<Points>,
    /// Strip by strip, in the plan's order.
    pub strips: Vec<StripVerdict>,
    /// Worst first; what is accepted last.
    pub findings: Vec<Finding>,
}

/// What the checks say of one strip.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StripVerdict {
    /// Its score.
    pub score: Points,
    /// The height that it is compared by.
    pub height: Option<Length>,
    /// How it lies; `None` where it is not placed, or where there is no page.
    pub lying: Option<Lying>,
}

impl Verdict {
    /// Whether anything keeps the plan from being stuck down as it is.
    #[must_use]
    pub fn stops(&self) -> bool {
        self.findings.iter().any(|finding| finding.level == Level::Stop)
    }
}

/// What keeps the strips at `places` of `plan` from being stuck down, in a sentence; `None`: nothing, as far as the checks
/// tell. What the stash lacks is told by name when the letters are taken.
#[must_use]
pub fn obstacle(plan: &Plan, verdict: &Verdict, places: &[usize]) -> Option<String> {
    for &place in places {
        let strip = &plan.strips()[place];
        let missing = strip.empty_slots().count();
        if missing > 0 && strip.stuck.is_none() {
            let (role, letters) = (strip.role(), if missing == 1 { "letter is" } else { "letters are" });
            return Some(format!("{missing} {letters} missing on the {role}; suggest or stand them first"));
        }
    }
    let stops = |one: &&Finding| one.level == Level::Stop && one.id != "twice" && places.contains(&one.strip);
    let found = verdict.findings.iter().find(stops)?;
    Some(format!("{}: {}", plan.strips()[found.strip].role(), found.message))
}

/// Why nothing of `plan` is left to stick down.
#[must_use]
pub fn nothing_to_stick(plan: &Plan) -> &'static str {
    if plan.strips().iter().all(Strip::is_empty) {
        "no wording to stick down yet"
    } else if plan.strips().iter().any(|strip| strip.first_empty().is_some()) {
        "all that stands there is stuck down already; stand the missing letters first"
    } else {
        "all its letters are stuck down already"
    }
}

/// Judges every strip of `plan` in its scene.
#[must_use]
pub fn judge(plan: &Plan, stash: &Stash, scene: &Scene) -> Verdict {
    let mut verdict = Verdict { findings: twice::find(plan, stash), ..Verdict::default() };
    for (place, strip) in plan.strips().iter().enumerate() {
        let layout = Layout::of(strip, stash);
        let view = lying_view(plan, strip, &layout, stash, scene);
        let score = view.score();
        verdict.score += score;
        verdict.strips.push(StripVerdict { score, height: view.height(), lying: None });
        verdict.findings.extend(findings_of(place, &view));
        verdict.findings.extend(wrong::find(place, strip, stash));
        verdict.findings.extend(room::find(place, strip, &plan.page, &layout, scene.unit));
    }
    judge_places(plan, stash, scene, &mut verdict);
    verdict.findings.extend(promised::find(plan, stash, scene));
    verdict.findings.extend(subtitle_too_high(plan, &verdict.strips, scene));
    for finding in &mut verdict.findings {
        let accepted = &plan.strips()[finding.strip].accepted;
        finding.accepted = finding.level != Level::Stop && accepted.contains(finding.id);
    }
    verdict.findings.sort_by(|a, b| {
        let order = |finding: &Finding| (finding.accepted, finding.level, -finding.points, finding.strip);
        order(a).cmp(&order(b)).then_with(|| a.slots.cmp(&b.slots))
    });
    verdict
}

/// Judges where each strip lies.
fn judge_places(plan: &Plan, stash: &Stash, scene: &Scene, verdict: &mut Verdict) {
    for (place, meeting) in lying::meetings(plan, stash, scene, |place| verdict.strips[place].height) {
        let strip = &plan.strips()[place];
        let view = StripView::new(scene, stash, strip, &plan.page, None);
        let found = lying::find(&Seen { plan, place, view: &view, meeting: &meeting, scene });
        let counts = |one: &&Finding| one.level == Level::Stop || !strip.accepted.contains(one.id);
        let points: Points = found.iter().filter(counts).map(|one| one.points).sum();
        verdict.place = Some(verdict.place.unwrap_or_default() + points);
        verdict.strips[place].lying = Some(Lying { points, meeting });
        verdict.findings.extend(found);
    }
}

/// A view of `strip` as it lies now: what is under it depends on the line's own length and height.
#[must_use]
pub fn lying_view<'a>(
    plan: &Plan,
    strip: &'a Strip,
    layout: &Layout,
    stash: &'a Stash,
    scene: &'a Scene,
) -> StripView<'a> {
    let lies = strip.place.at.is_some() && strip.rules.on.is_none() && !plan.page.elements.is_empty();
    let height = if lies {
        StripView::new(scene, stash, strip, &plan.page, None).height().unwrap_or_default()
    } else {
        Length::ZERO
    };
    let under = under(strip, &plan.page, layout.length(), height);
    StripView::new(scene, stash, strip, &plan.page, under)
}

/// One finding a letter for letter checks, one a strip for each other check, its instances summed.
fn findings_of(place: usize, view: &StripView<'_>) -> Vec<Finding> {
    let mut findings = Vec::new();
    for check in view.heard().filter(|check| check.id != QUIET) {
        let mut whole: Option<(Vec<usize>, Points)> = None;
        view.instances(check, |slots, points| {
            if matches!(check.reach, Reach::Letter(_)) {
                findings.push(finding(place, view, check, slots.to_vec(), points));
            } else {
                let (all, sum) = whole.get_or_insert_default();
                all.extend(slots);
                *sum += points;
            }
        });
        findings.extend(whole.map(|(slots, points)| finding(place, view, check, slots, points)));
    }
    findings
}

fn finding(strip: usize, view: &StripView<'_>, check: &Check, slots: Vec<usize>, points: Points) -> Finding {
    let message = (check.tell)(view, &slots);
    Finding { id: check.id, level: Level::of(points), points, strip, slots, message, accepted: false }
}

fn subtitle_too_high(plan: &Plan, strips: &[StripVerdict], scene: &Scene) -> Option<Finding> {
    let (title, subtitle) = (plan.strip_called("title")?, plan.strip_called("subtitle")?);
    small::find(subtitle, strips[title].height?, strips[subtitle].height?, &scene.taste, scene.unit)
}
