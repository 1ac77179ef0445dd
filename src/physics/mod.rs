//! The laws of nature the night is computed with: pure functions, each citing its source and range.
//!
//! | file | what it holds |
//! |---|---|
//! | [`number`] | what a number must have that a law is computed with |
//! | [`dual`] | a number that carries its slopes |
//! | [`elementary`] | cube root and exponential |
//! | `four` | four numbers in one register; inside the crate only, since the processor must support it |
//! | `vector`, `avx2` | what such a register is made of: by plain arithmetic, and on an x86-64 processor with AVX2 |
//! | `lanes` | vectors of one night or of four, and where work on them is done |
//! | [`smooth`] | a number parted smoothly into what is above zero and what is below |
//! | [`air`] | the constants of cold air, and its density |
//! | [`vapour`] | saturation, dew point, films, and evaporation out of the oil |
//! | [`convection`] | still and moving air along a surface |
//! | [`radiation`] | grey surfaces facing each other |
//! | [`conduction`] | bars, tube and shell walls, conductances in series |
//! | [`fin`] | blades and the passages between cylinder fins |
//! | [`jet`] | a heater's outlet, and what its jet gives to the metal it strikes |
//! | [`orifice`] | air through gaps and passages, and its smooth upstream choice |
//! | [`exchange`] | two-way flow through a level opening |
//! | [`oil`] | viscosity, and how oil heated from below mixes |
//! | [`wire`] | the resistance of a copper wire by its gauge |

pub mod air;
#[cfg(target_arch = "x86_64")]
mod avx2;
pub mod conduction;
pub mod convection;
pub mod dual;
pub mod elementary;
pub mod exchange;
pub mod fin;
pub(crate) mod four;
pub mod jet;
pub(crate) mod lanes;
pub mod number;
pub mod oil;
pub mod orifice;
mod plain;
pub mod radiation;
pub mod smooth;
pub mod vapour;
mod vector;
pub mod wire;
