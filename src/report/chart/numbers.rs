//! The numbers of a figure as CSV: a row a time, a column a line, layer or strip, the unit at the end of its head.

use super::super::canvas::DrawError;
use super::panel::Panel;
use super::strip::Strip;
use crate::scenario::clock::NightClock;
use std::collections::BTreeMap;

/// A column: its head, and its values by time in milliseconds.
type Column = (String, BTreeMap<i64, String>);

/// The text of the file: every point that was drawn, before thinning. A place is empty where a line has no point; the
/// value of a layer holds from its row to the next; a strip is 1 while it is on.
///
/// *Errors*: whatever the CSV writer says; it writes to memory.
pub fn written(
    clock: &NightClock,
    panels: &[Panel],
    strips: &[Strip],
) -> Result<Vec<u8>, DrawError> {
    let mut columns: Vec<Column> = Vec::new();
    for panel in panels {
        for line in &panel.lines {
            let head = format!("{}_{}", line.key, panel.unit.key);
            let points = line.points.iter().filter(|p| p.1.is_finite());
            columns.push((head, points.map(|p| (ms(p.0), told(p.1))).collect()));
        }
        for layer in panel.stack.layers.iter().chain(&panel.stack.over) {
            let head = format!("{}_{}", layer.key, panel.unit.key);
            let values = panel.stack.edges_s.iter().zip(&layer.values);
            columns.push((head, values.map(|(t, v)| (ms(*t), told(*v))).collect()));
        }
    }
    let mut times: Vec<i64> = columns.iter().flat_map(|c| c.1.keys().copied()).collect();
    times.sort_unstable();
    times.dedup();
    for strip in strips {
        let on = |t: i64| {
            let held = |s: &(f64, f64)| ms(s.0) <= t && t < ms(s.1);
            i32::from(strip.spans.iter().any(held)).to_string()
        };
        let values = times.iter().map(|t| (*t, on(*t))).collect();
        columns.push((format!("{}_on", strip.key), values));
    }
    let mut writer = csv::Writer::from_writer(Vec::new());
    let heads = columns.iter().map(|c| c.0.as_str());
    let row = ["time_h", "clock"].into_iter().chain(heads);
    writer.write_record(row).map_err(DrawError::of)?;
    for time in times {
        let seconds = time as f64 / 1000.0;
        let told = clock.told(seconds);
        let mut row = vec![format!("{:.5}", seconds / 3600.0), told];
        let values = columns.iter().map(|c| c.1.get(&time).cloned());
        row.extend(values.map(Option::unwrap_or_default));
        writer.write_record(&row).map_err(DrawError::of)?;
    }
    writer.into_inner().map_err(DrawError::of)
}

/// A time in milliseconds.
fn ms(seconds: f64) -> i64 {
    (seconds * 1000.0).round() as i64
}

/// A value to a ten-thousandth; minus nothing is nothing.
pub fn told(value: f64) -> String {
    let told = format!("{value:.4}");
    if told == "-0.0000" {
        "0.0000".to_owned()
    } else {
        told
    }
}

/// A name as part of the head of a column: letters and digits, the rest as single underscores.
pub fn slug(name: &str) -> String {
    let mut slug = String::new();
    for c in name.to_lowercase().chars() {
        if c.is_alphanumeric() {
            slug.push(c);
        } else if !slug.ends_with('_') && !slug.is_empty() {
            slug.push('_');
        }
    }
    slug.trim_end_matches('_').to_owned()
}
