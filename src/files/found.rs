//! One value of a file, read as what it should be, or told as what it is.
//!
//! Every reading gives the value or a sentence: what was found, and what would do. Must not know the value's key.

use std::ops::RangeInclusive;

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use crate::measure::{Angle, Length, LengthError, Tint, Unit};

use super::source::Source;
use crate::words::nearest;

/// A value of a file.
#[derive(Clone, Copy)]
pub(super) struct Found<'k> {
    source: &'k Source<'k>,
    value: &'k Spanned<DeValue<'k>>,
}

impl<'k> Found<'k> {
    pub(super) const fn new(source: &'k Source<'k>, value: &'k Spanned<DeValue<'k>>) -> Self {
        Self { source, value }
    }

    /// As the file has it, cut to what a message bears.
    pub(super) fn piece(self) -> String {
        match self.value.get_ref() {
            DeValue::Table(_) => "a table".into(),
            _ => self.source.piece(&self.value.span()),
        }
    }

    /// Where it starts.
    pub(super) fn at(self) -> usize {
        self.value.span().start
    }

    pub(super) const fn other(self, value: &'k Spanned<DeValue<'k>>) -> Self {
        Self { source: self.source, value }
    }

    pub(super) fn text(self) -> Result<&'k str, String> {
        match self.value.get_ref() {
            DeValue::String(text) => Ok(text.as_ref()),
            _ => Err(format!("{} is no text; put it in quotes", self.piece())),
        }
    }

    pub(super) fn flag(self) -> Result<bool, String> {
        match self.value.get_ref() {
            DeValue::Boolean(flag) => Ok(*flag),
            _ => {
                Err(format!("{} is neither true nor false; write one of these, without quotes", self.piece()))
            }
        }
    }

    pub(super) fn count(self, range: RangeInclusive<u32>) -> Result<u32, String> {
        let number = match self.value.get_ref() {
            DeValue::Integer(number) => u32::from_str_radix(number.as_str(), number.radix()).ok(),
            _ => None,
        };
        number.filter(|number| range.contains(number)).ok_or_else(|| {
            let (least, most) = (range.start(), range.end());
            format!("{} is no count that serves; write a whole number from {least} to {most}", self.piece())
        })
    }

    /// A number as written, whole or not; never `nan` or `inf`.
    pub(super) fn number(self) -> Option<f64> {
        let number = match self.value.get_ref() {
            DeValue::Integer(number) if number.radix() == 10 => number.as_str().parse::<f64>().ok(),
            DeValue::Float(number) => number.as_str().parse().ok(),
            _ => None,
        };
        number.filter(|number| number.is_finite())
    }

    /// A text with its unit, or a bare number in the file's unit.
    pub(super) fn length(self, kind: fn(Length) -> Result<Length, LengthError>) -> Result<Length, String> {
        let unit = self.source.unit.get();
        let read = match self.value.get_ref() {
            DeValue::String(text) => Length::parse(text, unit),
            _ => match self.number() {
                Some(number) => Length::from_number(number, unit),
                None => Err(LengthError::Unreadable(String::new())),
            },
        };
        read.and_then(kind).map_err(|error| match (&error, self.value.get_ref()) {
            (LengthError::Unreadable(_), DeValue::String(_)) => error.to_string(),
            (LengthError::Unreadable(_), _) => {
                format!(
                    "{} is no length; write one such as \"12 mm\", \"1.2 cm\" or \"1 1/4 in\"",
                    self.piece()
                )
            }
            _ => error.to_string(),
        })
    }

    pub(super) fn angle(self) -> Result<Angle, String> {
        self.number().and_then(Angle::from_degrees).ok_or_else(|| {
            format!("{} is no angle; write degrees without a unit, such as -3 or 2.5", self.piece())
        })
    }

    pub(super) fn word<T: Copy>(self, all: &[T], spell: fn(T) -> &'static str) -> Result<T, String> {
        let text = self.text()?;
        if let Some(one) = all.iter().find(|one| spell(**one) == text) {
            return Ok(*one);
        }
        let words: Vec<&str> = all.iter().map(|one| spell(*one)).collect();
        let hint = nearest(text, words.iter().copied())
            .map_or_else(String::new, |near| format!("; did you mean {near}?"));
        Err(format!("{text:?} is none of {}{hint}", words.join(", ")))
    }

    pub(super) fn tint(self) -> Result<Tint, String> {
        match self.value.get_ref() {
            DeValue::String(name) => self.source.colours.read(name),
            _ => Err(format!("{} is no colour; write a name or \"#rrggbb\" in quotes", self.piece())),
        }
    }

    /// `mm` or `in`.
    pub(super) fn unit(self) -> Result<Unit, String> {
        let text = self.text()?;
        Unit::parse(text)
            .ok_or_else(|| format!("{text:?} is no unit that a file can have; write \"mm\" or \"in\""))
    }

    /// The items of a list.
    pub(super) fn items(self) -> Option<&'k [Spanned<DeValue<'k>>]> {
        match self.value.get_ref() {
            DeValue::Array(items) => Some(items),
            _ => None,
        }
    }

    pub(super) fn each(self) -> impl Iterator<Item = Self> {
        self.items().unwrap_or_default().iter().map(move |value| self.other(value))
    }

    pub(super) fn is_list(self) -> bool {
        matches!(self.value.get_ref(), DeValue::Array(_))
    }

    pub(super) fn is_table(self) -> bool {
        matches!(self.value.get_ref(), DeValue::Table(_))
    }

    /// The table, with where it starts; `name` is how a message calls it.
    pub(super) fn table(self, name: &str) -> Result<(&'k DeTable<'k>, usize), String> {
        match self.value.get_ref() {
            DeValue::Table(table) => Ok((table, self.value.span().start)),
            _ => Err(format!("{} is no table; write [{name}] on a line of its own", self.piece())),
        }
    }
}
