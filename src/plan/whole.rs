//! The plan: a page and the strips that will lie on it.
//!
//! Must not know the stash beyond the names of its chips.

use crate::page::Page;
use crate::title::{Edit, Role, Strip, Wording};

/// What a page plan holds. It always has at least one strip.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Plan {
    /// What the owner calls it.
    pub name: Option<String>,
    /// The page; all of it may be absent.
    pub page: Page,
    /// The strips, in the file's order; their roles differ.
    strips: Vec<Strip>,
}

/// Why strips cannot be one plan's.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum StripsError {
    /// There is none.
    #[error("a plan needs a strip; add [[strip]] with a wording")]
    None,
    /// Two have one role.
    #[error("two strips are called {0}; each needs a role of its own")]
    Twice(Role),
}

impl Plan {
    /// A plan for a title of `wording`, with no page.
    #[must_use]
    pub fn titled(wording: Wording) -> Self {
        Self { name: None, page: Page::default(), strips: vec![Strip::new(Role::title(), wording)] }
    }

    /// A plan of these parts.
    ///
    /// # Errors
    /// When there is no strip, or two have one role.
    pub fn new(name: Option<String>, page: Page, strips: Vec<Strip>) -> Result<Self, StripsError> {
        if strips.is_empty() {
            return Err(StripsError::None);
        }
        for (place, strip) in strips.iter().enumerate() {
            if strips[..place].iter().any(|earlier| earlier.role() == strip.role()) {
                return Err(StripsError::Twice(strip.role().clone()));
            }
        }
        Ok(Self { name, page, strips })
    }

    /// The strips; never empty.
    #[must_use]
    pub fn strips(&self) -> &[Strip] {
        &self.strips
    }

    /// The place of the strip with that role.
    #[must_use]
    pub fn strip_called(&self, role: &str) -> Option<usize> {
        self.strips.iter().position(|strip| strip.role().as_str() == role)
    }

    /// Makes `edit` on the strip at `place`, outside of any history; nothing happens where there is no such strip.
    pub fn edit_strip(&mut self, place: usize, edit: Edit) {
        let _ = self.with_strip(place, |strip| edit.apply(strip));
    }

    /// Changes one strip through `change`; `None` where there is no such strip.
    pub(super) fn with_strip<T>(&mut self, place: usize, change: impl FnOnce(&mut Strip) -> T) -> Option<T> {
        self.strips.get_mut(place).map(change)
    }

    /// Puts a strip in at `place`, or at the end where there are fewer, and tells where it went; `None`, and nothing
    /// happens, where another has its role.
    pub(super) fn insert(&mut self, place: usize, strip: Strip) -> Option<usize> {
        if self.strip_called(strip.role().as_str()).is_some() {
            return None;
        }
        let place = place.min(self.strips.len());
        self.strips.insert(place, strip);
        Some(place)
    }

    /// Takes a strip out, unless it is the last one.
    pub(super) fn remove(&mut self, place: usize) -> Option<Strip> {
        (self.strips.len() > 1 && place < self.strips.len()).then(|| self.strips.remove(place))
    }
}
