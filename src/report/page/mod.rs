//! Pages of their own, of one night and of a comparison: a single file that opens from disk, asks nothing of any
//! network, and prints on two sheets for every built-in night and comparison; that of a night steps through it.

mod budget;
mod card;
mod chart;
mod choices;
mod data;
mod fill;
mod night;
mod rests;
mod steps;
#[cfg(test)]
mod tests;

pub use choices::choices_html;
pub use night::html;
