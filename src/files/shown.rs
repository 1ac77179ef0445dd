//! A value of a tree as people read it on one line: `15 g`, `07:30`, `bay-fan-350w at bottom`.

use crate::document::{Node, Value};

/// A value on one line.
pub fn shown(node: &Node) -> String {
    if let Some((number, unit)) = node.measured() {
        return match unit {
            Some(unit) => format!("{} {}", short(number), unit.replace('_', "/")),
            None => short(number),
        };
    }
    match &node.value {
        Value::Number(number) => short(*number),
        Value::Text(text) => text.clone(),
        Value::Word(word) if word == "None" => "none".to_owned(),
        Value::Word(word) => word.clone(),
        Value::List(items) if items.is_empty() => "none".to_owned(),
        Value::List(items) => joined(items, ", "),
        Value::Group(None, items) => joined(items, " "),
        Value::Group(Some(word), items) => format!("{} {}", word.text, joined(items, " ")),
        // A heater is known by its name.
        Value::Record(None, entries) if node.at("heater").is_some() => {
            let others = entries.iter().filter(|(name, _)| name.text != "heater");
            let others = others
                .filter(|(_, node)| !matches!(&node.value, Value::Word(word) if word == "None"));
            let heater = node.at("heater").map(shown).unwrap_or_default();
            let words = others.map(|(name, node)| match name.text.as_str() {
                "place" | "name" => shown(node),
                key => format!("{key} {}", shown(node)),
            });
            std::iter::once(heater)
                .chain(words)
                .collect::<Vec<_>>()
                .join(" ")
        }
        Value::Record(_, entries) | Value::Map(entries) => {
            let words = entries
                .iter()
                .map(|(name, node)| format!("{} {}", name.text, shown(node)));
            let word = match &node.value {
                Value::Record(Some(word), _) => format!("{}: ", word.text),
                _ => String::new(),
            };
            format!("{word}{}", words.collect::<Vec<_>>().join(", "))
        }
        Value::Broken => "?".to_owned(),
    }
}

fn joined(items: &[Node], by: &str) -> String {
    items.iter().map(shown).collect::<Vec<_>>().join(by)
}

/// A number to six digits.
pub(super) fn short(number: f64) -> String {
    let rounded: f64 = format!("{number:.5e}").parse().unwrap_or(number);
    format!("{rounded}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_value_is_one_line_for_people() {
        for (text, line) in [
            ("g(15)", "15 g"),
            ("0.48", "0.48"),
            ("0.014999999999", "0.015"),
            ("W_m2K(5)", "5 W/m2K"),
            ("\"sae-50\"", "sae-50"),
            ("None", "none"),
            ("[]", "none"),
            ("from(\"22:00\")", "from 22:00"),
            (
                "steady(outdoors: degC(-9), humidity: 0.8)",
                "steady: outdoors -9 degC, humidity 0.8",
            ),
            (
                "[(heater: \"bay-fan-350w\", place: at(\"bottom\"), thermostat: None), (heater: \"lamp\", power: W(60))]",
                "bay-fan-350w at bottom, lamp power 60 W",
            ),
        ] {
            assert_eq!(shown(&Node::typed(text)), line);
        }
    }
}
