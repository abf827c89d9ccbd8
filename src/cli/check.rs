//! `oddment check PLAN`: the findings and the score.
//!
//! Must not know how a check works.

use std::fmt::Write;
use std::process::ExitCode;

use anyhow::Result;
use serde::Serialize;

use crate::checks::{Finding, Verdict, judge, tell_length};
use crate::measure::Points;
use crate::plan::Plan;

use super::args::{Args, Check};
use super::opened::Opened;
use super::say::{answer_json, answer_words};

#[derive(Serialize)]
struct Answer<'a> {
    format: u32,
    score: Points,
    strips: Vec<StripAnswer<'a>>,
    /// What is amiss with the strips' places on the page; null where none is placed.
    place: Option<Points>,
    findings: Vec<FindingAnswer<'a>>,
}

#[derive(Serialize)]
struct StripAnswer<'a> {
    role: &'a str,
    score: Points,
    /// In mm.
    height: Option<f64>,
}

#[derive(Serialize)]
struct FindingAnswer<'a> {
    id: &'a str,
    level: &'a str,
    points: Points,
    strip: &'a str,
    /// From 1.
    slots: Vec<usize>,
    message: &'a str,
    accepted: bool,
}

pub(super) fn run(args: &Args, check: &Check) -> Result<ExitCode> {
    let Opened { plan, shelf, .. } = Opened::plan(args, &check.plan)?;
    let verdict = judge(&plan, &shelf.stash, &shelf.scene);
    if args.json {
        answer_json(&in_json(&plan, &verdict))?;
    } else {
        answer_words(&in_words(&plan, &verdict, shelf.unit()))?;
    }
    Ok(ExitCode::from(u8::from(verdict.stops())))
}

fn in_json<'a>(plan: &'a Plan, verdict: &'a Verdict) -> Answer<'a> {
    let role = |place: usize| plan.strips()[place].role().as_str();
    let strips = (0..).zip(&verdict.strips).map(|(place, strip)| StripAnswer {
        role: role(place),
        score: strip.score,
        height: strip.height.map(crate::measure::Length::mm),
    });
    let finding = |finding: &'a Finding| FindingAnswer {
        id: finding.id,
        level: finding.level.as_str(),
        points: finding.points,
        strip: role(finding.strip),
        slots: finding.slots.iter().map(|slot| slot + 1).collect(),
        message: &finding.message,
        accepted: finding.accepted,
    };
    Answer {
        format: 1,
        score: verdict.score,
        strips: strips.collect(),
        place: verdict.place,
        findings: verdict.findings.iter().map(finding).collect(),
    }
}

fn in_words(plan: &Plan, verdict: &Verdict, unit: crate::measure::Unit) -> String {
    let mut text = String::new();
    for (strip, one) in plan.strips().iter().zip(&verdict.strips) {
        let height = one
            .height
            .map_or_else(String::new, |height| format!(", letters about {}", tell_length(height, unit)));
        let wording = strip.wording().text().replace('\n', " / ");
        let _ = writeln!(text, "{}: {wording}: score {}{height}", strip.role(), one.score);
    }
    let _ = writeln!(text, "score in all: {}", verdict.score);
    if let Some(place) = verdict.place {
        let _ = writeln!(text, "place on the page: {place}");
    }
    for finding in &verdict.findings {
        let role = plan.strips()[finding.strip].role();
        let accepted = if finding.accepted { " (accepted)" } else { "" };
        let (level, points) = (finding.level.as_str(), finding.points);
        let _ = writeln!(text, "{level:<4} {points:>6}  {role}: {}{accepted}", finding.message);
    }
    text
}
