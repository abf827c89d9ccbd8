//! The most wishes together against a general solver: `microlp`, a mixed-integer linear programming library (crates.io), on a model
//! made from the raw stash.
//!
//! Must not know how the program comes by its answer.
#![expect(clippy::unwrap_used, reason = "a made-up case that cannot be made fails the test")]

use std::collections::BTreeMap;

use microlp::{
    ComparisonOp, OptimizationDirection, Problem, SolutionStatus, SolveOptions, SolveOutcome, Variable,
};
use oddment::app::asking_of;
use oddment::files::StashFolder;
use oddment::letter::Character;
use oddment::supply::{Demand, Supply, Together};
use oddment::title::Wording;

use crate::exhaustive::wishes::{Case, Sticker, stickers, windows};

/// Nodes that the solver may spend on one case.
const NODES: u64 = 3_000;

/// Words of the English list, put together by seed.
const FORTY: &str = "\
    CONCEIT TERRACING, PEAVEY EPIGONES, DROSHKY FOOTSLOGS, SLACKENS, VAMPER SMARMILY, DISDAIN VENDETTAS, LUGS APOENZYME, \
    GREASILY, LUCULENT, NATES LOOSE, CLOVER AKIMBO, LONGAN ESSAYER, UNPEOPLE, RODENT THREADY, HAGBERRY, CAPYBARAS, \
    HEADLAMP, CLOWNED SPUED, ACCOSTING, AMAH LADLES, BOLTED BOOTED, CROAK WAFER, MOURN SHELTERS, GLEDE TIPTOE, INFLICTER, \
    CHANTEY BASED, URACIL ALERTS, WEATHERED, SWELLER USES, REGATTA EXCORIATE, CHESTY SOAR, TANNATE LITHOTOMY, ASPS \
    FRAMBOISE, INVITES BOSSIER, JURYWOMEN, CARATS STAFFER, IDLE SPECTRAL, PRIESTLY, BUCKWHEAT, DYSCRASIA";
/// The most of them with the sample stash, by `HiGHS` 1.16 (PyPI: highspy) on the same model, run by hand: its linear programme says
/// 16.92.
const MOST_OF_FORTY: usize = 16;

fn number(whole: usize) -> f64 {
    f64::from(u32::try_from(whole).unwrap())
}

/// How many letters of each character a wish has.
fn needs(case: &Case, wish: usize) -> BTreeMap<Character, usize> {
    let mut needs = BTreeMap::new();
    for asked in case.wishes[wish].slots() {
        *needs.entry(asked.character.clone()).or_default() += 1;
    }
    needs
}

/// The most wishes by the solver; `None` where it does not prove it.
///
/// A wish in a window of heights is 0 or 1, in one at most; stickers that are alike serve a character in a window so many times, no
/// more in all than there are, and as often as the wishes there ask for it.
fn most(case: &Case) -> Option<usize> {
    let stickers = stickers(case);
    let windows = windows(&stickers);
    let mut alike: BTreeMap<Sticker, usize> = BTreeMap::new();
    for sticker in stickers {
        *alike.entry(sticker).or_default() += 1;
    }
    let mut problem = Problem::new(OptimizationDirection::Maximize);
    let mut served: BTreeMap<(Character, usize), Vec<(Variable, f64)>> = BTreeMap::new();
    for (ways, &left) in &alike {
        let mut uses = Vec::new();
        for (place, &(low, high)) in windows.iter().enumerate() {
            for (wanted, _) in
                ways.iter().filter(|way| way.1.is_none_or(|height| low <= height && height <= high))
            {
                let use_of_it = problem.add_var(0.0, (0.0, number(left)));
                uses.push((use_of_it, 1.0));
                served.entry((wanted.clone(), place)).or_default().push((use_of_it, 1.0));
            }
        }
        problem.add_constraint(uses, ComparisonOp::Le, number(left));
    }
    for wish in 0..case.wishes.len() {
        let made: Vec<Variable> = windows.iter().map(|_| problem.add_binary_var(1.0)).collect();
        for (character, letters) in needs(case, wish) {
            for (place, &made) in made.iter().enumerate() {
                served.entry((character.clone(), place)).or_default().push((made, -number(letters)));
            }
        }
        problem.add_constraint(
            made.into_iter().map(|made| (made, 1.0)).collect::<Vec<_>>(),
            ComparisonOp::Le,
            1.0,
        );
    }
    for row in served.into_values() {
        problem.add_constraint(row, ComparisonOp::Ge, 0.0);
    }
    let mut options = SolveOptions::default();
    options.node_limit = Some(NODES);
    match problem.solve_with(options).unwrap() {
        SolveOutcome::Solution(found) if found.status() == SolutionStatus::Optimal => {
            #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a number of wishes")]
            let count = found.objective().round() as usize;
            Some(count)
        }
        _ => None,
    }
}

#[test]
fn as_many_wishes_as_the_solver_finds() {
    let (mut proved, mut choices) = (0, 0);
    for seed in 5_000..5_030 {
        let case = Case::of(seed, (3, 3), (8, 5), 8);
        let (_, mut together) = case.together(&[]);
        together.advance(3_000_000);
        let Some(most) = most(&case) else { continue };
        assert!(together.best().len() <= most && most <= together.bound(), "seed {seed}: {most}");
        proved += u32::from(together.is_proven());
        choices += u32::from(together.is_proven() && 2 < most && most < case.wishes.len());
    }
    assert!(proved >= 20 && choices >= 10, "{proved} proved by both, {choices} of them with a choice");
}

#[test]
fn of_forty_wishes_on_the_sample_stash_the_most_are_proven() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/sample-stash");
    let loaded = StashFolder::at(folder).load().unwrap();
    let supply = Supply::new(&loaded.stash, asking_of(&loaded.taste), |_| 0);
    let demands: Vec<Demand> =
        FORTY.split(", ").map(|text| supply.demand(&Wording::new(text).unwrap())).collect();
    let mut together = Together::new(&supply, &demands, &[]);
    assert!(together.advance(1_500_000), "{}..{}", together.best().len(), together.bound());
    assert_eq!(together.best().len(), MOST_OF_FORTY);
}
