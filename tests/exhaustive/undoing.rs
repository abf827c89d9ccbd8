//! Any sequence of edits, undone to the start and redone to the end; and chips that are gone.
//!
//! Must not know who asks for an edit.

use oddment::checks::{Scene, Taste, alternates, judge};
use oddment::letter::Character;
use oddment::measure::{Angle, Colour, Length, Point, Size, Tint};
use oddment::page::{Element, Kind, Lie, Outline, Page};
use oddment::plan::{History, Plan, PlanEdit, Spoken};
use oddment::stash::Stash;
use oddment::title::{
    Edit, Layout, LineUp, Mix, Place, Role, Setting, Spacing, Sticker, Stood, Strip, Wording,
};
use proptest::prelude::*;

use super::drawn::Case;

/// What someone does; numbers are brought into range, or a little beyond it, when it is done.
#[derive(Debug, Clone)]
enum Act {
    Stand(usize, usize, usize),
    TakeOff(usize, usize),
    Exchange(usize, usize, usize),
    Nudge(usize, usize, i8),
    Raise(usize, usize, i8),
    Tilt(usize, usize, i8),
    Pin(usize, usize),
    Reword(usize, String),
    Mix(usize, usize),
    Set(usize, i8, bool),
    Carry(usize, i8, i8),
    Accept(usize, bool),
    TwoAtOnce(usize, usize, i8),
    PutStripIn(usize, usize),
    TakeStripOut(usize),
    Page(bool),
    AddThing(usize, i8, i8),
    MoveThing(usize, i8, i8),
    SizeThing(usize, u8),
    RecolourThing(usize, u8),
    TakeThingAway(usize),
    Restack(usize, usize),
    /// A thing with its mat, as one.
    ThingAndMat(usize, i8),
    /// Goes on with another plan.
    Whole(u64),
    /// The run of moves ends here.
    Pause,
}

fn acts() -> impl Strategy<Value = Vec<Act>> {
    let (place, slot) = (0..3_usize, 0..7_usize);
    let at = (place.clone(), slot.clone());
    let moved = (place.clone(), slot.clone(), -3..4_i8);
    let act = prop_oneof![
        3 => (place.clone(), slot.clone(), 0..40_usize).prop_map(|(p, s, c)| Act::Stand(p, s, c)),
        1 => at.clone().prop_map(|(p, s)| Act::TakeOff(p, s)),
        1 => (place.clone(), slot.clone(), slot.clone()).prop_map(|(p, a, b)| Act::Exchange(p, a, b)),
        6 => (0..2_usize, 0..2_usize, -3..4_i8).prop_map(|(p, s, by)| Act::Nudge(p, s, by)),
        2 => moved.clone().prop_map(|(p, s, by)| Act::Raise(p, s, by)),
        2 => moved.clone().prop_map(|(p, s, by)| Act::Tilt(p, s, by)),
        2 => at.prop_map(|(p, s)| Act::Pin(p, s)),
        1 => (place.clone(), "[AESO]{0,6}( [AM]{1,3})?(\n[NE]{1,3})?").prop_map(|(p, text)| Act::Reword(p, text)),
        1 => (place.clone(), 0..3_usize).prop_map(|(p, mix)| Act::Mix(p, mix)),
        1 => (place.clone(), -3..4_i8, any::<bool>()).prop_map(|(p, gap, o)| Act::Set(p, gap, o)),
        2 => (0..2_usize, any::<i8>(), any::<i8>()).prop_map(|(p, x, y)| Act::Carry(p, x, y)),
        1 => (place.clone(), any::<bool>()).prop_map(|(p, content)| Act::Accept(p, content)),
        1 => moved.prop_map(|(p, s, by)| Act::TwoAtOnce(p, s, by)),
        1 => (0..9_usize, 0..4_usize).prop_map(|(p, role)| Act::PutStripIn(p, role)),
        1 => place.prop_map(Act::TakeStripOut),
        1 => any::<bool>().prop_map(Act::Page),
        12 => on_page(),
        1 => (0..60_u64).prop_map(Act::Whole),
        1 => Just(Act::Pause),
    ];
    prop::collection::vec(act, 0..40)
}

/// What someone does to the things on the page; places reach a little beyond them.
fn on_page() -> impl Strategy<Value = Act> {
    let place = 0..4_usize;
    prop_oneof![
        2 => (place.clone(), any::<i8>(), any::<i8>()).prop_map(|(p, x, y)| Act::AddThing(p, x, y)),
        4 => (0..2_usize, -3..4_i8, -3..4_i8).prop_map(|(p, x, y)| Act::MoveThing(p, x, y)),
        2 => (0..2_usize, any::<u8>()).prop_map(|(p, by)| Act::SizeThing(p, by)),
        1 => (place.clone(), any::<u8>()).prop_map(|(p, red)| Act::RecolourThing(p, red)),
        1 => place.clone().prop_map(Act::TakeThingAway),
        1 => (place.clone(), place.clone()).prop_map(|(a, b)| Act::Restack(a, b)),
        1 => (place, any::<i8>()).prop_map(|(p, x)| Act::ThingAndMat(p, x)),
    ]
}

/// The edit that an act asks for; `None` where there is nothing to move or pin.
fn edit(act: &Act, plan: &Plan, stash: &Stash) -> Option<PlanEdit> {
    let standing = |place: usize, slot: usize| plan.strips().get(place)?.letter(slot).cloned();
    let changed = |place: usize, slot: usize, change: &dyn Fn(&mut Stood)| {
        let mut stood = standing(place, slot)?;
        change(&mut stood);
        Some(PlanEdit::Strip(place, Edit::Letter { slot, stood: Some(stood) }))
    };
    let mm = |by: i8| Length::from_mm(i64::from(by));
    match act {
        Act::Stand(place, slot, chip) => {
            let chip = stash.chips().nth(chip % stash.len())?;
            let sticker = Sticker::Chip { id: stash.chip(chip).id(), stands_in: None };
            let stood = Some(Stood::straight(sticker));
            Some(PlanEdit::Strip(*place, Edit::Letter { slot: *slot, stood }))
        }
        Act::TakeOff(place, slot) => Some(PlanEdit::Strip(*place, Edit::Letter { slot: *slot, stood: None })),
        Act::Exchange(place, a, b) => Some(PlanEdit::Strip(*place, Edit::Exchange(*a, *b))),
        Act::Nudge(place, slot, by) => changed(*place, *slot, &|stood| stood.nudge += mm(*by)),
        Act::Raise(place, slot, by) => changed(*place, *slot, &|stood| stood.raise += mm(*by)),
        Act::Tilt(place, slot, by) => changed(*place, *slot, &|stood| {
            stood.tilt = stood.tilt + Angle::from_thousandths(i32::from(*by) * 1000);
        }),
        Act::Pin(place, slot) => changed(*place, *slot, &|stood| stood.pinned = !stood.pinned),
        Act::Reword(place, text) => {
            let edit = Edit::reword(plan.strips().get(*place)?, Wording::new(text).unwrap());
            Some(PlanEdit::Strip(*place, edit))
        }
        Act::TwoAtOnce(place, slot, by) => {
            let PlanEdit::Strip(_, moved) = changed(*place, *slot, &|stood| stood.nudge += mm(*by))? else {
                return None;
            };
            Some(PlanEdit::Strip(*place, Edit::Several(vec![moved, Edit::Exchange(*slot, 0)])))
        }
        other => whole_edit(other, plan),
    }
}

/// The edit that an act on a whole strip or on the page asks for.
fn whole_edit(act: &Act, plan: &Plan) -> Option<PlanEdit> {
    let mm = |by: i8| Length::from_mm(i64::from(by));
    match act {
        Act::Mix(place, mix) => {
            let mut rules = plan.strips().get(*place)?.rules.clone();
            rules.mix = Mix::ALL[*mix];
            Some(PlanEdit::Strip(*place, Edit::Rules(rules)))
        }
        Act::Set(place, gap, optical) => {
            let spacing = if *optical { Spacing::Optical } else { Spacing::Even };
            let setting = Setting { gap: mm(*gap), spacing, line_up: LineUp::Middle, ..Setting::default() };
            Some(PlanEdit::Strip(*place, Edit::Setting(setting)))
        }
        Act::Carry(place, x, y) => {
            let at = Some(Point { x: mm(*x), y: mm(*y) });
            Some(PlanEdit::Strip(*place, Edit::Place(Place { at, turn: Angle::ZERO })))
        }
        Act::Accept(place, content) => {
            Some(PlanEdit::Strip(*place, Edit::Accept("ends".to_owned(), *content)))
        }
        Act::PutStripIn(place, role) => {
            let role = Role::new(["title", "subtitle", "date", "names"][*role]).unwrap();
            let strip = Strip::new(role, Wording::new("SEA").unwrap());
            Some(PlanEdit::Insert(*place, Box::new(strip)))
        }
        Act::TakeStripOut(place) => Some(PlanEdit::Remove(*place)),
        Act::Page(bare) => {
            let mut page = Page::default();
            page.margin = if *bare { Length::ZERO } else { page.margin };
            Some(PlanEdit::Page(Box::new(page)))
        }
        other => page_edit(other, plan),
    }
}

/// A thing that lies there.
fn thing(kind: Kind, (x, y): (i8, i8)) -> Element {
    let mm = |by: i8| Length::from_mm(i64::from(by));
    let size = Size { width: mm(60), height: mm(40) };
    let lie = Lie { at: Point { x: mm(x), y: mm(y) }, size, turn: Angle::ZERO, outline: Outline::Rect };
    Element { name: None, kind, original: false, lie, colours: Vec::new(), cover: None, bed: None }
}

/// The edit that an act on the things of the page, or on all of the plan, asks for.
fn page_edit(act: &Act, plan: &Plan) -> Option<PlanEdit> {
    let insert = |place, thing| PlanEdit::InsertElement(place, Box::new(thing));
    let changed = |place: usize, change: &dyn Fn(&mut Element)| {
        // Beyond the topmost there is nothing to change, and the edit must do without.
        let mut element =
            plan.page.elements.get(place).cloned().unwrap_or_else(|| thing(Kind::Label, (1, 1)));
        change(&mut element);
        Some(PlanEdit::Element(place, Box::new(element)))
    };
    match act {
        Act::AddThing(place, x, y) => Some(insert(*place, thing(Kind::Photo, (*x, *y)))),
        Act::MoveThing(place, x, y) => changed(*place, &|element| {
            element.lie.at.x += Length::from_mm(i64::from(*x));
            element.lie.turn = element.lie.turn + Angle::from_thousandths(i32::from(*y) * 1000);
        }),
        Act::SizeThing(place, by) => changed(*place, &|element| {
            element.lie.size.width = Length::from_mm(i64::from(*by) + 1);
        }),
        Act::RecolourThing(place, red) => changed(*place, &|element| {
            element.colours = vec![Tint::plain(Colour { r: *red, g: 0, b: 0 })];
        }),
        Act::TakeThingAway(place) => Some(PlanEdit::RemoveElement(*place)),
        Act::Restack(a, b) => Some(PlanEdit::Restack(*a, *b)),
        Act::ThingAndMat(place, x) => {
            let both =
                [insert(*place, thing(Kind::Mat, (*x, 0))), insert(*place + 1, thing(Kind::Photo, (*x, 4)))];
            Some(PlanEdit::Several(both.to_vec()))
        }
        Act::Whole(seed) => Some(PlanEdit::Whole(Box::new(Case::new(*seed).plan))),
        _ => None,
    }
}

/// What a move moves.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Moved {
    /// One letter that stays the same sticker, by its strip and slot.
    Letter(usize, usize),
    Strip(usize),
    /// A thing on the page that stays the same but for where and how large it lies.
    Thing(usize),
}

fn moves(edit: &PlanEdit, before: &Plan) -> Option<Moved> {
    match edit {
        PlanEdit::Strip(place, Edit::Place(_)) => Some(Moved::Strip(*place)),
        PlanEdit::Element(place, next) => {
            let was = before.page.elements.get(*place)?;
            let moved = Element { lie: next.lie, ..was.clone() };
            (moved == **next).then_some(Moved::Thing(*place))
        }
        PlanEdit::Strip(place, Edit::Letter { slot, stood: Some(next) }) => {
            let was = before.strips().get(*place)?.letter(*slot)?;
            (was.sticker == next.sticker && was.pinned == next.pinned).then_some(Moved::Letter(*place, *slot))
        }
        _ => None,
    }
}

proptest! {
    // A failure is told with its smallest case; nothing is left beside the sources.
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn undone_is_the_start_and_redone_is_the_end(seed in 0..60_u64, acts in acts()) {
        let Case { stash, plan: start, .. } = Case::new(seed);
        let (mut plan, mut history) = (start.clone(), History::default());
        for act in &acts {
            match edit(act, &plan, &stash) {
                Some(edit) => history.make(&mut plan, edit),
                None => history.close_step(),
            }
            prop_assert!(!plan.strips().is_empty());
            let mut roles: Vec<&Role> = plan.strips().iter().map(Strip::role).collect();
            roles.sort();
            roles.dedup();
            prop_assert_eq!(roles.len(), plan.strips().len(), "two strips have one role");
        }
        let end = plan.clone();
        for _ in 0..2 {
            while history.undo(&mut plan) {}
            prop_assert_eq!(&plan, &start);
            while history.redo(&mut plan) {}
            prop_assert_eq!(&plan, &end);
        }
    }

    #[test]
    fn undo_meets_every_state_but_those_within_a_run_of_moves(seed in 0..60_u64, acts in acts()) {
        let Case { stash, plan: start, .. } = Case::new(seed);
        let (mut plan, mut history) = (start.clone(), History::default());
        let mut states = vec![start.clone()];
        let mut run = None;
        for act in &acts {
            let Some(edit) = edit(act, &plan, &stash) else {
                history.close_step();
                run = None;
                continue;
            };
            let target = moves(&edit, &plan);
            history.make(&mut plan, edit);
            if target.is_some() && target == run {
                states.pop();
            }
            states.push(plan.clone());
            run = target;
        }
        let mut met = vec![plan.clone()];
        while history.undo(&mut plan) {
            met.push(plan.clone());
        }
        met.reverse();
        met.dedup();
        states.dedup();
        prop_assert_eq!(met, states);
    }

    #[test]
    fn a_chip_that_is_gone_is_a_missing_letter_and_no_more(seed in 0..400_u64, gone in any::<u64>()) {
        let Case { stash, plan, other } = Case::new(seed);
        let mut sheets = stash.sheets().to_vec();
        sheets[0].letters.retain(|letter| kept(&letter.character, gone));
        sheets.truncate(1 + usize::try_from(gone % 3).unwrap());
        let less = Stash::new(sheets);
        let scene = Scene::new(&less, &plan.page, Taste::default(), Spoken::by(&other, &less));
        let verdict = judge(&plan, &less, &scene);
        for (place, strip) in plan.strips().iter().enumerate() {
            prop_assert_eq!(Layout::of(strip, &less).letters.len(), strip.len());
            for slot in 0..strip.len() {
                let stands = strip.letter(slot).is_some_and(|stood| {
                    stood.chip().is_none_or(|id| less.find(id).is_some())
                });
                let missing = verdict.findings.iter().any(|finding| {
                    (finding.id, finding.strip, &finding.slots[..]) == ("missing", place, &[slot][..])
                });
                prop_assert_eq!(missing, !stands);
                let offered = alternates(&plan, place, slot, &less, &scene);
                prop_assert!(offered.iter().all(|one| one.candidate.chip.get() < less.len()));
            }
        }
    }
}

fn kept(character: &Character, gone: u64) -> bool {
    gone >> (u32::from(character.base()) % 64) & 1 == 1
}

#[test]
fn undoing_a_run_of_nudges_gives_the_place_before_the_run() {
    let Case { stash, .. } = Case::new(1);
    let mut plan = Plan::titled(Wording::new("SEA").unwrap());
    let mut history = History::default();
    let act = |act: Act, plan: &mut Plan, history: &mut History| {
        let edit = edit(&act, plan, &stash).unwrap();
        history.make(plan, edit);
    };
    act(Act::Stand(0, 1, 0), &mut plan, &mut history);
    let before = plan.clone();
    for by in [1, 1, 1, -2] {
        act(Act::Nudge(0, 1, by), &mut plan, &mut history);
    }
    assert_eq!(history.steps(), 2);
    assert!(history.undo(&mut plan));
    assert_eq!(plan, before);
}

#[test]
fn swapping_to_another_letter_and_back_are_two_steps() {
    let Case { stash, .. } = Case::new(1);
    let mut plan = Plan::titled(Wording::new("SEA").unwrap());
    let mut history = History::default();
    let mut states = vec![plan.clone()];
    for chip in [0, 1, 0] {
        let edit = edit(&Act::Stand(0, 1, chip), &plan, &stash).unwrap();
        history.make(&mut plan, edit);
        states.push(plan.clone());
    }
    while let Some(state) = states.pop() {
        assert_eq!(plan, state);
        history.undo(&mut plan);
    }
}
