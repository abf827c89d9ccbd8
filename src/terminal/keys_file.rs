//! The user's own keys: `keys.toml`.
//!
//! Must not know what a key does; it offers the names of the table.

use std::path::Path;

use toml::de::{DeTable, DeValue};

use crate::app::{ACTIONS, Key, Keys};

/// Reads `keys.toml` of a stash, where there is one: the keys, and every problem in a sentence. With any problem the usual
/// keys work.
pub(super) fn read(folder: &Path) -> (Keys, Vec<String>) {
    match std::fs::read_to_string(folder.join("keys.toml")) {
        Ok(text) => read_text(&text),
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => (Keys::default(), Vec::new()),
        Err(error) => (Keys::default(), vec![format!("keys.toml cannot be read: {error}")]),
    }
}

fn read_text(text: &str) -> (Keys, Vec<String>) {
    let table = match DeTable::parse(text) {
        Ok(table) => table.into_inner(),
        Err(error) => return (Keys::default(), vec![format!("keys.toml: {}", error.message())]),
    };
    let line = |at: usize| text[..at].lines().count().max(1);
    let mut problems = Vec::new();
    let mut changes = Vec::new();
    for (name, value) in table {
        let at = format!("keys.toml:{}: {:?}", line(name.span().start + 1), name.get_ref());
        let Some(place) = ACTIONS.iter().position(|row| row.name == name.get_ref()) else {
            problems.push(format!("{at} is no action; oddment(1) lists them"));
            continue;
        };
        let words: Vec<&DeValue<'_>> = match value.get_ref() {
            DeValue::Array(words) => words.iter().map(toml::Spanned::get_ref).collect(),
            word => vec![word],
        };
        let keys = words.into_iter().map(read_key).collect::<Result<Vec<Key>, String>>();
        match keys {
            Ok(keys) => changes.push((place, keys)),
            Err(problem) => problems.push(format!("{at}: {problem}")),
        }
    }
    let mut keys = Keys::default();
    if let Err((one, other)) = keys.rebind(changes) {
        problems.push(format!("keys.toml: {one} and {other} would have one key; give one of them another"));
    }
    if problems.is_empty() { (keys, problems) } else { (Keys::default(), problems) }
}

fn read_key(word: &DeValue<'_>) -> Result<Key, String> {
    let word = word.as_str().ok_or("a key is a text such as \"ctrl-s\", or a list of them")?;
    let key = Key::parse(word).map_err(|error| error.to_string())?;
    if key == Key::SUSPEND {
        Err("ctrl-z suspends the program and cannot be changed".into())
    } else {
        Ok(key)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::{Action, Focus};

    #[test]
    fn keys_change_and_may_change_places() {
        let (keys, problems) = read_text("save = \"u\"\nundo = [\"s\", \"f2\"]\n");
        assert!(problems.is_empty(), "{problems:?}");
        let does = |key: &str| Key::parse(key).ok().and_then(|key| keys.action(key, Focus::Strip));
        assert_eq!(does("u"), Some(Action::Save));
        assert_eq!(does("f2"), Some(Action::Undo));
    }

    #[test]
    fn what_is_wrong_is_told_and_the_usual_keys_work() {
        for (text, told) in [
            ("sve = \"u\"", "keys.toml:1: \"sve\" is no action"),
            ("\nsave = \"f99\"", "keys.toml:2: \"save\": \"f99\" is no key"),
            ("save = 3", "a key is a text"),
            ("save = \"ctrl-z\"", "ctrl-z suspends"),
            ("save = \"u\"", "would have one key"),
            ("save = ", "keys.toml: "),
        ] {
            let (keys, problems) = read_text(text);
            assert!(problems.iter().any(|problem| problem.contains(told)), "{text}: {problems:?}");
            assert_eq!(keys, Keys::default());
        }
    }
}
