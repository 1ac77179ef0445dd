//! The comparison as a table: one row a choice, the best first.

use super::phrase::{difference, reach, temperature};
use crate::findings::Findings;
use crate::night::Night;
use crate::quantity::Units;
use comfy_table::{CellAlignment, ContentArrangement, Table, presets::UTF8_HORIZONTAL_ONLY};

/// Columns that hold numbers, and are set right.
const NUMBERS: std::ops::RangeInclusive<usize> = 2..=10;

/// The table of ranked nights, `width` characters wide at most.
pub fn comparison(nights: &[(String, Night)], units: Units, width: u16) -> String {
    let mut table = Table::new();
    table
        .load_style(UTF8_HORIZONTAL_ONLY)
        .set_content_arrangement(ContentArrangement::Dynamic)
        .set_width(width)
        .set_header(header(units));
    for (rank, (name, night)) in nights.iter().enumerate() {
        table.add_row(row(rank + 1, name, &night.findings, units));
    }
    for column in NUMBERS {
        if let Some(column) = table.column_mut(column) {
            column.set_cell_alignment(CellAlignment::Right);
        }
    }
    table
        .lines()
        .map(|line| line.trim_end().to_owned())
        .collect::<Vec<_>>()
        .join("\n")
}

fn header(units: Units) -> Vec<String> {
    [
        "",
        "choice",
        "warm after",
        "ready at departure",
        "coldest part",
        "water on upper walls",
        "con- densing",
        "oil",
        "oil, mm²/s",
        "energy",
        "peak",
    ]
    .iter()
    .map(|h| (*h).replace("{}", units.symbol()))
    .collect()
}

fn row(rank: usize, name: &str, f: &Findings, units: Units) -> Vec<String> {
    let ready = if f.ready.ready_at_departure {
        "yes"
    } else {
        "NO"
    };
    let margin = f
        .ready
        .margin_k
        .map_or(String::new(), |m| format!(" {}", difference(m, units)));
    let coldest = f.coldest.as_ref().map_or("-".to_owned(), |c| {
        format!("{}, {}", c.label, temperature(c.temp_c, units))
    });
    let water = f.condensation.as_ref();
    let oil = f.oil.as_ref();
    let cost = f
        .energy
        .cost
        .map_or(String::new(), |c| format!(", {c:.2} {}", f.energy.currency));
    vec![
        rank.to_string(),
        name.to_owned(),
        reach(&f.threshold.all_parts.hold),
        format!("{ready}{margin}"),
        coldest,
        water.map_or("-".to_owned(), |c| format!("{:.1} g", c.upper_g)),
        water.map_or("-".to_owned(), |c| format!("{:.1} h", c.hours)),
        oil.map_or("-".to_owned(), |o| temperature(o.temp_c, units)),
        oil.map_or("-".to_owned(), |o| {
            let flag = if o.flagged { " *" } else { "" };
            format!("{:.0}{flag}", o.viscosity_mm2_s)
        }),
        format!("{:.1} kWh{cost}", f.energy.kwh.abs()),
        format!("{:.1} A", f.circuit.peak_current_a),
    ]
}
