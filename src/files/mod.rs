//! Disk to values and back.

mod brackets;
pub mod catalogue;
mod commas;
pub mod comparison;
pub mod examine;
pub mod fault;
mod lenient;
pub mod library;
pub mod loaded;
pub mod locate;
pub mod metar;
pub mod night;
mod outline;
mod place;
pub mod recognise;
pub mod recover;
pub mod ron;
pub mod safe;
pub mod sources;
pub mod starter;
mod starter_text;
pub mod stated;
pub mod trace_csv;
mod units;
pub mod weather;
mod wording;

#[cfg(test)]
mod tests;
