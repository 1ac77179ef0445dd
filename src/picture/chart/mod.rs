//! Charts: what a night, a comparison or a spread came to, drawn by the hours or as bars, each with its numbers as CSV.

mod axis;
pub mod bands;
mod bars;
pub mod chance;
mod clip;
pub mod comparison;
mod dew;
mod figure;
mod heat;
mod line;
mod names;
mod night;
mod numbers;
mod panel;
pub mod sensitivity;
mod stack;
mod temperature;
mod thin;
mod view;
mod water;

pub use axis::tick_label;
pub use night::{Show, of_night};
pub use view::{Chart, ChartView};
