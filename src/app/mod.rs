//! The program itself, apart from any terminal: what reaches it and, by one table, what it does about it.
//!
//! Must not know ratatui, crossterm or the disk.

mod action;
mod asking;
mod bench;
mod colours;
mod effect;
mod filter;
mod findings;
mod finish;
mod grid;
mod input;
mod key;
mod lists;
mod mouse;
mod over;
mod over_acts;
mod panes;
mod shelf;
mod state;
mod strip_acts;
mod strip_map;
mod trial;
mod typing;
mod update;

pub use action::{ACTIONS, Action, Focus, Keys, Reach, Row};
pub use asking::Question;
pub use bench::{Bench, Pane};
pub use colours::Colours;
pub use effect::{Effect, Then};
pub use filter::Filter;
pub use findings::FindingLine;
pub use grid::{Grid, GridRow, Grouping, cell_width};
pub use input::{Input, Mouse, MouseAct};
pub use key::{Key, KeyCode, KeyError};
pub use lists::{AlternateList, Comparison, PlanList, Scroll};
pub use over::Over;
pub use panes::{Area, Panes, SMALLEST, panes};
pub use shelf::{OtherPlan, Shelf};
pub use state::{Look, Notice, PlanFile, State};
pub use strip_map::StripMap;
pub use trial::Trial;
pub use typing::{Typing, What};
pub use update::update;
