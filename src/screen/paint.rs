//! Colours as the terminal can show them.
//!
//! Must not know what is coloured. Text keeps the terminal's own foreground; a swatch carries its own readable ink.

use ratatui::style::{Color, Modifier, Style};

use crate::app::Colours;
use crate::measure::Colour;

/// The sixteen colours by the shades that most terminals give them (common practice, no source); their numbers are the
/// terminal's own.
const SIXTEEN: [(u8, u8, u8); 16] = [
    (0, 0, 0),
    (205, 49, 49),
    (13, 188, 121),
    (180, 140, 20),
    (36, 114, 200),
    (188, 63, 188),
    (17, 168, 205),
    (200, 200, 200),
    (110, 110, 110),
    (241, 76, 76),
    (35, 209, 139),
    (245, 245, 67),
    (59, 142, 234),
    (214, 112, 214),
    (41, 184, 219),
    (255, 255, 255),
];

/// How the terminal paints.
#[derive(Debug, Clone, Copy)]
pub(super) struct Paint(pub(super) Colours);

impl Paint {
    /// Whether there are colours at all.
    pub(super) fn has_colour(self) -> bool {
        self.0 != Colours::None
    }

    /// The nearest colour that the terminal has; `None` where it has none.
    pub(super) fn colour(self, colour: Colour) -> Option<Color> {
        match self.0 {
            Colours::None => None,
            Colours::True => Some(Color::Rgb(colour.r, colour.g, colour.b)),
            Colours::Palette => Some(Color::Indexed(indexed(colour))),
            Colours::Sixteen => nearest(&SIXTEEN, colour).map(Color::Indexed),
        }
    }

    /// A patch in `colour` with ink that reads well on it; reversed where there are no colours.
    pub(super) fn swatch(self, colour: Colour) -> Style {
        match (self.colour(colour), self.colour(colour.readable_ink())) {
            (Some(patch), Some(ink)) => Style::new().bg(patch).fg(ink),
            _ => Style::new(),
        }
    }
}

/// What is less important.
pub(super) const fn faint() -> Style {
    Style::new().add_modifier(Modifier::DIM)
}

/// What has the keys, or is chosen.
pub(super) const fn chosen() -> Style {
    Style::new().add_modifier(Modifier::REVERSED)
}

/// What matters.
pub(super) const fn strong() -> Style {
    Style::new().add_modifier(Modifier::BOLD)
}

/// The nearest of the 6 x 6 x 6 cube and the 24 greys.
fn indexed(colour: Colour) -> u8 {
    const STEPS: [u8; 6] = [0, 95, 135, 175, 215, 255];
    let step =
        |value: u8| (0_u8..6).min_by_key(|&step| STEPS[usize::from(step)].abs_diff(value)).unwrap_or(0);
    let (r, g, b) = (step(colour.r), step(colour.g), step(colour.b));
    let cube = [r, g, b].map(|step| STEPS[usize::from(step)]);
    let mean = (u16::from(colour.r) + u16::from(colour.g) + u16::from(colour.b)) / 3;
    let grey = u8::try_from((mean.saturating_sub(3) / 10).min(23)).unwrap_or(23);
    let level = 8 + 10 * grey;
    if apart(colour, (level, level, level)) < apart(colour, (cube[0], cube[1], cube[2])) {
        232 + grey
    } else {
        16 + 36 * r + 6 * g + b
    }
}

fn nearest(colours: &[(u8, u8, u8)], colour: Colour) -> Option<u8> {
    (0_u8..).zip(colours).min_by_key(|(_, one)| apart(colour, **one)).map(|(place, _)| place)
}

fn apart(a: Colour, (r, g, b): (u8, u8, u8)) -> u32 {
    [(a.r, r), (a.g, g), (a.b, b)].iter().map(|&(x, y)| u32::from(x.abs_diff(y)).pow(2)).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_nearest_that_a_terminal_has() {
        assert_eq!(indexed(Colour::WHITE), 231);
        assert_eq!(indexed(Colour { r: 128, g: 128, b: 128 }), 244);
        assert_eq!(Paint(Colours::Sixteen).colour(Colour::BLACK), Some(Color::Indexed(0)));
        assert_eq!(Paint(Colours::None).colour(Colour::BLACK), None);
    }
}
