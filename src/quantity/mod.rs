//! Measured values with their units, as people write them in a model file: `degC(-9)`, `lb(12)`, `W(250)`.

mod degrees;
mod measure;
mod temperature;

pub use degrees::{degC, degF};
pub use measure::{
    Area, Conductance, Conductivity, Current, Density, Duration, Energy, FilmCoefficient, Flux,
    Length, Mass, MassFlow, Potential, Power, Resistance, SpecificHeat, Speed, Viscosity, Volume,
};
pub use temperature::{Temperature, TemperatureStep, Units};
