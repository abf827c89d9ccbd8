//! The checks: one file a check, each with its reach; what they find, and the score.
//!
//! A check's file holds its rule, its reach and its sentence; adding one means its file, its row in [`CHECKS`], and its
//! thresholds in `taste.rs`. Must not know how an arrangement was made.

mod alternates;
mod candidate;
mod demand;
mod finding;
mod heights;
mod look;
mod lying;
mod palette;
mod reach;
mod scene;
mod score;
mod taste;
mod telling;
mod under;
mod verdict;
mod view;

mod anchor;
mod dominance;
mod ends;
mod form;
mod fragment;
mod height;
mod joined;
mod lead;
mod missing;
mod monotony;
mod near;
mod neighbours;
mod pale;
mod promised;
mod room;
mod scarce;
mod second;
mod small;
mod stand_in;
mod stray;
mod twice;
mod wrong;

pub use alternates::{Alternate, Tryout, alternates};
pub use candidate::{Candidate, candidates, serves};
pub use demand::unmet;
pub use finding::{Finding, Level};
pub use heights::{Suits, height_points, reference_height};
pub use look::{Fill, Fixed, Look, Tone};
pub use lying::{Lying, PLACE_CHECKS, PlaceCheck, Seen, prices, resting, touches};
pub use palette::{Family, PageColour, Palette};
pub use promised::{promised_to, tell_promised};
pub use reach::{Bearings, Between, Check, Demand, Heard, LONG, Origin, Reach};
pub use room::room_of;
pub use scene::Scene;
pub use taste::{Knob, Measure, THRESHOLDS, Taste, Threshold};
pub use telling::{tell_length, tell_touch, tell_touched};
pub use under::under;
pub use verdict::{StripVerdict, Verdict, judge, lying_view, nothing_to_stick, obstacle};
pub use view::StripView;

/// Every check of the letters, in the order of the manual.
pub const CHECKS: &[Check] = &[
    missing::CHECK,
    height::CHECK,
    stray::CHECK,
    pale::CHECK,
    stand_in::CHECK,
    scarce::CHECK,
    near::CHECK,
    form::CHECK,
    ends::CHECK,
    anchor::CHECK,
    second::CHECK,
    lead::CHECK,
    monotony::CHECK,
    dominance::CHECK,
    neighbours::CHECK,
    fragment::CHECK,
    joined::CHECK,
];

/// The id of the check that is never told: it only parts what is equally good.
const QUIET: &str = "near";
