//! Disk to values and back.

pub mod catalogue;
pub mod comparison;
pub mod fault;
pub mod library;
pub mod locate;
pub mod metar;
pub mod night;
mod outline;
pub mod ron;
pub mod safe;
pub mod sources;
pub mod starter;
mod starter_text;
pub mod stated;
pub mod trace_csv;
pub mod weather;

#[cfg(test)]
mod tests;
