//! A report as JSON: its keys and values, in the order of the report.

use crate::report::{Block, Fact, Report, Section, Table};
use serde::{Serialize, Serializer};
use serde_json::Value;

/// The version of the program, in every output.
const VERSION: &str = env!("CARGO_PKG_VERSION");
/// The version of the schemas in `schema/`.
const SCHEMA_VERSION: u32 = 2;

impl Report {
    /// The report for other programs. A table without a key, alone in its report, is an array by itself.
    pub fn json(&self) -> String {
        let text = match self.sections.as_slice() {
            [one] => match one.blocks.as_slice() {
                [Block::Table(table)] if table.key.is_empty() => {
                    serde_json::to_string_pretty(&Rows(table))
                }
                _ => serde_json::to_string_pretty(&self.object()),
            },
            _ => serde_json::to_string_pretty(&self.object()),
        };
        text.expect("values of JSON make JSON")
    }

    fn object(&self) -> Object<'_> {
        let mut members = vec![
            ("version", Member::Own(VERSION.into())),
            ("schema_version", Member::Own(SCHEMA_VERSION.into())),
        ];
        if let Some(head) = &self.head {
            members.extend(head.members().map(|(key, value)| (key, Member::Own(value))));
        }
        for section in &self.sections {
            let own = members_of(section);
            match section.key {
                "" => members.extend(own),
                key => members.push((key, Member::Object(Object(own)))),
            }
        }
        Object(members)
    }
}

/// An object with its members in order.
struct Object<'a>(Vec<(&'a str, Member<'a>)>);

/// What a key stands for.
enum Member<'a> {
    Own(Value),
    Value(&'a Value),
    Rows(Rows<'a>),
    Object(Object<'a>),
}

/// A table as an array of objects.
struct Rows<'a>(&'a Table);

fn of_fact(fact: &Fact) -> (&str, Member<'_>) {
    (fact.key, Member::Value(&fact.cell.value))
}

fn members_of(section: &Section) -> Vec<(&str, Member<'_>)> {
    let mut members = Vec::new();
    for block in &section.blocks {
        match block {
            Block::Say(fact) => members.push(of_fact(fact)),
            Block::Facts(facts) => members.extend(facts.iter().map(of_fact)),
            Block::List(key, lines) => {
                let values = lines.iter().map(|line| line.value.clone()).collect();
                members.push((*key, Member::Own(Value::Array(values))));
            }
            Block::Table(table) => members.push((table.key, Member::Rows(Rows(table)))),
            #[cfg(feature = "pictures")]
            Block::Figure(_) => {}
        }
    }
    members.retain(|(key, _)| !key.is_empty());
    members
}

impl Serialize for Object<'_> {
    fn serialize<S: Serializer>(&self, out: S) -> Result<S::Ok, S::Error> {
        out.collect_map(self.0.iter().map(|(key, member)| (key, member)))
    }
}

impl Serialize for Member<'_> {
    fn serialize<S: Serializer>(&self, out: S) -> Result<S::Ok, S::Error> {
        match self {
            Self::Own(value) => value.serialize(out),
            Self::Value(value) => value.serialize(out),
            Self::Rows(rows) => rows.serialize(out),
            Self::Object(object) => object.serialize(out),
        }
    }
}

impl Serialize for Rows<'_> {
    fn serialize<S: Serializer>(&self, out: S) -> Result<S::Ok, S::Error> {
        out.collect_seq(self.0.rows.iter().map(|row| {
            let cells = self.0.heads.iter().zip(row);
            let keyed = cells.filter(|(head, _)| !head.key.is_empty());
            Object(
                keyed
                    .map(|(head, cell)| (head.key.as_str(), Member::Value(&cell.value)))
                    .collect(),
            )
        }))
    }
}

#[cfg(test)]
mod tests {
    use crate::report::{Fact, Report, Section, Table};
    use serde_json::{Value, json};

    #[test]
    fn keys_stand_where_their_section_is_and_words_without_a_key_nowhere() {
        let rows = [1.5, 2.5];
        let report = Report::new("demo", "a title", None)
            .with(Section::new("Answer").say(["Ready.".to_owned()]).facts([
                Fact::new("margin_k", "Margin", 2.0, "4 °F"),
                Fact::json("coldest", json!({"part": "nose", "temp_c": 1.0})),
                Fact::text("Only", "for people"),
            ]))
            .with(
                Section::new("Chances")
                    .keyed("uncertainty")
                    .list("warnings", ["hot"])
                    .block(Table::of("choices", &rows).number("kwh", "kWh", |x| (*x, "1"))),
            );
        let mut json: Value = serde_json::from_str(&report.json()).unwrap();
        json.as_object_mut().unwrap().remove("version");
        assert_eq!(
            json,
            json!({
                "schema_version": 2,
                "margin_k": 2.0,
                "coldest": {"part": "nose", "temp_c": 1.0},
                "uncertainty": {"warnings": ["hot"], "choices": [{"kwh": 1.5}, {"kwh": 2.5}]},
            })
        );
    }

    #[test]
    fn a_table_without_a_key_is_the_whole_document() {
        let rows = ["a", "b"];
        let table = Table::of("", &rows).words("name", "Name", |name| *name);
        let report = Report::new("list", "", None).with(Section::new("").block(table));
        let json: Value = serde_json::from_str(&report.json()).unwrap();
        assert_eq!(json, json!([{"name": "a"}, {"name": "b"}]));
    }
}
