//! What `model!` and `choice!` make: a type, its reading with all errors, its limits and its usual ranges.

use super::super::*;
use std::collections::BTreeMap;

model! {
    /// A thing.
    pub(super) struct Thing {
        /// What it is called.
        pub name: String;
        /// How much of it there is.
        pub share: f64, fraction(), usual(0.1, 0.9, "a guess") = 0.5;
        /// How many there are.
        pub count: usize, limits(1.0, 8.0) = 1;
        /// When.
        pub when: When = When::always;
        /// How much of each.
        pub parts: BTreeMap<String, f64>, above_zero() = BTreeMap::new();
        /// What else.
        pub other: Option<Other> = None;
        /// Names and numbers.
        pub pairs: Vec<(String, f64)> = Vec::new();
    }
}

model! {
    /// Something else.
    pub(super) struct Other: Default {
        /// Whether it is on.
        pub on: bool = true;
        /// How long.
        pub long: f64, not_negative() = 2.0;
    }
}

choice! {
    /// When.
    pub(super) enum When {
        /// All the time.
        always,
        /// From then on.
        from(f64, limits(0.0, 24.0)),
        /// Now and then.
        often {
            /// How often.
            every: f64, above_zero();
            /// Until.
            until: f64 = 24.0;
        },
        /// As the other.
        like(Other),
    }
}

fn of(text: &str) -> Reading<Thing> {
    read(&Source::new("f", text))
}

fn errors(text: &str) -> Vec<String> {
    of(text)
        .errors
        .kept()
        .iter()
        .map(InputError::to_string)
        .collect()
}

#[test]
fn a_text_becomes_its_value() {
    let thing = of(
        "(name: \"a\", share: 0.25, when: often(every: 2), parts: {\"x\": 1}, other: Some((on: false)), pairs: [(\"y\", 2)])",
    );
    let thing = thing.value.unwrap();
    assert_eq!(
        (thing.name.as_str(), thing.share, thing.count),
        ("a", 0.25, 1)
    );
    assert_eq!(
        thing.when,
        When::often {
            every: 2.0,
            until: 24.0
        }
    );
    assert_eq!(
        thing.other,
        Some(Other {
            on: false,
            long: 2.0
        })
    );
    assert_eq!((thing.parts["x"], thing.pairs[0].1), (1.0, 2.0));
    for (word, when) in [
        ("always", When::always),
        ("from(7)", When::from(7.0)),
        (
            "like(on: false)",
            When::like(Other {
                on: false,
                long: 2.0,
            }),
        ),
        (
            "like((on: false))",
            When::like(Other {
                on: false,
                long: 2.0,
            }),
        ),
        ("like(())", When::like(Other::default())),
    ] {
        assert_eq!(
            of(&format!("(name: \"a\", when: {word})"))
                .value
                .unwrap()
                .when,
            when
        );
    }
}

#[test]
fn a_value_is_written_and_read_again_also_through_json() {
    let text = "(name: \"a\", when: often(every: 2), parts: {\"x\": 1}, other: (on: false), pairs: [(\"y\", 2)])";
    let thing = of(text).value.unwrap();
    let tree = Node::of(&thing).unwrap();
    assert_eq!(from_node::<Thing>(&tree).unwrap(), thing);
    let json = serde_json::to_string(&thing).unwrap();
    let tree: Node = serde_json::from_str(&json).unwrap();
    assert_eq!(from_node::<Thing>(&tree).unwrap(), thing);
    assert_eq!(of(&write::written(&thing).unwrap()).value.unwrap(), thing);
}

#[test]
fn every_error_is_found_in_one_pass_with_what_to_write() {
    let text = "(\n  nam: \"a\",\n  share: 80%,\n  count: 1.5,\n  when: form(7),\n  parts: {\"x\": 0},\n  other: (on: yes, long: inf),\n  pairs: [(\"y\", 0,5), (z, 1)],\n)";
    assert_eq!(
        errors(text),
        [
            "f, line 2, column 3: there is no key `nam`.\n    Try: name: \"a\"",
            "f, line 3, column 10: a number is needed here; found `80%`.\n    Try: share: 0.8",
            "f, line 4, column 10: a whole number is needed here; found `1.5`.\n    Try: count: 2",
            "f, line 5, column 9: `always`, `from`, `often` or `like` is needed here; found `form`.\n    Try: when: from(7)",
            "f, line 6, column 16: `parts.x` must be above zero; found 0.",
            "f, line 7, column 15: `true` or `false` is needed here; found `yes`.\n    Try: on: true",
            "f, line 7, column 26: the number must be finite.\n    Try: write the number itself; neither NaN nor inf can be computed with",
            "f, line 8, column 11: the number `0,5` has a comma.\n    Try: 0.5 (a decimal point)",
            "f, line 8, column 24: a text in quotes is needed here; found `z`.\n    Try: pairs: [(\"y\", 0,5), (\"z\", 1)]",
        ]
    );
    assert_eq!(
        errors("(share: 80)"),
        [
            "f, line 1, column 1: the key `name` is missing.\n    Try: name: \"a name\"",
            "f, line 1, column 9: `share` must be from 0 to 1; found 80.\n    Try: share: 0.8",
        ]
    );
    assert_eq!(
        errors("(name: \"a\", when: from(25), titel: 1)"),
        [
            "f, line 1, column 24: `when` must be from 0 to 24; found 25.",
            "f, line 1, column 29: there is no key `titel`.\n    Try: one of the keys that may stand here: name, share, count, when, parts, other, pairs",
        ]
    );
}

#[test]
fn unknown_keys_alone_leave_a_value() {
    let reading = of("(name: \"a\", other: (om: true))");
    assert!(reading.only_ignored && reading.value.is_some());
    assert_eq!(reading.ignored, ["other.om"]);
    let reading = of("(name: \"a\", other: (om: true), share: 2)");
    assert!(!reading.only_ignored);
}

#[test]
fn nothing_behind_an_open_bracket_is_reported() {
    let text = "(\n  share: 80,\n  other: (on: true,\n  name: 3,\n)";
    assert_eq!(
        errors(text),
        [
            "f, line 2, column 10: `share` must be from 0 to 1; found 80.\n    Try: share: 0.8",
            "f, line 3, column 10: the bracket opened in line 3 is never closed.\n    Try: write the missing `)` where what it holds ends",
        ]
    );
}

#[test]
fn a_value_made_in_code_is_held_to_the_same_limits() {
    let mut thing = of("(name: \"a\")").value.unwrap();
    thing.share = 0.95;
    thing.count = 9;
    thing.when = When::often {
        every: 0.0,
        until: 1.0,
    };
    thing.parts.insert("x".to_owned(), f64::NAN);
    let mut walk = RuleCheck::default();
    thing.walk(&mut walk);
    let found: Vec<String> = walk
        .into_found()
        .into_iter()
        .map(|found| format!("{}: {} {}", found.path, found.message, found.warning))
        .collect();
    assert_eq!(
        found,
        [
            "share: `share` is 0.95 true",
            "count: `count` must be from 1 to 8; found 9 false",
            "when.every: `every` must be above zero; found 0 false",
            "parts.x: `parts.x` must be finite; found NaN false",
        ]
    );
}

#[test]
fn the_definition_is_the_line_of_the_reference() {
    let key = &Thing::KEYS[1];
    assert_eq!(
        (key.name, key.doc.trim(), key.default),
        ("share", "How much of it there is.", Some("0.5"))
    );
    assert_eq!((Thing::KEYS[0].default, key.example), (None, "0.8"));
    assert_eq!(When::WORDS, ["always", "from", "often", "like"]);
}
