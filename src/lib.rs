//! How a cold-soaked light-aircraft piston engine warms through a winter night, computed.
//!
//! A [`Scenario`] is a night as written: an engine, its covers and heaters, a hangar and the weather.
//! [`Scenario::run`] checks it, builds a thermal network of it, integrates the network through the night, and returns a
//! [`Night`]: the [`Trace`] of every temperature, the [`Conservation`] of energy and water, and the [`Findings`].
//! [`compare`] ranks several choices of one night, [`when`] finds the latest switch-on times.
//!
//! ```
//! use coldsoak::{Heater, Scenario, Weather, degF};
//!
//! # fn main() -> Result<(), Box<dyn std::error::Error>> {
//! let mut night = Scenario::builtin("demo")?;                           // or Scenario::read("tonight.ron")?
//! night.heaters = vec![Heater::builtin("bay-fan-350w")?.at("bottom").from("20:00")?];
//! night.weather = Weather::steady(degF(15.0), 0.8);
//! night.set("covers.inlet_plug", 0.97)?;                                // any key, as in a file
//! let result = night.run()?;
//! let coldest = result.findings.coldest.as_ref().ok_or("no engine part")?;
//! println!("{}: {:.1} °C\n{}", coldest.label, coldest.temp_c, result.report().text(80));
//! # assert!(result.report().text(80).contains(&coldest.label));
//! # Ok(())
//! # }
//! ```
//!
//! The default coefficients of the built-in engines are calibrated to a few practice readings. The engine maker's manual,
//! local codes and licensed practice apply.
//!
//! [`physics`] holds the laws as pure functions. All other modules are hidden: they serve the program, its tests and
//! benches, and may change without notice.

pub mod physics;

#[doc(hidden)]
pub mod balance;
#[cfg(feature = "program")]
#[doc(hidden)]
pub mod cli;
#[doc(hidden)]
pub mod document;
#[doc(hidden)]
pub mod files;
#[doc(hidden)]
pub mod findings;
#[doc(hidden)]
pub mod inspect;
#[doc(hidden)]
pub mod laws;
#[doc(hidden)]
pub mod network;
#[doc(hidden)]
pub mod night;
#[cfg(feature = "pictures")]
#[doc(hidden)]
pub mod picture;
#[doc(hidden)]
pub mod quantity;
#[doc(hidden)]
pub mod render;
#[doc(hidden)]
pub mod report;
#[doc(hidden)]
pub mod scenario;
#[doc(hidden)]
pub mod solver;
#[doc(hidden)]
pub mod study;
#[doc(hidden)]
pub mod trace;
#[doc(hidden)]
pub mod weather;

pub use files::fault::FileError;
pub use findings::Findings;
pub use night::{Night, NightError};
pub use quantity::{
    Area, Conductance, Conductivity, Current, Density, Duration, Energy, FilmCoefficient, Flux,
    Length, Mass, MassFlow, Potential, Power, Resistance, SpecificHeat, Speed, Temperature,
    TemperatureStep, Units, Viscosity, Volume, degC, degF,
};
pub use report::Report;
pub use scenario::ClockError;
pub use scenario::body::Body;
pub use scenario::check::Problem;
pub use scenario::circuit::Circuit;
pub use scenario::clock::{Clock, ClockTime, Moment};
pub use scenario::cover::Covers;
pub use scenario::criteria::Criteria;
pub use scenario::document::{Accuracy, Scenario};
pub use scenario::engine::Engine;
pub use scenario::hangar::Hangar;
pub use scenario::heater::{Aim, Heater, HeaterKind, Place, SelfLimiting, Thermostat};
pub use scenario::hours::Hours;
pub use scenario::initial::{Initial, InitialTemperature};
pub use scenario::oil::Oil;
pub use scenario::weather::{Observation, Record, Weather};
pub use solver::SolveError;
pub use study::case::{Case, CaseError};
pub use study::compare::{Comparison, compare};
pub use study::path::PathError;
pub use study::when::{When, when};
pub use trace::{Conservation, ConservationError, Trace};

// What the tests build nights from, by the name they know this crate by.
#[cfg(test)]
extern crate self as coldsoak;
#[cfg(all(test, feature = "pictures"))]
#[path = "../tests/kit/drawn_night.rs"]
mod drawn_night;
#[cfg(test)]
#[path = "../tests/kit/mod.rs"]
mod kit;
#[cfg(test)]
#[path = "../tests/kit/test_traces.rs"]
mod test_traces;
