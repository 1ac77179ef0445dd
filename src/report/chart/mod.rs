//! Charts: what a night, a comparison or a spread came to, drawn by the hours or as bars, each with its numbers as CSV.

pub mod bands;
mod bars;
pub mod comparison;
mod dew;
mod figure;
mod heat;
mod line;
mod night;
mod numbers;
mod panel;
pub mod sensitivity;
mod stack;
mod strip;
mod temperature;
mod thin;
mod view;
mod water;

pub use line::coldest;
pub use night::{Show, of_night};
pub use view::{Breadth, ChartView, Picture};
