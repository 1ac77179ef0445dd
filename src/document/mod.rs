//! Model text as a tree, and the one typed reading of it.

pub mod error;
mod limits;
pub(crate) mod macros;
pub mod names;
pub mod node;
mod overlay;
pub mod parse;
mod path;
pub mod read;
pub mod reference;
mod scan;
pub mod source;
mod suggest;
mod values;
pub mod write;

pub use error::{ErrorList, InputError};
pub use limits::{Found, Key, Limits, Rule, Walk};
pub use node::{Name, Node, Span, Value};
pub use parse::parse;
pub use path::{PathError, spelt};
pub use read::{Fields, Read, Reader, Reading, from_node, read, read_node};
pub use source::Source;

pub(crate) use macros::{choice, model};

#[cfg(test)]
mod tests;
