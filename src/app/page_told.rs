//! What the page's view tells beside the page: the list of things, the checks of the place.
//!
//! Must not know how a line is drawn.

use crate::checks::{Finding, PLACE_CHECKS};

use super::findings::FindingLine;
use super::panes::{PagePanes, page_panes};
use super::state::State;

/// Checks that a place decides as well: of what lies under the letters, and those that are no row of the table.
const BESIDES: [&str; 3] = ["three", "room", "pale"];

/// Whether it is the place of a strip that is amiss.
#[must_use]
pub fn is_of_place(finding: &Finding) -> bool {
    PLACE_CHECKS.iter().any(|check| check.id == finding.id)
}

impl State {
    /// Where the panes of the page's view lie.
    #[must_use]
    pub fn page_panes(&self) -> PagePanes {
        page_panes(self.look.columns, self.look.rows, self.page.near, self.things().len())
    }

    /// The first thing that is listed, so that the chosen one is seen.
    #[must_use]
    pub fn first_thing(&self) -> usize {
        let rows = usize::from(self.page_panes().things.height.saturating_sub(1)).max(1);
        let chosen = self.thing();
        let place = self.things().position(|thing| thing == chosen).unwrap_or(0);
        place.saturating_sub(rows / 2).min(self.things().len().saturating_sub(rows))
    }

    /// What the checks find amiss with the places of the strips: of the strip in hand first, the worst first; what is
    /// accepted last.
    #[must_use]
    pub fn place_findings(&self) -> Vec<&Finding> {
        let is_told = |finding: &&Finding| is_of_place(finding) || BESIDES.contains(&finding.id);
        self.findings().into_iter().filter(is_told).collect()
    }

    /// The lines of the pane of the checks of the place; the last one says how much does not fit.
    #[must_use]
    pub fn place_lines(&self) -> Vec<FindingLine> {
        let pane = self.page_panes().checks;
        let (width, height) =
            (usize::from(pane.width.saturating_sub(3)).max(8), usize::from(pane.height.saturating_sub(1)));
        let mut lines = Vec::new();
        for (place, finding) in self.place_findings().iter().enumerate() {
            let told = self.told(finding);
            lines.extend(textwrap::wrap(&told, width).iter().enumerate().map(|(row, text)| FindingLine {
                finding: place,
                first: row == 0,
                text: text.to_string(),
            }));
        }
        if lines.len() > height {
            lines.truncate(height.saturating_sub(1));
            let finding = lines.last().map_or(0, |line| line.finding);
            lines.push(FindingLine { finding, first: false, text: "... more on the bench (1)".into() });
        }
        lines
    }
}
