//! Puts back the line ends of a file, its byte-order mark and its missing last line end, after it was written anew.
//!
//! Must not know what the file holds.

/// `new`, whose lines all end in a line feed, with the line ends of `old`: a line that was there before keeps its own,
/// a fresh one gets those that most lines of `old` have.
pub(super) fn restore(old: &str, new: &str) -> String {
    let mark = if old.starts_with('\u{feff}') { "\u{feff}" } else { "" };
    let lines: Vec<(&str, bool)> = old[mark.len()..].split_inclusive('\n').map(part).collect();
    let returns = lines.iter().filter(|line| line.1).count();
    let usual = returns * 2 > lines.len();
    let mut out = String::with_capacity(new.len() + lines.len());
    out.push_str(mark);
    if returns == 0 {
        out.push_str(new);
    } else {
        let mut next = 0;
        for line in new.split_inclusive('\n') {
            let (text, _) = part(line);
            let known = lines[next..].iter().position(|line| line.0 == text);
            let with_return = known.map_or(usual, |ahead| lines[next + ahead].1);
            // A line found far ahead is another one of the same text: the lines between are still to come.
            if let Some(ahead) = known.filter(|ahead| *ahead <= REACH) {
                next += ahead + 1;
            }
            out.push_str(text);
            out.push_str(if with_return { "\r\n" } else { "\n" });
        }
    }
    if !old.is_empty() && !old.ends_with('\n') {
        out.truncate(out.trim_end_matches(['\r', '\n']).len());
    }
    out
}

/// How many lines may have been taken out at one place and the rest still be found again in order.
const REACH: usize = 12;

/// A line without its end, and whether that has a carriage return.
fn part(line: &str) -> (&str, bool) {
    let text = line.strip_suffix('\n').unwrap_or(line);
    text.strip_suffix('\r').map_or((text, false), |text| (text, true))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn line_ends_come_back() {
        assert_eq!(restore("a\r\nb\r\n", "a\nx\nb\n"), "a\r\nx\r\nb\r\n");
        assert_eq!(restore("a\nb\r\nc\n", "a\nb\nc\nd\n"), "a\nb\r\nc\nd\n");
        assert_eq!(restore("\u{feff}a\nb", "a\nb\n"), "\u{feff}a\nb");
        assert_eq!(restore("a\n", "a\nb\n"), "a\nb\n");
    }
}
