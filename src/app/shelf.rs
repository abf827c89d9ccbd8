//! What the trial is made from and judged against: the stash, the scene, and the names of colours.
//!
//! Must not know the trial.

use crate::checks::{Scene, Taste};
use crate::measure::{ColourNames, Unit};
use crate::page::Page;
use crate::plan::{Plan, Spoken};
use crate::stash::{Ledger, Stash};
use crate::title::Wish;

/// The stash and what stays the same while letters are tried.
#[derive(Debug)]
pub struct Shelf {
    /// What is left.
    pub stash: Stash,
    /// The page's colours, the user's taste, what other plans speak for.
    pub scene: Scene,
    /// The owner's names for colours.
    pub names: ColourNames,
    /// What happened to the stash.
    pub ledger: Ledger,
    /// Titles wished for.
    pub wishes: Vec<Wish>,
    /// Whether the list of them has errors: it may hold more.
    pub are_wishes_amiss: bool,
    page: Page,
}

impl Shelf {
    /// A shelf with this stash; `others` are the other plans by name.
    #[must_use]
    pub fn new(stash: Stash, taste: Taste, names: ColourNames, others: &[(String, Plan)]) -> Self {
        let mut elsewhere = Spoken::default();
        for (name, plan) in others {
            elsewhere.add_called(name, plan, &stash);
        }
        let page = Page::default();
        let scene = Scene::new(&stash, &page, taste, elsewhere);
        Self {
            stash,
            scene,
            names,
            ledger: Ledger::default(),
            wishes: Vec::new(),
            are_wishes_amiss: false,
            page,
        }
    }

    /// Judges by the colours of `page` from now on.
    pub fn look_at(&mut self, page: &Page) {
        if *page != self.page {
            let (taste, elsewhere) = (self.scene.taste.clone(), self.scene.elsewhere.clone());
            let unit = self.scene.unit;
            self.scene = Scene::new(&self.stash, page, taste, elsewhere);
            self.scene.unit = unit;
            self.page = page.clone();
        }
    }

    /// The unit in which lengths are told.
    #[must_use]
    pub const fn unit(&self) -> Unit {
        self.scene.unit
    }
}
