//! What can reach the program from outside: keys, pastes, the mouse, a new size.
//!
//! Must not know which terminal or library it came from.

use super::Key;

/// One thing that happened at the terminal.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Input {
    /// A key was pressed, or repeated because it is held down.
    Key(Key),
    /// A text was pasted: lines are parted by `\n`, and there are no control characters but that and the tab.
    Paste(String),
    /// The mouse was used.
    Mouse(Mouse),
    /// The screen has this size from now on, in cells. The first input of all is one of these.
    Resize {
        /// Cells in a row; may be 0.
        columns: u16,
        /// Rows; may be 0.
        rows: u16,
    },
}

/// One act with the mouse, and the cell it was done on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Mouse {
    /// What was done.
    pub what: MouseAct,
    /// The cell's column, 0 at the left.
    pub column: u16,
    /// The cell's row, 0 at the top.
    pub row: u16,
}

/// What the mouse did. Presses, drags and releases are those of the main button.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum MouseAct {
    /// The main button went down.
    Press,
    /// The mouse moved with the main button down.
    Drag,
    /// The main button came up.
    Release,
    /// The wheel turned one notch away from the user.
    WheelUp,
    /// The wheel turned one notch towards the user.
    WheelDown,
}
