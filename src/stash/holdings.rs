//! The stash: every sheet, and the ways to find a letter among them.
//!
//! Must not know strips or files.

use std::collections::HashMap;

use crate::letter::Character;

use super::{Chip, ChipId, ChipIx, Sheet, SheetId};

/// All the sheets someone owns, indexed by sheet and by character.
#[derive(Debug, Clone, Default)]
pub struct Stash {
    sheets: Vec<Sheet>,
    /// For each sheet the place of its first chip, then one past the last.
    starts: Vec<u32>,
    /// The sheet of each chip.
    sheet_of: Vec<u32>,
    by_id: HashMap<SheetId, u32>,
    by_character: HashMap<Character, Vec<ChipIx>>,
}

impl Stash {
    /// Takes in `sheets`, ordered by id. A sheet found under an earlier name (`was`) is found by it too, unless
    /// another sheet has that name now.
    #[must_use]
    pub fn new(mut sheets: Vec<Sheet>) -> Self {
        sheets.sort_by(|a, b| a.id.cmp(&b.id));
        let mut stash = Self { starts: vec![0], ..Self::default() };
        for (place, sheet) in (0u32..).zip(&sheets) {
            for letter in &sheet.letters {
                #[expect(
                    clippy::cast_possible_truncation,
                    reason = "a stash of four thousand million chips does not fit in memory"
                )]
                let ix = ChipIx(stash.sheet_of.len() as u32);
                stash.sheet_of.push(place);
                match stash.by_character.get_mut(&letter.character) {
                    Some(chips) => chips.push(ix),
                    None => {
                        stash.by_character.insert(letter.character.clone(), vec![ix]);
                    }
                }
            }
            #[expect(clippy::cast_possible_truncation, reason = "as above")]
            stash.starts.push(stash.sheet_of.len() as u32);
        }
        for (place, sheet) in (0u32..).zip(&sheets) {
            for was in &sheet.record.was {
                stash.by_id.insert(was.clone(), place);
            }
        }
        stash.by_id.extend((0u32..).zip(&sheets).map(|(place, sheet)| (sheet.id.clone(), place)));
        stash.sheets = sheets;
        stash
    }

    /// The sheets, ordered by id.
    #[must_use]
    pub fn sheets(&self) -> &[Sheet] {
        &self.sheets
    }

    /// The sheet called `id` now or earlier.
    #[must_use]
    pub fn sheet(&self, id: &SheetId) -> Option<&Sheet> {
        self.by_id.get(id).map(|&place| &self.sheets[place as usize])
    }

    /// How many chips there are, spent ones included.
    #[must_use]
    pub fn len(&self) -> usize {
        self.sheet_of.len()
    }

    /// Whether there is no chip at all.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.sheet_of.is_empty()
    }

    /// Every chip: sheet by sheet, letters in the file's order.
    pub fn chips(&self) -> impl ExactSizeIterator<Item = ChipIx> + use<> {
        #[expect(clippy::cast_possible_truncation, reason = "as in `new`")]
        let len = self.sheet_of.len() as u32;
        (0..len).map(ChipIx)
    }

    /// The chips of one sheet, by its place in [`Stash::sheets`].
    pub fn chips_of(&self, sheet: usize) -> impl ExactSizeIterator<Item = ChipIx> + use<> {
        (self.starts[sheet]..self.starts[sheet + 1]).map(ChipIx)
    }

    /// The characters that chips carry, in no order.
    pub fn characters(&self) -> impl Iterator<Item = &Character> {
        self.by_character.keys()
    }

    /// The chips that carry `character`.
    #[must_use]
    pub fn carrying(&self, character: &Character) -> &[ChipIx] {
        self.by_character.get(character).map_or(&[], Vec::as_slice)
    }

    /// A look at the chip at `ix`.
    #[must_use]
    pub fn chip(&self, ix: ChipIx) -> Chip<'_> {
        let place = self.sheet_place(ix);
        let sheet = &self.sheets[place];
        Chip { sheet, letter: &sheet.letters[(ix.0 - self.starts[place]) as usize] }
    }

    /// The place of the chip's sheet in [`Stash::sheets`].
    #[must_use]
    pub fn sheet_place(&self, ix: ChipIx) -> usize {
        self.sheet_of[ix.get()] as usize
    }

    /// The chip that a plan calls `id`, also by an earlier name of its sheet; `None` where the stash has no such chip.
    #[must_use]
    pub fn find(&self, id: &ChipId) -> Option<ChipIx> {
        let place = *self.by_id.get(&id.sheet)? as usize;
        let is_it = |letter: &super::Letter| letter.character == id.character && letter.mark == id.mark;
        let within = self.sheets[place].letters.iter().position(is_it)?;
        self.chips_of(place).nth(within)
    }
}
