//! Pictures: what is drawn of a result, as data, and what is made of that: SVG, PNG and GIF.

pub mod chart;
pub mod draw;
pub mod figure;
pub mod map;
mod text;

pub use figure::Figure;
