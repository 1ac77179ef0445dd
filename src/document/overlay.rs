//! Values of one tree set in another: groups key by key, every other value as a whole.

use super::names::{nearest, renamed};
use super::node::{Name, Node, Span, Value};
use super::parse::parse;
use super::path::{PathError, under};
use super::source::Source;

/// The key under which a typed value is parsed.
const KEY: &str = "value";

impl Node {
    /// A value as it is typed on a command line: in the notation of model files, or else a text without its quotes.
    pub fn typed(text: &str) -> Self {
        let parsed = parse(&Source::new("", &format!("({KEY}: {text})")));
        let one = parsed.root.entries().len() == 1 && parsed.errors.count() == 0;
        let plain = |c: char| c.is_alphanumeric() || c == '_';
        match parsed.root.at(KEY).filter(|_| one) {
            // A time of day without quotes is read as a word.
            Some(value) if !matches!(&value.value, Value::Word(word) if !word.chars().all(plain)) => {
                value.clone()
            }
            _ => Self::free(Value::Text(text.to_owned())),
        }
    }

    /// Sets a value at a path, which may be one more name of a map. A group is merged key by key into the group that is
    /// there: keys that it does not write stay. Returns the paths of the values that were replaced or added.
    ///
    /// *Errors*: the path leads nowhere; the path most like it is named.
    pub fn overlay(&mut self, path: &str, over: &Node) -> Result<Vec<String>, PathError> {
        let mut set = Vec::new();
        if let Some(there) = self.at_mut(path) {
            lay(there, over, path, &mut set);
            return Ok(set);
        }
        let (there, rest) = self.furthest(path);
        let name = rest.trim_start_matches('.');
        let held = &path[..path.len() - rest.len()];
        if matches!(there.value, Value::Map(_)) && !name.is_empty() && !held.is_empty() {
            if let Some(Value::Map(entries)) = self.at_mut(held).map(|node| &mut node.value) {
                entries.push((free_name(name), over.clone()));
            }
            return Ok(vec![path.to_owned()]);
        }
        Err(PathError::Unknown {
            path: path.to_owned(),
            near: self.near(path),
        })
    }

    /// The path of a key that is most like this one: that with the names of now, the shortest that ends with it, or else the
    /// one spelt most like it.
    pub fn near(&self, path: &str) -> Option<String> {
        let steps = path.split_inclusive(['.', '[']);
        let now: String = steps
            .map(|step| {
                let name = step.trim_end_matches(['.', '[']);
                let end = &step[name.len()..];
                format!("{}{end}", renamed(name).unwrap_or(name))
            })
            .collect();
        if self.at(&now).is_some() {
            return Some(now);
        }
        let mut all: Vec<String> = self.keys().into_iter().collect();
        all.extend(self.numbers(&[]).into_iter().filter(|p| p.contains('[')));
        let tail = format!(".{path}");
        let ends = all.iter().filter(|known| known.ends_with(&tail));
        let near = ends.min_by_key(|known| known.len()).map(String::as_str);
        let near = near.or_else(|| nearest(path, all.iter().map(String::as_str)));
        near.map(str::to_owned)
    }
}

fn free_name(text: &str) -> Name {
    let span = Span::default();
    Name {
        text: text.to_owned(),
        span,
    }
}

/// Lays one value over another, with the path of both.
fn lay(here: &mut Node, over: &Node, path: &str, set: &mut Vec<String>) {
    // Brackets in brackets.
    let over = match &over.value {
        Value::Group(None, items) if items.len() == 1 && !items[0].entries().is_empty() => {
            &items[0]
        }
        _ => over,
    };
    let same = |a: &Option<Name>, b: &Option<Name>| match (a, b) {
        (Some(a), Some(b)) => a.text == b.text,
        (_, b) => b.is_none(),
    };
    let merged = match (&mut here.value, &over.value) {
        (Value::Record(word, entries), Value::Record(w, new)) if same(word, w) => {
            Some((entries, &new[..]))
        }
        (Value::Map(entries), Value::Map(new)) => Some((entries, &new[..])),
        (Value::Record(_, entries), Value::Group(None, none)) if none.is_empty() => {
            Some((entries, &[][..]))
        }
        _ => None,
    };
    let Some((entries, new)) = merged else {
        *here = over.clone();
        set.push(path.to_owned());
        return;
    };
    for (name, value) in new {
        let path = under(path, Some(&name.text));
        match entries
            .iter_mut()
            .find(|(known, _)| known.text == name.text)
        {
            Some((_, there)) => lay(there, value, &path, set),
            None => {
                entries.push((name.clone(), value.clone()));
                set.push(path);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const NIGHT: &str = r#"(
        covers: (inlet: 0.8, outlet: 0.4, blankets: { "UL": m2K_W(0.3) }, side: None),
        weather: steady(outdoors: degC(-9), humidity: 0.7),
        heaters: [(heater: "fan", power: W(350))],
        uncertain: { "covers.inlet": (low: 0.6, high: 0.9) },
        clock: (departure: "07:30"),
    )"#;

    fn night() -> Node {
        parse(&Source::new("night", NIGHT)).root
    }

    fn number(tree: &Node, path: &str) -> f64 {
        tree.at(path).and_then(Node::measured).unwrap().0
    }

    #[test]
    fn a_group_is_merged_key_by_key_and_a_list_is_one_value() {
        let mut tree = night();
        let covers = Node::typed(r#"(outlet: 0.9, blankets: { "UR": m2K_W(0.5) })"#);
        let set = tree.overlay("covers", &covers).unwrap();
        assert_eq!(set, ["covers.outlet", "covers.blankets.UR"]);
        for (path, value) in [
            ("covers.inlet", 0.8),
            ("covers.outlet", 0.9),
            ("covers.blankets.UL", 0.3),
            ("covers.blankets.UR", 0.5),
        ] {
            assert_eq!(number(&tree, path), value, "{path}");
        }
        assert_eq!(
            tree.overlay("heaters", &Node::typed("[]")).unwrap(),
            ["heaters"]
        );
        assert!(tree.at("heaters").unwrap().items().is_empty());
        assert_eq!(tree.overlay("covers", &Node::typed("()")).unwrap(), [""; 0]);
    }

    #[test]
    fn keys_of_the_same_word_are_merged_and_another_word_replaces_all() {
        let mut tree = night();
        let set = tree.overlay("weather", &Node::typed("steady(outdoors: degC(-20))"));
        assert_eq!(set.unwrap(), ["weather.outdoors"]);
        assert_eq!(number(&tree, "weather.humidity"), 0.7);
        let set = tree.overlay("weather", &Node::typed("recorded(\"x\")"));
        assert_eq!(set.unwrap(), ["weather"]);
        assert!(tree.at("weather.humidity").is_none());
    }

    #[test]
    fn a_map_takes_one_more_name_and_another_path_is_refused_with_the_nearest() {
        let mut tree = night();
        let range = Node::typed("(low: 0.4, high: 0.5)");
        tree.overlay("uncertain.covers.outlet", &range).unwrap();
        assert_eq!(tree.at("uncertain").unwrap().entries().len(), 2);
        tree.overlay("heaters[0].power", &Node::typed("W(500)"))
            .unwrap();
        assert_eq!(number(&tree, "heaters[0].power"), 500.0);
        for (wrong, near) in [
            ("covers.inlets", "covers.inlet"),
            ("departure", "clock.departure"),
            ("cover.inlet", "covers.inlet"),
            ("heaters[0].powre", "heaters[0].power"),
        ] {
            let error = tree.overlay(wrong, &range).unwrap_err().to_string();
            assert!(error.contains(&format!("did you mean `{near}`")), "{error}");
        }
    }

    #[test]
    fn a_typed_value_is_a_value_of_the_notation_or_a_text() {
        assert_eq!(Node::typed("g(20)").measured(), Some((20.0, Some("g"))));
        assert_eq!(Node::typed("0.9").measured(), Some((0.9, None)));
        for text in ["08:00", "1996-02-05 08:00", "sae-50", "g(20"] {
            assert_eq!(Node::typed(text).text(), Some(text));
        }
        assert_eq!(Node::typed("\"sae-50\"").text(), Some("sae-50"));
    }
}
