//! Values as text, through `ron`, and as a tree.

use super::node::Node;
use super::parse::parse_value;
use ron::Options;
use ron::extensions::Extensions;
use serde::Serialize;

fn options() -> Options {
    Options::default().with_default_extension(Extensions::IMPLICIT_SOME)
}

/// The text of a value, as a model file would hold it.
///
/// *Errors*: none for the types of this library; whatever the writer says otherwise.
pub fn written<T: Serialize>(value: &T) -> Result<String, ron::Error> {
    let pretty = ron::ser::PrettyConfig::default().struct_names(false);
    options().to_string_pretty(value, pretty)
}

impl Node {
    /// The tree of a value.
    ///
    /// *Errors*: none for the types of this library; whatever the writer says otherwise.
    pub fn of<T: Serialize>(value: &T) -> Result<Self, ron::Error> {
        let text = options().to_string(value)?;
        Ok(parse_value(&text))
    }
}
