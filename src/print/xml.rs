//! Text that XML can hold.
//!
//! Must not know what it is said in.

/// `text` without what XML 1.0 has no way to write: that is named by its code point, as the faces' lacks are.
pub(super) fn sound(text: &str) -> String {
    let mut sound = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '\t' | '\n' | '\r' | ' '..='\u{fffd}' | '\u{10000}'.. => sound.push(c),
            _ => sound.push_str(&format!("[U+{:04X}]", u32::from(c))),
        }
    }
    sound
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_xml_cannot_hold_is_named() {
        assert_eq!(sound("<b>\t\u{0}\u{fffe}é\u{1f3ee}"), "<b>\t[U+0000][U+FFFE]é\u{1f3ee}");
    }
}
