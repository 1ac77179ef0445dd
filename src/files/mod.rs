//! Disk to values and back.

pub mod catalogue;
pub mod comparison;
pub mod fault;
pub mod library;
pub mod loaded;
pub mod locate;
pub mod night;
mod night_file;
mod open;
pub mod recognise;
pub mod ron;
pub mod safe;
pub mod settings;
mod shared;
mod shown;
pub mod sources;
#[cfg(feature = "studies")]
pub mod store;
pub mod template;
pub mod trace_csv;
pub mod validate;
pub mod weather_entry;
mod written_units;

#[cfg(test)]
mod tests;
