//! The tree and its reading, on texts of no particular kind.

mod broken;
mod places;
mod typed;
