//! The rates of change of every state, and their exact slopes.

mod evaluation;
mod jacobian;
mod law_lanes;
mod pressures;
mod rates;
mod stored;
mod structure;
mod values;

pub(crate) use evaluation::Evaluate;
pub use evaluation::{Balance, Entry};
pub use pressures::PressureError;
pub use stored::{stored_j, water_g};
pub use structure::same_structure;

#[cfg(test)]
mod tests;
