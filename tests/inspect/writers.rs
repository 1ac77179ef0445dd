//! The anatomy as table, graph and JSON.

use crate::kit::{fan, night};
use coldsoak::inspect::{NetworkSnapshot, anatomy, dot};
use coldsoak::quantity::{Temperature, Units};
use coldsoak::report::network_table::table;
use std::collections::BTreeSet;

fn found() -> NetworkSnapshot {
    let mut scenario = night("flat-four-3l1", Temperature::degC(-12.0), 6);
    scenario.title = "a \"quoted\" night {".to_owned();
    scenario.heaters.push(fan(300.0, "top-blowing-right"));
    anatomy(&scenario, 3600.0).unwrap()
}

/// A token of the DOT language.
#[derive(Debug, Clone, PartialEq)]
enum Token {
    Word(String),
    Quoted(String),
    Mark(char),
    Edge,
}

/// Reads quoted strings, words and marks; panics on what the language does not know.
fn tokens(text: &str) -> Vec<Token> {
    let mut found = Vec::new();
    let mut chars = text.chars().peekable();
    while let Some(c) = chars.next() {
        match c {
            '"' => {
                let mut inner = String::new();
                loop {
                    match chars.next().expect("an open quote") {
                        '\\' => inner.push(chars.next().unwrap()),
                        '"' => break,
                        other => inner.push(other),
                    }
                }
                found.push(Token::Quoted(inner));
            }
            '-' if chars.peek() == Some(&'>') => {
                chars.next();
                found.push(Token::Edge);
            }
            '{' | '}' | '[' | ']' | '=' | ',' | ';' => found.push(Token::Mark(c)),
            c if c.is_whitespace() => {}
            c if c.is_alphanumeric() => {
                let mut word = c.to_string();
                while let Some(&next) = chars.peek().filter(|c| c.is_alphanumeric()) {
                    word.push(next);
                    chars.next();
                }
                found.push(Token::Word(word));
            }
            other => panic!("{other:?} outside quotes"),
        }
    }
    found
}

/// Every statement is a node or an edge with attributes in brackets, and every node is declared, once.
#[test]
fn the_graph_is_well_formed_and_declares_every_node() {
    use Token::{Edge, Mark, Quoted, Word};
    let anatomy = found();
    let all = tokens(&dot(&anatomy));
    assert_eq!(all[0], Word("digraph".to_owned()));
    assert_eq!(all[2], Mark('{'));
    assert_eq!(*all.last().unwrap(), Mark('}'));
    let count = |mark: char| all.iter().filter(|t| **t == Mark(mark)).count();
    assert_eq!((count('{'), count('}')), (1, 1));
    let (mut declared, mut used, mut edges) = (BTreeSet::new(), BTreeSet::new(), 0);
    for statement in all[3..all.len() - 1].split(|t| *t == Mark(';')) {
        let attributes = match statement {
            [] => continue,
            [Word(word), rest @ ..] => {
                assert_eq!(word, "graph");
                rest
            }
            [Quoted(from), Edge, Quoted(to), rest @ ..] => {
                used.insert(from.clone());
                used.insert(to.clone());
                edges += 1;
                rest
            }
            [Quoted(name), rest @ ..] => {
                assert!(declared.insert(name.clone()), "{name} declared twice");
                rest
            }
            other => panic!("no statement: {other:?}"),
        };
        assert_eq!(attributes.first(), Some(&Mark('[')));
        assert_eq!(attributes.last(), Some(&Mark(']')));
        for pair in attributes[1..attributes.len() - 1].split(|t| *t == Mark(',')) {
            assert!(
                matches!(pair, [Word(_), Mark('='), Word(_) | Quoted(_)]),
                "{pair:?}"
            );
        }
    }
    assert!(used.is_subset(&declared));
    let entries: usize = anatomy.heaters.iter().map(|h| h.entries.len()).sum();
    assert_eq!(edges, anatomy.paths.len() + entries);
    assert_eq!(declared.len(), anatomy.nodes.len() + anatomy.heaters.len());
}

#[test]
fn the_json_names_its_units_and_holds_every_path() {
    let anatomy = found();
    let json = serde_json::to_value(&anatomy).unwrap();
    assert_eq!(json["paths"].as_array().unwrap().len(), anatomy.paths.len());
    let path = json["paths"][0].as_object().unwrap();
    for key in ["conductance_w_per_k", "heat_w", "difference_k"] {
        assert!(path[key].is_f64(), "{key}");
    }
    assert!(json["nodes"][0]["temp_c"].is_f64());
    assert!(json["modes"][0]["time_constant_h"].is_f64());
}

#[test]
fn the_table_tells_every_node_in_the_degrees_asked_for() {
    let anatomy = found();
    let text = table(&anatomy, Units::Fahrenheit, 120);
    assert!(text.contains("°F") && !text.contains("°C"));
    for node in &anatomy.nodes {
        let degrees = format!("{:.2}", Units::Fahrenheit.temperature(node.temp_c));
        let told = text.lines().any(|line| {
            line.trim_start().starts_with(&format!("{} ", node.name)) && line.contains(&degrees)
        });
        assert!(told, "{}", node.name);
    }
    assert!(text.contains("Slowest time constants"));
    assert!(text.lines().all(|line| line.chars().count() <= 120));
}
