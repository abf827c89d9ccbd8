//! What the lines that are typed on the page's view begin with, and what becomes of them.
//!
//! Must not know how a line is drawn.

use crate::measure::{Length, Size, Tint, Unit};
use crate::page::{Element, Kind, PAGE_SIZES, Page, page_size};
use crate::plan::PlanEdit;
use crate::title::Place;

use super::page_line::{NUMBERED, PageLine};
use super::page_view::Thing;
use super::state::State;
use super::thing_line::{name_of, read_change, read_thing, spell_thing};
use super::thing_place::{MAT, SMALL, is_bare, mat_under, read_place, read_size, spell_length, spell_size};
use super::typing::What;

impl State {
    /// Begins to type a line on the page's view.
    pub(super) fn type_on_page(&mut self, line: PageLine) {
        let (names, unit) = (&self.shelf.names, self.unit());
        let page = &self.trial.plan().page;
        let spell = |tint: &Tint| names.spell(tint);
        let text = match (line, self.element().map(|(_, element)| element)) {
            (PageLine::Add, _) | (PageLine::Mat, Some(_)) => String::new(),
            (PageLine::PageSize, _) => page.size.map_or_else(String::new, |size| spell_size(size, unit)),
            (PageLine::Ground, _) => page.ground.as_ref().map_or_else(String::new, spell),
            (PageLine::Margin, _) => spell_length(page.margin, unit),
            (PageLine::At, None) if self.strip().stuck.is_some() => return self.refuse_stuck(),
            (PageLine::At, element) => {
                let at = element.map_or(self.strip().place.at, |element| Some(element.lie.at));
                at.map_or_else(String::new, |at| {
                    format!("{}, {}", spell_length(at.x, unit), spell_length(at.y, unit))
                })
            }
            (_, None) => {
                return self.say("a strip is chosen; tab chooses the things on the page, a adds one");
            }
            (PageLine::Change, Some(element)) => spell_thing(element, names, unit),
            (PageLine::Name, Some(element)) => element.name.clone().unwrap_or_default(),
            (PageLine::Size, Some(element)) => spell_size(element.lie.size, unit),
            (PageLine::Colours, Some(element)) => {
                element.colours.iter().map(spell).collect::<Vec<_>>().join(", ")
            }
        };
        self.type_in(What::OnPage(line), &text);
    }

    /// Takes what was typed on the page's view.
    pub(super) fn take_on_page(&mut self, line: PageLine, text: &str) -> Result<(), String> {
        match line {
            PageLine::PageSize | PageLine::Ground | PageLine::Margin => self.take_page(line, text),
            PageLine::Add => {
                let page = &self.trial.plan().page;
                let said = read_thing(text, &self.shelf.names, self.unit(), page)?;
                let place = place_in_stack(&said.thing, page);
                self.add_element(place, said.thing, said.mat);
                self.say_where();
                Ok(())
            }
            PageLine::At => self.take_place(text),
            _ => self.take_element(line, text),
        }
    }

    fn take_element(&mut self, line: PageLine, text: &str) -> Result<(), String> {
        let (names, unit) = (&self.shelf.names, self.unit());
        let Some((place, was)) = self.element() else { return Ok(()) };
        let mut element = was.clone();
        match line {
            PageLine::Name => element.name = name_of(text),
            PageLine::Size if text == spell_size(was.lie.size, unit) => {}
            PageLine::Size => element.lie.size = read_size(text, unit)?,
            PageLine::Colours => element.colours = names.read_several(text)?,
            PageLine::Mat => {
                let (colours, by) = read_mat(text, self)?;
                let mat = mat_under(&element, by, colours)?;
                self.change_page(PlanEdit::InsertElement(place, Box::new(mat)));
                self.choose_thing(Thing::Element(place + 1));
                self.say("a mat lies under it; tab chooses it");
                return Ok(());
            }
            _ if text == spell_thing(was, names, unit) => {}
            _ => {
                let said = read_change(text, names, unit, was)?;
                element = said.thing;
                if let Some(mat) = said.mat {
                    let edits = [
                        PlanEdit::Element(place, Box::new(element)),
                        PlanEdit::InsertElement(place, Box::new(mat)),
                    ];
                    self.change_page(PlanEdit::Several(edits.to_vec()));
                    self.choose_thing(Thing::Element(place + 1));
                    return Ok(());
                }
            }
        }
        self.trial.close_step();
        if element != *self.trial.plan().page.elements.get(place).unwrap_or(&element) {
            self.change_page(PlanEdit::Element(place, Box::new(element)));
        }
        Ok(())
    }

    fn take_place(&mut self, text: &str) -> Result<(), String> {
        let (at, turn) = read_place(text, self.unit())?;
        self.trial.close_step();
        match self.thing() {
            Thing::Element(_) => {
                self.change_element(|element| {
                    element.lie.at = at;
                    element.lie.turn = turn.unwrap_or(element.lie.turn);
                });
                self.say_where();
            }
            Thing::Strip(_) => {
                let turn = turn.unwrap_or(self.strip().place.turn);
                self.lay_strip(Place { at: Some(at), turn });
            }
        }
        self.trial.close_step();
        Ok(())
    }

    /// Takes the page's size, ground or margin.
    fn take_page(&mut self, line: PageLine, text: &str) -> Result<(), String> {
        let (unit, text) = (self.unit(), text.trim());
        let mut page: Page = self.trial.plan().page.clone();
        match line {
            PageLine::PageSize if text.is_empty() => page.size = None,
            PageLine::PageSize if page.size.is_some_and(|size| spell_size(size, unit) == text) => {}
            PageLine::PageSize => {
                let number = text.parse::<usize>().ok().filter(|number| (1..=NUMBERED).contains(number));
                page.size = Some(
                    number.map_or_else(|| typed_size(text, unit), |number| Ok(PAGE_SIZES[number - 1].1))?,
                );
            }
            PageLine::Ground if text.is_empty() => page.ground = None,
            PageLine::Ground => page.ground = Some(self.shelf.names.read(text)?),
            _ => {
                let margin = Length::parse(text, unit).and_then(Length::as_offset);
                let margin = margin.map_err(|error| error.to_string())?;
                if margin < Length::ZERO {
                    return Err("a margin is kept clear inside the page: 0 or more".into());
                }
                page.margin = margin;
            }
        }
        if page != self.trial.plan().page {
            self.change_page(PlanEdit::Page(Box::new(page)));
        }
        Ok(())
    }
}

fn is_of_a_word(c: char) -> bool {
    c == '#' || c.is_alphanumeric()
}

/// Reads the colours of a mat and how much larger it is all round; nothing: as usual.
fn read_mat(text: &str, state: &State) -> Result<(Vec<Tint>, Length), String> {
    // Figures within a word are a colour's: `#c0ffee`.
    let begins = |&(place, c): &(usize, char)| c.is_ascii_digit() && !text[..place].ends_with(is_of_a_word);
    let figures = text.char_indices().find(begins).map_or(text.len(), |(place, _)| place);
    let (colours, by) = text.split_at(figures);
    let by = match by.trim() {
        "" => MAT,
        by => Length::parse(by, state.unit()).and_then(Length::as_size).map_err(|error| error.to_string())?,
    };
    Ok((state.shelf.names.read_several(colours)?, by))
}

/// Where in the stack a new thing goes: a mat or paper under the lowest photo or journaling, anything else on top.
fn place_in_stack(thing: &Element, page: &Page) -> usize {
    let backs = matches!(thing.kind, Kind::Mat | Kind::Paper);
    let fronts = |element: &Element| matches!(element.kind, Kind::Photo | Kind::Journaling);
    page.elements.iter().position(|element| backs && fronts(element)).unwrap_or(page.elements.len())
}

/// A page's size as typed; one too small for any album, without a unit, was meant in another.
fn typed_size(text: &str, unit: Unit) -> Result<Size, String> {
    let size = page_size(text, unit).map_err(|error| error.to_string())?;
    if unit == Unit::Millimetre && is_bare(text) && size.width.max(size.height) < SMALL * 3 {
        return Err(format!("{text} mm is no album page; write the unit, such as {text} in"));
    }
    Ok(size)
}
