//! What has no name of its own is called by a letter: the joins of a template, the things on a map.
//!
//! Must not know what is called so.

/// `A` to `Z`, then `AA` and so on; `place` from 0.
pub(super) fn name(place: usize) -> String {
    let letter = char::from(b'A' + u8::try_from(place % 26).unwrap_or_default());
    letter.to_string().repeat(place / 26 + 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_two_places_have_one_name() {
        assert_eq!([0, 25, 26, 27, 52].map(name), ["A", "Z", "AA", "BB", "AAA"]);
    }
}
