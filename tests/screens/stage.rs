//! A state to be drawn and the screen it is drawn on.
//!
//! Must not know what is to be seen.

use oddment::app::{Colours, Input, Key, KeyCode, Keys, PlanFile, Shelf, State, update};
use oddment::files::{read_plan, read_sheet, read_taste, read_wishes, sample_files};
use oddment::measure::ColourNames;
use oddment::plan::Plan;
use oddment::stash::{Sheet, SheetId, Stash};
use ratatui::Terminal;
use ratatui::backend::TestBackend;
use ratatui::buffer::Buffer;
use unicode_width::UnicodeWidthStr;

/// The bench on a plan of the sample, the other plan speaking for its letters.
pub(super) fn on_sample(plan: &str) -> State {
    let text = |path: &str| {
        let (_, bytes) = sample_files().find(|(each, _)| each.to_str() == Some(path)).unwrap();
        String::from_utf8(bytes.to_vec()).unwrap()
    };
    let (own, taste, problems) = read_taste("taste.toml", &text("taste.toml"));
    assert!(problems.is_empty(), "{problems}");
    let sheets = sample_files().filter(|(path, _)| path.starts_with("sheets"));
    let sheets = sheets.map(|(path, _)| {
        let stem = path.file_stem().unwrap().to_str().unwrap();
        sheet(stem, &text(path.to_str().unwrap()), &own)
    });
    let stash = Stash::new(sheets.collect());
    let open = |name: &str| read(&text(&format!("pages/{name}.toml")), &own, &stash);
    let names = ["lantern-walk", "quayside-supper"];
    let others = names.iter().filter(|name| **name != plan).map(|name| ((*name).to_owned(), open(name)));
    let (others, plan_read): (Vec<_>, _) = (others.collect(), open(plan));
    let mut shelf = Shelf::new(stash, taste, own, &others);
    shelf.wishes = read_wishes("wishes.toml", &text("wishes.toml")).0;
    state(shelf, plan_read, Some(plan))
}

/// The bench on these sheets and this plan.
pub(super) fn on(sheets: &[(&str, &str)], plan: &str) -> State {
    let own = ColourNames::default();
    let stash = Stash::new(sheets.iter().map(|(name, text)| sheet(name, text, &own)).collect());
    let plan = read(plan, &own, &stash);
    state(Shelf::new(stash, oddment::checks::Taste::default(), ColourNames::default(), &[]), plan, None)
}

fn state(shelf: Shelf, plan: Plan, slug: Option<&str>) -> State {
    let file = PlanFile { slug: slug.map(str::to_owned), ..PlanFile::default() };
    State::new(shelf, plan, file, Colours::True, Keys::default())
}

fn sheet(name: &str, text: &str, own: &ColourNames) -> Sheet {
    let (sheet, problems) = read_sheet(name, &SheetId::new(name).unwrap(), text, own);
    assert!(problems.is_empty(), "{problems}");
    sheet.unwrap()
}

fn read(text: &str, own: &ColourNames, stash: &Stash) -> Plan {
    let (plan, problems) = read_plan("", text, own, Some(stash));
    assert!(!problems.has_errors(), "{problems}");
    plan.unwrap()
}

/// Presses keys by their names, parted by blanks; `'text'` types; `@work` is the work done that was asked for.
pub(super) fn press(state: &mut State, keys: &str) {
    for (place, part) in keys.split('\'').enumerate() {
        if place % 2 == 1 {
            for c in part.chars() {
                let _ = update(state, Input::Key(Key::plain(KeyCode::Char(c))));
            }
        } else {
            for key in part.split_whitespace() {
                match key {
                    "@work" => {
                        while state.is_working() {
                            state.work_on(10_000);
                        }
                    }
                    "@slice" => state.work_on(1),
                    "@long" => state.work_takes_long(),
                    key => {
                        let _ = update(state, Input::Key(Key::parse(key).unwrap()));
                    }
                }
            }
        }
    }
}

/// Draws it on a screen of this size.
pub(super) fn draw(state: &mut State, (columns, rows): (u16, u16), colours: Colours) -> Buffer {
    state.look.colours = colours;
    let _ = update(state, Input::Resize { columns, rows });
    let mut terminal = Terminal::new(TestBackend::new(columns, rows)).unwrap();
    terminal.draw(|frame| oddment::screen::draw(state, frame)).unwrap();
    terminal.backend().buffer().clone()
}

/// The screen as text, a line a row. Every row has exactly the screen's width, and no control character in it.
#[track_caller]
pub(super) fn text(buffer: &Buffer) -> String {
    let mut text = String::new();
    for y in 0..buffer.area.height {
        let (mut x, mut row) = (0, String::new());
        while x < buffer.area.width {
            let symbol = buffer.cell((x, y)).unwrap().symbol();
            assert!(!symbol.contains(char::is_control), "row {y}: {symbol:?}");
            row += symbol;
            x += u16::try_from(symbol.width()).unwrap().max(1);
        }
        assert_eq!(x, buffer.area.width, "row {y} is broken: {row}");
        text += row.trim_end();
        text.push('\n');
    }
    text
}
