//! When something was on.

use crate::picture::draw::colour::Colour;

/// When something was on, drawn as a strip under the panels.
#[derive(Debug, Clone, PartialEq)]
pub struct Strip {
    /// Its name in machine output.
    pub key: String,
    /// Its name.
    pub name: String,
    /// Spans of seconds after the beginning.
    pub spans: Vec<(f64, f64)>,
    /// Its colour.
    pub colour: Colour,
}
