//! Looking ahead: which letters run out first, what a sheet in a shop would unlock, and what could be made of the last letters of
//! a sheet.
//!
//! Plain data, for others to tell. Must not know prices, shops, files or screens.

mod leftovers;
mod on_sale;
mod running;

pub use leftovers::{Leftover, NEARLY_SPENT, Possible, leftovers};
pub use on_sale::{Better, Count, Shop, StillShort, Unlocks};
pub use running::{Running, RunningOut};

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
pub(super) mod tests {
    use crate::letter::{Character, characters};
    use crate::measure::{Colour, Length, Points, Tint};
    use crate::stash::{Finish, Form, HeightOf, Label, Letter, Make, Paint, Record, Sheet, SheetId, Size};
    use crate::supply::{Asking, Costs};

    /// A die-cut sheet of 20 mm with these letters.
    pub(in crate::supply) fn sheet(id: &str, letters: &str) -> Sheet {
        let mut counted: Vec<Letter> = Vec::new();
        for one in characters(letters).map(|one| Character::new(one).unwrap()) {
            match counted.iter_mut().find(|letter| letter.character == one) {
                Some(letter) => letter.left += 1,
                None => counted.push(Letter::plain(one, None, 1)),
            }
        }
        Sheet {
            id: SheetId::new(id).unwrap(),
            label: Label::default(),
            make: Make {
                form: Form::DieCut,
                finish: Finish::Matte,
                neutral: false,
                joined: false,
                plain_tile: false,
            },
            size: Size {
                height: Length::from_mm(20),
                height_of: HeightOf::Capital,
                tile_width: None,
                thick: None,
            },
            paint: Paint { colours: vec![Tint::plain(Colour::BLACK)], outline: None, tile: None },
            letters: counted,
            record: Record::default(),
        }
    }

    pub(in crate::supply) fn asking() -> Asking {
        let cost = Points::from_tenths(30);
        Asking::any(Costs { turned: cost, look_alike: cost, other_case: cost, trimmed: cost })
    }
}
