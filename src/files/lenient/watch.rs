//! Anything with the path at which it is asked, and the notes of this look.

use super::notes::Notes;

/// A reader at a path.
pub struct Watched<'n, D> {
    pub(super) inner: D,
    pub(super) path: String,
    pub(super) notes: &'n Notes,
}

impl<'n, D> Watched<'n, D> {
    /// The reader of a whole text.
    pub fn whole(inner: D, notes: &'n Notes) -> Self {
        Self::at(inner, String::new(), notes)
    }
    pub(super) fn at(inner: D, path: String, notes: &'n Notes) -> Self {
        Self { inner, path, notes }
    }
}

/// Anything that is asked at a path: a visitor, a seed, or access to what is inside.
pub(super) struct Watch<'n, T> {
    pub(super) inner: T,
    pub(super) path: String,
    pub(super) notes: &'n Notes,
}
