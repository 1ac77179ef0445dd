//! What is built in.

use super::columns::Table;
use super::model::{Report, Section};

/// The report of built-in models: of each its kind, its name and what it is.
pub fn report(models: &[(&str, &str, String)]) -> Report {
    let table = Table::of("", models)
        .words("kind", "Kind", |m| m.0)
        .words("name", "Name", |m| m.1)
        .words("description", "Description", |m| m.2.as_str());
    Report::new("catalogue", "", None).with(Section::new("").block(table))
}
