//! The rates of change of every state, and their exact slopes.

mod air;
mod books;
mod heaters;
mod law;
mod moisture;
mod order;
mod pressures;
mod rates;
mod solids;

pub use books::{stored_j, water_g};
pub use law::{Law, Visitor};
pub use order::{Values, visit_all};
pub use pressures::PressureError;
pub use rates::{Balance, Entry};

#[cfg(test)]
mod tests;
