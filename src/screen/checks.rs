//! The checks: sentences, worst first.
//!
//! Must not know what a key does.

use ratatui::buffer::Buffer;
use ratatui::style::Style;

use crate::app::{Pane, State};
use crate::checks::Level;

use super::paint::{chosen, faint, strong};
use super::words::put;

/// Draws the findings on their pane.
pub(super) fn draw_checks(state: &State, buffer: &mut Buffer) {
    let pane = state.panes().checks;
    let style = if state.bench.pane == Pane::Checks { chosen() } else { strong() };
    let findings = state.findings();
    let open = findings.iter().filter(|finding| !finding.accepted).count();
    let heading = if open == 0 {
        if state.strip().is_empty() { " checks ".to_owned() } else { " checks: all is well ".to_owned() }
    } else {
        format!(" checks: {open} ")
    };
    put(buffer, pane.x, pane.y, pane.width, &heading, style);
    for (y, line) in (pane.y + 1..).zip(state.finding_lines()) {
        let finding = findings[line.finding];
        let here = line.finding == state.bench.finding && state.bench.pane == Pane::Checks;
        let style = match (finding.accepted, finding.level) {
            (true, _) => faint(),
            (false, Level::Stop | Level::Warn) if line.first => strong(),
            _ => Style::new(),
        };
        let mark = match (here, line.first) {
            (true, true) => "> ",
            (true, false) => "| ",
            (false, true) => "· ",
            (false, false) => "  ",
        };
        let end = put(buffer, pane.x, y, pane.width, mark, if here { strong() } else { faint() });
        put(buffer, end, y, (pane.x + pane.width).saturating_sub(end), &line.text, style);
    }
}
