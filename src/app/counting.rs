//! A sheet being counted in, counted anew, or told anew.
//!
//! Must not know which keys do it, nor where a sheet is kept.

use std::cmp::Reverse;

use crate::measure::{ColourNames, Length, Tint};
use crate::stash::{
    ChipId, Deed, Finish, Form, HalfCounted, HeightOf, Kind, Label, Ledger, Letter, Make, Paint, Record,
    Sheet, SheetId, Size, Stash, Tally, Way,
};

use super::effect::Effect;
use super::sheet_field::Field;
use super::swatches::Swatches;

/// What is done with a sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Count {
    /// A new sheet is counted in.
    New,
    /// All its letters are counted anew.
    Anew,
    /// More letters are counted in.
    More,
    /// Letters are counted out.
    Fewer,
    /// What is told of it is changed.
    Told,
}

/// What is asked for now.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stage {
    /// What is told of the sheet, field by field.
    Fields,
    /// The colour of the letters that follow.
    Colour,
    /// The letters, as they are read off.
    Letters,
}

/// A sheet in hand.
#[derive(Debug, Clone)]
pub struct Counting {
    /// What is done with it.
    pub count: Count,
    /// The sheet: a new one without its letters, or one of the stash as it was.
    pub sheet: Sheet,
    /// What a new sheet was begun like.
    pub like: Option<String>,
    /// What is asked for now.
    pub stage: Stage,
    /// The chosen field.
    pub field: Field,
    /// The colours offered.
    pub swatches: Swatches,
    /// The letters so far.
    pub tally: Tally,
    /// The sheet as it was in the other form: going back there brings back what is told of that form alone.
    other_form: Option<Sheet>,
}

impl Counting {
    /// Begins with a new sheet like `like`, or with one of which nothing is known yet.
    #[must_use]
    pub fn new_sheet(like: Option<&Sheet>, stash: &Stash, names: &ColourNames) -> Self {
        let mut sheet = like.cloned().unwrap_or_else(unknown);
        sheet.letters.clear();
        sheet.record = Record::default();
        sheet.label = Label { tag: Some(next_tag(stash)), ..Label::default() };
        let stage = if like.is_some() { Stage::Colour } else { Stage::Fields };
        let like = like.map(Sheet::told);
        Self { like, ..Self::begun(Count::New, sheet, stage, stash, names) }
    }

    /// Begins with a sheet of the stash.
    #[must_use]
    pub fn of(count: Count, sheet: &Sheet, stash: &Stash, names: &ColourNames) -> Self {
        let stage = if count == Count::Told { Stage::Fields } else { Stage::Letters };
        Self::begun(count, sheet.clone(), stage, stash, names)
    }

    fn begun(count: Count, sheet: Sheet, stage: Stage, stash: &Stash, names: &ColourNames) -> Self {
        let (tally, swatches) = (Tally::of(&sheet), Swatches::new(usual_colours(stash), names));
        let field = if count == Count::New { Field::Form } else { Field::Name };
        Self { count, sheet, like: None, stage, field, swatches, tally, other_form: None }
    }

    /// What is to be kept of it, as far as letters are counted; `after` is the ledger's last entry.
    pub(super) fn half(&self, after: u32) -> Option<HalfCounted> {
        let way = self.count.way().filter(|_| !self.tally.run().is_empty())?;
        let sheet = Sheet { letters: self.tally.letters(), record: Record::default(), ..self.sheet.clone() };
        Some(HalfCounted { way, sheet, like: self.like.clone(), after })
    }

    /// Goes on with what was kept; `None` where the stash has the sheet no more.
    pub(super) fn resumed(half: &HalfCounted, stash: &Stash, names: &ColourNames) -> Option<Self> {
        let sheet = match half.way {
            Way::New => Sheet { letters: Vec::new(), ..half.sheet.clone() },
            Way::Anew | Way::More | Way::Fewer => stash.sheet(&half.sheet.id)?.clone(),
        };
        let begun = Self::begun(Count::of_way(half.way), sheet, Stage::Letters, stash, names);
        let mut counting = Self { like: half.like.clone(), ..begun };
        counting.tally.resume(&half.sheet.letters);
        Some(counting)
    }

    /// `5 letters of 37 Kelp caps, die-cut 23 mm`.
    pub(super) fn told(&self) -> String {
        let letters = match self.tally.run().len() {
            1 => "1 letter".into(),
            count => format!("{count} letters"),
        };
        format!("{letters} of {}", self.sheet.told())
    }

    /// The fields that a sheet of this form has.
    pub fn fields(&self) -> impl Iterator<Item = Field> + use<> {
        let form = self.sheet.make.form;
        Field::ALL.into_iter().filter(move |field| field.is_of(form))
    }

    /// Goes `by` fields on, or back.
    pub(super) fn walk_fields(&mut self, by: isize) {
        let fields: Vec<Field> = self.fields().collect();
        let now = fields.iter().position(|field| *field == self.field).unwrap_or(0);
        self.field = fields[super::lists::step(now, by, fields.len())];
    }

    /// Changes the chosen field to the next that it can be, or the one before; `false` where it is typed instead.
    pub(super) fn step_field(&mut self, forward: bool) -> bool {
        let was = self.sheet.clone();
        let is_stepped = self.field.step(&mut self.sheet, forward);
        if self.sheet.make.form != was.make.form
            && let Some(there) = self.other_form.replace(was)
        {
            let Sheet { make, size, paint, .. } = &mut self.sheet;
            make.plain_tile = there.make.plain_tile;
            (size.height_of, size.tile_width) = (there.size.height_of, there.size.tile_width);
            (paint.tile, paint.outline) = (there.paint.tile, there.paint.outline);
        }
        is_stepped
    }

    /// Asks for the colour of the letters that follow.
    pub(super) fn ask_colour(&mut self, stash: &Stash, names: &ColourNames) {
        self.swatches = Swatches::new(usual_colours(stash), names);
        self.stage = Stage::Colour;
    }

    /// The letters that follow have this colour; the first colour of a new sheet is the sheet's own.
    pub(super) fn take_colour(&mut self, tint: Tint) {
        if self.count == Count::New && self.tally.run().is_empty() && self.tally.lots().len() == 1 {
            self.sheet.paint.colours = vec![tint.clone()];
            self.tally.paint(vec![tint]);
        } else {
            self.tally.take_up(tint);
        }
        self.stage = Stage::Letters;
    }

    /// What is to be done with what was counted.
    ///
    /// # Errors
    /// In words, what is still missing.
    pub(super) fn outcome(&self, stash: &Stash, ledger: &Ledger) -> Result<Effect, String> {
        if self.sheet.size.height <= Length::ZERO {
            return Err("the height is not told yet: ctrl-e, then height".into());
        }
        if self.tally.run().is_empty() && self.count != Count::Anew {
            return Err("no letter is counted yet; type them as you read them off".into());
        }
        if self.count == Count::New {
            let mut sheet = self.sheet.clone();
            sheet.letters = self.tally.letters();
            sheet.id = free_id(&sheet, stash, ledger);
            return Ok(Effect::TakeIn(Box::new(sheet)));
        }
        let known = stash.sheet(&self.sheet.id).ok_or("the stash has this sheet no more")?;
        let mut sheet = known.clone();
        sheet.letters.extend(self.fresh(known));
        let deed = self.deed(known);
        deed.check(stash).map_err(|refusal| refusal.to_string())?;
        Ok(Effect::Count(Box::new(sheet), deed))
    }

    /// Letters of colours of their own that the sheet has no entry for yet: they get one before they are counted.
    fn fresh(&self, known: &Sheet) -> Vec<Letter> {
        let is_there = |letter: &Letter| {
            known.letters.iter().any(|one| one.character == letter.character && one.mark == letter.mark)
        };
        let letters = self.tally.letters().into_iter();
        let fresh = letters.filter(|letter| letter.mark.is_some() && !is_there(letter));
        fresh.map(|letter| Letter { left: 0, ..letter }).collect()
    }

    fn deed(&self, known: &Sheet) -> Deed {
        let mut chips = self.tally.chips(&known.id);
        match self.count {
            Count::Anew => {
                for letter in &known.letters {
                    let (sheet, character) = (known.id.clone(), letter.character.clone());
                    chips.entry(ChipId { sheet, character, mark: letter.mark.clone() }).or_insert(0);
                }
            }
            Count::Fewer => chips.values_mut().for_each(|count| *count = -*count),
            Count::New | Count::More | Count::Told => {}
        }
        let kind = if self.count == Count::Anew { Kind::Counted } else { Kind::Added };
        Deed { kind, of: None, chips }
    }
}

/// A sheet of which nothing is known yet.
fn unknown() -> Sheet {
    let make =
        Make { form: Form::Tile, finish: Finish::Matte, neutral: false, joined: false, plain_tile: false };
    let height_of = HeightOf::Capital;
    Sheet {
        id: SheetId::unnamed(),
        label: Label::default(),
        make,
        size: Size { height: Length::ZERO, height_of, tile_width: None, thick: None },
        paint: Paint { colours: vec![Tint::plain(crate::measure::Colour::BLACK)], outline: None, tile: None },
        letters: Vec::new(),
        record: Record::default(),
    }
}

/// An id by the sheet's name that no sheet has or had, be it one whose file is gone.
fn free_id(sheet: &Sheet, stash: &Stash, ledger: &Ledger) -> SheetId {
    // A number behind it must not be cut off.
    let name: String = sheet.name().chars().take(50).collect();
    let numbered = (2..).map(|number: u32| format!("{name} {number}"));
    let mut ids = std::iter::once(name.clone()).chain(numbered).filter_map(|name| SheetId::from_name(&name));
    ids.find(|id| stash.sheet(id).is_none() && !ledger.speaks_of(id)).unwrap_or_else(|| sheet.id.clone())
}

/// The number that the next sheet's tag may have: one more than the largest.
fn next_tag(stash: &Stash) -> String {
    let numbers = stash.sheets().iter().filter_map(|sheet| sheet.label.tag.as_deref()?.parse::<u32>().ok());
    numbers.max().unwrap_or(0).saturating_add(1).to_string()
}

/// The sheets' colours, the commonest first.
fn usual_colours(stash: &Stash) -> Vec<Tint> {
    let mut found: Vec<(Tint, usize)> = Vec::new();
    for tint in stash.sheets().iter().filter_map(|sheet| sheet.paint.colours.first()) {
        match found.iter_mut().find(|(other, _)| other.colour == tint.colour) {
            Some((_, times)) => *times += 1,
            None => found.push((tint.clone(), 1)),
        }
    }
    found.sort_by_key(|(_, times)| Reverse(*times));
    found.into_iter().map(|(tint, _)| tint).collect()
}
