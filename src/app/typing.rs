//! One line being typed: what it is for, and what is made of it.
//!
//! Must not know how it is drawn. A paste is text here as anywhere: never commands.

use tui_input::{Input as Line, InputRequest};

use crate::letter::normalise;
use crate::measure::{ColourNames, Length, Unit};
use crate::title::ByHand;

use super::effect::Then;
use super::key::{Key, KeyCode};
use super::page_line::PageLine;
use super::sheet_field::Field;

/// Stands for a line break in a wording while it is typed.
const BREAK: char = '|';

/// The most characters that a line takes.
const MOST: usize = 400;

/// A line being typed.
#[derive(Debug, Clone)]
pub struct Typing {
    /// What it is for.
    pub what: What,
    line: Line,
    /// Whether the line is as it was begun, and the first character typed takes its place.
    pub fresh: bool,
    /// What is wrong with it, after an attempt to finish.
    pub wrong: Option<String>,
}

/// What a line is for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum What {
    /// The wording of the chosen strip.
    Wording,
    /// The same, asked for before anything else; with what can be done instead, and by which keys.
    FirstWording(String),
    /// The wording of a strip to be begun.
    Subtitle,
    /// Which chips are shown.
    Filter,
    /// The page's colours.
    PageColours,
    /// A thing that is no sticker.
    ByHand,
    /// A line of the page's view.
    OnPage(PageLine),
    /// Which sheets are shown.
    FindSheet,
    /// A field of the sheet in hand.
    OfSheet(Field),
    /// A wording, to see whether it can be spelled.
    Spell,
    /// Which ideas are looked for.
    Ideas,
    /// Which heights may be used for it.
    SpellHeights,
    /// The name under which the plan is saved, and what comes after.
    PlanName(Then),
}

impl What {
    /// What to type, in a few words.
    #[must_use]
    pub const fn prompt(&self) -> &'static str {
        match self {
            Self::Wording => "Wording (| starts a second line)",
            Self::FirstWording(_) => "What is the title to say? (| starts a second line)",
            Self::Subtitle => "Wording of the subtitle",
            Self::Filter => "Show only (such as: E  teal  20-26  tile; nothing: all)",
            Self::PageColours => "Page colours: main, second, accents (nothing: by the page)",
            Self::ByHand => "What, width, height, colour (such as: button, 18 mm, 18 mm, coral)",
            Self::OnPage(line) => line.prompt(),
            Self::FindSheet => "Show only (such as: E foil; harbour; nothing: all)",
            Self::OfSheet(field) => field.prompt(),
            Self::Spell => "wording (| starts a second line)",
            Self::Ideas => "Ideas (such as: 4-8 with QZ scarce 1 beside stand-ins)",
            Self::SpellHeights => "Heights (such as 18-26; nothing: any)",
            Self::PlanName(_) => "Name of the plan",
        }
    }
}

impl What {
    /// Whether what is typed takes the place of what the line begins with: it is short, and seldom mended.
    const fn is_replaced(&self) -> bool {
        match self {
            Self::Spell => true,
            Self::OnPage(line) => !matches!(line, PageLine::Change | PageLine::Name),
            Self::OfSheet(field) => !matches!(field, Field::Name | Field::Note),
            _ => false,
        }
    }

    /// What stands below the line while nothing is wrong with it.
    #[must_use]
    pub fn hint(&self) -> String {
        match self {
            Self::OnPage(line) => line.hint(),
            Self::Ideas => {
                "4-8: so many letters, else 3-20; with: letters it must have; scarce: at most so many of which 3 or \
                 fewer are left; beside: with the letters that the wording above leaves; stand-ins: letters may stand in"
                    .into()
            }
            Self::FirstWording(instead) => format!("enter: done   {instead}"),
            _ => "enter: done   esc: leave it".into(),
        }
    }
}

impl Typing {
    /// Begins with `text`, the cursor behind it.
    #[must_use]
    pub fn new(what: What, text: &str) -> Self {
        let fresh = what.is_replaced() && !text.is_empty();
        Self { what, line: Line::new(text.to_owned()), fresh, wrong: None }
    }

    /// What is typed so far.
    #[must_use]
    pub fn text(&self) -> &str {
        self.line.value()
    }

    /// Columns from the start of the text to the cursor.
    #[must_use]
    pub fn cursor(&self) -> usize {
        self.line.visual_cursor()
    }

    /// Takes a key that types or edits.
    pub fn key(&mut self, key: Key) {
        let request = match key.code() {
            KeyCode::Char(c) if key.typed().is_some() => InputRequest::InsertChar(c),
            KeyCode::Char('a') if key.ctrl() => InputRequest::GoToStart,
            KeyCode::Char('e') if key.ctrl() => InputRequest::GoToEnd,
            KeyCode::Char('u') if key.ctrl() => InputRequest::DeleteLine,
            KeyCode::Char('w') if key.ctrl() => InputRequest::DeletePrevWord,
            KeyCode::Backspace => InputRequest::DeletePrevChar,
            KeyCode::Delete => InputRequest::DeleteNextChar,
            KeyCode::Left if key.ctrl() => InputRequest::GoToPrevWord,
            KeyCode::Right if key.ctrl() => InputRequest::GoToNextWord,
            KeyCode::Left => InputRequest::GoToPrevChar,
            KeyCode::Right => InputRequest::GoToNextChar,
            KeyCode::Home => InputRequest::GoToStart,
            KeyCode::End => InputRequest::GoToEnd,
            _ => return,
        };
        let grows = matches!(request, InputRequest::InsertChar(_));
        if std::mem::take(&mut self.fresh) && grows {
            self.line.reset();
        }
        if !grows || self.text().chars().count() < MOST {
            self.line.handle(request);
            self.wrong = None;
        }
    }

    /// Takes a pasted text: line breaks become `|` in a wording and spaces elsewhere.
    pub fn paste(&mut self, text: &str) {
        let wording =
            matches!(self.what, What::Wording | What::FirstWording(_) | What::Subtitle | What::Spell);
        for c in text.trim_end_matches('\n').chars().take(MOST) {
            let c = match c {
                '\n' if wording => BREAK,
                c if c.is_whitespace() => ' ',
                c if c.is_control() => continue,
                c => c,
            };
            self.key(Key::plain(KeyCode::Char(c)));
        }
    }
}

/// A wording as it is typed, from a wording as it is kept, and back.
pub(super) fn with_breaks(text: &str) -> String {
    text.replace('\n', &BREAK.to_string())
}

pub(super) fn from_breaks(text: &str) -> String {
    text.replace(BREAK, "\n")
}

/// Reads `what, width, height, colour`; height and colour may be left out.
pub(super) fn read_by_hand(text: &str, names: &ColourNames, unit: Unit) -> Result<ByHand, String> {
    let parts: Vec<&str> = text.split(',').map(str::trim).filter(|part| !part.is_empty()).collect();
    let [label, width, rest @ ..] = parts.as_slice() else {
        return Err("write what it is and its width, such as: button, 18 mm".into());
    };
    let size =
        |text: &str| Length::parse(text, unit).and_then(Length::as_size).map_err(|error| error.to_string());
    let (height, colour) = match rest {
        [] => (None, None),
        [one] if size(one).is_ok() => (Some(*one), None),
        [one] => (None, Some(*one)),
        [height, colour] => (Some(*height), Some(*colour)),
        _ => return Err("too many parts; write what it is, its width, its height and its colour".into()),
    };
    let colour = colour.map(|colour| names.read_several(colour)).transpose()?;
    Ok(ByHand {
        label: normalise(label),
        width: size(width)?,
        height: height.map(size).transpose()?,
        colour: colour.and_then(|colours| colours.into_iter().next()),
    })
}
