//! What the page of a comparison says.

use super::data::{BandsTable, ChoicesPage, Row};
use super::{budget, card, chart, fill, rests};
use crate::night::Night;
use crate::picture::chart::comparison::coldest_parts;
use crate::picture::draw::DrawError;
use crate::quantity::Units;
use crate::report::columns::{Cell, Show, Table};
use crate::report::compare::{COLDEST, marks, ranking, reading};
use crate::report::provenance::Provenance;
use crate::report::recommend::advice;
use crate::report::warning::sentence;
use crate::report::{inputs, uncertainty, verdict};
use crate::study::compare::Comparison;
use crate::study::paired::Paired;

/// The page of a comparison of this title; `engine` is the name of the engine's file. Of no choices there is no
/// page.
///
/// *Errors*: the drawing or the template failed, which is a fault of the program.
pub fn choices_html(
    title: &str,
    comparison: &Comparison,
    engine: &str,
    from: &Provenance,
) -> Result<String, DrawError> {
    match comparison.recommended() {
        Some(chosen) => fill::filled(
            "choices.html",
            &page(title, comparison, chosen, engine, from)?,
        ),
        None => Err(DrawError::of("there is no choice to show")),
    }
}

fn page(
    title: &str,
    comparison: &Comparison,
    (name, chosen): &(String, Night),
    engine: &str,
    from: &Provenance,
) -> Result<ChoicesPage, DrawError> {
    let nights = &comparison.nights;
    let units = chosen.scenario.scenario().units;
    let traces: Vec<_> = nights.iter().map(|n| (n.0.as_str(), &n.1.trace)).collect();
    let chart = chart::both(chosen, title, |view| coldest_parts(&traces, view));
    let mut advice = advice(nights, units);
    let answer = advice.remove(0);
    let warned = |of: &Night| -> Vec<String> {
        let warnings = of.findings.warnings.iter();
        warnings.map(|w| sentence(w, units)).collect()
    };
    let others = nights.iter().filter(|n| n.0 != *name);
    let other_warnings = others.flat_map(|(other, night)| {
        let each = warned(night).into_iter();
        each.map(move |w| format!("{other}: {w}"))
    });
    let mut reading = vec![reading(chosen)];
    reading.extend(marks(nights));
    let ranking = ranking(nights, units);
    Ok(ChoicesPage {
        title: title.to_owned(),
        ready: chosen.findings.ready.ready_at_departure,
        verdict: answer,
        more: advice,
        dangers: verdict::harm(&chosen.findings)
            .into_iter()
            .map(str::to_owned)
            .collect(),
        setting: inputs::setting(chosen),
        chosen: name.clone(),
        asked: inputs::lines(chosen, engine),
        warnings: warned(chosen),
        other_warnings: other_warnings.collect(),
        heads: heads(&ranking),
        choices: rows(&ranking, name),
        reading,
        chart,
        bands: comparison.paired.as_ref().map(|p| bands(p, units, name)),
        budget: budget::budget(chosen, Some(name)),
        card: card::card(chosen),
        rests: rests::rests(chosen, from),
    })
}

/// The columns that people read, after the number and the name of a choice.
fn columns(table: &Table) -> impl Iterator<Item = usize> {
    (0..table.heads.len())
        .filter(|k| table.heads[*k].show != Show::Json)
        .skip(2)
}

fn heads(table: &Table) -> Vec<String> {
    columns(table)
        .map(|k| table.heads[k].text.clone())
        .collect()
}

/// Rows of a table; the chosen one stands out. A number and its unit stay on one line.
fn rows(table: &Table, chosen: &str) -> Vec<Row> {
    let whole = |row: &[Cell], k: usize| match table.heads[k].text.as_str() {
        COLDEST => row[k].text.clone(),
        _ => row[k].text.replace(' ', "\u{a0}"),
    };
    let row = |cells: &Vec<Cell>| Row {
        name: format!("{}\u{a0} {}", cells[0].text, cells[1].text),
        cells: columns(table).map(|k| whole(cells, k)).collect(),
        strong: cells[1].text == chosen,
    };
    table.rows.iter().map(row).collect()
}

fn bands(paired: &Paired, units: Units, chosen: &str) -> BandsTable {
    let table = uncertainty::table(paired, units);
    BandsTable {
        heads: heads(&table),
        rows: rows(&table, chosen),
        reading: uncertainty::reading(paired),
        verdict: uncertainty::pairs(paired, units),
    }
}
