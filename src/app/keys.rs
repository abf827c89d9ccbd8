//! The keys that work: those that the actions come with, changed by the user's own.
//!
//! Must not know what an action does.

use super::action::{ACTIONS, Action, Row};
use super::focus::{Focus, Reach};
use super::key::Key;

/// The keys that work: the table's, changed by the user's own.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Keys {
    /// For each row of [`ACTIONS`] its keys.
    bound: Vec<Vec<Key>>,
}

impl Default for Keys {
    fn default() -> Self {
        let keys = |row: &Row| row.keys.iter().filter_map(|key| Key::parse(key).ok()).collect();
        Self { bound: ACTIONS.iter().map(keys).collect() }
    }
}

impl Keys {
    /// Gives actions other keys, by their places in [`ACTIONS`], all at once: two may change places.
    ///
    /// # Errors
    /// A key that would do two things in one place changes nothing and gives both actions' names back.
    pub fn rebind(&mut self, changes: Vec<(usize, Vec<Key>)>) -> Result<(), (&'static str, &'static str)> {
        let mut bound = self.bound.clone();
        for (place, keys) in changes {
            bound[place] = keys;
        }
        for (place, row) in ACTIONS.iter().enumerate() {
            for (other, earlier) in ACTIONS[..place].iter().enumerate() {
                if meet(row.reach, earlier.reach) && bound[place].iter().any(|key| bound[other].contains(key))
                {
                    return Err((row.name, earlier.name));
                }
            }
        }
        self.bound = bound;
        Ok(())
    }

    /// What `key` does with the keys going to `focus`.
    #[must_use]
    pub fn action(&self, key: Key, focus: Focus) -> Option<Action> {
        self.working(focus).find(|(_, keys)| keys.contains(&key)).map(|(row, _)| row.action)
    }

    /// The key by which an action is told: its first.
    #[must_use]
    pub fn told(&self, action: Action) -> Option<Key> {
        self.of(action).first().copied()
    }

    /// The keys of an action.
    #[must_use]
    pub fn of(&self, action: Action) -> &[Key] {
        let place = ACTIONS.iter().position(|row| row.action == action);
        place.map_or(&[], |place| self.bound[place].as_slice())
    }

    /// The actions that work there, with their keys; those of the pane itself first.
    pub fn working(&self, focus: Focus) -> impl Iterator<Item = (&'static Row, &[Key])> {
        let rows = move |own: bool| {
            ACTIONS
                .iter()
                .zip(&self.bound)
                .filter(move |(row, _)| row.reach.includes(focus) && (row.reach == Reach::In(focus)) == own)
                .map(|(row, keys)| (row, keys.as_slice()))
        };
        rows(true).chain(rows(false))
    }
}

/// Whether two actions can ever be called by one key press in the same place.
fn meet(a: Reach, b: Reach) -> bool {
    let everywhere = [
        Focus::Strip,
        Focus::Grid,
        Focus::Checks,
        Focus::OnPage,
        Focus::Sheets,
        Focus::Fields,
        Focus::Swatches,
        Focus::Letters,
        Focus::Wishes,
        Focus::Ideas,
        Focus::Alternates,
        Focus::Compare,
        Focus::Suggestions,
        Focus::OneMore,
        Focus::Order,
        Focus::Plans,
        Focus::Page,
        Focus::Typing,
        Focus::Question,
    ];
    everywhere.iter().any(|&focus| a.includes(focus) && b.includes(focus))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_key_of_the_table_can_be_pressed() {
        for row in ACTIONS {
            for key in row.keys {
                assert_eq!(Key::parse(key).map(|key| key.to_string()).as_deref(), Ok(*key), "{}", row.name);
            }
        }
    }

    #[test]
    fn no_key_does_two_things_in_one_place() {
        for (place, row) in ACTIONS.iter().enumerate() {
            for other in &ACTIONS[..place] {
                let shared = row.keys.iter().find(|key| other.keys.contains(key));
                assert!(
                    !meet(row.reach, other.reach) || shared.is_none(),
                    "{} and {}: {shared:?}",
                    row.name,
                    other.name
                );
                assert_ne!(row.name, other.name);
            }
        }
    }

    #[test]
    fn a_key_that_is_taken_is_refused() {
        let mut keys = Keys::default();
        let undo = ACTIONS.iter().position(|row| row.action == Action::Undo).unwrap_or_default();
        let save: Vec<Key> = Key::parse("s").into_iter().collect();
        assert_eq!(keys.rebind(vec![(undo, save)]), Err(("save", "undo")));
        assert_eq!(keys, Keys::default());
    }
}
