//! How a cold-soaked light-aircraft piston engine warms through a winter night, computed.
//!
//! A night is written as a [`Scenario`](scenario::document::Scenario): an engine, its coverings and heaters, a
//! hangar, the weather, and what is asked. It passes one gate ([`scenario::check`]), becomes a network of cells,
//! air pockets and wet walls ([`network`]), is carried through the night by an implicit solver
//! ([`balance`], [`solver`]), and leaves a [`trace`] and closed books behind, which are questioned
//! ([`findings`]). [`night::run`] is that whole journey; [`study::compare`] makes several of them side by side.
//!
//! ```
//! use coldsoak::files::library::{Kind, model};
//! use coldsoak::night::run;
//! use coldsoak::quantity::Temperature;
//! use coldsoak::scenario::clock::{Clock, Moment};
//! use coldsoak::scenario::hours::Hours;
//! use coldsoak::scenario::document::Scenario;
//! use coldsoak::scenario::heater::{Heater, Place};
//! use coldsoak::scenario::weather::Weather;
//!
//! # fn main() -> Result<(), Box<dyn std::error::Error>> {
//! // A small flat-four in a shut hangar at 15 °F, a 250 W fan on top from eight in the evening.
//! let fan = Heater {
//!     place: Place::at("top-blowing-right".to_owned()),
//!     hours: Hours::from("20:00".to_owned().try_into()?),
//!     ..model(Kind::Heater, "bay-fan-250w")?
//! };
//! let scenario = Scenario {
//!     title: "a night built in code".to_owned(),
//!     clock: Clock {
//!         begin: Moment::try_from("19:00".to_owned())?,
//!         departure: Moment::try_from("07:30".to_owned())?,
//!         zone: Some("UTC".to_owned()),
//!     },
//!     engine: model(Kind::Engine, "flat-four-3l1")?,
//!     oil: model(Kind::Oil, "15w-50")?,
//!     covers: Default::default(),
//!     heaters: vec![fan],
//!     hangar: model(Kind::Hangar, "shut")?,
//!     weather: Weather::steady {
//!         outdoors: Temperature::degF(15.0),
//!         humidity: 0.8,
//!         wind: None,
//!     },
//!     start: Default::default(),
//!     circuit: Default::default(),
//!     question: Default::default(),
//!     units: Default::default(),
//!     accuracy: Default::default(),
//!     unknowns: Default::default(),
//! };
//!
//! let night = run(&scenario)?;
//! let coldest = night.findings.coldest.as_ref().expect("it has an engine");
//! println!("last to warm: the {}, at {:.1} °C", coldest.label, coldest.temp_c);
//! assert!(night.findings.ready.ready_at_departure);
//! // The sump, hung by a neck, is where the thermometer belongs with the heat on top.
//! assert_eq!(coldest.part, "sump_bot");
//! # Ok(())
//! # }
//! ```
//!
//! The default coefficients of the built-in engines were adjusted to a few practice readings, and how well a
//! cowl is closed is the largest unknown of any answer. The engine maker's manual, local codes and licensed
//! practice come first.

pub mod balance;
pub mod cli;
pub mod document;
pub mod files;
pub mod findings;
pub mod inspect;
pub mod network;
pub mod night;
pub mod physics;
pub mod picture;
pub mod quantity;
pub mod render;
pub mod report;
pub mod scenario;
pub mod solver;
pub mod study;
pub mod trace;
pub mod weather;

// What the tests build nights from, by the name they know this crate by.
#[cfg(test)]
extern crate self as coldsoak;
#[cfg(test)]
#[path = "../tests/kit/drawn_night.rs"]
mod drawn_night;
#[cfg(test)]
#[path = "../tests/kit/mod.rs"]
mod kit;
#[cfg(test)]
#[path = "../tests/kit/test_traces.rs"]
mod test_traces;
