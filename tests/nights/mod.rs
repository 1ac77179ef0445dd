//! Whole nights: what must hold of them, and the common-practice anchor.

mod lanes;
mod anchor;
mod bands;
mod refined;
