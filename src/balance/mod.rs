//! The rates of change of every state, and their exact slopes.

mod air;
mod evaluation;
mod heaters;
mod jacobian;
mod law;
mod moisture;
mod order;
mod pressures;
mod rates;
mod solids;
mod stored;
mod structure;
mod values;

pub use evaluation::{Balance, Entry};
pub use law::{Law, Visitor};
pub use order::visit_all;
pub use pressures::PressureError;
pub use stored::{stored_j, water_g};
pub use structure::same_structure;

pub use values::is_on;

#[cfg(test)]
mod tests;
