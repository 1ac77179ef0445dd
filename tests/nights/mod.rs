//! Whole nights: what must hold of them, and the common-practice anchor.

mod agree;
mod anchor;
mod bands;
mod lanes;
mod precision;
mod refined;
