//! The findings as lines of the checks' pane.
//!
//! Must not know how a line is drawn.

use crate::checks::Finding;

use super::state::State;

/// A line of the pane: the finding it belongs to, whether it is the finding's first, and its text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FindingLine {
    /// The place of the finding.
    pub finding: usize,
    /// Whether it is the finding's first line.
    pub first: bool,
    /// Its text.
    pub text: String,
}

impl State {
    /// The findings as they are listed: those of the strip in hand first, the worst first; what is accepted last.
    #[must_use]
    pub fn findings(&self) -> Vec<&Finding> {
        let mut findings: Vec<&Finding> = self.trial.verdict().findings.iter().collect();
        findings.sort_by_key(|finding| (finding.accepted, finding.strip != self.bench.strip));
        findings
    }

    /// The lines that are on the screen: scrolled so that the chosen finding is seen whole.
    #[must_use]
    pub fn finding_lines(&self) -> Vec<FindingLine> {
        let pane = self.panes().checks;
        let (width, height) =
            (usize::from(pane.width.saturating_sub(3)).max(8), usize::from(pane.height.saturating_sub(1)));
        let mut lines = Vec::new();
        for (place, finding) in self.findings().into_iter().enumerate() {
            let told = self.told(finding);
            let rows = textwrap::wrap(&told, width);
            lines.extend(rows.iter().enumerate().map(|(row, text)| FindingLine {
                finding: place,
                first: row == 0,
                text: text.to_string(),
            }));
            let past = place > self.bench.finding && lines.len() > 2 * height;
            if past {
                break;
            }
        }
        let last = lines.iter().rposition(|line| line.finding == self.bench.finding).unwrap_or(0);
        let first = lines.iter().position(|line| line.finding == self.bench.finding).unwrap_or(0);
        let top = (last + 1).saturating_sub(height).min(first);
        lines.into_iter().skip(top).take(height).collect()
    }

    /// A finding as it is told: level, points, sentence.
    #[must_use]
    pub fn told(&self, finding: &Finding) -> String {
        let role = if self.trial.plan().strips().len() > 1 {
            format!("{}: ", self.trial.strip(finding.strip).role())
        } else {
            String::new()
        };
        let accepted = if finding.accepted { "accepted: " } else { "" };
        let points = if finding.points.tenths() > 0 { format!(" {}", finding.points) } else { String::new() };
        format!("{}{points} {accepted}{role}{}", finding.level.as_str(), finding.message)
    }

    /// The finding told on a line of the pane.
    pub(super) fn finding_at(&self, line: usize) -> Option<usize> {
        self.finding_lines().get(line).map(|line| line.finding)
    }
}
