//! The elements of a network: each one law between a few columns, with its constants.
//!
//! An element only says where it stands and how large it is; the laws themselves are in `balance`.
//! Heat rows count watts into the thing, vapour rows grams a second, mass rows kilograms a second.

mod air;
mod heater;
mod moisture;
mod solid;

pub use air::{Exchange, FinCarry, FinCell, FinStream, Gap, HangarVapour, Passage};
pub use heater::{Bonded, FanWatts, HeaterConstant, HeaterTerm, HeaterVapour};
pub use moisture::{Breathing, OilSurface, Vent, WallFilm};
pub use solid::{Fins, Link, OilLink, Outdoors, PowerFace, Radiation, Surface, Term};
