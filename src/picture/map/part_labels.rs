//! A letter that names a shape of a drawing: what it is of, and where it stands.

use crate::picture::draw::Point;

/// What a letter is of.
#[derive(Debug, Clone, PartialEq)]
pub struct Tag {
    /// What the key says.
    pub words: String,
    /// The subject it names, as an index into the subjects of the drawing.
    pub subject: usize,
    /// The view it stands in.
    pub view: usize,
    /// Where it stands.
    pub stands: Stands,
    /// The letter; blank until all are known.
    pub letter: char,
}

/// Where a letter stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Stands {
    /// Before the temperature that is written on its shape.
    Before,
    /// Here on its shape.
    On(Point),
    /// Here, over this subject or the background, with a line to its shape.
    Beside(Point, Option<usize>, Point),
}

impl Stands {
    /// The place of its own, if it has one, and what lies behind it.
    pub fn free(&self, subject: usize) -> Option<(Point, Option<usize>)> {
        match *self {
            Self::Before => None,
            Self::On(at) => Some((at, Some(subject))),
            Self::Beside(at, over, _) => Some((at, over)),
        }
    }
}
