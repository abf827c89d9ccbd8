//! The terminal library's events as the program's own inputs.
//!
//! Must not know what any key does.

use crate::app::{Input, Key, KeyCode, Mouse, MouseAct};
use crossterm::event::{self, Event, KeyEvent, KeyEventKind, KeyModifiers, MouseButton, MouseEventKind};

/// The input in an event; `None` for what says nothing to a program: releases, modifiers alone, other buttons.
pub(super) fn input(event: Event) -> Option<Input> {
    match event {
        Event::Key(key) => self::key(key).map(Input::Key),
        Event::Paste(text) => Some(Input::Paste(plain(&text))),
        Event::Mouse(mouse) => {
            let what = act(mouse.kind)?;
            Some(Input::Mouse(Mouse { what, column: mouse.column, row: mouse.row }))
        }
        Event::Resize(columns, rows) => Some(Input::Resize { columns, rows }),
        Event::FocusGained | Event::FocusLost => None,
    }
}

fn key(event: KeyEvent) -> Option<Key> {
    if event.kind == KeyEventKind::Release {
        return None;
    }
    let code = match event.code {
        event::KeyCode::Char(c) => KeyCode::Char(c),
        event::KeyCode::Enter => KeyCode::Enter,
        event::KeyCode::Esc => KeyCode::Esc,
        event::KeyCode::Tab | event::KeyCode::BackTab => KeyCode::Tab,
        event::KeyCode::Backspace => KeyCode::Backspace,
        event::KeyCode::Delete => KeyCode::Delete,
        event::KeyCode::Insert => KeyCode::Insert,
        event::KeyCode::Left => KeyCode::Left,
        event::KeyCode::Right => KeyCode::Right,
        event::KeyCode::Up => KeyCode::Up,
        event::KeyCode::Down => KeyCode::Down,
        event::KeyCode::Home => KeyCode::Home,
        event::KeyCode::End => KeyCode::End,
        event::KeyCode::PageUp => KeyCode::PageUp,
        event::KeyCode::PageDown => KeyCode::PageDown,
        event::KeyCode::F(number) => KeyCode::F(number),
        _ => return None,
    };
    let held = |modifier| event.modifiers.contains(modifier);
    let mut key = Key::plain(code);
    if held(KeyModifiers::CONTROL) {
        key = key.with_ctrl();
    }
    if held(KeyModifiers::ALT) {
        key = key.with_alt();
    }
    if held(KeyModifiers::SHIFT) || event.code == event::KeyCode::BackTab {
        key = key.with_shift();
    }
    Some(key)
}

fn act(kind: MouseEventKind) -> Option<MouseAct> {
    match kind {
        MouseEventKind::Down(MouseButton::Left) => Some(MouseAct::Press),
        MouseEventKind::Drag(MouseButton::Left) => Some(MouseAct::Drag),
        MouseEventKind::Up(MouseButton::Left) => Some(MouseAct::Release),
        MouseEventKind::ScrollUp => Some(MouseAct::WheelUp),
        MouseEventKind::ScrollDown => Some(MouseAct::WheelDown),
        _ => None,
    }
}

/// A pasted text with its line ends made one kind (terminals send a bare return) and no other control character.
fn plain(text: &str) -> String {
    let lines = text.replace("\r\n", "\n").replace('\r', "\n");
    lines.chars().filter(|c| matches!(c, '\n' | '\t') || !c.is_control()).collect()
}

#[cfg(test)]
mod tests {
    use super::input;
    use crate::app::{Input, Key, KeyCode, Mouse, MouseAct};
    use crossterm::event::{
        Event, KeyCode as Pressed, KeyEvent, KeyEventKind, KeyEventState, KeyModifiers, MouseButton,
        MouseEvent, MouseEventKind,
    };

    fn pressed(code: Pressed, modifiers: KeyModifiers) -> Option<Key> {
        match input(Event::Key(KeyEvent::new(code, modifiers))) {
            Some(Input::Key(key)) => Some(key),
            _ => None,
        }
    }

    #[test]
    fn keys_arrive_in_the_spelling_of_the_files() {
        let cases = [
            (Pressed::Char('S'), KeyModifiers::SHIFT, "S"),
            (Pressed::Char('s'), KeyModifiers::CONTROL, "ctrl-s"),
            (Pressed::Char('S'), KeyModifiers::CONTROL.union(KeyModifiers::SHIFT), "ctrl-s"),
            (Pressed::Char(' '), KeyModifiers::NONE, "space"),
            (Pressed::Char('?'), KeyModifiers::SHIFT, "?"),
            (Pressed::BackTab, KeyModifiers::SHIFT, "shift-tab"),
            (Pressed::BackTab, KeyModifiers::NONE, "shift-tab"),
            (Pressed::Left, KeyModifiers::SHIFT, "shift-left"),
            (Pressed::F(1), KeyModifiers::NONE, "f1"),
            (Pressed::Char('X'), KeyModifiers::ALT.union(KeyModifiers::SHIFT), "alt-X"),
        ];
        for (code, modifiers, word) in cases {
            assert_eq!(pressed(code, modifiers), Key::parse(word).ok(), "{word}");
        }
        assert_eq!(pressed(Pressed::CapsLock, KeyModifiers::NONE), None);
    }

    #[test]
    fn a_held_key_repeats_and_its_release_is_nothing() {
        let kind = |kind| {
            let state = KeyEventState::NONE;
            input(Event::Key(KeyEvent { code: Pressed::Right, modifiers: KeyModifiers::NONE, kind, state }))
        };
        assert_eq!(kind(KeyEventKind::Release), None);
        assert_eq!(kind(KeyEventKind::Repeat), Some(Input::Key(Key::plain(KeyCode::Right))));
    }

    #[test]
    fn a_paste_is_text_without_control_characters() {
        let pasted = input(Event::Paste("LANTERN\r\nWALK\rat \u{1b}[31mdusk\t\u{7f}".to_owned()));
        assert_eq!(pasted, Some(Input::Paste("LANTERN\nWALK\nat [31mdusk\t".to_owned())));
    }

    #[test]
    fn the_main_button_and_the_wheel_are_seen() {
        let mouse =
            |kind| input(Event::Mouse(MouseEvent { kind, column: 7, row: 3, modifiers: KeyModifiers::NONE }));
        let seen = |what| Some(Input::Mouse(Mouse { what, column: 7, row: 3 }));
        assert_eq!(mouse(MouseEventKind::Down(MouseButton::Left)), seen(MouseAct::Press));
        assert_eq!(mouse(MouseEventKind::ScrollDown), seen(MouseAct::WheelDown));
        assert_eq!(mouse(MouseEventKind::Down(MouseButton::Right)), None);
        assert_eq!(mouse(MouseEventKind::Moved), None);
    }
}
