//! Resting places against a second opinion that tries every position: the same places, in the same order, to the tenth.
//!
//! Must not know how the search spares itself positions.

use std::cmp::Reverse;

use oddment::checks::{Scene, THRESHOLDS, Taste, judge, resting};
use oddment::measure::{Angle, Point};
use oddment::page::Rest;
use oddment::plan::{Plan, Spoken};
use oddment::stash::Stash;
use oddment::title::Place;

use crate::draw::Draw;
use crate::opinion::{Cell, Closer, Ground, Laid, laid};
use crate::pages::{Drawn, Scale};

const CASES: u64 = 900;
const SMALL: Scale = Scale { page: (40, 90), tall: (4, 16), things: 5, letters: 4 };
/// A page on which more positions than this are to be tried is left to other seeds, for the time that it takes.
const MOST: usize = 1_300;

/// A position of the strip: points in tenths, letters that touch something, mm2 of letters on something, down, across; then
/// its trapped paper in mm2.
type Tried = ((i64, Reverse<usize>, usize, i32, i32), usize);

/// A strip of a plan that can be tried anywhere on its page.
struct Trial<'a> {
    plan: &'a Plan,
    place: usize,
    stash: &'a Stash,
    ground: Ground,
}

impl<'a> Trial<'a> {
    fn new(plan: &'a Plan, place: usize, stash: &'a Stash) -> Self {
        Self { plan, place, stash, ground: Ground::new(plan, place, stash) }
    }

    fn laid(&self, turn: Angle) -> Laid {
        laid(self.plan, self.place, self.stash, Point::default(), turn)
    }

    /// All positions at which no letter reaches beyond the page.
    fn positions(&self, laid: &Laid) -> Vec<Cell> {
        let (Some(reach), Some((wide, high))) = (laid.reach(), self.ground.size()) else { return Vec::new() };
        let fits = |low: f64, high: f64, side: f64| {
            let fits = move |&by: &i32| low + f64::from(by) >= -1e-6 && high + f64::from(by) <= side + 1e-6;
            (-200..200).filter(fits).collect::<Vec<i32>>()
        };
        let across = fits(reach[0], reach[2], wide);
        fits(reach[1], reach[3], high).into_iter().flat_map(|y| across.iter().map(move |&x| (x, y))).collect()
    }

    fn tried(&self, laid: &Laid, closer: &Closer, by: Cell) -> Tried {
        let trapped = closer.trapped(by).len();
        let tenths = self.ground.told(laid, by, trapped).iter().map(|one| one.tenths).sum();
        let (touching, over) = self.ground.hold(laid, by);
        ((tenths, Reverse(touching), over, by.1, by.0), trapped)
    }

    /// The best places, each at least half a line's height from all before it.
    fn best(&self, count: usize) -> Vec<Tried> {
        let laid = self.laid(self.plan.strips()[self.place].place.turn);
        let closer = self.ground.closer(&laid, &self.plan.page);
        let mut all: Vec<Tried> =
            self.positions(&laid).into_iter().map(|by| self.tried(&laid, &closer, by)).collect();
        all.sort_unstable();
        let mut best: Vec<Tried> = Vec::new();
        for one in all {
            let apart = |other: &Tried| distance(at(&one), at(other)) >= self.ground.half;
            if best.len() < count && best.iter().all(apart) {
                best.push(one);
            }
        }
        best
    }

    /// That a place is priced as it is told, lies on the page, and is not turned too far.
    #[track_caller]
    fn holds(&self, rest: &Rest, line: &str) {
        let laid = self.laid(rest.turn);
        let by = told_at(rest);
        let ((tenths, ..), trapped) = self.tried(&laid, &self.ground.closer(&laid, &self.plan.page), by);
        let said = (i64::from(rest.points.tenths()), usize::try_from(rest.trapped).unwrap());
        assert_eq!(said, (tenths, trapped), "{line}: {rest:?}: told, then the second opinion");
        assert!(self.positions(&laid).contains(&by), "{line}: {rest:?} is off the page");
        let turned = (rest.turn - self.plan.strips()[self.place].place.turn).thousandths();
        assert!(turned.abs() <= 6_000, "{line}: {rest:?}");
    }

    /// That the checks say the same of a strip that was moved there.
    #[track_caller]
    fn is_judged_alike(&self, rest: &Rest, scene: &Scene, line: &str) {
        let mut strips = self.plan.strips().to_vec();
        for strip in &mut strips {
            strip.accepted.clear();
        }
        strips[self.place].place = Place { at: Some(rest.at), turn: rest.turn };
        let plan = Plan::new(None, self.plan.page.clone(), strips).unwrap();
        let verdict = judge(&plan, self.stash, scene);
        let lying = verdict.strips[self.place].lying.as_ref().unwrap();
        let judged = (lying.points, lying.meeting.trapped.0.count(), &lying.meeting.touches);
        assert_eq!(judged, (rest.points, rest.trapped, &rest.touches), "{line}: judged, then {rest:?}");
    }
}

const fn at(tried: &Tried) -> Cell {
    (tried.0.4, tried.0.3)
}

fn told_at(rest: &Rest) -> Cell {
    let mm = |nm: i64| i32::try_from(nm / 1_000_000).unwrap();
    assert_eq!((rest.at.x.nm() % 1_000_000, rest.at.y.nm() % 1_000_000), (0, 0), "no whole mm: {rest:?}");
    (mm(rest.at.x.nm()), mm(rest.at.y.nm()))
}

fn distance(a: Cell, b: Cell) -> f64 {
    f64::from(a.0 - b.0).hypot(f64::from(a.1 - b.1))
}

/// Compares a search with what trying every position finds; tells how many places were turned, or `None` where there was no
/// room or too much.
fn compare(seed: u64) -> Option<(usize, usize)> {
    let Drawn { stash, plan } = Drawn::new(seed, SMALL);
    let mut draw = Draw::new(seed + 77_000_000);
    let (place, count) = (draw.below(plan.strips().len()), 1 + draw.below(6));
    let trial = Trial::new(&plan, place, &stash);
    let own = plan.strips()[place].place.turn;
    let mut taste = Taste::default();
    if draw.chance(50) {
        // However little it minds, a letter beyond the page is no way to rest.
        let off = THRESHOLDS.iter().position(|row| row.key == "off.points").unwrap();
        taste.set(off, THRESHOLDS[off].least).unwrap();
    }
    let scene = Scene::new(&stash, &plan.page, taste, Spoken::default());
    let search = resting(&plan, place, &stash, &scene, count);
    let positions = trial.positions(&trial.laid(own)).len();
    assert_eq!(search.is_none(), positions == 0, "seed {seed}: {positions} positions");
    let mut search = search.filter(|_| positions <= MOST)?;
    while !search.run(1) {}
    let (places, best) = (search.places(), trial.best(count));
    let line = format!("seed {seed}, strip {place} turned by {own}");
    assert_eq!(places.len(), best.len(), "{line}: places");
    assert!(places.is_sorted_by_key(|rest| rest.points), "{line}: {places:?}");
    for (number, rest) in places.iter().enumerate() {
        trial.holds(rest, &line);
        trial.is_judged_alike(rest, &scene, &line);
        let apart = |other: &Rest| distance(told_at(rest), told_at(other)) >= trial.ground.half;
        assert!(places[..number].iter().all(apart), "{line}: {places:?}");
    }
    // What a slight turn made no better stays, in its order; each of the others is better than the one it came from.
    let stayed: Vec<Cell> = places.iter().filter(|rest| rest.turn == own).map(told_at).collect();
    let (kept, mut left): (Vec<Tried>, Vec<Tried>) =
        best.into_iter().partition(|one| stayed.contains(&at(one)));
    assert_eq!(stayed, kept.iter().map(at).collect::<Vec<_>>(), "{line}: places, then the second opinion");
    let turned: Vec<&Rest> = places.iter().filter(|rest| rest.turn != own).collect();
    left.sort_unstable();
    for (rest, was) in turned.iter().zip(&left) {
        assert!(i64::from(rest.points.tenths()) < was.0.0, "{line}: {rest:?} is no better than {was:?}");
    }
    Some((places.len(), turned.len()))
}

/// Cases by their seeds, dealt to two tests that run side by side.
fn cases(half: u64) {
    let (mut searched, mut found, mut turned) = (0, 0, 0);
    for seed in (half..CASES).step_by(2) {
        if let Some((places, of_them)) = compare(seed) {
            (searched, found, turned) = (searched + 1, found + places, turned + of_them);
        }
    }
    assert!(
        searched > 90 && found > 300 && turned > 100,
        "{searched} searched, {found} found, {turned} turned"
    );
}

#[test]
fn the_best_places_are_those_of_trying_every_position() {
    cases(0);
}

#[test]
fn the_best_places_are_those_of_trying_every_position_of_other_pages() {
    cases(1);
}

#[test]
fn a_search_that_is_stopped_while_it_turns_places_tells_the_best_first() {
    let mut looked = 0;
    for seed in 0..80 {
        let Drawn { stash, plan } = Drawn::new(seed, SMALL);
        let scene = Scene::new(&stash, &plan.page, Taste::default(), Spoken::default());
        let Some(mut search) = resting(&plan, 0, &stash, &scene, 6) else { continue };
        while !search.run(1) {
            if search.progress() == (1, 1) {
                looked += 1;
                let points: Vec<_> = search.places().iter().map(|rest| rest.points).collect();
                assert!(points.is_sorted(), "seed {seed}: {points:?}");
            }
        }
    }
    assert!(looked > 1000, "{looked}");
}
