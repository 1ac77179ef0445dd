//! A table of a report: each column is defined once, with its key, its head, and what a row has in it.

use serde_json::Value;

/// Rows and columns.
#[derive(Debug, Clone)]
pub struct Table {
    /// Its key in JSON, where it is an array of objects; empty if only people read it.
    pub key: &'static str,
    /// The columns.
    pub heads: Vec<Head>,
    /// The rows, a cell for each column.
    pub rows: Vec<Vec<Cell>>,
}

/// The head of a column.
#[derive(Debug, Clone)]
pub struct Head {
    /// Its key in JSON and CSV, with the unit; empty if only people read it.
    pub key: String,
    /// Its words for people.
    pub text: String,
    /// Where people read it.
    pub show: Show,
    /// Whether it holds words, which stand to the left and may be broken.
    pub words: bool,
}

/// Where people read something. A program reads whatever has a key.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Show {
    /// In text and on a page.
    Always,
    /// In wide text and on a page.
    Wide,
    /// On a page.
    Page,
    /// Nowhere.
    Json,
}

/// A value, in SI and °C, and its text in the reader's unit.
#[derive(Debug, Clone, PartialEq)]
pub struct Cell {
    /// For programs.
    pub value: Value,
    /// For people.
    pub text: String,
}

/// A table that is being made of such rows.
#[derive(Debug)]
pub struct Columns<'a, R> {
    rows: &'a [R],
    table: Table,
}

impl Table {
    /// The beginning of a table with a row for each of these.
    pub fn of<'a, R>(key: &'static str, rows: &'a [R]) -> Columns<'a, R> {
        let table = Self {
            key,
            heads: Vec::new(),
            rows: vec![Vec::new(); rows.len()],
        };
        Columns { rows, table }
    }
}

impl<'a, R> Columns<'a, R> {
    /// With a column of words.
    pub fn words<C: Into<Cell>>(
        self,
        key: impl Into<String>,
        head: impl Into<String>,
        cell: impl Fn(&'a R) -> C,
    ) -> Self {
        self.column(key.into(), head.into(), Show::Always, true, cell)
    }

    /// With a column of numbers.
    pub fn number<C: Into<Cell>>(
        self,
        key: impl Into<String>,
        head: impl Into<String>,
        cell: impl Fn(&'a R) -> C,
    ) -> Self {
        self.column(key.into(), head.into(), Show::Always, false, cell)
    }

    /// With a column that only programs read.
    pub fn json<V: Into<Value>>(self, key: impl Into<String>, value: impl Fn(&'a R) -> V) -> Self {
        let cell = |row: &'a R| Cell::new(value(row), "");
        self.column(key.into(), String::new(), Show::Json, false, cell)
    }

    /// With the last column shown only there.
    pub fn shown(mut self, show: Show) -> Self {
        if let Some(last) = self.table.heads.last_mut() {
            last.show = show;
        }
        self
    }

    /// The table.
    pub fn table(self) -> Table {
        self.table
    }

    fn column<C: Into<Cell>>(
        mut self,
        key: String,
        text: String,
        show: Show,
        words: bool,
        cell: impl Fn(&'a R) -> C,
    ) -> Self {
        self.table.heads.push(Head {
            key,
            text,
            show,
            words,
        });
        for (cells, row) in self.table.rows.iter_mut().zip(self.rows) {
            cells.push(cell(row).into());
        }
        self
    }
}

impl Cell {
    /// A value and its text.
    pub fn new(value: impl Into<Value>, text: impl Into<String>) -> Self {
        Self {
            value: value.into(),
            text: text.into(),
        }
    }
}

impl<V: Into<Value>, T: Into<String>> From<(V, T)> for Cell {
    fn from((value, text): (V, T)) -> Self {
        Self::new(value, text)
    }
}

impl From<&str> for Cell {
    fn from(text: &str) -> Self {
        Self::new(text, text)
    }
}

impl From<String> for Cell {
    fn from(text: String) -> Self {
        Self::new(text.as_str(), text.clone())
    }
}
