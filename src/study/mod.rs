//! Many nights, side by side.

pub mod compare;
mod recommend;
