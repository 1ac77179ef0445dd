//! Every part of an engine as a table.

use super::format::{difference, reach, temperature};
use super::table::drawn;
use crate::findings::PartFinding;
use crate::quantity::Units;

/// The table: part, temperature at departure, hours until it stays warm, how far over the threshold.
pub fn parts(parts: &[PartFinding], units: Units, width: u16) -> String {
    let head = [
        "part",
        "at departure",
        "warm after",
        "over the threshold",
        "",
    ];
    let rows = parts.iter().map(|part| {
        vec![
            part.label.clone(),
            temperature(part.temp_c, units),
            reach(&part.reached),
            difference(part.margin_k, units),
            if part.engine { "" } else { "need not be warm" }.to_owned(),
        ]
    });
    drawn(head.map(str::to_owned).to_vec(), rows, &[0, 4], width)
}
