//! Every part of an engine as a table.

use super::phrase::{difference, reach, temperature};
use crate::findings::PartFinding;
use crate::quantity::Units;
use comfy_table::{CellAlignment, ContentArrangement, Table, presets::UTF8_HORIZONTAL_ONLY};

/// The table: part, temperature at departure, hours until it stays warm, margin. Engine parts first count.
pub fn parts(parts: &[PartFinding], units: Units, width: u16) -> String {
    let mut table = Table::new();
    table
        .load_style(UTF8_HORIZONTAL_ONLY)
        .set_content_arrangement(ContentArrangement::Dynamic)
        .set_width(width)
        .set_header([
            "part",
            "at departure",
            "warm after",
            "over the threshold",
            "",
        ]);
    for part in parts {
        table.add_row([
            part.label.clone(),
            temperature(part.temp_c, units),
            reach(&part.reached.hold),
            difference(part.margin_k, units),
            if part.engine { "" } else { "need not be warm" }.to_owned(),
        ]);
    }
    for column in 1..=3 {
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
