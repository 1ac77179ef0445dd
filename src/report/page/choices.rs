//! What the page of a comparison says.

use super::data::{BandsTable, ChoicesPage, Row};
use super::{budget, card, chart, fill, rests};
use crate::night::Night;
use crate::picture::chart::comparison::coldest_parts;
use crate::picture::draw::DrawError;
use crate::quantity::Units;
use crate::report::comparison_text::{marks, reading, setting};
use crate::report::provenance::Provenance;
use crate::report::table::{COLDEST, Cells};
use crate::report::warning::sentence;
use crate::report::{bands_text, inputs, table, verdict};
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
    let mut advice = comparison.advice(units);
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
    let first = reading(chosen);
    let mut reading = vec![first[..1].to_uppercase() + &first[1..]];
    reading.extend(marks(nights));
    let ranking = table::ranking(nights, units);
    Ok(ChoicesPage {
        title: title.to_owned(),
        ready: chosen.findings.ready.ready_at_departure,
        verdict: answer,
        more: advice,
        dangers: verdict::harm(&chosen.findings)
            .into_iter()
            .map(str::to_owned)
            .collect(),
        setting: setting(chosen),
        chosen: name.clone(),
        asked: inputs::lines(chosen, engine),
        warnings: warned(chosen),
        other_warnings: other_warnings.collect(),
        heads: heads(&ranking.head),
        choices: rows(&ranking, name),
        reading,
        chart,
        bands: comparison.paired.as_ref().map(|p| bands(p, units, name)),
        budget: budget::budget(chosen, Some(name)),
        card: card::card(chosen),
        rests: rests::rests(chosen, from),
    })
}

/// Heads of a table, after that of the names: in one line each, and none left empty.
fn heads(head: &[String]) -> Vec<String> {
    let told = |head: &String| match head.as_str() {
        "" => "at".to_owned(),
        head => head.replace("-\n", "").replace('\n', " "),
    };
    head[2..].iter().map(told).collect()
}

/// Rows of a table; the chosen one stands out. A number and its unit stay on one line.
fn rows(table: &Cells, chosen: &str) -> Vec<Row> {
    let whole = |(head, cell): (&String, &String)| match head.as_str() {
        COLDEST => cell.clone(),
        _ => cell.replace(' ', "\u{a0}"),
    };
    let told = table.rows.iter().map(|cells| Row {
        name: format!("{}\u{a0} {}", cells[0], cells[1]),
        cells: table.head.iter().zip(cells).skip(2).map(whole).collect(),
        strong: cells[1] == chosen,
    });
    told.collect()
}

fn bands(paired: &Paired, units: Units, chosen: &str) -> BandsTable {
    let cells = bands_text::cells(paired, units);
    BandsTable {
        heads: heads(&cells.head),
        rows: rows(&cells, chosen),
        reading: bands_text::reading(paired),
        verdict: bands_text::verdict(paired, units),
    }
}
