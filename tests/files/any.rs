//! Any plan at all: generators for the properties of saving and opening.

use oddment::letter::StandInKind;
use oddment::measure::{Angle, Colour, Length, Point, Size, Tint};
use oddment::page::{Cover, Element, Kind, Lie, Outline, Page};
use oddment::plan::Plan;
use oddment::title::{
    ByHand, CaseRule, FormRule, LineUp, Mix, Place, Role, Rules, Setting, Spacing, Sticker, Stood, Strip,
    Wording,
};
use proptest::prelude::*;
use proptest::sample::select;

use super::round::{chip, own, stand};

fn any_length() -> impl Strategy<Value = Length> {
    (-5_000_000_000_i64..=5_000_000_000).prop_map(Length::from_nm)
}

fn any_size() -> impl Strategy<Value = Length> {
    prop_oneof![(1_i64..=5_000_000_000).prop_map(Length::from_nm), (1_i64..400).prop_map(Length::from_mm)]
}

fn any_point() -> impl Strategy<Value = Point> {
    (any_length(), any_length()).prop_map(|(x, y)| Point { x, y })
}

fn any_angle() -> impl Strategy<Value = Angle> {
    prop_oneof![Just(Angle::ZERO), (-179_999_i32..=180_000).prop_map(Angle::from_thousandths)]
}

fn any_tint() -> impl Strategy<Value = Tint> {
    let hex = any::<[u8; 3]>().prop_map(|[r, g, b]| Tint::plain(Colour { r, g, b }));
    let named = select(vec!["teal", "Coral", "lamp glow"])
        .prop_map(|name| own().read(name).unwrap_or(Tint::plain(Colour::BLACK)));
    prop_oneof![hex, named]
}

fn any_text() -> impl Strategy<Value = String> {
    prop_oneof!["\\PC{0,12}", "[a-z\"'\\\\\n\r\t#=\u{0}\u{1b}\u{7f}é]{0,8}"]
}

fn any_element() -> BoxedStrategy<Element> {
    let lie = (any_point(), any_size(), any_size(), any_angle(), select(Outline::ALL));
    let looks = (
        prop::collection::vec(any_tint(), 0..3),
        prop::option::of(select(Cover::ALL)),
        any::<Option<bool>>(),
    );
    (prop::option::of(any_text()), select(Kind::ALL), any::<bool>(), lie, looks)
        .prop_map(|(name, kind, original, (at, width, height, turn, outline), (colours, cover, bed))| {
            Element {
                name,
                kind,
                original,
                lie: Lie { at, size: Size { width, height }, turn, outline },
                colours,
                cover,
                bed,
            }
        })
        .boxed()
}

fn any_page() -> BoxedStrategy<Page> {
    let side = || (1_i64..=1_000_000_000).prop_map(Length::from_nm);
    let size = prop::option::of((side(), side()).prop_map(|(width, height)| Size { width, height }));
    let margin = (0_i64..=5_000_000_000).prop_map(Length::from_nm);
    let colours = prop::collection::vec(any_tint(), 0..3);
    let elements = prop::collection::vec(any_element(), 0..3);
    (size, prop::option::of(any_tint()), margin, colours, elements)
        .prop_map(|(size, ground, margin, colours, elements)| Page {
            size,
            ground,
            margin,
            colours,
            elements,
        })
        .boxed()
}

fn any_sticker() -> BoxedStrategy<Sticker> {
    let id = select(vec!["kelp/A", "b-2/&", "kelp/S:coral", "kelp//", "kelp/É", "kelp/\"", "kelp/::x"]);
    let chip = (id, prop::option::of(select(StandInKind::ALL))).prop_map(|(id, stands_in)| match chip(id) {
        Sticker::Chip { id, .. } => Sticker::Chip { id, stands_in },
        hand @ Sticker::Hand(_) => hand,
    });
    let hand = (any_text(), any_size(), prop::option::of(any_size()), prop::option::of(any_tint()))
        .prop_map(|(label, width, height, colour)| Sticker::Hand(ByHand { label, width, height, colour }));
    prop_oneof![3 => chip, 1 => hand].boxed()
}

fn any_stood() -> BoxedStrategy<Stood> {
    let small = || prop_oneof![2 => Just(Length::ZERO), 1 => any_length()];
    (any_sticker(), small(), small(), any_angle(), any::<bool>(), any::<bool>())
        .prop_map(|(sticker, nudge, raise, tilt, pinned, loose)| Stood {
            sticker,
            nudge,
            raise,
            tilt,
            pinned,
            loose,
        })
        .boxed()
}

fn any_rules() -> BoxedStrategy<Rules> {
    let tall = prop::option::of((any_size(), any_size()).prop_map(|(a, b)| (a.min(b), a.max(b))));
    let words = (select(CaseRule::ALL), select(FormRule::ALL), select(Mix::ALL));
    (words, tall, prop::option::of(any_size()), prop::option::of(any_tint()))
        .prop_map(|((case, forms, mix), tall, room, on)| Rules { case, forms, mix, tall, room, on })
        .boxed()
}

fn any_setting() -> BoxedStrategy<Setting> {
    let gap = || prop_oneof![Just(Length::from_mm(7)), any_length()];
    (gap(), gap(), gap(), select(Spacing::ALL), select(LineUp::ALL))
        .prop_map(|(gap, word_gap, line_gap, spacing, line_up)| Setting {
            gap,
            word_gap,
            line_gap,
            spacing,
            line_up,
        })
        .boxed()
}

fn any_strip(role: &'static str) -> BoxedStrategy<Strip> {
    let wording = prop_oneof!["[A-Cé&\" ]{0,8}", "[AB]{1,3}\n[AB]{1,3}"];
    let place = (prop::option::of(any_point()), any_angle());
    let rest = (place, prop::collection::btree_set("[a-z]{1,6}", 0..3), prop::option::of(1_u32..));
    let letters = prop::collection::vec(prop::option::of(any_stood()), 0..9);
    (wording, any_rules(), any_setting(), rest, letters)
        .prop_map(move |(wording, rules, setting, ((at, turn), accepted, stuck), letters)| {
            let role = Role::new(role).unwrap_or_else(|_| Role::title());
            let mut strip = Strip::new(role, Wording::new(&wording).unwrap_or_default());
            (strip.rules, strip.setting, strip.place) = (rules, setting, Place { at, turn });
            (strip.accepted, strip.stuck) = (accepted, stuck);
            for (slot, stood) in letters.into_iter().enumerate() {
                stand(&mut strip, slot, stood);
            }
            strip
        })
        .boxed()
}

pub(super) fn any_plan() -> BoxedStrategy<Plan> {
    let strips = (any_strip("title"), any_strip("subtitle"), any_strip("date"))
        .prop_map(|(title, subtitle, date)| vec![title, subtitle, date])
        .prop_shuffle()
        .prop_flat_map(|strips| (1..=3_usize).prop_map(move |count| strips[..count].to_vec()));
    (prop::option::of(any_text()), any_page(), strips)
        .prop_filter_map("strips of different roles", |(name, page, strips)| {
            Plan::new(name, page, strips).ok()
        })
        .boxed()
}
