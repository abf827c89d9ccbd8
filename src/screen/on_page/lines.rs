//! Lines along the inner edge of a patch of cells.
//!
//! Must not know what the patch is.

use super::drawing::At;

/// The character for a cell of a patch that is at its edge; `None` within it. `rounded`: at the corners.
pub(super) fn edge(at: At, rounded: bool, holds: impl Fn(At) -> bool) -> Option<&'static str> {
    let (column, row) = at;
    let open = [(0, -1), (0, 1), (-1, 0), (1, 0)].map(|(x, y)| !holds((column + x, row + y)));
    Some(match open {
        [false, false, false, false] => return None,
        [_, _, false, false] => "─",
        [false, false, _, _] => "│",
        [true, false, true, false] => corner(rounded, "╭", "┌"),
        [true, false, false, true] => corner(rounded, "╮", "┐"),
        [false, true, true, false] => corner(rounded, "╰", "└"),
        [false, true, false, true] => corner(rounded, "╯", "┘"),
        [true, true, true, false] => "╶",
        [true, true, false, true] => "╴",
        [true, false, true, true] => "╷",
        [false, true, true, true] => "╵",
        [true, true, true, true] => "◇",
    })
}

const fn corner(rounded: bool, round: &'static str, sharp: &'static str) -> &'static str {
    if rounded { round } else { sharp }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn drawn(patch: &[&str], rounded: bool) -> String {
        let holds = |(column, row): At| {
            let line = usize::try_from(row).ok().and_then(|row| patch.get(row));
            line.zip(usize::try_from(column).ok())
                .is_some_and(|(line, at)| line.as_bytes().get(at) == Some(&b'#'))
        };
        let line = |row: usize| {
            (0..patch[row].len()).map(move |column| {
                let at = (i32::try_from(column).unwrap_or(0), i32::try_from(row).unwrap_or(0));
                if holds(at) { edge(at, rounded, holds).unwrap_or("#") } else { " " }
            })
        };
        (0..patch.len()).map(|row| line(row).collect::<String>()).collect::<Vec<_>>().join("\n")
    }

    #[test]
    fn patches_have_lines_along_their_edges() {
        assert_eq!(drawn(&["####", "####", "####"], false), "┌──┐\n│##│\n└──┘");
        assert_eq!(drawn(&[" ## ", "####", " ## "], true), " ╭╮ \n╶##╴\n ╰╯ ");
        assert_eq!(drawn(&["####"], false), "╶──╴");
        assert_eq!(drawn(&["#"], false), "◇");
    }
}
