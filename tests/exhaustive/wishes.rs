//! Which wishes can be made together, by going through every set of them in all bands of heights, sticker by sticker.
//!
//! Must not know how `oddment::supply` comes by its answer. Invented data throughout.

use std::collections::BTreeSet;

use oddment::letter::{Character, Face, StandInKind, Turn, stand_ins};
use oddment::measure::{Colour, Hundredths, Length, Points, Tint};
use oddment::stash::{
    Finish, Form, HeightOf, Label, Letter, Make, Paint, Record, Sheet, SheetId, Size, Stash,
};
use oddment::supply::{
    Answer, Asking, Better, Costs, Demand, Made, Sharing, Shop, Short, Supply, Together, Verdict,
};
use oddment::title::{CaseRule, Wording};

use super::drawn::character;
use crate::draw::Draw;

/// Letters that others serve for, in chains: A V, E F, Q O 0, I l -, both cases, and marks without a height.
const CARRIED: [&str; 15] = ["A", "V", "E", "F", "Q", "O", "0", "I", "l", "-", ",", "a", "o", "N", "Z"];
const ASKED: [&str; 15] = ["A", "V", "E", "F", "O", "0", "I", "l", "-", "'", "a", "o", "e", "N", "Z"];

pub(crate) struct Case {
    stash: Stash,
    pub(crate) wishes: Vec<Wording>,
    must: Vec<usize>,
    asking: Asking,
}

impl Case {
    /// So small that all of it can be gone through.
    fn new(seed: u64) -> Self {
        Self::of(seed, (1, 4), (2, 4), 5)
    }

    /// Between so many sheets and so many more, as with the wishes, of no more letters than `most`.
    pub(crate) fn of(seed: u64, sheets: (usize, usize), wishes: (usize, usize), most: usize) -> Self {
        let mut draw = Draw::new(seed + 31_000_000);
        let sheets = (0..=sheets.0 + draw.below(sheets.1 - 1)).map(|place| sheet(&mut draw, place)).collect();
        let few = 3 + draw.below(ASKED.len() - 2);
        let from = draw.below(ASKED.len() + 1 - few);
        let asked = &ASKED[from..from + few];
        let wish = |draw: &mut Draw| {
            let text: String = (0..=draw.below(most)).map(|_| *draw.pick(asked)).collect();
            Wording::new(&text).unwrap()
        };
        let count = wishes.0 + draw.below(wishes.1);
        let wishes: Vec<Wording> = (0..count).map(|_| wish(&mut draw)).collect();
        let must = (0..wishes.len()).filter(|_| draw.chance(30)).collect();
        let point = Points::from_tenths(30);
        let costs = Costs { turned: point, look_alike: point, other_case: point, trimmed: point };
        let mut asking = Asking::any(costs);
        if draw.chance(25) {
            asking.case = CaseRule::AsWritten;
        }
        Self { stash: Stash::new(sheets), wishes, must, asking }
    }

    pub(crate) fn together(&self, must: &[usize]) -> (Supply, Together) {
        let supply = Supply::new(&self.stash, self.asking.clone(), |_| 0);
        let demands: Vec<Demand> = self.wishes.iter().map(|wish| supply.demand(wish)).collect();
        let together = Together::new(&supply, &demands, must);
        (supply, together)
    }
}

fn sheet(draw: &mut Draw, place: usize) -> Sheet {
    let letter = |text: &&str| Letter { height: None, ..Letter::plain(character(text), None, 0) };
    let mut letters: Vec<Letter> = CARRIED.iter().map(letter).collect();
    letters.retain_mut(|letter| {
        letter.left = u16::try_from(draw.below(3)).unwrap();
        letter.height = draw.chance(8).then(|| draw.mm(14, 26));
        draw.chance(60)
    });
    let heights = [28, 32, 36, 40, 40, 46, 50, 64_i64];
    Sheet {
        id: SheetId::new(&format!("sheet-{place}")).unwrap(),
        label: Label { aside: draw.chance(5), ..Label::default() },
        make: Make {
            form: *draw.pick(Form::ALL),
            finish: *draw.pick(&[Finish::Matte, Finish::Matte, Finish::Wood]),
            neutral: false,
            joined: false,
            plain_tile: draw.chance(50),
        },
        size: Size {
            height: Length::from_nm(500_000 * *draw.pick(&heights)),
            height_of: *draw.pick(&[HeightOf::Capital, HeightOf::Capital, HeightOf::Small]),
            tile_width: draw.chance(30).then(|| draw.mm(12, 24)),
            thick: None,
        },
        paint: Paint { colours: vec![Tint::plain(Colour::BLACK)], outline: None, tile: None },
        letters,
        record: Record::default(),
    }
}

/// A sticker, and how it can serve: the character, and the height that counts.
pub(crate) type Sticker = Vec<(Character, Option<Length>)>;

/// The stickers of a case, one by one.
pub(crate) fn stickers(case: &Case) -> Vec<Sticker> {
    let asked: BTreeSet<Character> =
        case.wishes.iter().flat_map(Wording::slots).map(|asked| asked.character.clone()).collect();
    let mut all = Vec::new();
    for sheet in case.stash.sheets().iter().filter(|sheet| !sheet.label.aside) {
        for letter in &sheet.letters {
            let chip = oddment::stash::Chip { sheet, letter };
            let mut ways = Sticker::new();
            for wanted in &asked {
                let has_height = !Face::reference().is_exempt(wanted);
                let mut way = |turn| {
                    ways.push((wanted.clone(), has_height.then(|| chip.effective_height(wanted, turn))));
                };
                if letter.character == *wanted {
                    way(Turn::None);
                }
                let any_case = case.asking.case == CaseRule::Any;
                let rows = stand_ins(wanted)
                    .into_iter()
                    .filter(|row| any_case || row.kind != StandInKind::OtherCase);
                for row in rows.filter(|row| row.used == letter.character && chip.can_stand_in(row)) {
                    way(row.turn);
                }
            }
            all.extend(std::iter::repeat_n(ways, usize::from(letter.left)));
        }
    }
    all
}

/// The letters of wishes that are made, each wish with the least and the greatest height that it takes.
type Line<'a> = (&'a Wording, Length, Length);

/// Whether each letter gets a sticker of its own: a matching, letter by letter (Kuhn's way).
fn is_served(lines: &[Line<'_>], stickers: &[Sticker]) -> bool {
    let letters: Vec<(&Character, Length, Length)> = lines
        .iter()
        .flat_map(|&(wish, low, high)| wish.slots().iter().map(move |asked| (&asked.character, low, high)))
        .collect();
    let mut holder = vec![None; stickers.len()];
    (0..letters.len())
        .all(|letter| find(letter, &letters, stickers, &mut holder, &mut vec![false; stickers.len()]))
}

fn find(
    letter: usize,
    letters: &[(&Character, Length, Length)],
    stickers: &[Sticker],
    holder: &mut Vec<Option<usize>>,
    seen: &mut Vec<bool>,
) -> bool {
    let (wanted, low, high) = letters[letter];
    for place in 0..stickers.len() {
        let fits = |way: &(Character, Option<Length>)| {
            way.0 == *wanted && way.1.is_none_or(|height| low <= height && height <= high)
        };
        if seen[place] || !stickers[place].iter().any(fits) {
            continue;
        }
        seen[place] = true;
        let free = match holder[place] {
            None => true,
            Some(other) => find(other, letters, stickers, holder, seen),
        };
        if free {
            holder[place] = Some(letter);
            return true;
        }
    }
    false
}

/// Every least height with the greatest that may stand beside it.
pub(crate) fn windows(stickers: &[Sticker]) -> Vec<(Length, Length)> {
    let heights: BTreeSet<Length> = stickers.iter().flatten().filter_map(|way| way.1).collect();
    let reach = |&low: &Length| {
        let within = heights.iter().filter(|&&high| high >= low && high.ratio(low) <= Hundredths::new(125));
        (low, *within.max().unwrap())
    };
    let mut windows: Vec<_> = heights.iter().map(reach).collect();
    windows.push((Length::ZERO, Length::ZERO));
    windows
}

/// The most wishes beside those of `must`, of which none may be missing; `None` where those cannot be made together.
fn most(case: &Case, stickers: &[Sticker], must: &[usize], not: &[usize]) -> Option<usize> {
    let windows = windows(stickers);
    let mut best = None;
    let mut lines = Vec::new();
    go_through(case, stickers, (must, not), &windows, 0, &mut lines, &mut best);
    best
}

fn go_through<'a>(
    case: &'a Case,
    stickers: &[Sticker],
    (must, not): (&[usize], &[usize]),
    windows: &[(Length, Length)],
    wish: usize,
    lines: &mut Vec<Line<'a>>,
    best: &mut Option<usize>,
) {
    if wish == case.wishes.len() {
        *best = (*best).max(Some(lines.len()));
        return;
    }
    if !not.contains(&wish) {
        for &(low, high) in windows {
            lines.push((&case.wishes[wish], low, high));
            if is_served(lines, stickers) {
                go_through(case, stickers, (must, not), windows, wish + 1, lines, best);
            }
            lines.pop();
        }
    }
    // Leaving it out helps only where more could be made than so far.
    let rest = case.wishes.len() - wish - 1;
    if !must.contains(&wish) && best.is_none_or(|best| lines.len() + rest > best) {
        go_through(case, stickers, (must, not), windows, wish + 1, lines, best);
    }
}

/// The answer is one that can be made, each wish within its band.
fn is_valid(case: &Case, stickers: &[Sticker], supply: &Supply, made: &[Made]) -> bool {
    let places: BTreeSet<usize> = made.iter().map(|made| made.wish).collect();
    let lines: Vec<Line<'_>> = made
        .iter()
        .map(|made| {
            let band = made.band.map(|band| supply.bands()[band.get()]);
            let (low, high) = band.map_or((Length::ZERO, Length::ZERO), |band| (band.low, band.high));
            (&case.wishes[made.wish], low, high)
        })
        .collect();
    let are_bands =
        lines.iter().all(|&(_, low, high)| high == low || high.ratio(low) <= Hundredths::new(125));
    places.len() == lines.len() && are_bands && is_served(&lines, stickers)
}

#[test]
fn the_most_wishes_are_found_and_can_be_made() {
    let (mut fewer, mut all) = (0, 0);
    for seed in 0..400 {
        let case = Case::new(seed);
        let stickers = stickers(&case);
        let most = most(&case, &stickers, &[], &[]).unwrap();
        let (supply, mut together) = case.together(&[]);
        while !together.advance(3) {
            assert!(is_valid(&case, &stickers, &supply, together.best()), "seed {seed}");
            assert!(together.best().len() <= most && most <= together.bound(), "seed {seed}: stopped early");
        }
        assert_eq!(together.best().len(), most, "seed {seed}");
        assert_eq!(together.bound(), most, "seed {seed}");
        assert!(is_valid(&case, &stickers, &supply, together.best()), "seed {seed}");
        all += u32::from(most == case.wishes.len());
        fewer += u32::from(0 < most && most < case.wishes.len());
    }
    assert!(fewer > 120 && all > 30, "{fewer} cases with a choice, {all} without");
}

/// What each wish takes can be taken by all of them at once, and other sizes only make it cheaper: for one wish alone as cheap as
/// it can be, for several never cheaper than each by itself.
#[test]
fn letters_are_shared_out_at_least_cost() {
    let (mut alone, mut as_alone, mut saved) = (0, 0, 0);
    for seed in 0..300 {
        let case = Case::new(seed);
        let stickers = stickers(&case);
        let (supply, mut together) = case.together(&[]);
        while !together.advance(1_000) {}
        let demands: Vec<Demand> = case.wishes.iter().map(|wish| supply.demand(wish)).collect();
        let mut sharing = Sharing::new(&supply, &demands, together.best());
        let cost = |shared: &[(usize, Answer)]| shared.iter().map(|(_, answer)| answer.cost).sum::<Points>();
        let before = cost(&sharing.answers(&supply, &demands));
        while !sharing.improve(&supply, &demands) {}
        let shared = sharing.answers(&supply, &demands);
        let wishes = |made: &[Made]| made.iter().map(|made| made.wish).collect::<Vec<_>>();
        assert_eq!(wishes(sharing.made()), wishes(together.best()), "seed {seed}");
        assert!(is_valid(&case, &stickers, &supply, sharing.made()), "seed {seed}");
        for chip in case.stash.chips() {
            let stand_ins = shared.iter().flat_map(|(_, answer)| &answer.stand_ins);
            let taken: u32 = stand_ins.filter(|one| one.chip == chip).map(|one| one.letters).sum();
            assert!(taken <= u32::from(case.stash.chip(chip).on_hand()), "seed {seed}");
        }
        let least: Points = shared.iter().map(|&(wish, _)| supply.answer(&demands[wish]).cost).sum();
        assert!(least <= cost(&shared) && cost(&shared) <= before, "seed {seed}");
        assert!(shared.len() != 1 || cost(&shared) == least, "seed {seed}");
        alone += u32::from(shared.len() == 1);
        as_alone += u32::from(shared.len() > 1 && cost(&shared) == least);
        saved += u32::from(cost(&shared) < before);
    }
    assert!(alone > 30 && as_alone > 30 && saved > 20, "{alone} {as_alone} {saved}");
}

/// Too many to go through: but what is told can be made, the search says itself that no more can be, and it says the same of the
/// wishes in the other order, which it goes through another way.
#[test]
fn the_most_of_forty_wishes_is_proved() {
    let mut choices = 0;
    for seed in 1_700..1_712 {
        let mut case = Case::of(seed, (4, 12), (40, 1), 8);
        let proved = |case: &Case| {
            let (supply, mut together) = case.together(&[]);
            assert!(together.advance(3_000_000), "seed {seed}");
            assert!(is_valid(case, &stickers(case), &supply, together.best()), "seed {seed}");
            assert_eq!(together.best().len(), together.bound(), "seed {seed}");
            together.bound()
        };
        let most = proved(&case);
        case.wishes.reverse();
        assert_eq!(proved(&case), most, "seed {seed}");
        choices += u32::from(0 < most && most < 40);
    }
    assert!(choices > 6, "{choices} cases with a choice");
}

#[test]
fn what_must_be_made_is_made_if_it_can_be() {
    let (mut kept, mut refused) = (0, 0);
    for seed in 700..1_100 {
        let case = Case::new(seed);
        let stickers = stickers(&case);
        let (supply, mut together) = case.together(&case.must);
        while !together.advance(1_000) {}
        assert!(is_valid(&case, &stickers, &supply, together.best()), "seed {seed}");
        let not = together.refused();
        let must: Vec<usize> = case.must.iter().copied().filter(|wish| !not.contains(wish)).collect();
        let made = |wish: &usize| together.best().iter().any(|made| made.wish == *wish);
        assert!(must.iter().all(made) && !not.iter().any(made), "seed {seed}");
        assert_eq!(Some(together.best().len()), most(&case, &stickers, &must, not), "seed {seed}");
        // No more of them could be made than are.
        let others: Vec<usize> = (0..case.wishes.len()).filter(|wish| !case.must.contains(wish)).collect();
        assert_eq!(most(&case, &stickers, &[], &others), Some(must.len()), "seed {seed}");
        kept += u32::from(!case.must.is_empty() && not.is_empty());
        refused += u32::from(!not.is_empty());
    }
    assert!(kept > 50 && refused > 50, "{kept} kept, {refused} refused");
}

/// Verdicts by a supply of the stash and the sheet, made afresh, and what each wish is short of.
fn afresh(case: &Case) -> Vec<(Verdict, Vec<Short>)> {
    let supply = Supply::new(&case.stash, case.asking.clone(), |_| 0);
    let answer = |wish: &Wording| {
        let answer = supply.answer(&supply.demand(wish));
        (answer.verdict, answer.short)
    };
    case.wishes.iter().map(answer).collect()
}

#[test]
fn a_sheet_unlocks_what_can_be_made_with_it() {
    let (mut better, mut cured, mut more) = (0, 0, 0);
    for seed in 1_400..1_650 {
        let mut case = Case::new(seed);
        let shop = Shop::new(&case.stash, case.asking.clone(), |_| 0, &case.wishes, 1_000_000);
        let seen = sheet(&mut Draw::new(seed), *Draw::new(seed).pick(&[0, 7]));
        let unlocks = shop.unlocks(&seen);
        let before = shop.together();
        let without = afresh(&case);
        assert_eq!(before.made, most(&case, &stickers(&case), &[], &[]).unwrap(), "seed {seed}");
        case.stash = Stash::new(case.stash.sheets().iter().cloned().chain([seen]).collect());
        let with = afresh(&case);
        assert_eq!(unlocks.together.made, unlocks.together.most, "seed {seed}");
        assert_eq!(unlocks.together.made, most(&case, &stickers(&case), &[], &[]).unwrap(), "seed {seed}");
        let each = without.iter().zip(&with).enumerate();
        let such = each.clone().filter(|(_, (without, with))| without.0 != with.0);
        let such = such.map(|(wish, (without, with))| Better { wish, without: without.0, with: with.0 });
        assert_eq!(unlocks.better, such.collect::<Vec<_>>(), "seed {seed}");
        let short = each.filter(|(_, (_, with))| with.0 == Verdict::Short);
        let still: Vec<_> = unlocks.still_short.iter().map(|still| (still.wish, &still.short)).collect();
        assert_eq!(
            still,
            short.clone().map(|(wish, (_, with))| (wish, &with.1)).collect::<Vec<_>>(),
            "seed {seed}"
        );
        let count = |short: &[Short]| short.iter().map(|one| one.letters).sum::<u32>();
        for (still, (_, (without, with))) in unlocks.still_short.iter().zip(short) {
            assert_eq!(count(&still.cured), count(&without.1) - count(&with.1), "seed {seed}");
            cured += u32::from(!still.cured.is_empty());
        }
        better += unlocks.better.len();
        more += u32::from(unlocks.together.made > before.made);
    }
    assert!(
        better > 100 && cured > 10 && more > 50,
        "{better} better, {cured} cured in part, {more} times more"
    );
}
