//! Any report as text, JSON, CSV and a page. Nothing here knows what a result is about.

mod csv;
mod grid;
mod json;
#[cfg(feature = "pictures")]
mod page;
mod text;
mod wrap;

pub use wrap::wrapped;
