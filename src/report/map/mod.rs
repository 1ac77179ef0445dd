//! The engine as a drawing coloured by temperature: from above, from the side, from the front, or as its model allows.
//!
//! ```text
//! night ─sheet─▶ Drawing (what is drawn where) ─+ Moment (what is how warm)─▶ svg
//! ```

mod above;
mod bands;
mod drawing;
mod front;
mod jets;
mod measures;
mod moment;
mod outline;
mod panel;
mod part_labels;
mod pen;
mod picture;
mod ring;
mod scale;
mod sheet;
mod side;
mod strip;
mod style;
mod svg;
mod tags;
#[cfg(test)]
mod tests;
mod written;

pub use picture::Map;
pub use strip::{MOST, strip};
pub use style::style;
