//! One night as a page of its own: a single file that opens from disk, asks nothing of any network, steps through
//! the night, and prints.

mod budget;
mod card;
mod data;
mod steps;
#[cfg(test)]
mod tests;
mod written;

pub use written::html;
