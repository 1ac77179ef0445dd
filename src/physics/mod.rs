//! The laws.

pub mod convection;
pub mod number;
