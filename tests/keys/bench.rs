//! The bench of these tests: a small stash, a line of letters in a notation of its own, keys by their names.
//!
//! A line is its slots: `kelp/L` a letter of the stash, `A` an empty slot that wants an A, `[...]` the chosen one;
//! `>0.5` nudged, `^0.5` raised, `~1` tilted, `*` pinned, `(turned)` how it stands in; `_` parts words, `|` strips.
//! After `//` comes a page, looked at from the start: its size, then `kind WxH@X,Y` for each thing, the lowest first, and
//! `title@X,Y` for where the first strip lies.
//! Must not know what any key does.

use std::fmt::Write;

use oddment::app::{
    Action, Colours, Effect, Focus, Input, Key, KeyCode, Keys, Over, PlanFile, Question, ReadOnly,
    SheetPicture, Shelf, State, Then, update,
};
use oddment::checks::Taste;
use oddment::files::{new_plan_text, read_plan, read_sheet};
use oddment::measure::{Angle, ColourNames, Length};
use oddment::order::Form;
use oddment::plan::Plan;
use oddment::stash::{SheetId, Stash};
use oddment::title::{Joint, Sticker, Stood, Strip, Wish, Wording};

use super::page_told::page;
use super::told::{effect_told, in_hand, order, settle_wishes, wording};

/// Three sheets: capitals on plain black tiles, capitals cut out, small letters cut out.
const SHEETS: [(&str, &str); 3] = [
    (
        "blocks",
        "form = 'tile'\nheight = '22 mm'\ncolour = 'gold'\ntile_colour = 'black'\nplain_tile = true\n\
         [letters]\nA = 1\nE = 2\nK = 1\nL = 1\nM = 1\nN = 1\nT = 1\nZ = 0\n",
    ),
    (
        "kelp",
        "form = 'die-cut'\nheight = '23 mm'\nheight_of = 'capital'\ncolour = 'teal'\n\
         [letters]\nA = 2\nE = 1\nK = 1\nL = 1\nN = 1\nR = 1\nT = 1\nW = 1\n",
    ),
    (
        "oars",
        "form = 'die-cut'\nheight = '9 mm'\nheight_of = 'small'\ncolour = 'coral'\n\
         [letters]\na = 1\ne = 1\nl = 1\nn = 1\nw = 1\nk = 1\n",
    ),
];

/// The stash of these tests.
pub(super) fn stash() -> Stash {
    let sheet = |(name, text): (&str, &str)| {
        let id = SheetId::new(name).unwrap();
        let (sheet, problems) = read_sheet(name, &id, text, &ColourNames::default());
        assert!(problems.is_empty(), "{problems}");
        sheet.unwrap()
    };
    Stash::new(SHEETS.map(sheet).to_vec())
}

/// The bench with some strips on it, and what it last asked of the world.
pub(super) struct Bench {
    pub(super) state: State,
    pub(super) asked: Vec<Effect>,
    /// Every action that a key has run.
    pub(super) ran: Vec<Action>,
}

impl Bench {
    /// The bench on a saved plan `quay` with this line.
    pub(super) fn on(line: &str) -> Self {
        let Some((strips, page)) = line.split_once(" // ") else { return Self::on_plan(&plan_text(line)) };
        let mut bench = Self::on_plan(&page_text(&plan_text(strips), page));
        bench.press("2");
        bench.ran.clear();
        bench
    }

    /// The bench on a saved plan `quay` of this text.
    pub(super) fn on_plan(text: &str) -> Self {
        let (plan, problems) = read_plan("pages/quay.toml", text, &ColourNames::default(), Some(&stash()));
        assert!(problems.is_empty(), "{problems}\n{text}");
        let mut bench = Self::with(stash(), plan.unwrap());
        if let Some(slot) = chosen(text) {
            bench.press("home");
            bench.press(&"right ".repeat(slot));
        }
        bench.ran.clear();
        bench
    }

    /// The bench with this stash and this plan.
    pub(super) fn with(stash: Stash, plan: Plan) -> Self {
        let mut shelf = Shelf::new(stash, Taste::default(), ColourNames::default(), &[]);
        let wish = |text| Wish { wording: Wording::new(text).unwrap(), note: None };
        shelf.wishes = ["LANE", "WAKE", "QUAY"].map(wish).to_vec();
        let file = PlanFile { slug: Some("quay".into()), ..PlanFile::default() };
        let state = State::new(shelf, plan, file, Colours::True, Keys::default());
        Self { state, asked: Vec::new(), ran: Vec::new() }
    }

    /// Presses keys by their names; `'text'` types, `@word` is an answer of the world.
    pub(super) fn press(&mut self, keys: &str) -> &mut Self {
        let mut rest = keys.trim_start();
        while !rest.is_empty() {
            if let Some(text) = rest.strip_prefix('\'').filter(|text| text.contains('\'')) {
                let (typed, after) = text.split_once('\'').unwrap();
                for c in typed.chars() {
                    self.input(Input::Key(Key::plain(KeyCode::Char(c))));
                }
                rest = after.trim_start();
                continue;
            }
            let (word, after) = rest.split_once(' ').unwrap_or((rest, ""));
            match word.strip_prefix('@').filter(|word| !word.is_empty()) {
                Some(word) => self.world(word),
                None => self.input(Input::Key(Key::parse(word).unwrap())),
            }
            rest = after.trim_start();
        }
        self
    }

    fn world(&mut self, word: &str) {
        match word {
            "trial" => self.state.offer_trial(),
            "unnamed" => self.state.file.slug = None,
            "held" => self.state.file.read_only = Some(ReadOnly::Held),
            "read-only" => self.state.file.read_only = Some(ReadOnly::Folder),
            "order" => {
                let count = if self.state.order.form == Form::Text { 0 } else { 3 };
                self.state.show_order(&lines(), Ok(vec![sheet_of_paper(); count]));
            }
            "long-order" => self.state.show_order(&lines(), Ok(vec![sheet_of_paper(); 42])),
            "no-size" => self.state.show_order(&lines(), Err("the plan gives no page size".into())),
            "page" => self.state.show_page("a page", &lines()),
            "plans" => self.state.show_plans(["ferry", "quay", "walk"].map(str::to_owned).to_vec()),
            "work" => {
                for _ in 0..100_000 {
                    if self.state.is_working() {
                        self.state.work_on(1000);
                    }
                }
                assert!(!self.state.is_working());
            }
            "ahead" => self.state.look_ahead(Vec::new()),
            "ideas" => self.state.look_for_ideas(None),
            "changed" => self.state.ask_which_plan(None),
            "changed-at-leaving" => self.state.ask_which_plan(Some(Then::Leave)),
            "slice" => self.state.work_on(1),
            "long" => self.state.work_takes_long(),
            "time" => self.state.work_is_out_of_time(),
            "counted" => self.state.was_counted(&SheetId::new("kelp").unwrap(), "counted"),
            "stuck" => self.stick(),
            "told" => self.state.was_told(&SheetId::new("oars").unwrap(), "written down"),
            "saved" => self.state.was_saved("quay".into()),
            other => assert_eq!(other, "", "no such answer"),
        }
    }

    /// Every letter is stuck down; the slot in hand stays.
    fn stick(&mut self) {
        let text = new_plan_text(self.state.trial.plan(), &ColourNames::default());
        let text = text.replace("[[strip]]\n", "[[strip]]\nstuck = 3\n");
        let (plan, _) = read_plan("pages/quay.toml", &text, &ColourNames::default(), Some(&stash()));
        let (slot, file) = (self.state.bench.slot, self.state.file.clone());
        self.state.take_plan(plan.unwrap(), file);
        self.state.go_to_slot(0, slot);
    }

    /// One thing that happens.
    pub(super) fn input(&mut self, input: Input) {
        if let Input::Key(key) = input {
            self.ran.extend(self.state.look.keys.action(key, self.state.focus()));
        }
        self.asked = update(&mut self.state, input);
        settle_wishes(&mut self.state);
    }

    /// The strips in the notation of these tests, and what has the keys where that is not the strip.
    pub(super) fn told(&self) -> String {
        let mut text = self.line();
        text.push_str(&self.over());
        if self.state.is_working() {
            text.push_str("  looking");
        }
        for effect in &self.asked {
            let _ = write!(text, " -> {}", effect_told(effect));
        }
        text
    }

    /// The strips in the notation of these tests.
    pub(super) fn line(&self) -> String {
        let strips = self.state.trial.plan().strips();
        let lines = strips.iter().enumerate().map(|(place, strip)| {
            let chosen = (place == self.state.bench.strip).then_some(self.state.bench.slot);
            line(strip, chosen)
        });
        lines.collect::<Vec<_>>().join(" | ")
    }

    fn over(&self) -> String {
        let (state, bench) = (&self.state, &self.state.bench);
        match (&state.over, state.focus()) {
            (Over::Nothing, Focus::Grid) => {
                let chip = bench.grid.chosen_chip().map(|ix| state.shelf.stash.chip(ix).id().to_string());
                format!("  chip {} {}", chip.unwrap_or_default(), bench.grid.grouping.as_str())
            }
            (Over::Nothing, Focus::Checks) => {
                let finding = &state.trial.verdict().findings[bench.finding];
                let accepted = if finding.accepted { " accepted" } else { "" };
                format!("  check {} {}{accepted}", bench.finding, finding.id)
            }
            (Over::Nothing, Focus::OnPage) => format!("  // {}", self.page()),
            (Over::Nothing, Focus::Sheets) => {
                let sheet = state.sheet().map_or("none", |sheet| sheet.id.as_str());
                format!("  sheet {sheet} of {}", state.sheets.places.len())
            }
            (Over::Nothing, Focus::Fields | Focus::Swatches | Focus::Letters) => {
                format!("  {}", in_hand(state))
            }
            (Over::Nothing, Focus::Order) => format!("  {}", order(state)),
            (Over::Nothing, Focus::Wishes | Focus::Ideas) => format!("  {}", wording(state)),
            (Over::Nothing, _) => String::new(),
            (Over::Alternates(list), _) => {
                format!("  alternate {} of {}", list.chosen + 1, list.alternates.len())
            }
            (Over::Compare(_), _) => "  compare".into(),
            (Over::Suggestions(view), _) => {
                let found = state.work.suggesting.as_ref().map(|one| one.pursuit.outcome().suggestions.len());
                format!("  suggestion {} of {}", view.place + 1, found.unwrap_or(0))
            }
            (Over::OneMore, _) => "  one more".into(),
            (Over::Page(heading, scroll), _) => format!("  {heading} from {}", scroll.top + 1),
            (Over::Help(scroll, _), _) => format!("  keys that work here from {}", scroll.top + 1),
            (Over::Plans(list), _) => format!("  plan {}", list.slugs[list.chosen]),
            (Over::Typing(typing), _) => format!("  typing '{}'", typing.text()),
            (Over::Question(Question::DropWish(wording)), _) => format!("  DropWish({})?", wording.text()),
            (Over::Question(question), _) => format!("  {question:?}?"),
        }
    }

    /// What was said last.
    pub(super) fn said(&self) -> &str {
        self.state.notice.as_ref().map_or("", |notice| &notice.text)
    }

    /// The page in the notation of these tests, the chosen thing in brackets.
    pub(super) fn page(&self) -> String {
        page(&self.state)
    }

    /// The ids of the findings, worst first.
    pub(super) fn findings(&self) -> Vec<&'static str> {
        self.state.trial.verdict().findings.iter().map(|finding| finding.id).collect()
    }
}

/// A text longer than the screen.
fn lines() -> String {
    (1..60).map(|n| format!("line {n}")).collect::<Vec<_>>().join("\n")
}

fn sheet_of_paper() -> SheetPicture {
    let told = "what to pull".into();
    SheetPicture {
        told,
        width: 210.0,
        height: 297.0,
        writing: Vec::new(),
        shapes: Vec::new(),
        lines: Vec::new(),
    }
}

fn line(strip: &Strip, chosen: Option<usize>) -> String {
    let mut text = String::new();
    for slot in 0..strip.len() {
        let shown = match strip.letter(slot) {
            None => strip.wording().slots()[slot].character.to_string(),
            Some(stood) => standing(stood),
        };
        text += &if chosen == Some(slot) { format!("[{shown}]") } else { shown };
        text += match strip.wording().joint(slot) {
            None => "",
            Some(Joint::Word) => " ",
            Some(Joint::Gap) => " _ ",
            Some(Joint::Line) => " / ",
        };
    }
    text
}

fn standing(stood: &Stood) -> String {
    let mut text = match &stood.sticker {
        Sticker::Hand(thing) => format!("hand:{}", thing.label),
        Sticker::Chip { id, stands_in: None } => id.to_string(),
        Sticker::Chip { id, stands_in: Some(kind) } => format!("{id}({kind})"),
    };
    for (sign, offset) in [('>', stood.nudge), ('^', stood.raise)] {
        if offset != Length::ZERO {
            let _ = write!(text, "{sign}{}", offset.mm());
        }
    }
    if stood.tilt != Angle::ZERO {
        let _ = write!(text, "~{}", stood.tilt.number());
    }
    if stood.pinned {
        text.push('*');
    }
    text
}

/// The text of a plan with these strips: only letters as they are, empty slots and pins can be asked for.
fn plan_text(line: &str) -> String {
    let mut text = String::new();
    for strip in line.split(" | ") {
        let (mut wording, mut letters, mut slot) = (String::new(), String::new(), 0);
        for token in strip.split_whitespace() {
            if token == "_" {
                wording.push(' ');
                continue;
            }
            slot += 1;
            let bare = token.trim_matches(['[', ']']);
            let chip = bare.trim_end_matches('*');
            wording.push_str(chip.rsplit('/').next().unwrap());
            if chip.contains('/') {
                let pinned = bare.ends_with('*');
                let _ =
                    write!(letters, "[[strip.letter]]\nslot = {slot}\nchip = '{chip}'\npinned = {pinned}\n");
            }
            if bare.len() != token.len() {
                let _ = writeln!(text, "# chosen {slot}");
            }
        }
        let _ = write!(text, "[[strip]]\nwording = '{wording}'\n{letters}");
    }
    text
}

/// The text of a plan with these strips and a page in the notation of these tests.
fn page_text(strips: &str, page: &str) -> String {
    let mut parts = page.split("; ");
    let size = parts.next().unwrap();
    let mut text =
        if size == "no size" { String::new() } else { format!("size = '{} mm'\n", size.replace('x', " x ")) };
    let mut strips = strips.to_owned();
    for part in parts {
        let (what, at) = part.split_once('@').unwrap();
        let (x, y) = at.split_once(',').unwrap();
        if let Some((kind, size)) = what.split_once(' ') {
            let (width, height) = size.split_once('x').unwrap();
            let _ =
                write!(text, "[[element]]\nkind = '{kind}'\nsize = [{width}, {height}]\nat = [{x}, {y}]\n");
        } else {
            strips = strips.replacen("[[strip]]\n", &format!("[[strip]]\nat = [{x}, {y}]\n"), 1);
        }
    }
    text + &strips
}

fn chosen(text: &str) -> Option<usize> {
    let slot = text.lines().find_map(|line| line.strip_prefix("# chosen "))?;
    Some(slot.parse::<usize>().unwrap() - 1)
}
