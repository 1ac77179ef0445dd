//! The night as arrays: cells, pockets and walls numbered, and every law between them with its columns and rows.

mod assemble;
mod bay;
mod column_info;
mod fins;
mod frame;
mod gas;
pub mod graph;
mod index;
mod initial;
mod reach;
mod sights;
mod solids;
pub mod subdivide;
pub mod surroundings;

pub use assemble::assemble;
pub use graph::Network;
pub use index::Index;
