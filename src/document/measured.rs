//! How a number with its unit is read.

use super::node::{Node, Value};
use super::reader::Reader;
use super::words::or;

impl Reader<'_> {
    /// A number in one of these units, as the number of the unit and the number. `called` is the quantity.
    pub fn measured(
        &mut self,
        node: &Node,
        units: &[&str],
        called: &str,
        example: &str,
    ) -> Option<(usize, f64)> {
        let found = node.measured();
        let written = match &node.value {
            Value::Group(Some(_), items) if items.len() == 1 => self.text(&items[0]),
            _ => self.text(node),
        };
        let number = leading_number(written.trim_matches('"').trim());
        let shown = if number.is_empty() { example } else { number };
        let spelt: Vec<String> = units
            .iter()
            .map(|unit| format!("{unit}({shown})"))
            .collect();
        let message = match found {
            Some((number, Some(unit))) => match units.iter().position(|known| *known == unit) {
                Some(_) if !number.is_finite() => {
                    let help = "write the number itself; neither NaN nor inf can be computed with";
                    let message = "the number must be finite".to_owned();
                    self.report(node.span, message, Some(help.to_owned()));
                    return None;
                }
                Some(i) => return Some((i, number)),
                None => format!("`{unit}` is no unit of {called}"),
            },
            Some((_, None)) => format!("the number {written} has no unit"),
            None => {
                let write = or(&spelt);
                return self.wanted(node, called, Some(write));
            }
        };
        let span = match &node.value {
            Value::Group(Some(unit), _) => unit.span,
            _ => node.span,
        };
        let help = format!(
            "{} ({called} needs its unit)",
            self.instead(node.span, &or(&spelt))
        );
        self.report(span, message, Some(help));
        None
    }
}

/// The number a text such as `-9 C` begins with.
pub(super) fn leading_number(text: &str) -> &str {
    let end = text
        .find(|c: char| !(c.is_ascii_digit() || matches!(c, '-' | '.' | '+')))
        .unwrap_or(text.len());
    match text[..end].parse::<f64>() {
        Ok(_) => &text[..end],
        Err(_) => "",
    }
}
