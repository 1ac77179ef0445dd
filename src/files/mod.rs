//! Disk to values and back.

mod brackets;
pub mod catalogue;
mod commas;
pub mod comparison;
pub mod fault;
mod hours;
mod lenient;
pub mod library;
pub mod loaded;
pub mod locate;
pub mod night;
mod open;
mod outline;
mod place;
mod quotes;
pub mod recognise;
pub mod recover;
pub mod ron;
pub mod safe;
pub mod sources;
#[cfg(feature = "studies")]
pub mod store;
pub mod template;
pub mod trace_csv;
mod units;
pub mod validate;
pub mod weather_entry;
mod wording;
mod written_units;

#[cfg(test)]
mod tests;
