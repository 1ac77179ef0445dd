//! What only pages show: charts, the engine through the night, the card, the heat, what the answer rests on.

mod basis;
mod budget;
mod card;
mod sections;

pub use sections::{of_comparison, of_night, of_when};
