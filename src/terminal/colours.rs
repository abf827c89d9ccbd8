//! Whether there is a terminal to draw on, and how many colours it has.
//!
//! Must not know what will be drawn.

use crate::app::Colours;
use std::io::IsTerminal;

/// Why the program cannot be drawn here. A command line ends with 2 on it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum Refusal {
    /// Keys would come from a file or a pipe.
    #[error("standard input is not a terminal, so there are no keys to read: start oddment from a terminal")]
    Input,
    /// The screen would go into a file or a pipe.
    #[error(
        "standard output is not a terminal, so there is no screen to draw on: start oddment from a terminal"
    )]
    Output,
    /// The terminal says of itself that it cannot place a cursor.
    #[error(
        "this terminal calls itself \"dumb\": it cannot place letters on a strip; \
         set TERM to what it really is, or use the commands that only print (oddment --help)"
    )]
    Dumb,
}

/// Looks at the terminal before anything is changed on it, and says how many colours it shows.
///
/// # Errors
///
/// Standard input or output is no terminal, or `TERM` is `dumb`.
pub fn ready() -> Result<Colours, Refusal> {
    let ask = |name: &str| std::env::var(name).unwrap_or_default();
    if !std::io::stdin().is_terminal() {
        Err(Refusal::Input)
    } else if !std::io::stdout().is_terminal() {
        Err(Refusal::Output)
    } else if ask("TERM") == "dumb" {
        Err(Refusal::Dumb)
    } else {
        Ok(colours(ask))
    }
}

/// How many colours, by the environment: `NO_COLOR` when not empty (no-color.org), `COLORTERM`, then `TERM`.
fn colours(ask: impl Fn(&str) -> String) -> Colours {
    if !ask("NO_COLOR").is_empty() {
        return Colours::None;
    }
    if matches!(ask("COLORTERM").as_str(), "truecolor" | "24bit") {
        return Colours::True;
    }
    let term = ask("TERM");
    if term.ends_with("-direct") || term.contains("truecolor") {
        Colours::True
    } else if term.contains("256color") {
        Colours::Palette
    } else if term.is_empty() || term.ends_with("-m") || term.ends_with("-mono") || term.starts_with("vt") {
        Colours::None
    } else {
        Colours::Sixteen
    }
}

#[cfg(test)]
mod tests {
    use super::colours;
    use crate::app::Colours;

    fn seen(variables: &[(&str, &str)]) -> Colours {
        colours(|name| {
            variables
                .iter()
                .find(|(each, _)| *each == name)
                .map_or(String::new(), |(_, value)| (*value).to_owned())
        })
    }

    #[test]
    fn the_environment_says_how_many_colours() {
        assert_eq!(seen(&[("TERM", "xterm-256color")]), Colours::Palette);
        assert_eq!(seen(&[("TERM", "xterm-256color"), ("COLORTERM", "truecolor")]), Colours::True);
        assert_eq!(seen(&[("TERM", "screen"), ("COLORTERM", "24bit")]), Colours::True);
        assert_eq!(seen(&[("TERM", "xterm-direct")]), Colours::True);
        assert_eq!(seen(&[("TERM", "linux")]), Colours::Sixteen);
        assert_eq!(seen(&[("TERM", "xterm")]), Colours::Sixteen);
        assert_eq!(seen(&[("TERM", "vt100")]), Colours::None);
        assert_eq!(seen(&[]), Colours::None);
    }

    #[test]
    fn a_wish_for_no_colour_comes_first_and_an_empty_one_is_none() {
        let rich = [("TERM", "xterm-256color"), ("COLORTERM", "truecolor")];
        assert_eq!(seen(&[&rich[..], &[("NO_COLOR", "1")]].concat()), Colours::None);
        assert_eq!(seen(&[&rich[..], &[("NO_COLOR", "")]].concat()), Colours::True);
    }
}
