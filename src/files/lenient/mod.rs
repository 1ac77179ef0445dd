//! A second look at a text that could not be read: the same reader, watched, so that one fault does not hide the next.

mod access;
mod notes;
mod placeholder;
mod reader;
mod watch;

pub use notes::{Expected, Failed, Notes};
pub use watch::Watched;
