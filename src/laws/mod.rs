//! The elements of a network and their equations, each with its constants and its law.

mod air;
mod element;
mod fin_air;
mod heater;
mod list;
mod moisture;
mod oil;
mod order;
mod radiation;
mod solid;
mod surface;

pub use air::{Exchange, Gap, HangarVapour, Passage};
pub use element::{Each, Element, Law};
pub use fin_air::{FinCarry, FinCell, FinStream};
pub use heater::{Bonded, FanWatts, HeaterConstant, HeaterTerm, HeaterVapour};
pub use list::Laws;
pub use moisture::{Breathing, OilSurface, Vent, WallFilm};
pub use oil::OilLink;
pub use order::{Stage, Visitor, visit, visit_all};
pub use radiation::Radiation;
pub use solid::{Feed, Linear, Link, PowerFace, Term};
pub use surface::{Fins, Outdoors, Surface};
