//! Whatever is pressed: never a panic, no letter stood twice, all of it undone gives the start.
//!
//! Must not know what a key does.

use oddment::app::{ACTIONS, Action, Effect, Input, Key, KeyCode, Mouse, MouseAct, Over};
use oddment::files::{new_plan_text, read_plan};
use oddment::measure::ColourNames;
use oddment::plan::Spoken;
use oddment::screen;
use proptest::prelude::*;
use ratatui::Terminal;
use ratatui::backend::TestBackend;

use super::bench::Bench;

fn any_input() -> impl Strategy<Value = Input> {
    let keys: Vec<Key> = ACTIONS
        .iter()
        .filter(|row| !matches!(row.action, Action::Close | Action::Back | Action::Abandon))
        .flat_map(|row| row.keys)
        .map(|key| Key::parse(key).unwrap())
        .collect();
    let typed: Vec<char> = "LANTERNWalk |&20-,".chars().collect();
    let mouse = (
        0u16..80,
        0u16..24,
        prop::sample::select(vec![
            MouseAct::Press,
            MouseAct::Drag,
            MouseAct::Release,
            MouseAct::WheelUp,
            MouseAct::WheelDown,
        ]),
    );
    prop_oneof![
        12 => prop::sample::select(keys).prop_map(Input::Key),
        2 => Just(Input::Key(Key::plain(KeyCode::Esc))),
        3 => prop::sample::select(typed).prop_map(|c| Input::Key(Key::plain(KeyCode::Char(c)))),
        3 => mouse.prop_map(|(column, row, what)| Input::Mouse(Mouse { what, column, row })),
        1 => prop::sample::select(vec!["WALK", "A\nB", "button, 18 mm", "E teal", "漢字", "photo 6 x 4 in teal on tan", "b", "200 x 100 mm", "30, 40, 5"])
            .prop_map(|text| Input::Paste(text.to_owned())),
        1 => prop::sample::select(vec![(80, 24), (140, 45), (60, 18), (59, 17), (0, 0)])
            .prop_map(|(columns, rows)| Input::Resize { columns, rows }),
    ]
}

/// Answers what the bench asks of the world, as far as it can be done without one.
fn answer(bench: &mut Bench) {
    for effect in std::mem::take(&mut bench.asked) {
        match effect {
            Effect::ShowOrder => bench.state.show_order("one\ntwo\n", Ok(Vec::new())),
            Effect::ListPlans => bench.state.show_plans(vec!["ferry".into(), "quay".into()]),
            Effect::Save(slug, _) => bench.state.was_saved(slug),
            _ => {}
        }
    }
}

fn draw(bench: &Bench) {
    let (columns, rows) = (bench.state.look.columns, bench.state.look.rows);
    let mut terminal = Terminal::new(TestBackend::new(columns, rows)).unwrap();
    terminal.draw(|frame| screen::draw(&bench.state, frame)).unwrap();
}

/// Every chip stands at most as often as it is left.
fn none_twice(bench: &Bench) -> Result<(), TestCaseError> {
    let stash = &bench.state.shelf.stash;
    for (chip, times) in Spoken::by(bench.state.trial.plan(), stash).iter() {
        let seen = stash.chip(chip);
        prop_assert!(times <= seen.letter.left, "{} stands {times} times: {}", seen.id(), bench.line());
    }
    Ok(())
}

/// All is undone, and made again; what is saved reads back as the same plan.
fn there_and_back(bench: &mut Bench, start: &oddment::plan::Plan) -> Result<(), TestCaseError> {
    let end = bench.state.trial.plan().clone();
    let text = new_plan_text(&end, &ColourNames::default());
    let (again, problems) = read_plan("", &text, &ColourNames::default(), None);
    prop_assert!(problems.is_empty(), "{}\n{}", problems, text);
    prop_assert_eq!(again.as_ref(), Some(&end));
    bench.state.over = Over::Nothing;
    bench.state.work = oddment::app::Work::default();
    let steps = bench.state.trial.steps();
    for _ in 0..steps {
        bench.state.act(Action::Undo);
    }
    prop_assert_eq!(bench.state.trial.plan(), start);
    bench.state.act(Action::Undo);
    prop_assert_eq!(bench.state.trial.plan(), start);
    for _ in 0..steps {
        bench.state.act(Action::Redo);
    }
    prop_assert_eq!(bench.state.trial.plan(), &end);
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 256, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_keys_leave_the_stash_and_the_history_whole(
        inputs in prop::collection::vec(any_input(), 1..70),
        line in prop::sample::select(vec![
            "L A N T E R N _ W A L K",
            "kelp/A [N] kelp/A | oars/a n",
            "[A]",
            "[kelp/A] N | n // 200x150; mat 100x60@50,40; photo 80x50@60,45; title@20,140",
        ]),
    ) {
        let mut bench = Bench::on(line);
        let start = bench.state.trial.plan().clone();
        for (place, input) in inputs.into_iter().enumerate() {
            bench.input(input);
            answer(&mut bench);
            bench.state.work_on(200);
            none_twice(&bench)?;
            if place % 8 == 0 {
                draw(&bench);
            }
        }
        draw(&bench);
        there_and_back(&mut bench, &start)?;
    }
}
