//! Many nights, side by side.

pub mod change;
pub mod compare;
mod recommend;
pub mod when;
