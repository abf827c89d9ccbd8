//! How colours tell letters of one character apart, and which mark goes with a colour.
//!
//! Must not know rows.

use std::collections::HashMap;

use crate::letter::Character;
use crate::measure::{ColourNames, Tint};
use crate::stash::Mark;

/// What stands between the colours of one chip.
pub(super) const BETWEEN: char = '+';

/// Letters of one kind as a table tells them apart.
#[derive(Debug, Clone, Copy)]
pub(super) struct Kind<'k> {
    pub(super) character: &'k Character,
    pub(super) colours: &'k [Tint],
    /// The mark, where the table has one.
    pub(super) mark: Option<&'k Mark>,
}

impl Kind<'_> {
    /// Whether nothing tells two of them apart.
    pub(super) fn is_twin_of(&self, other: &Self) -> bool {
        let by_mark = self.mark.is_some() || Tint::are_alike(self.colours, other.colours);
        self.character == other.character && self.mark == other.mark && by_mark
    }
}

/// The colours that most of a sheet's letters have, the first of them where several are as frequent.
pub(super) fn main_colours<'k>(kinds: &[Kind<'k>]) -> &'k [Tint] {
    let mut times: Vec<(&'k [Tint], usize)> = Vec::new();
    for kind in kinds {
        match times.iter_mut().find(|(colours, _)| Tint::are_alike(colours, kind.colours)) {
            Some((_, times)) => *times += 1,
            None => times.push((kind.colours, 1)),
        }
    }
    let most = times.iter().map(|(_, times)| *times).max();
    times.iter().find(|(_, times)| Some(*times) == most).map_or(&[], |(colours, _)| colours)
}

/// The mark of each of a new sheet's letters. Of several of one character that the table gives none, the one in the `main`
/// colours has none, or else the first; the others are marked by their colours.
pub(super) fn marks(kinds: &[Kind<'_>], main: &[Tint], names: &ColourNames) -> Vec<Option<Mark>> {
    let mut marks: Vec<Option<Mark>> = kinds.iter().map(|kind| kind.mark.cloned()).collect();
    let mut open: HashMap<&Character, Vec<usize>> = HashMap::new();
    for (place, kind) in kinds.iter().enumerate().filter(|(_, kind)| kind.mark.is_none()) {
        open.entry(kind.character).or_default().push(place);
    }
    for places in open.into_values() {
        let is_main = |place: &&usize| Tint::are_alike(kinds[**place].colours, main);
        let plain = places.iter().find(is_main).or(places.first()).copied();
        for place in places.into_iter().filter(|place| Some(*place) != plain) {
            let character = kinds[place].character;
            let of_it = || kinds.iter().zip(&marks).filter(|(kind, _)| kind.character == character);
            let is_taken = |mark: &Mark| of_it().any(|(_, taken)| taken.as_ref() == Some(mark));
            marks[place] = mark_of(kinds[place].colours, names, is_taken);
        }
    }
    marks
}

/// Colours as a cell spells them: each as a file does, several with ` + ` between them.
pub(super) fn spelled(colours: &[Tint], names: &ColourNames) -> String {
    let one = |tint: &Tint| {
        let name = names.spell(tint);
        if name.contains(BETWEEN) { tint.colour.hex() } else { name }
    };
    colours.iter().map(one).collect::<Vec<_>>().join(" + ")
}

/// The mark of a letter in these colours, made of their spelling; with a figure after it where `is_taken` has it already.
pub(super) fn mark_of(
    colours: &[Tint],
    names: &ColourNames,
    is_taken: impl Fn(&Mark) -> bool,
) -> Option<Mark> {
    let hex = || colours.iter().map(|tint| tint.colour.hex()).collect::<String>();
    let plain = Mark::from_name(&spelled(colours, names)).or_else(|| Mark::from_name(&hex()))?;
    let numbered = (2..).filter_map(|number| Mark::new(&format!("{}-{number}", plain.as_str())).ok());
    std::iter::once(plain.clone()).chain(numbered).find(|mark| !is_taken(mark))
}
