//! The rates of change of every state, and their exact slopes.

mod air;
mod alike;
mod books;
mod evaluation;
mod heaters;
mod law;
mod moisture;
mod order;
mod pressures;
mod rates;
mod slopes;
mod solids;
mod values;

pub use alike::are_alike;
pub use books::{stored_j, water_g};
pub use evaluation::{Balance, Entry};
pub use law::{Law, Visitor};
pub use order::visit_all;
pub use pressures::PressureError;

pub use values::is_on;

#[cfg(test)]
mod tests;
