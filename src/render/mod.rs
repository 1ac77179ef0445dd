//! Any report as text, JSON and CSV. Nothing here knows what a result is about.

mod csv;
mod grid;
mod json;
mod text;
mod wrap;

pub use wrap::wrapped;
