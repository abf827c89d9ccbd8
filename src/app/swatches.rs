//! Choosing a colour: by typing how its name begins, by walking the names offered, by lighter and darker.
//!
//! Must not know what is coloured.

use crate::measure::{ColourNames, Tint};

use super::key::{Key, KeyCode};
use super::lists::step;

/// The longest beginning that is typed.
const LONGEST: usize = 40;

/// The colours offered, and the chosen one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Swatches {
    /// What was typed.
    pub begun: String,
    /// The colours offered, the likeliest first.
    pub offers: Vec<Tint>,
    /// The place of the chosen one.
    pub chosen: usize,
    /// Offered first while nothing is typed: what the stash has most of.
    usual: Vec<Tint>,
}

impl Swatches {
    /// Offers the colours in `usual`, then all names.
    #[must_use]
    pub fn new(usual: Vec<Tint>, names: &ColourNames) -> Self {
        let mut swatches = Self { begun: String::new(), offers: Vec::new(), chosen: 0, usual };
        swatches.offer(names);
        swatches
    }

    /// The chosen colour.
    #[must_use]
    pub fn tint(&self) -> Option<&Tint> {
        self.offers.get(self.chosen)
    }

    /// Takes a key that types, or takes back what was typed last. `false` where it does neither.
    pub fn key(&mut self, key: Key, names: &ColourNames) -> bool {
        match (key.typed(), key.code()) {
            (Some(c), _) if self.begun.chars().count() < LONGEST => self.begun.push(c),
            (Some(_), _) => {}
            (None, KeyCode::Backspace) => {
                self.begun.pop();
            }
            _ => return false,
        }
        self.offer(names);
        true
    }

    /// Goes `by` colours on, or back.
    pub fn walk(&mut self, by: isize) {
        self.chosen = step(self.chosen, by, self.offers.len());
    }

    /// Chooses the next shade lighter or darker than the chosen colour; `false` where there is none.
    pub fn shade(&mut self, lighter: bool, names: &ColourNames) -> bool {
        let Some(shade) = self.tint().and_then(|tint| names.next_shade(tint.colour, lighter)) else {
            return false;
        };
        let place = self.offers.iter().position(|tint| tint.colour == shade.colour);
        self.chosen = place.unwrap_or_else(|| {
            self.offers.insert(0, shade);
            0
        });
        true
    }

    fn offer(&mut self, names: &ColourNames) {
        self.chosen = 0;
        let begun = self.begun.trim();
        let mut offers = if begun.is_empty() { self.usual.clone() } else { Vec::new() };
        if begun.starts_with('#') {
            offers.extend(names.read(begun));
        }
        for tint in names.offers(begun) {
            if !offers.iter().any(|other| other.colour == tint.colour && other.name() == tint.name()) {
                offers.push(tint);
            }
        }
        self.offers = offers;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::Colour;

    fn typed(text: &str) -> Swatches {
        let names = ColourNames::default();
        let mut swatches = Swatches::new(vec![Tint::called("teal", Colour::BLACK)], &names);
        for c in text.chars() {
            swatches.key(Key::plain(KeyCode::Char(c)), &names);
        }
        swatches
    }

    fn chosen(swatches: &Swatches) -> String {
        swatches.tint().map_or_else(String::new, |tint| tint.name().into_owned())
    }

    #[test]
    fn what_is_typed_narrows_what_is_offered() {
        assert_eq!(typed("").tint().map(|tint| tint.colour), Some(Colour::BLACK), "the usual ones first");
        assert_eq!(chosen(&typed("cor")), "coral");
        assert_eq!(typed("#c0ffee").tint().map(|tint| tint.colour.hex()), Some("#c0ffee".to_owned()));
        assert!(typed("zzz").tint().is_none());
    }

    #[test]
    fn lighter_and_darker_go_through_the_names() {
        let names = ColourNames::default();
        let mut swatches = typed("teal");
        assert!(swatches.shade(true, &names));
        assert_eq!(chosen(&swatches), "darkcyan");
        assert!(!typed("zzz").shade(true, &names));
    }
}
