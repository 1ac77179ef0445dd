//! Fills a page's template; what is put into it is escaped, but for pictures that we drew.

use crate::picture::draw::DrawError;
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

/// A text whose numbers have a true minus, as those of the drawings have.
fn minus(text: String) -> String {
    let mut told = String::with_capacity(text.len());
    let mut before = ' ';
    let mut letters = text.chars().peekable();
    while let Some(letter) = letters.next() {
        let number = letters.peek().is_some_and(char::is_ascii_digit);
        let begins = before.is_whitespace() || before == '(';
        told.push(match letter {
            '-' if number && begins => '\u{2212}',
            other => other,
        });
        before = letter;
    }
    told
}

/// The page of this template.
///
/// *Errors*: the template failed, which is a fault of the program.
pub fn filled(template: &str, page: &impl Serialize) -> Result<String, DrawError> {
    let mut room = Environment::new();
    room.set_auto_escape_callback(|_| AutoEscape::Html);
    room.add_filter("minus", minus);
    for (name, text) in TEMPLATES {
        room.add_template(name, text).map_err(DrawError::of)?;
    }
    let template = room.get_template(template).map_err(DrawError::of)?;
    template
        .render(context! { page => Value::from(Serde(page)) })
        .map_err(DrawError::of)
}

#[cfg(test)]
mod tests {
    #[test]
    fn a_hyphen_is_a_minus_only_before_a_number_of_its_own() {
        assert_eq!(super::minus("at -14.3 °C".to_owned()), "at \u{2212}14.3 °C");
        for kept in ["15W-50", "2026-01-12", "a - b", "flat-four-5l9"] {
            assert_eq!(super::minus(kept.to_owned()), kept);
        }
    }
}
