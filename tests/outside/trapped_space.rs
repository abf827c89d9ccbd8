//! Trapped paper against a general image library's closing with a disc, on seeded pages: equal cell by cell.
//!
//! The library: the crate `imageproc` 0.27, `morphology::close` under the Euclidean norm. Its distances are the true ones
//! rounded up, so that a distance of at most R is dx^2 + dy^2 <= R^2 exactly. The pictures are padded by more than R, for
//! beyond a picture the library shrinks nothing. Must not know how the program closes anything.
#![expect(clippy::unwrap_used, reason = "a picture that cannot be made fails the test")]

use imageproc::distance_transform::Norm;
use imageproc::image::{GrayImage, Luma};
use imageproc::morphology::close;
use oddment::checks::{Scene, Taste, judge};
use oddment::plan::{Plan, Spoken};
use oddment::stash::Stash;

use crate::opinion::{Cell, Ground, laid};
use crate::pages::{Drawn, Scale};

const CASES: u64 = 260;
/// Letters of 8 to 50 mm: discs of 6 to 25.
const PAGES: Scale = Scale { page: (90, 190), tall: (8, 50), things: 7, letters: 5 };

/// A picture of some cells of a page, with so many bare ones all round.
struct Frame {
    width: u32,
    height: u32,
    pad: i32,
}

impl Frame {
    fn at(&self, (x, y): Cell) -> (u32, u32) {
        (u32::try_from(x + self.pad).unwrap(), u32::try_from(y + self.pad).unwrap())
    }

    fn picture<'a>(&self, cells: impl Iterator<Item = &'a Cell>) -> GrayImage {
        let more = 2 * u32::try_from(self.pad).unwrap();
        let mut picture = GrayImage::new(self.width + more, self.height + more);
        for &cell in cells {
            let (x, y) = self.at(cell);
            picture.put_pixel(x, y, Luma([255]));
        }
        picture
    }
}

/// The cells that the library's closings hold for trapped.
fn closed_by_the_library(raised: &[Cell], body: &[Cell], frame: &Frame, radius: i32) -> Vec<Cell> {
    let radius = u8::try_from(radius).unwrap();
    let closed = |picture: GrayImage| close(&picture, Norm::L2, radius);
    let both = closed(frame.picture(raised.iter().chain(body)));
    let (raised, body) = (closed(frame.picture(raised.iter())), closed(frame.picture(body.iter())));
    let held = |picture: &GrayImage, x: u32, y: u32| picture.get_pixel(x, y).0[0] > 0;
    let trapped = both
        .enumerate_pixels()
        .filter(|&(x, y, pixel)| pixel.0[0] > 0 && !held(&raised, x, y) && !held(&body, x, y));
    let cell = |side: u32| i32::try_from(side).unwrap() - frame.pad;
    trapped.map(|(x, y, _)| (cell(x), cell(y))).collect()
}

/// Compares one strip; tells the disc's radius and how many cells are trapped. `None`: no letter stands on it.
fn compare(seed: u64, plan: &Plan, place: usize, stash: &Stash) -> Option<(i32, usize)> {
    let (ground, lies) = (Ground::new(plan, place, stash), &plan.strips()[place].place);
    let at = lies.at.unwrap();
    let strip = laid(plan, place, stash, at, lies.turn).cut(lies.turn, at, &plan.page);
    let (x, y) = strip.whole();
    let body: Vec<Cell> = strip.body.iter().map(|cell| (cell.0 + x, cell.1 + y)).collect();
    let side = |length: oddment::measure::Length| u32::try_from(length.nm() / 1_000_000 + 1).unwrap();
    let size = plan.page.size.unwrap();
    let pad = ground.radius + 1;
    let frame = Frame { width: side(size.width), height: side(size.height), pad };
    let expected = closed_by_the_library(&ground.raised(), &body, &frame, ground.radius);
    let scene = Scene::new(stash, &plan.page, Taste::default(), Spoken::default());
    let verdict = judge(plan, stash, &scene);
    let Some(lying) = verdict.strips[place].lying.as_ref() else {
        assert!(strip.ink.is_empty(), "seed {seed}, strip {place}: letters stand on it");
        return None;
    };
    let found: Vec<Cell> = lying.meeting.trapped.0.iter().collect();
    assert_eq!(found, expected, "seed {seed}, strip {place}: trapped cells, then the library's");
    Some((ground.radius, expected.len()))
}

#[test]
fn trapped_paper_is_what_an_image_library_closes() {
    let (mut radii, mut some, mut turned, mut beside) = (Vec::new(), 0, 0, 0);
    for seed in 40_000..40_000 + CASES {
        let Drawn { stash, plan } = Drawn::new(seed, PAGES);
        for (place, strip) in plan.strips().iter().enumerate() {
            let Some((radius, trapped)) = compare(seed, &plan, place, &stash) else { continue };
            radii.push(radius);
            let counts = usize::from(trapped > 0);
            some += counts;
            turned += counts * usize::from(strip.place.turn.thousandths() % 90_000 != 0);
            beside += counts * usize::from(plan.strips().len() > 1);
        }
    }
    radii.sort_unstable();
    radii.dedup();
    assert_eq!((radii.first(), radii.last()), (Some(&6), Some(&25)), "{radii:?}");
    assert!(radii.len() > 15, "{radii:?}");
    assert!(some > 100 && turned > 30 && beside > 30, "{some} trap paper, {turned} turned, {beside} of two");
}
