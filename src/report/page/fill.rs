//! Fills a page's template; what is put into it is escaped, but for pictures that we drew.

use crate::report::canvas::DrawError;
use minijinja::value::{Serde, Value};
use minijinja::{AutoEscape, Environment, context};
use serde::Serialize;

/// The templates by name. Those of a night and of a comparison stand in the frame, and share pieces and style.
const TEMPLATES: [(&str, &str); 5] = [
    ("frame.html", include_str!("frame.html")),
    ("style.css", include_str!("style.css")),
    ("pieces.html", include_str!("pieces.html")),
    ("night.html", include_str!("night.html")),
    ("choices.html", include_str!("choices.html")),
];

/// The page of this template.
///
/// *Errors*: the template failed, which is a fault of the program.
pub fn filled(template: &str, page: &impl Serialize) -> Result<String, DrawError> {
    let mut room = Environment::new();
    room.set_auto_escape_callback(|_| AutoEscape::Html);
    for (name, text) in TEMPLATES {
        room.add_template(name, text).map_err(DrawError::of)?;
    }
    let template = room.get_template(template).map_err(DrawError::of)?;
    template
        .render(context! { page => Value::from(Serde(page)) })
        .map_err(DrawError::of)
}
