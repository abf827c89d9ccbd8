//! Which sticker lot serves which letter of the wishes that are made; letters are handed on where that makes room for more.
//!
//! A bipartite matching with as many places as a lot has letters, by augmenting paths, shortest first (Berge 1957). Must not know
//! how wishes are chosen.

use super::table::Table;

/// No lot yet.
const NONE: u32 = u32::MAX;

/// A letter of a wish, by its place.
type Letter = (u32, u32);

/// The wishes that are made, and the lots that serve for their letters.
#[derive(Debug, Clone)]
pub(super) struct Matching {
    /// For each lot the letters that it serves for.
    served: Vec<Vec<Letter>>,
    /// For each wish its letters: the character, and the lot.
    letters: Vec<Vec<(u16, u32)>>,
    /// For each wish the bands that it may be in, the first and the last.
    spans: Vec<(u16, u16)>,
    room: Room,
    /// How often a letter was looked for, all in all.
    pub(super) looks: u64,
}

/// Room to search in.
#[derive(Debug, Clone, Default)]
struct Room {
    /// When each lot was seen last.
    seen: Vec<u64>,
    now: u64,
    /// For each lot the letter that it was reached from.
    from: Vec<Letter>,
    queue: Vec<Letter>,
}

impl Matching {
    /// No wish made yet.
    pub(super) fn new(table: &Table) -> Self {
        let (lots, wishes) = (table.left.len(), table.wishes.len());
        let room = Room { seen: vec![0; lots], now: 0, from: vec![(0, 0); lots], queue: Vec::new() };
        Self {
            served: vec![Vec::new(); lots],
            letters: vec![Vec::new(); wishes],
            spans: vec![(0, 0); wishes],
            room,
            looks: 0,
        }
    }

    /// Makes `wish` of letters that lie in any of the bands from the first to the last of `span`; `false`, and nothing changed that
    /// matters, where the others leave too little.
    pub(super) fn add(&mut self, table: &Table, wish: usize, span: (u16, u16)) -> bool {
        self.remove(wish);
        self.spans[wish] = span;
        let needs = &table.wishes[wish].needs;
        let each =
            needs.iter().flat_map(|&(character, letters)| (0..letters).map(move |_| (character, NONE)));
        self.letters[wish].extend(each);
        for letter in 0..self.letters[wish].len() {
            if !self.serve(table, place(wish, letter)) {
                self.remove(wish);
                return false;
            }
        }
        true
    }

    /// Makes `wish` no longer.
    pub(super) fn remove(&mut self, wish: usize) {
        let letters = std::mem::take(&mut self.letters[wish]);
        for (number, &(_, lot)) in letters.iter().enumerate() {
            if lot != NONE {
                self.let_go(lot, place(wish, number));
            }
        }
        self.letters[wish] = letters;
        self.letters[wish].clear();
    }

    /// Makes no wish any longer.
    pub(super) fn clear(&mut self) {
        for wish in 0..self.letters.len() {
            self.remove(wish);
        }
    }

    fn let_go(&mut self, lot: u32, letter: Letter) {
        let served = &mut self.served[lot as usize];
        if let Some(place) = served.iter().position(|one| *one == letter) {
            served.swap_remove(place);
        }
    }

    fn serve(&mut self, table: &Table, first: Letter) -> bool {
        self.looks += 1;
        self.room.now += 1;
        self.room.queue.clear();
        self.room.queue.push(first);
        let mut next = 0;
        while let Some(&letter) = self.room.queue.get(next) {
            next += 1;
            let (wish, number) = (letter.0 as usize, letter.1 as usize);
            for span in table.serving(self.letters[wish][number].0, self.spans[wish]) {
                let lot = span.number as usize;
                if self.room.seen[lot] == self.room.now {
                    continue;
                }
                self.room.seen[lot] = self.room.now;
                self.room.from[lot] = letter;
                if self.served[lot].len() < table.left[lot] as usize {
                    self.hand_on(span.number);
                    return true;
                }
                self.room.queue.extend_from_slice(&self.served[lot]);
            }
        }
        false
    }

    /// Lets `lot` serve the letter that it was reached from, and the lot that served that letter the one before.
    fn hand_on(&mut self, mut lot: u32) {
        loop {
            let letter = self.room.from[lot as usize];
            let held = &mut self.letters[letter.0 as usize][letter.1 as usize].1;
            let before = std::mem::replace(held, lot);
            self.served[lot as usize].push(letter);
            if before == NONE {
                return;
            }
            self.let_go(before, letter);
            lot = before;
        }
    }
}

/// Leaves out the bands in which a wish could not be made even if it were the only one.
pub(super) fn leave_out_what_cannot_be(table: &mut Table) {
    let mut matching = Matching::new(table);
    for wish in 0..table.wishes.len() {
        let mut options = std::mem::take(&mut table.wishes[wish].options);
        options.retain(|&option| {
            let is_made = matching.add(table, wish, (option, option));
            matching.remove(wish);
            is_made
        });
        table.wishes[wish].options = options;
    }
}

fn place(wish: usize, letter: usize) -> Letter {
    let number = |place: usize| u32::try_from(place).unwrap_or(u32::MAX);
    (number(wish), number(letter))
}
