//! Screens drawn in memory: what a user sees at 80x24, large, too small, and without colour.
//!
//! Must not know how they are drawn.
#![expect(clippy::unwrap_used, reason = "a test may stop at the first surprise")]

use oddment::app::{Colours, Input, Key, Keys, PlanFile, Shelf, State, update};
use oddment::checks::Taste;
use oddment::files::{read_plan, read_sheet};
use oddment::measure::ColourNames;
use oddment::screen::draw;
use oddment::stash::{SheetId, Stash};
use ratatui::Terminal;
use ratatui::backend::TestBackend;
use unicode_width::UnicodeWidthStr;

const SHEETS: [(&str, &str); 4] = [
    (
        "kelp",
        "name = \"Kelp capitals\"\ntag = \"07\"\nform = \"die-cut\"\nheight = \"24 mm\"\ncolour = \"teal\"\n[letters]\nA = 2\nK = 3\nL = 1\nE = 1\nP = 2\n",
    ),
    (
        "blocks",
        "form = \"tile\"\nheight = \"20 mm\"\ncolour = \"goldenrod\"\ntile_colour = \"black\"\n[letters]\nA = 1\nE = 2\nK = 4\nP = 1\nL = 1\n",
    ),
    (
        "far",
        "name = \"漢字 שלום e\u{301}\u{302} and a very long name that goes on and on and on and on\"\ntag = \"שלום\"\nform = \"die-cut\"\nheight = \"30 mm\"\ncolour = \"coral\"\n[letters]\n\"漢\" = 2\n\"é\" = 1\n\"ש\" = 3\nA = 1\n",
    ),
    (
        "oars",
        "form = \"die-cut\"\nheight = \"8 mm\"\nheight_of = \"small\"\ncolour = \"white\"\n[letters]\na = 2\ne = 2\nk = 1\nl = 1\np = 1\n",
    ),
];

fn stash() -> Stash {
    let sheets = SHEETS.iter().map(|(id, text)| {
        let (sheet, problems) = read_sheet(id, &SheetId::new(id).unwrap(), text, &ColourNames::default());
        assert!(problems.is_empty(), "{problems}");
        sheet.unwrap()
    });
    Stash::new(sheets.collect())
}

struct Seat {
    state: State,
    size: (u16, u16),
}

impl Seat {
    fn new(plan: &str, size: (u16, u16), colours: Colours) -> Self {
        Self::on(stash(), plan, size, colours)
    }

    fn on(stash: Stash, plan: &str, size: (u16, u16), colours: Colours) -> Self {
        let (plan, problems) = read_plan("plan", plan, &ColourNames::default(), Some(&stash));
        assert!(!problems.has_errors(), "{problems}");
        let plan = plan.unwrap();
        let shelf = Shelf::new(stash, Taste::default(), ColourNames::default(), &[]);
        let file = PlanFile { slug: Some("kelp".into()), ..PlanFile::default() };
        let mut state = State::new(shelf, plan, file, colours, Keys::default());
        update(&mut state, Input::Resize { columns: size.0, rows: size.1 });
        Self { state, size }
    }

    fn press(mut self, keys: &str) -> Self {
        for word in keys.split_whitespace() {
            update(&mut self.state, Input::Key(Key::parse(word).unwrap()));
        }
        self
    }

    /// The screen as text, a line a row; every row is as wide as the screen.
    fn screen(&self) -> String {
        let mut terminal = Terminal::new(TestBackend::new(self.size.0, self.size.1)).unwrap();
        terminal.draw(|frame| draw(&self.state, frame)).unwrap();
        let buffer = terminal.backend().buffer();
        let mut text = String::new();
        for y in 0..self.size.1 {
            let mut row = String::new();
            let mut x = 0;
            while x < self.size.0 {
                let symbol = buffer[(x, y)].symbol();
                row.push_str(symbol);
                x += u16::try_from(symbol.width().max(1)).unwrap();
            }
            assert_eq!(row.width(), usize::from(self.size.0), "row {y}: {row:?}");
            assert!(!row.chars().any(char::is_control), "row {y}: {row:?}");
            text += row.trim_end();
            text.push('\n');
        }
        text
    }
}

const KELP: &str = "colours = [\"teal\", \"goldenrod\"]\n[[strip]]\nrole = \"title\"\nwording = \"KELP\"\n[[strip.letter]]\nslot = 1\nfor = \"K\"\nchip = \"kelp/K\"\n[[strip.letter]]\nslot = 2\nfor = \"E\"\nchip = \"blocks/E\"\n";
const TWO: &str = "[[strip]]\nrole = \"title\"\nwording = \"\"\"\nKELP\nLAKE\"\"\"\n[[strip]]\nrole = \"subtitle\"\nwording = \"a lake\"\n";

#[test]
fn the_bench() {
    insta::assert_snapshot!(Seat::new(KELP, (80, 24), Colours::True).screen());
}

#[test]
fn the_bench_on_a_large_screen() {
    insta::assert_snapshot!(Seat::new(KELP, (140, 45), Colours::True).press("down").screen());
}

#[test]
fn the_bench_without_colour_names_each_colour() {
    let screen = Seat::new(KELP, (80, 24), Colours::None).press("tab").screen();
    assert!(screen.contains("teal") && screen.contains("goldenrod"), "{screen}");
    insta::assert_snapshot!(screen);
}

#[test]
fn a_screen_too_small_says_what_it_needs() {
    insta::assert_snapshot!(Seat::new(KELP, (59, 17), Colours::True).screen());
    for size in [(0, 0), (1, 1), (5, 2), (60, 17), (59, 18)] {
        Seat::new(KELP, size, Colours::True).press("down ? esc enter").screen();
    }
}

#[test]
fn the_alternates() {
    insta::assert_snapshot!(Seat::new(KELP, (80, 24), Colours::True).press("home enter down").screen());
}

#[test]
fn the_keys_that_work() {
    insta::assert_snapshot!(Seat::new(KELP, (80, 24), Colours::True).press("tab ?").screen());
}

#[test]
fn two_trials_side_by_side() {
    insta::assert_snapshot!(Seat::new(KELP, (80, 24), Colours::True).press("k home d c").screen());
}

#[test]
fn a_line_being_typed_and_what_is_wrong_with_it() {
    let screen = Seat::new(KELP, (80, 24), Colours::True).press("y ctrl-u p u c e enter").screen();
    assert!(screen.contains("is no colour"), "{screen}");
    insta::assert_snapshot!(screen);
}

#[test]
fn an_empty_stash_asks() {
    insta::assert_snapshot!(
        Seat::on(Stash::default(), "[[strip]]\nwording = \"\"\n", (80, 24), Colours::True).screen()
    );
}

#[test]
fn two_lines_and_two_strips() {
    insta::assert_snapshot!(Seat::new(TWO, (80, 24), Colours::True).press("down right down t down").screen());
}

#[test]
fn a_long_strip_is_scrolled_to_the_slot() {
    let plan = format!("[[strip]]\nwording = \"{}\"\n", "KELP LAKE ".repeat(8));
    let screen = Seat::new(&plan, (80, 24), Colours::True).press("end down").screen();
    assert!(screen.contains('◀') && !screen.contains('▶'), "{screen}");
    let screen = Seat::new(&plan, (80, 24), Colours::True).press("home").screen();
    assert!(screen.contains('▶') && !screen.contains('◀'), "{screen}");
}

#[test]
fn wide_combining_and_right_to_left_characters_never_break_the_frame() {
    let plan = "name = \"漢字\"\n[[strip]]\nwording = \"漢é שA\"\n";
    for colours in [Colours::True, Colours::None] {
        for size in [(60, 18), (80, 24), (140, 45)] {
            for keys in ["", "down right down right down", "tab g g g", "enter", "tab tab", "/", "o", "f"] {
                Seat::new(plan, size, colours).press(keys).screen();
            }
        }
    }
}
