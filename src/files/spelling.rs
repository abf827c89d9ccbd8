//! The word that was probably meant.
//!
//! Must not know what the words are for.

/// The candidate spelled most like `word`, ties to the first; `None` where nothing comes near: more than a third of the
/// letters wrong, at least one allowed.
pub(super) fn nearest<'c>(word: &str, candidates: impl IntoIterator<Item = &'c str>) -> Option<&'c str> {
    let wanted: Vec<char> = word.chars().take(LONGEST).flat_map(char::to_lowercase).collect();
    let most = (wanted.len() / 3).max(1);
    candidates
        .into_iter()
        .map(|candidate| (distance(&wanted, candidate), candidate))
        .filter(|(distance, _)| *distance <= most)
        .min_by_key(|(distance, _)| *distance)
        .map(|(_, candidate)| candidate)
}

/// No word that a file knows is longer.
const LONGEST: usize = 40;

/// Letters to put in, take out, change or exchange with their neighbour (optimal string alignment) to get from one to
/// the other.
fn distance(wanted: &[char], candidate: &str) -> usize {
    let other: Vec<char> = candidate.chars().flat_map(char::to_lowercase).collect();
    let mut before: Vec<usize> = Vec::new();
    let mut above: Vec<usize> = (0..=other.len()).collect();
    for (i, &a) in wanted.iter().enumerate() {
        let mut row = vec![i + 1];
        for (j, &b) in other.iter().enumerate() {
            let changed = above[j] + usize::from(a != b);
            let mut least = changed.min(above[j + 1] + 1).min(row[j] + 1);
            if i > 0 && j > 0 && a == other[j - 1] && wanted[i - 1] == b {
                least = least.min(before[j - 1] + 1);
            }
            row.push(least);
        }
        before = std::mem::replace(&mut above, row);
    }
    above.last().copied().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn slips_are_found_and_strangers_are_not() {
        let keys = ["height", "height_of", "colour", "form"];
        assert_eq!(nearest("hieght", keys), Some("height"));
        assert_eq!(nearest("color", keys), Some("colour"));
        assert_eq!(nearest("From", keys), Some("form"));
        assert_eq!(nearest("weather", keys), None);
    }
}
