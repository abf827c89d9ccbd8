//! A second opinion's cells of 1 mm, and what a disc closes: plain rows of bits, widened cell by cell.
//!
//! Must not know `oddment::page`. A cell is named by the whole millimetres of its upper left corner and is taken for its
//! centre.

/// A cell.
pub(crate) type Cell = (i32, i32);

/// Cells within a frame; beyond it all is bare.
#[derive(Clone)]
pub(crate) struct Field {
    left: i32,
    top: i32,
    width: i32,
    held: Vec<bool>,
}

/// The centre of a cell in mm.
pub(crate) fn centre((x, y): Cell) -> (f64, f64) {
    (f64::from(x) + 0.5, f64::from(y) + 0.5)
}

impl Field {
    /// A bare one from the first cell up to the second.
    pub(crate) fn bare((left, top): Cell, (right, bottom): Cell) -> Self {
        let (width, height) = ((right - left).max(0), (bottom - top).max(0));
        Self { left, top, width, held: vec![false; usize::try_from(width * height).unwrap()] }
    }

    fn place(&self, (x, y): Cell) -> Option<usize> {
        let (column, row) = (x - self.left, y - self.top);
        let within = column >= 0 && column < self.width && row >= 0;
        within.then(|| usize::try_from(row * self.width + column).unwrap()).filter(|&at| at < self.held.len())
    }

    pub(crate) fn has(&self, cell: Cell) -> bool {
        self.place(cell).is_some_and(|at| self.held[at])
    }

    /// Whether the cell lies within the frame.
    pub(crate) fn frames(&self, cell: Cell) -> bool {
        self.place(cell).is_some()
    }

    /// Holds a cell; one beyond the frame is let go.
    pub(crate) fn hold(&mut self, cell: Cell) {
        if let Some(at) = self.place(cell) {
            self.held[at] = true;
        }
    }

    pub(crate) fn let_go(&mut self, cell: Cell) {
        if let Some(at) = self.place(cell) {
            self.held[at] = false;
        }
    }

    /// Every held cell, row by row.
    pub(crate) fn cells(&self) -> Vec<Cell> {
        let held = self.held.iter().enumerate().filter(|(_, held)| **held);
        held.map(|(at, _)| {
            let at = i32::try_from(at).unwrap();
            (self.left + at % self.width, self.top + at / self.width)
        })
        .collect()
    }

    /// A bare one with a frame as large.
    pub(crate) fn like(&self) -> Self {
        Self { held: vec![false; self.held.len()], ..*self }
    }
}

/// 256 cells across.
type Row = [u128; 2];

/// Rows of 256 cells.
#[derive(Clone)]
struct Rows {
    left: i32,
    top: i32,
    held: Vec<Row>,
}

fn or(a: Row, b: Row) -> Row {
    [a[0] | b[0], a[1] | b[1]]
}

const fn not(a: Row) -> Row {
    [!a[0], !a[1]]
}

/// The row with the neighbours of its cells.
const fn wider(a: Row) -> Row {
    [a[0] | a[0] << 1 | a[0] >> 1 | a[1] << 127, a[1] | a[1] << 1 | a[1] >> 1 | a[0] >> 127]
}

impl Rows {
    /// Bare rows that reach further by `pad` than the frame.
    fn bare((left, top): Cell, (right, bottom): Cell, pad: i32) -> Self {
        assert!(right - left + 2 * pad <= 256, "too wide for rows of 256 cells");
        let held = vec![[0; 2]; usize::try_from(bottom - top + 2 * pad).unwrap()];
        Self { left: left - pad, top: top - pad, held }
    }

    fn hold(&mut self, cells: &[Cell], (x, y): Cell) {
        for cell in cells {
            let column = usize::try_from(cell.0 + x - self.left).unwrap();
            self.held[usize::try_from(cell.1 + y - self.top).unwrap()][column / 128] |= 1 << (column % 128);
        }
    }

    fn cells(&self) -> Vec<Cell> {
        let mut cells = Vec::new();
        for (y, row) in (self.top..).zip(&self.held) {
            for (half, start) in row.iter().zip([self.left, self.left + 128]) {
                let mut left = *half;
                while left != 0 {
                    cells.push((start + i32::try_from(left.trailing_zeros()).unwrap(), y));
                    left &= left - 1;
                }
            }
        }
        cells
    }

    /// Every cell with a held one in the disc about it: dx^2 + dy^2 at most R^2.
    fn grown(&self, radius: i32) -> Self {
        let mut out = Self { held: vec![[0; 2]; self.held.len()], ..*self };
        let last = i32::try_from(self.held.len()).unwrap() - 1;
        let half = |dy: i32| (0..=radius).rev().find(|dx| dx * dx + dy * dy <= radius * radius).unwrap();
        let halves: Vec<(i32, usize)> =
            (-radius..=radius).map(|dy| (dy, usize::try_from(half(dy)).unwrap())).collect();
        let mut wide: Vec<Row> = Vec::new();
        for (y, row) in (0..).zip(&self.held) {
            if *row == [0; 2] {
                continue;
            }
            wide.clear();
            wide.push(*row);
            for step in 0..usize::try_from(radius).unwrap() {
                wide.push(wider(wide[step]));
            }
            for &(dy, half) in halves.iter().filter(|(dy, _)| (0..=last).contains(&(y + dy))) {
                let there = &mut out.held[usize::try_from(y + dy).unwrap()];
                *there = or(*there, wide[half]);
            }
        }
        out
    }

    fn turned_round(&self) -> Self {
        Self { held: self.held.iter().map(|row| not(*row)).collect(), ..*self }
    }

    /// Every cell with none but held ones in the disc about it. Nothing may be held within the radius of the frame.
    fn shrunk(&self, radius: i32) -> Self {
        self.turned_round().grown(radius).turned_round()
    }
}

/// What is there and what is carried over it, each grown and closed by a disc, for many places.
pub(crate) struct Closer {
    radius: i32,
    grown: Rows,
    closed: Rows,
    body: (Vec<Cell>, Vec<Cell>),
}

impl Closer {
    /// `raised` within a frame; `body` is carried anywhere within that frame.
    pub(crate) fn new(raised: &[Cell], body: &[Cell], frame: (Cell, Cell), radius: i32) -> Self {
        let pad = 2 * radius;
        let mut there = Rows::bare(frame.0, frame.1, pad);
        there.hold(raised, (0, 0));
        let grown = there.grown(radius);
        let closed = grown.shrunk(radius);
        let corner = |pick: fn(i32, i32) -> i32, start: i32| {
            body.iter().fold((start, start), |a, b| (pick(a.0, b.0), pick(a.1, b.1)))
        };
        let (from, to) = (corner(i32::min, i32::MAX), corner(i32::max, i32::MIN));
        let body = if body.is_empty() {
            (Vec::new(), Vec::new())
        } else {
            let mut own = Rows::bare(from, (to.0 + 1, to.1 + 1), pad);
            own.hold(body, (0, 0));
            let grown = own.grown(radius);
            (grown.cells(), grown.shrunk(radius).cells())
        };
        Self { radius, grown, closed, body }
    }

    /// The closing of both less the closing of either. What grows of two things is what grows of each.
    pub(crate) fn trapped(&self, moved: Cell) -> Vec<Cell> {
        let mut both = self.grown.clone();
        both.hold(&self.body.0, moved);
        let mut caught = both.shrunk(self.radius);
        let mut alone = self.closed.clone();
        alone.hold(&self.body.1, moved);
        for (row, less) in caught.held.iter_mut().zip(&alone.held) {
            *row = [row[0] & !less[0], row[1] & !less[1]];
        }
        caught.cells()
    }
}
