//! What to mind where the work can hurt a hand or a photo.
//!
//! Must not know how it is printed.

use crate::measure::Length;
use crate::page::{Element, Kind, Page};
use crate::plan::Plan;
use crate::stash::Stash;
use crate::title::{Layout, LetterBox, Role, Strip};

use super::spot::{Lying, Spot};

/// Points along each side of a letter's box at most, when it is looked at what the letter lies on.
const FINEST: f64 = 200.0;

/// What reaches no further than this beyond the page's edge is not seen.
const HAIR: Length = Length::from_nm(100_000);

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
    /// Letters of a strip would reach beyond the page's edge.
    BeyondPage {
        /// The strip.
        role: Role,
        /// Their numbers, from 1.
        numbers: Vec<usize>,
    },
    /// The page bears photos that cannot be reprinted, as the owner calls them.
    Originals(Vec<String>),
    /// There may be photos near: adhesives that are safe for them.
    PhotoSafe,
}

impl Caution {
    /// The strip that it keeps from being stuck down where it lies.
    #[must_use]
    pub const fn misplaced(&self) -> Option<&Role> {
        match self {
            Self::OnOriginal { role, .. } | Self::BeyondPage { role, .. } => Some(role),
            Self::Knife | Self::Originals(_) | Self::PhotoSafe => None,
        }
    }
}

/// The cautions for `plan`, gravest first; `cuts`: whether a letter is trimmed.
pub(super) fn cautions(plan: &Plan, stash: &Stash, cuts: bool) -> Vec<Caution> {
    let mut cautions: Vec<Caution> = Vec::new();
    if cuts {
        cautions.push(Caution::Knife);
    }
    for strip in plan.strips().iter().filter(|strip| strip.stuck.is_none()) {
        cautions.extend(on_originals(strip, &plan.page, stash));
        cautions.extend(beyond_page(strip, &plan.page, stash));
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

/// Missing letters are counted too: they would lie there.
fn on_originals(strip: &Strip, page: &Page, stash: &Stash) -> Vec<Caution> {
    let Some(lying) = Lying::of(&strip.place, page) else { return Vec::new() };
    let layout = Layout::of(strip, stash);
    let mut found: Vec<(&Element, Vec<usize>)> = Vec::new();
    for (slot, letter) in layout.letters.iter().enumerate() {
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

/// By the corners of their boxes, tilted and turned; missing letters are counted too.
fn beyond_page(strip: &Strip, page: &Page, stash: &Stash) -> Option<Caution> {
    let (lying, size) = (Lying::of(&strip.place, page)?, page.size?);
    let outside = |spot: Spot| {
        let beyond = |along: Length, side: Length| along < -HAIR || along > side + HAIR;
        beyond(spot.left, size.width) || beyond(spot.down, size.height)
    };
    let reaches = |letter: &LetterBox| {
        let halves = [-0.5, 0.5];
        halves.into_iter().any(|up| halves.into_iter().any(|along| outside(spot(letter, lying, along, up))))
    };
    let letters = Layout::of(strip, stash).letters;
    let numbers: Vec<usize> =
        (1..).zip(&letters).filter(|(_, letter)| reaches(letter)).map(|(number, _)| number).collect();
    (!numbers.is_empty()).then(|| Caution::BeyondPage { role: strip.role().clone(), numbers })
}

/// Where a point of a letter's box lies, `along` and `up` from its middle as shares of its sides.
fn spot(letter: &LetterBox, lying: Lying, along: f64, up: f64) -> Spot {
    let (sin, cos) = letter.tilt.sin_cos();
    let (dx, dy) = (along * letter.width.mm(), up * letter.height.mm());
    let (middle, over) = (letter.left + letter.width / 2, letter.bottom + letter.height / 2);
    lying.spot(
        middle + Length::from_mm_f64(dx * cos + dy * sin),
        over + Length::from_mm_f64(dy * cos - dx * sin),
    )
}

/// What a letter lies on, looked at in cells of 1 mm by their centres, so that a letter that only touches a photo does
/// not lie on it.
fn originals_under<'a>(
    letter: &LetterBox,
    lying: Lying,
    page: &'a Page,
) -> impl Iterator<Item = &'a Element> {
    let shares = |side: Length| {
        let cells = side.mm().ceil().clamp(1.0, FINEST);
        (0_u32..).map(move |cell| (f64::from(cell) + 0.5) / cells - 0.5).take_while(|share| *share < 0.5)
    };
    let points = shares(letter.height).flat_map(move |up| shares(letter.width).map(move |along| (along, up)));
    points
        .map(move |(along, up)| spot(letter, lying, along, up))
        .filter_map(|spot| page.topmost_at(spot.left.mm(), spot.down.mm()))
        .filter(|element| element.original)
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
mod tests {
    use super::super::{Order, trial};
    use super::*;
    use crate::measure::{Angle, Point};
    use crate::stash::ChipId;
    use crate::title::{Sticker, Stood};

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

    #[test]
    fn missing_letters_that_would_lie_on_an_original_are_counted() {
        let plan = trial::on_photo("LA", &["-", "blocks/A"], true, 50);
        let cautions = Order::of(&plan, &trial::stash()).cautions;
        assert!(cautions[0].to_string().starts_with("Letters 1 and 2 of the title lie on"), "{cautions:?}");
    }

    /// The first feet are 40 mm from the left of a page of 200 by 300 mm; letters are tiles of 12 mm, 1.5 mm apart.
    #[test]
    fn letters_beyond_the_page_are_named_by_number() {
        let beyond = |nm: i64, tilt: i32, turn: i32| {
            let mut strip = trial::place(trial::strip(Role::title(), "LA", &["blocks/L", "-"]), turn);
            strip.place.at = Some(Point { x: Length::from_nm(nm), y: Length::from_mm(109) });
            let id = ChipId::parse("blocks/A").unwrap();
            let stood = Stood::straight(Sticker::Chip { id, stands_in: None });
            trial::stand(&mut strip, 1, Stood { tilt: Angle::from_thousandths(tilt), ..stood });
            let plan = Plan::new(None, trial::page(), vec![strip]).unwrap();
            let order = Order::of(&plan, &trial::stash());
            let numbers = order.cautions.iter().find_map(|caution| match caution {
                Caution::BeyondPage { numbers, .. } => Some(numbers.clone()),
                _ => None,
            });
            assert_eq!(order.is_misplaced(&order.strips[0]), numbers.is_some());
            numbers.unwrap_or_default()
        };
        // Both together are 25.5 mm long.
        assert!(beyond(174_500_000, 0, 0).is_empty());
        assert!(beyond(174_600_000, 0, 0).is_empty(), "a hair is none");
        assert_eq!(beyond(174_700_000, 0, 0), [2]);
        assert_eq!(beyond(174_500_000, 10_000, 0), [2], "its corner reaches further");
        assert_eq!(beyond(188_500_000, 0, 0), [1, 2]);
        assert_eq!(beyond(-1_000_000, 0, 0), [1]);
        assert!(beyond(174_500_000, 0, 90_000).is_empty(), "it runs down the page");
    }
}
