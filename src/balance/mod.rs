//! The rates of change of every state, and their exact slopes.

mod air;
mod heaters;
mod law;
mod moisture;
mod order;
mod pressures;
mod rates;
mod solids;

pub use law::{Law, Visitor};
pub use order::{Values, visit_all};
pub use pressures::PressureError;
pub use rates::{Balance, Entry};
