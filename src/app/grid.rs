//! The stash as a grid of chips: grouped, filtered, with one chip chosen.
//!
//! Must not know how a chip is drawn; a row is a heading or a run of chips.

use std::ops::Range;

use crate::checks::candidates;
use crate::letter::Character;
use crate::measure::Length;
use crate::stash::{ChipIx, Stash};
use crate::title::Strip;

use super::colours::Colours;
use super::filter::Filter;

/// Columns that one chip takes on the screen; more where its colour must be named in words.
#[must_use]
pub const fn cell_width(colours: Colours) -> u16 {
    if matches!(colours, Colours::None) { 20 } else { 9 }
}

/// What chips are grouped by.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Grouping {
    /// Letter by letter.
    #[default]
    Character,
    /// Sheet by sheet.
    Sheet,
    /// Colour by colour.
    Colour,
    /// Height by height, to the millimetre.
    Height,
}

impl Grouping {
    /// The next one.
    #[must_use]
    pub const fn next(self) -> Self {
        match self {
            Self::Character => Self::Sheet,
            Self::Sheet => Self::Colour,
            Self::Colour => Self::Height,
            Self::Height => Self::Character,
        }
    }

    /// What a heading says it is grouped by.
    #[must_use]
    pub const fn as_str(self) -> &'static str {
        match self {
            Self::Character => "by character",
            Self::Sheet => "by sheet",
            Self::Colour => "by colour",
            Self::Height => "by height",
        }
    }
}

/// A row of the grid.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum GridRow {
    /// The heading of a group, by its place.
    Heading(usize),
    /// Chips, by their places in the listing.
    Chips(Range<usize>),
}

/// A group of chips.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Section {
    title: String,
    chips: Range<usize>,
}

/// Rounded to the millimetre, half up.
const fn whole_mm(length: Length) -> i64 {
    (length.nm() + 500_000) / 1_000_000
}

/// The chips that are shown, and the chosen one.
#[derive(Debug, Clone, Default)]
pub struct Grid {
    /// What they are grouped by.
    pub grouping: Grouping,
    /// Which are shown.
    pub filter: Filter,
    /// Whether only what could serve the chosen slot is shown.
    pub fits: bool,
    chips: Vec<ChipIx>,
    sections: Vec<Section>,
    chosen: usize,
    /// First row on the screen.
    top: usize,
}

impl Grid {
    /// Lists the chips anew; the chosen chip stays chosen where it is still there. `asked` is the strip and the slot for
    /// which chips are to fit.
    pub fn list(&mut self, stash: &Stash, asked: Option<(&Strip, usize)>) {
        let kept = self.chosen_chip();
        let shown = |chip: &ChipIx| {
            let seen = stash.chip(*chip);
            seen.on_hand() > 0 && self.filter.lets(seen)
        };
        let mut chips: Vec<ChipIx> = match asked.filter(|_| self.fits) {
            Some((strip, slot)) if slot < strip.len() => {
                let wanted = strip.rules.wanted(&strip.wording().slots()[slot].character);
                let serving = candidates(stash, strip, &wanted).into_iter().map(|candidate| candidate.chip);
                serving.filter(|chip| shown(chip)).collect()
            }
            _ => stash.chips().filter(shown).collect(),
        };
        chips.sort_unstable();
        chips.dedup();
        self.section(stash, chips);
        let place = kept.and_then(|kept| self.chips.iter().position(|&chip| chip == kept));
        self.chosen = place.unwrap_or_else(|| self.chosen.min(self.chips.len().saturating_sub(1)));
    }

    /// Forgets the chips: the stash is another now, and the same place may be another chip.
    pub fn forget(&mut self) {
        self.chips.clear();
        self.sections.clear();
    }

    fn section(&mut self, stash: &Stash, mut chips: Vec<ChipIx>) {
        let look = |chip: ChipIx| stash.chip(chip);
        let colour = |chip: ChipIx| look(chip).colours()[0].name();
        match self.grouping {
            Grouping::Character => {
                chips.sort_by_cached_key(|&chip| {
                    (look(chip).letter.character.in_order(), look(chip).shown_height(), chip)
                });
            }
            Grouping::Sheet => {}
            Grouping::Colour => {
                chips.sort_by_cached_key(|&chip| (colour(chip), look(chip).shown_height(), chip));
            }
            Grouping::Height => chips.sort_by_cached_key(|&chip| (whole_mm(look(chip).shown_height()), chip)),
        }
        let together = |a: ChipIx, b: ChipIx| match self.grouping {
            Grouping::Character => look(a).letter.character == look(b).letter.character,
            Grouping::Sheet => stash.sheet_place(a) == stash.sheet_place(b),
            Grouping::Colour => colour(a) == colour(b),
            Grouping::Height => whole_mm(look(a).shown_height()) == whole_mm(look(b).shown_height()),
        };
        let mut sections: Vec<Section> = Vec::new();
        for run in chips.chunk_by(|&a, &b| together(a, b)) {
            let start = sections.last().map_or(0, |section| section.chips.end);
            sections.push(Section { title: self.title_for(run[0], stash), chips: start..start + run.len() });
        }
        self.sections = sections;
        self.chips = chips;
    }

    /// The heading over a group that begins with `chip`.
    fn title_for(&self, chip: ChipIx, stash: &Stash) -> String {
        let chip = stash.chip(chip);
        match self.grouping {
            Grouping::Character => chip.letter.character.spoken(),
            Grouping::Sheet => chip.sheet.told(),
            Grouping::Colour => chip.colours()[0].name().into_owned(),
            Grouping::Height => format!("{} mm", whole_mm(chip.shown_height())),
        }
    }

    /// The chips that are shown, in order.
    #[must_use]
    pub fn chips(&self) -> &[ChipIx] {
        &self.chips
    }

    /// The title of a group.
    #[must_use]
    pub fn title(&self, section: usize) -> &str {
        self.sections.get(section).map_or("", |section| &section.title)
    }

    /// The place of the chosen chip in [`Grid::chips`].
    #[must_use]
    pub const fn chosen(&self) -> usize {
        self.chosen
    }

    /// The chosen chip.
    #[must_use]
    pub fn chosen_chip(&self) -> Option<ChipIx> {
        self.chips.get(self.chosen).copied()
    }

    /// Chooses a chip by its place; beyond the last: the last.
    pub fn choose(&mut self, place: usize) {
        self.chosen = place.min(self.chips.len().saturating_sub(1));
    }

    /// Chooses the first chip that carries `character`, if one is shown and the chosen one does not.
    pub fn seek(&mut self, character: &Character, stash: &Stash) {
        let carries = |chip: ChipIx| stash.chip(chip).letter.character == *character;
        if !self.chosen_chip().is_some_and(carries) {
            self.chosen = self.chips.iter().position(|&chip| carries(chip)).unwrap_or(self.chosen);
        }
    }

    /// Goes `by` chips on, or back.
    pub fn walk(&mut self, by: isize) {
        self.choose(self.chosen.saturating_add_signed(by));
    }

    /// Every row of a grid with `per_row` chips in a row. Grouped by character there are no headings, as each chip shows
    /// its own.
    #[must_use]
    pub fn rows(&self, per_row: usize) -> Vec<GridRow> {
        let mut rows = Vec::new();
        for (place, section) in self.sections.iter().enumerate() {
            if self.grouping != Grouping::Character {
                rows.push(GridRow::Heading(place));
            }
            let mut start = section.chips.start;
            while start < section.chips.end {
                let end = (start + per_row).min(section.chips.end);
                rows.push(GridRow::Chips(start..end));
                start = end;
            }
        }
        rows
    }

    /// Goes a row up or down, `by` rows, keeping the column where there is a chip in it.
    pub fn walk_rows(&mut self, by: isize, per_row: usize) {
        let rows: Vec<Range<usize>> = self
            .rows(per_row)
            .into_iter()
            .filter_map(|row| if let GridRow::Chips(chips) = row { Some(chips) } else { None })
            .collect();
        let Some(row) = rows.iter().position(|row| row.contains(&self.chosen)) else { return };
        let column = self.chosen - rows[row].start;
        let target = &rows[row.saturating_add_signed(by).min(rows.len() - 1)];
        self.choose((target.start + column).min(target.end - 1));
    }

    /// The first row on a screen of `height` rows, moved so that the chosen chip is seen.
    pub fn scroll(&mut self, per_row: usize, height: u16) {
        let rows = self.rows(per_row);
        let holds = |row: &GridRow| matches!(row, GridRow::Chips(chips) if chips.contains(&self.chosen));
        let row = rows.iter().position(holds).unwrap_or(0);
        let height = usize::from(height.max(1));
        // The heading over the first row of a group is worth seeing as well.
        let first =
            if row > 0 && matches!(rows.get(row - 1), Some(GridRow::Heading(_))) { row - 1 } else { row };
        let lowest = (row + 1).saturating_sub(height).min(first);
        self.top = self.top.clamp(lowest, first).min(rows.len().saturating_sub(1));
    }

    /// The first row on the screen.
    #[must_use]
    pub const fn top(&self) -> usize {
        self.top
    }
}
