//! The id of a sheet, its file's stem, and the mark that tells letters of one sheet apart.
//!
//! Must not know what the sheet holds.

use std::fmt;
use std::sync::Arc;

/// A sheet's id: one or more of `a-z`, `0-9` and `-`.
#[derive(Debug, Clone, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct SheetId(Arc<str>);

/// Tells letters of one character on one sheet apart: made of `a-z`, `0-9` and `-`.
#[derive(Debug, Clone, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Mark(Arc<str>);

impl Mark {
    /// Checks that `text` is a mark.
    ///
    /// # Errors
    /// When it is empty or holds anything but `a-z`, `0-9` and `-`.
    pub fn new(text: &str) -> Result<Self, SlugError> {
        is_slug(text).map(|()| Self(text.into()))
    }

    /// The mark that goes with a name, as [`SheetId::from_name`] makes an id.
    #[must_use]
    pub fn from_name(name: &str) -> Option<Self> {
        slug_of(name).map(|slug| Self(slug.into()))
    }

    /// The mark as text.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

/// Why a text is no id.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum SlugError {
    /// Nothing at all.
    #[error("an id is empty; use small letters, figures and hyphens")]
    Empty,
    /// A character that an id cannot hold.
    #[error("{0:?} holds {1:?}; an id is made of small letters a-z, figures and hyphens")]
    Character(String, char),
}

impl SheetId {
    /// Checks that `text` is an id.
    ///
    /// # Errors
    /// When it is empty or holds anything but `a-z`, `0-9` and `-`.
    pub fn new(text: &str) -> Result<Self, SlugError> {
        is_slug(text).map(|()| Self(text.into()))
    }

    /// What a sheet is called that has no name yet.
    #[must_use]
    pub fn unnamed() -> Self {
        Self("sheet".into())
    }

    /// The id that goes with a name: letters of `a-z` and figures in their small form, the rest as hyphens, 60 characters at
    /// most; `None` where nothing is left.
    #[must_use]
    pub fn from_name(name: &str) -> Option<Self> {
        slug_of(name).map(|slug| Self(slug.into()))
    }

    /// The id as text.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl fmt::Display for SheetId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

/// What an id keeps of a name.
fn slug_of(name: &str) -> Option<String> {
    let mut slug = String::new();
    for c in name.chars().flat_map(char::to_lowercase) {
        if c.is_ascii_alphanumeric() {
            slug.push(c);
        } else if !matches!(c, '\'' | '’') && !slug.is_empty() && !slug.ends_with('-') {
            slug.push('-');
        }
    }
    let slug: String = slug.chars().take(60).collect();
    let slug = slug.trim_end_matches('-');
    (!slug.is_empty()).then(|| slug.to_owned())
}

/// Whether `text` is made of `a-z`, `0-9` and `-` only.
fn is_slug(text: &str) -> Result<(), SlugError> {
    if text.is_empty() {
        return Err(SlugError::Empty);
    }
    match text.chars().find(|c| !matches!(c, 'a'..='z' | '0'..='9' | '-')) {
        Some(odd) => Err(SlugError::Character(text.into(), odd)),
        None => Ok(()),
    }
}
