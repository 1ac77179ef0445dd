//! How plain values, lists, maps and pairs are read.

use super::limits::{Rule, RuleCheck};
use super::measured::leading_number;
use super::node::{Node, Value};
use super::read::Read;
use super::reader::Reader;
use super::reference::Types;
use std::collections::BTreeMap;

impl Read for f64 {
    const WANTED: &'static str = "a number";
    const EXAMPLE: &'static str = "0.8";
    fn read(node: &Node, reader: &mut Reader) -> Option<Self> {
        match node.value {
            Value::Number(number) if number.is_finite() => Some(number),
            Value::Number(_) => {
                let help = "write the number itself; neither NaN nor inf can be computed with";
                let message = "the number must be finite".to_owned();
                reader.report(node.span, message, Some(help.to_owned()));
                None
            }
            _ => {
                let there = reader.text(node).into_owned();
                let inner = there.trim_matches('"').trim();
                let number = leading_number(inner);
                let write = match (number.parse::<f64>(), &inner[number.len()..]) {
                    (Ok(percent), "%") => format!("{}", percent / 100.0),
                    (Ok(_), _) => number.to_owned(),
                    _ => Self::EXAMPLE.to_owned(),
                };
                reader.wanted(node, Self::WANTED, Some(write))
            }
        }
    }
    fn walk(&self, walk: &mut RuleCheck) {
        walk.number(*self, "");
    }
}

/// Any value, read later.
impl Read for Node {
    const WANTED: &'static str = "a value";
    const EXAMPLE: &'static str = "0.8";
    fn read(node: &Node, _reader: &mut Reader) -> Option<Self> {
        Some(node.clone())
    }
}

macro_rules! whole {
    ($($type:ty),+) => {$(
        impl Read for $type {
            const WANTED: &'static str = "a whole number";
            const EXAMPLE: &'static str = "4";
            fn read(node: &Node, reader: &mut Reader) -> Option<Self> {
                match node.value {
                    Value::Number(number) if number.fract() == 0.0 && (0.0..=4e9).contains(&number) => {
                        Some(number as Self)
                    }
                    _ => {
                        let write = match node.value {
                            Value::Number(number) if number > 0.0 && number < 4e9 => number.ceil(),
                            _ => 1.0,
                        };
                        reader.wanted(node, Self::WANTED, Some(write.to_string()))
                    }
                }
            }
            fn walk(&self, walk: &mut RuleCheck) {
                walk.number(*self as f64, "");
            }
        }
    )+};
}
whole!(usize, u32, u16);

impl Read for bool {
    const WANTED: &'static str = "`true` or `false`";
    const EXAMPLE: &'static str = "true";
    fn read(node: &Node, reader: &mut Reader) -> Option<Self> {
        match &node.value {
            Value::Word(word) if word == "true" => Some(true),
            Value::Word(word) if word == "false" => Some(false),
            _ => reader.wanted(node, Self::WANTED, Some("true".to_owned())),
        }
    }
}

impl Read for String {
    const WANTED: &'static str = "a text in quotes";
    const EXAMPLE: &'static str = "\"a name\"";
    fn read(node: &Node, reader: &mut Reader) -> Option<Self> {
        match &node.value {
            Value::Text(text) => Some(text.clone()),
            Value::Word(word) if !word.is_empty() => {
                reader.wanted(node, Self::WANTED, Some(format!("\"{word}\"")))
            }
            Value::Number(_) => {
                let number = format!("\"{}\"", reader.text(node));
                reader.wanted(node, Self::WANTED, Some(number))
            }
            _ => reader.wanted(
                node,
                Self::WANTED,
                Some("\"shut\", or \"19:00\"".to_owned()),
            ),
        }
    }
}

impl<T: Read> Read for Option<T> {
    const WANTED: &'static str = T::WANTED;
    const EXAMPLE: &'static str = T::EXAMPLE;
    fn read(node: &Node, reader: &mut Reader) -> Option<Self> {
        match &node.value {
            Value::Word(word) if word == "None" => Some(None),
            Value::Group(Some(word), items) if word.text == "Some" && items.len() == 1 => {
                T::read(&items[0], reader).map(Some)
            }
            _ => T::read(node, reader).map(Some),
        }
    }
    fn walk(&self, walk: &mut RuleCheck) {
        if let Some(inner) = self {
            inner.walk(walk);
        }
    }
    fn types(types: &mut Types) {
        T::types(types);
    }
}

impl<T: Read> Read for Vec<T> {
    const WANTED: &'static str = "a list in square brackets";
    const EXAMPLE: &'static str = "[]";
    fn read(node: &Node, reader: &mut Reader) -> Option<Self> {
        let items = match &node.value {
            Value::List(items) => items,
            // An array of code, which is written in round brackets.
            Value::Group(None, items) if reader.is_free() => items,
            other => {
                let there = reader.text(node);
                let help = match other {
                    Value::Group(None, _) if there.contains('\n') => format!("[{}]", T::EXAMPLE),
                    Value::Group(None, _) if there.starts_with('(') => format!("[{there}]"),
                    Value::Group(None, _) => format!("[({there})]"),
                    _ => format!("[{}]", T::EXAMPLE),
                };
                return reader.wanted(node, Self::WANTED, Some(help));
            }
        };
        let read: Vec<Option<T>> = items
            .iter()
            .enumerate()
            .map(|(i, item)| reader.item(i, item))
            .collect();
        read.into_iter().collect()
    }
    fn walk(&self, walk: &mut RuleCheck) {
        for (i, item) in self.iter().enumerate() {
            walk.item(i, |walk| item.walk(walk));
        }
    }
    fn types(types: &mut Types) {
        T::types(types);
    }
}

impl<T: Read> Read for BTreeMap<String, T> {
    const WANTED: &'static str = "a list of names in curly brackets";
    const EXAMPLE: &'static str = "{}";
    fn read(node: &Node, reader: &mut Reader) -> Option<Self> {
        let Value::Map(entries) = &node.value else {
            let help = format!("{{ \"UL\": {} }}", T::EXAMPLE);
            return reader.wanted(node, Self::WANTED, Some(help));
        };
        let read: Vec<Option<(String, T)>> = entries
            .iter()
            .map(|(name, node)| Some((name.text.clone(), reader.entry(name, node, &Rule::ANY)?)))
            .collect();
        read.into_iter().collect()
    }
    fn walk(&self, walk: &mut RuleCheck) {
        for (name, item) in self {
            walk.entry(name, |walk| item.walk(walk));
        }
    }
    fn types(types: &mut Types) {
        T::types(types);
    }
}

/// The values of a group of so many.
fn group<'n>(node: &'n Node, examples: &[&str], reader: &mut Reader) -> Option<&'n [Node]> {
    let (n, example) = (examples.len(), format!("({})", examples.join(", ")));
    let items = match &node.value {
        Value::Group(None, items) => items,
        Value::List(items) if node.span.is_empty() => items,
        _ => {
            let wanted = format!("a group of {n} values in round brackets");
            return reader.wanted(node, &wanted, Some(example));
        }
    };
    if items.len() == n {
        return Some(items);
    }
    let (message, help) = match decimal_comma(items) {
        Some(i) => {
            let (whole, part) = (reader.text(&items[i]), reader.text(&items[i + 1]));
            let help = format!("{whole}.{part} (a decimal point)");
            (
                format!("the number `{whole},{part}` has a comma"),
                Some(help),
            )
        }
        None => (
            format!("{n} values are needed here; found {}", items.len()),
            Some(reader.instead(node.span, &example)),
        ),
    };
    reader.report(node.span, message, help);
    None
}

/// The first of two numbers with nothing but a comma between them.
fn decimal_comma(items: &[Node]) -> Option<usize> {
    let number = |node: &Node| matches!(node.value, Value::Number(_));
    items.windows(2).position(|pair| {
        number(&pair[0]) && number(&pair[1]) && pair[0].span.end + 1 == pair[1].span.start
    })
}

macro_rules! groups {
    ($(($n:literal: $($type:ident $i:tt),+))+) => {$(
        impl<$($type: Read),+> Read for ($($type,)+) {
            const WANTED: &'static str = concat!("a group of ", $n, " values in round brackets");
            const EXAMPLE: &'static str = "(\"a name\", 0.8)";
            fn read(node: &Node, reader: &mut Reader) -> Option<Self> {
                let items = group(node, &[$($type::EXAMPLE),+], reader)?;
                let read = ($(reader.item::<$type>($i, &items[$i]),)+);
                Some(($(read.$i?,)+))
            }
            fn walk(&self, walk: &mut RuleCheck) {
                $(walk.item($i, |walk| self.$i.walk(walk));)+
            }
            fn types(types: &mut Types) {
                $($type::types(types);)+
            }
        }
    )+};
}
groups! { (2: A 0, B 1) (3: A 0, B 1, C 2) }
