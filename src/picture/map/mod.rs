//! The engine as a drawing coloured by temperature: from above, from the side, from the front, or as its model allows.
//!
//! ```text
//! night ─sheet─▶ Drawing (what is drawn where) ─+ Moment (what is how warm)─paint─▶ Picture
//! ```

mod above;
mod bands;
mod drawing;
mod engine_map;
mod front;
mod jets;
mod labels;
mod measures;
mod moment;
mod moments;
mod paint;
mod panel;
mod pen;
mod ring;
mod scale;
mod sheet;
mod side;
mod strip;
#[cfg(test)]
mod tests;

pub use engine_map::Map;
pub use moments::moments;
pub use strip::{MOST, strip};
