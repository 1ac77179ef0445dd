//! Whole nights: what must hold of them, and the common-practice anchor.

#[path = "../kit/mod.rs"]
mod kit;
#[path = "../kit/record.rs"]
#[allow(dead_code)]
mod record;

mod abreast;
mod anchor;
mod bands;
mod refined;
