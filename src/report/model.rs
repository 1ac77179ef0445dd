//! A result as data: each number and each word stands here once, and every output is written from it.

use super::columns::{Cell, Columns, Show, Table};
use super::provenance::Provenance;
#[cfg(feature = "pictures")]
use crate::picture::Figure;
use serde_json::Value;

/// A result of one command.
#[derive(Debug, Clone)]
pub struct Report {
    /// The kind of the result, which names its schema.
    pub kind: &'static str,
    /// The title of a page.
    pub title: String,
    /// Where it comes from; none for a result that is made of no night.
    pub head: Option<Provenance>,
    /// Its sections in the order of reading.
    pub sections: Vec<Section>,
}

/// A part of a report under one title.
#[derive(Debug, Clone)]
pub struct Section {
    /// The JSON object that holds its facts; empty for the object of the whole report.
    pub key: &'static str,
    /// Its title; empty for none.
    pub title: String,
    /// Where people read it.
    pub show: Show,
    /// What it says, in order.
    pub blocks: Vec<Block>,
}

/// A piece of a section.
#[derive(Debug, Clone)]
pub enum Block {
    /// A paragraph.
    Say(Fact),
    /// Labels with what stands beside each.
    Facts(Vec<Fact>),
    /// Lines of one kind; in JSON an array of this key.
    List(&'static str, Vec<Cell>),
    /// Rows and columns; in JSON an array of objects.
    Table(Table),
    /// A chart or a map.
    #[cfg(feature = "pictures")]
    Figure(Figure),
}

/// One thing that a result says.
#[derive(Debug, Clone)]
pub struct Fact {
    /// Its key in JSON, with the unit; empty if only people read it.
    pub key: &'static str,
    /// Its name for people; empty if only programs read it.
    pub label: String,
    /// Its value in SI and °C, and as a text in the reader's unit.
    pub cell: Cell,
}

impl Report {
    /// A report without sections.
    pub fn new(kind: &'static str, title: &str, head: Option<&Provenance>) -> Self {
        Self {
            kind,
            title: title.to_owned(),
            head: head.cloned(),
            sections: Vec::new(),
        }
    }

    /// The same report of a scenario, whose title is its name.
    pub fn of_scenario(kind: &'static str, title: &str, head: &Provenance) -> Self {
        let name = Section::json([Fact::json("scenario", title)]);
        Self::new(kind, title, Some(head)).with(name)
    }

    /// The report with one more section.
    pub fn with(mut self, section: Section) -> Self {
        self.sections.push(section);
        self
    }
}

impl Section {
    /// A section that is always shown; without a title if that is empty.
    pub fn new(title: impl Into<String>) -> Self {
        Self {
            key: "",
            title: title.into(),
            show: Show::Always,
            blocks: Vec::new(),
        }
    }

    /// Facts that only programs read.
    pub fn json(facts: impl IntoIterator<Item = Fact>) -> Self {
        Self::new("").shown(Show::Json).facts(facts)
    }

    /// A section that wide text and a page show.
    pub fn wide(title: impl Into<String>) -> Self {
        Self::new(title).shown(Show::Wide)
    }

    /// The section as a JSON object of its own.
    pub fn keyed(self, key: &'static str) -> Self {
        Self { key, ..self }
    }

    /// The section, shown there.
    pub fn shown(self, show: Show) -> Self {
        Self { show, ..self }
    }

    /// With paragraphs: a sentence, an `Option` or a list of them.
    pub fn say(mut self, texts: impl IntoIterator<Item = String>) -> Self {
        let said = texts.into_iter().filter(|text| !text.is_empty());
        self.blocks
            .extend(said.map(|text| Block::Say(Fact::text("", text))));
        self
    }

    /// With sentences about harm, which stand out on a page.
    pub fn hazard(mut self, texts: impl IntoIterator<Item = String>) -> Self {
        let facts = texts.into_iter().map(|text| Fact::text("hazard", text));
        self.blocks.extend(facts.map(Block::Say));
        self
    }

    /// With labels and what stands beside them.
    pub fn facts(self, facts: impl IntoIterator<Item = Fact>) -> Self {
        self.block(Block::Facts(facts.into_iter().collect()))
    }

    /// With lines of one kind.
    pub fn list<C: Into<Cell>>(
        self,
        key: &'static str,
        lines: impl IntoIterator<Item = C>,
    ) -> Self {
        self.block(Block::List(
            key,
            lines.into_iter().map(Into::into).collect(),
        ))
    }

    /// With one more block, such as a table.
    pub fn block(mut self, block: impl Into<Block>) -> Self {
        self.blocks.push(block.into());
        self
    }
}

impl Fact {
    /// A fact for everybody.
    pub fn new(
        key: &'static str,
        label: impl Into<String>,
        value: impl Into<Value>,
        text: impl Into<String>,
    ) -> Self {
        Self {
            key,
            label: label.into(),
            cell: Cell::new(value, text),
        }
    }

    /// A fact for programs.
    pub fn json(key: &'static str, value: impl Into<Value>) -> Self {
        Self::new(key, "", value, "")
    }

    /// A fact for people.
    pub fn text(label: impl Into<String>, text: impl Into<String>) -> Self {
        Self::new("", label, Value::Null, text)
    }
}

impl From<Table> for Block {
    fn from(table: Table) -> Self {
        Self::Table(table)
    }
}

#[cfg(feature = "pictures")]
impl From<Figure> for Block {
    fn from(figure: Figure) -> Self {
        Self::Figure(figure)
    }
}

impl<R> From<Columns<'_, R>> for Block {
    fn from(columns: Columns<'_, R>) -> Self {
        Self::Table(columns.table())
    }
}
