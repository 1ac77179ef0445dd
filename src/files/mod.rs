//! Disk to values and back.

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
pub mod store;
pub mod trace_csv;
pub mod weather_csv;
mod written_units;

#[cfg(test)]
mod tests;
