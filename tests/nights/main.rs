//! Whole nights: what must hold of them, and the common-practice anchor.

#[path = "../kit/mod.rs"]
mod kit;

mod anchor;
mod bands;
