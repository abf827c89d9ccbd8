//! What to mind where the work can hurt a hand or a photo.
//!
//! Must not know how it is printed.

use crate::measure::Length;
use crate::page::{Element, Kind, Page};
use crate::plan::Plan;
use crate::stash::Stash;
use crate::title::{Layout, LetterBox, Role, Strip};

use super::spot::Lying;

/// Points along each side of a letter's box at most, when it is looked at what the letter lies on.
const FINEST: f64 = 200.0;

/// A caution that applies to an order (all common practice, no source).
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Caution {
    /// A letter is trimmed with a craft knife.
    Knife,
    /// Letters of a strip would be stuck on a photo that cannot be reprinted.
    OnOriginal {
        /// The strip.
        role: Role,
        /// The photo, as the owner calls it.
        photo: String,
        /// Their numbers, from 1.
        numbers: Vec<usize>,
    },
    /// The page bears photos that cannot be reprinted, as the owner calls them.
    Originals(Vec<String>),
    /// There may be photos near: adhesives that are safe for them.
    PhotoSafe,
}

/// The cautions for `plan`, gravest first; `cuts`: whether a letter is trimmed.
pub(super) fn cautions(plan: &Plan, stash: &Stash, cuts: bool) -> Vec<Caution> {
    let mut cautions: Vec<Caution> = Vec::new();
    if cuts {
        cautions.push(Caution::Knife);
    }
    for strip in plan.strips().iter().filter(|strip| strip.stuck.is_none()) {
        cautions.extend(on_originals(strip, &plan.page, stash));
    }
    let photos = || plan.page.elements.iter().filter(|element| element.kind == Kind::Photo);
    let originals = plan.page.elements.iter().filter(|element| element.original);
    let originals: Vec<String> = originals.map(|one| one.called().to_owned()).collect();
    if !originals.is_empty() {
        cautions.push(Caution::Originals(originals));
    }
    // A plan that describes no page may end on one with photos.
    if plan.page.elements.is_empty() || photos().next().is_some() {
        cautions.push(Caution::PhotoSafe);
    }
    cautions
}

fn on_originals(strip: &Strip, page: &Page, stash: &Stash) -> Vec<Caution> {
    let Some(lying) = Lying::of(&strip.place, page) else { return Vec::new() };
    let layout = Layout::of(strip, stash);
    let mut found: Vec<(&Element, Vec<usize>)> = Vec::new();
    for (slot, letter) in layout.letters.iter().enumerate().filter(|(_, letter)| letter.filled) {
        for photo in originals_under(letter, lying, page) {
            match found.iter_mut().find(|(known, _)| std::ptr::eq(*known, photo)) {
                Some((_, numbers)) if numbers.last() == Some(&(slot + 1)) => {}
                Some((_, numbers)) => numbers.push(slot + 1),
                None => found.push((photo, vec![slot + 1])),
            }
        }
    }
    let caution = |(photo, numbers): (&Element, Vec<usize>)| Caution::OnOriginal {
        role: strip.role().clone(),
        photo: photo.called().to_owned(),
        numbers,
    };
    found.into_iter().map(caution).collect()
}

/// What a letter lies on, looked at in cells of 1 mm by their centres, so that a letter that only touches a photo does
/// not lie on it.
fn originals_under<'a>(
    letter: &LetterBox,
    lying: Lying,
    page: &'a Page,
) -> impl Iterator<Item = &'a Element> {
    let (width, height) = (letter.width.mm(), letter.height.mm());
    let (sin, cos) = letter.tilt.sin_cos();
    let (middle, over) = (letter.left + letter.width / 2, letter.bottom + letter.height / 2);
    let shares = |side: f64| {
        let cells = side.ceil().clamp(1.0, FINEST);
        (0_u32..).map(move |cell| (f64::from(cell) + 0.5) / cells - 0.5).take_while(|share| *share < 0.5)
    };
    let points =
        shares(height).flat_map(move |up| shares(width).map(move |along| (along * width, up * height)));
    points
        .map(move |(dx, dy)| {
            let along = Length::from_mm_f64(dx * cos + dy * sin);
            let up = Length::from_mm_f64(dy * cos - dx * sin);
            lying.spot(middle + along, over + up)
        })
        .filter_map(|spot| page.topmost_at(spot.left.mm(), spot.down.mm()))
        .filter(|element| element.original)
}

#[cfg(test)]
mod tests {
    use super::super::{Order, trial};
    use super::*;

    #[test]
    fn letters_on_an_original_are_named_by_number() {
        let plan = trial::on_photo("LA", &["blocks/L", "blocks/A"], true, 50);
        let cautions = Order::of(&plan, &trial::stash()).cautions;
        let photo = String::from("harbour photo");
        let on = Caution::OnOriginal { role: Role::title(), photo: photo.clone(), numbers: vec![1, 2] };
        assert_eq!(cautions, [on, Caution::Originals(vec![photo]), Caution::PhotoSafe]);
    }

    #[test]
    fn touching_an_original_is_no_lying_on_it() {
        let photo = String::from("harbour photo");
        let plan = trial::on_photo("LA", &["blocks/L", "blocks/A"], true, 109);
        let cautions = Order::of(&plan, &trial::stash()).cautions;
        assert_eq!(cautions, [Caution::Originals(vec![photo]), Caution::PhotoSafe]);
        let reprint = trial::on_photo("LA", &["blocks/L", "blocks/A"], false, 50);
        assert_eq!(Order::of(&reprint, &trial::stash()).cautions, [Caution::PhotoSafe]);
    }
}
