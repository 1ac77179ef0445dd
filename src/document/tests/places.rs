//! Where values stand, and whether `ron`, which knows no places, reads the same tree.

use super::super::*;
use std::path::Path;

const TEXT: &str = r#"// a (comment: with) brackets
body((
    parts: [(name: "a)", mass: kg(1.5)), (name: "b", shape: bar(length: m(1)))],
    /* blankets: { } */
    blankets: { "UL": m2K_W(0.3), "UR": m2K_W(0.2) },
    view: [[0.5, 0.5], [1.0, 0.0]],
    pairs: [("ä", 0.25)], note: r"raw \ ", always: never,
))"#;

fn at(path: &str) -> &'static str {
    let parsed = parse(&Source::new("f", TEXT));
    assert_eq!(parsed.errors.count(), 0, "{}", parsed.errors);
    let node = parsed.root.at(path).unwrap_or_else(|| panic!("{path}"));
    &TEXT[node.span.range()]
}

#[test]
fn every_value_is_found_by_its_path() {
    assert_eq!(at("parts[0].name"), "\"a)\"");
    assert_eq!(at("body.parts[0].mass"), "kg(1.5)");
    assert_eq!(at("parts[1].shape.length"), "m(1)");
    assert_eq!(at("parts[1].shape.bar.length"), "m(1)");
    assert_eq!(at("blankets.UR"), "m2K_W(0.2)");
    assert_eq!(at("view[1][0]"), "1.0");
    assert_eq!(at("pairs[0][0]"), "\"ä\"");
    assert_eq!(at("pairs.0.1"), "0.25");
    assert_eq!(at("note"), "r\"raw \\ \"");
    assert_eq!(at("always"), "never");
}

#[test]
fn what_is_not_there_leads_to_what_is() {
    let root = parse(&Source::new("f", TEXT)).root;
    let (node, rest) = root.furthest("parts[1].shape.section.wall");
    assert_eq!(
        (&TEXT[node.span.range()], rest),
        ("bar(length: m(1))", ".section.wall")
    );
    assert_eq!(root.at("nothing.here"), None);
}

#[test]
fn a_number_is_set_in_the_unit_it_had() {
    let mut root = parse(&Source::new("f", TEXT)).root;
    root.set("parts[0].mass", Node::number(2.0, None)).unwrap();
    assert_eq!(
        root.at("parts[0].mass").unwrap().measured(),
        Some((2.0, Some("kg")))
    );
    root.set("parts[0].mass", Node::number(2.0, Some("lb")))
        .unwrap();
    assert_eq!(
        root.at("parts[0].mass").unwrap().measured(),
        Some((2.0, Some("lb")))
    );
    let refused = root
        .set("body.parts[0].mas", Node::number(2.0, None))
        .unwrap_err();
    assert!(
        refused
            .to_string()
            .contains("did you mean `body.parts[0].mass`?"),
        "{refused}"
    );
}

#[test]
fn keys_are_found_under_keys_and_words() {
    let text = "(title: \"x\", // hangar: no\n covers: (inlet_plug: 0.9), weather: steady(outdoors: degC(-3)), \
                heaters: [(heater: \"y\", place: at(\"top\"))], initial: (temperature: cold_soaked))";
    let found = parse(&Source::new("f", text)).root.keys();
    for path in [
        "title",
        "covers",
        "covers.inlet_plug",
        "weather.outdoors",
        "initial.temperature",
        "heaters",
    ] {
        assert!(found.contains(path), "{path}: {found:?}");
    }
    assert!(!found.contains("hangar") && !found.contains("heaters.heater"));
}

/// The tree as `ron` has it: without units, words before brackets, and the order of keys.
fn plain(node: &Node) -> ron::Value {
    use ron::value::Number;
    let map = |entries: &[(Name, Node)]| {
        let pairs = entries
            .iter()
            .map(|(name, node)| (ron::Value::String(name.text.clone()), plain(node)));
        ron::Value::Map(pairs.collect())
    };
    match &node.value {
        Value::Number(number) => ron::Value::Number(Number::new(*number)),
        Value::Text(text) => ron::Value::String(text.clone()),
        Value::Word(word) if word == "true" || word == "false" => ron::Value::Bool(word == "true"),
        Value::Word(_) | Value::Broken => ron::Value::Unit,
        Value::Map(entries) | Value::Record(_, entries) => map(entries),
        Value::Group(_, items) if items.len() == 1 => plain(&items[0]),
        Value::List(items) | Value::Group(_, items) => {
            ron::Value::Seq(items.iter().map(plain).collect())
        }
    }
}

/// Numbers as decimals, and brackets round one value as the value.
fn decimal(value: ron::Value) -> ron::Value {
    match value {
        ron::Value::Number(number) => {
            ron::Value::Number(ron::value::Number::new(number.into_f64()))
        }
        ron::Value::Seq(mut items) if items.len() == 1 => decimal(items.remove(0)),
        ron::Value::Seq(items) => ron::Value::Seq(items.into_iter().map(decimal).collect()),
        ron::Value::Map(map) => ron::Value::Map(
            map.into_iter()
                .map(|(key, value)| (key, decimal(value)))
                .collect(),
        ),
        other => other,
    }
}

#[test]
fn every_model_has_the_tree_that_ron_reads() {
    let models = Path::new(env!("CARGO_MANIFEST_DIR")).join("models");
    let mut count = 0;
    for folder in std::fs::read_dir(models).unwrap() {
        let folder = folder.unwrap().path();
        if !folder.is_dir() {
            continue;
        }
        for file in std::fs::read_dir(folder).unwrap() {
            let file = file.unwrap().path();
            if file.extension().is_none_or(|ending| ending != "ron") {
                continue;
            }
            count += 1;
            let name = file.display().to_string();
            let text = std::fs::read_to_string(&file).unwrap();
            let parsed = parse(&Source::new(&name, &text));
            assert_eq!(parsed.errors.count(), 0, "{}", parsed.errors);
            let theirs: ron::Value = ron::from_str(&text).unwrap();
            assert_eq!(decimal(plain(&parsed.root)), decimal(theirs), "{name}");
        }
    }
    assert!(count > 20, "{count} files");
}
