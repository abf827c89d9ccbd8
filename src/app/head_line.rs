//! The first line: the views, what is open, whether it is saved, the scores; and which view a click on it means.
//!
//! Must not know how it is drawn.

use unicode_width::UnicodeWidthStr;

use crate::measure::Points;

use super::focus::Reach;
use super::input::{Mouse, MouseAct};
use super::state::State;
use super::view::View;

/// The first line: as much of it as there is room for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct HeadLine {
    /// The views, each with its key; in short only the present one has its name.
    pub views: Vec<(View, String)>,
    /// What is open, and whether it is saved.
    pub open: String,
    /// The scores, or what else there is to tell of the view, at the end of the line.
    pub told: String,
}

impl State {
    /// The first line.
    #[must_use]
    pub fn head_line(&self) -> HeadLine {
        let open = self.open_told();
        let room = usize::from(self.panes().head.width).saturating_sub(open.width() + 2);
        let ways = [
            (self.views_told(true), self.scores_told(true, true)),
            (self.views_told(false), self.scores_told(true, true)),
            (self.views_told(false), self.scores_told(true, false)),
            (self.views_told(false), self.scores_told(false, true)),
        ];
        let width = |views: &[(View, String)]| views.iter().map(|(_, name)| name.width() + 1).sum::<usize>();
        let [.., last] = &ways;
        let fits = ways.iter().find(|(views, told)| width(views) + told.width() <= room);
        let (views, told) = fits.unwrap_or(last).clone();
        HeadLine { views, open, told }
    }

    fn views_told(&self, in_full: bool) -> Vec<(View, String)> {
        let told = |view: View| {
            let is_here = view == self.look.view;
            let key = self.key_told(view.action());
            let text = match (in_full, is_here) {
                (true, true) => format!(" {key} {} ", view.name()),
                (true, false) => format!("{key} {}", view.name()),
                (false, true) => format!(" {} ", view.name()),
                (false, false) => key,
            };
            (view, text)
        };
        View::ALL.into_iter().map(told).collect()
    }

    fn open_told(&self) -> String {
        let name = self.file.slug.as_deref().unwrap_or("new plan");
        let saved = match (self.file.read_only, self.is_unsaved()) {
            (Some(_), _) => " (read-only)",
            (None, true) => " (not saved)",
            (None, false) => "",
        };
        format!("{name}{saved}")
    }

    /// The scores: of each strip, of all, and how the last change changed it. On the page: of the places.
    fn scores_told(&self, each: bool, change: bool) -> String {
        let verdict = self.trial.verdict();
        match self.look.view {
            View::Stash | View::Wording => return String::new(),
            View::Order => return self.order_told(),
            View::Page => {
                return match verdict.place {
                    Some(points) => format!("place {points}   score {}", verdict.score),
                    None => format!("score {}", verdict.score),
                };
            }
            View::Bench => {}
        }
        let strips = self.trial.plan().strips().iter().zip(&verdict.strips);
        let strips: Vec<String> =
            strips.map(|(strip, one)| format!("{} {}", strip.role(), one.score)).collect();
        let change =
            self.trial.difference().filter(|by| change && by.tenths() != 0).map_or_else(String::new, signed);
        let all = format!("score {}{change}", verdict.score);
        if each { format!("{}   {all}", strips.join("  ")) } else { all }
    }

    /// A click on the name or the key of a view goes there, where the views' keys work; whether the first line was meant.
    pub(super) fn mouse_on_head(&mut self, mouse: Mouse) -> bool {
        if mouse.row != 0 || mouse.what != MouseAct::Press || !Reach::Views.includes(self.focus()) {
            return false;
        }
        let mut x = 0;
        for (view, name) in self.head_line().views {
            let end = x + name.width();
            if (x..end).contains(&usize::from(mouse.column)) {
                self.page.held = None;
                self.notice = None;
                self.go_to(view);
            }
            x = end + 1;
        }
        true
    }
}

fn signed(by: Points) -> String {
    let sign = if by.tenths() > 0 { "+" } else { "" };
    format!(" ({sign}{by})")
}
