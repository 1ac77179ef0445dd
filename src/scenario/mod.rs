//! The night as the user wrote it: data only.

pub mod bay;
pub mod body;
pub mod check;
pub mod circuit;
pub mod clock;
mod constructors;
pub mod cover;
pub mod criteria;
pub mod document;
pub mod engine;
pub mod hangar;
pub mod heater;
pub mod hours;
pub mod initial;
pub mod joint;
pub mod moisture;
pub mod moment;
pub mod oil;
pub mod opposed;
pub mod part;
pub mod plausibility;
pub mod uncertain;
pub mod weather;

pub use constructors::ClockError;
