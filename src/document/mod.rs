//! Model text as a tree, and the one typed reading of it.

pub mod error;
mod fields;
mod groups;
mod limits;
pub(crate) mod macros;
mod measured;
pub mod names;
pub mod node;
mod overlay;
pub mod parse;
mod parser;
mod path;
pub mod read;
mod reader;
pub mod reference;
mod scan;
pub mod source;
mod suggest;
mod values;
mod words;
pub mod write;

pub use error::{ErrorList, InputError};
pub use fields::Fields;
pub use limits::{Found, IfSet, Key, Limits, Rule, RuleCheck};
pub use node::{Name, Node, Span, Value};
pub use parse::parse;
pub use path::{PathError, spelt};
pub use read::{Read, Reading, from_node, read, read_node};
pub use reader::Reader;
pub use source::Source;

pub(crate) use macros::{choice, model};

#[cfg(test)]
mod tests;
