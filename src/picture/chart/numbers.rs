//! The numbers of a figure as CSV: a row a time, a column a line, layer or strip, the unit at the end of its head.

use super::panel::{Panel, Strip};
use crate::scenario::clock::NightClock;
use std::collections::BTreeMap;

/// A column: its head, and its values by time in milliseconds.
type Column = (String, BTreeMap<i64, String>);

/// The text of the file: every point that was drawn, before thinning. A place is empty where a line has no point; the
/// value of a layer holds from its row to the next; a strip is 1 while it is on.
pub fn written(clock: &NightClock, panels: &[Panel], strips: &[Strip]) -> Vec<u8> {
    let mut columns: Vec<Column> = Vec::new();
    for panel in panels {
        for line in &panel.lines {
            let head = format!("{}_{}", line.key, panel.unit.key);
            let points = line.points.iter().filter(|p| p.1.is_finite());
            columns.push((head, points.map(|p| (ms(p.0), told(p.1))).collect()));
            for (k, ribbon) in line.ribbon.iter().flat_map(|r| [(0, r), (1, r)]) {
                let head = format!("{}_{}", ribbon.keys[k], panel.unit.key);
                let edge = |p: &(f64, f64, f64)| if k == 0 { p.1 } else { p.2 };
                let values = ribbon.points.iter().map(|p| (ms(p.0), told(edge(p))));
                columns.push((head, values.collect()));
            }
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
        columns.push((strip.key.clone(), values));
    }
    let heads = columns.iter().map(|c| c.0.clone());
    let heads = ["time_h", "clock"]
        .map(str::to_owned)
        .into_iter()
        .chain(heads)
        .collect();
    let rows = times.into_iter().map(|time| {
        let seconds = time as f64 / 1000.0;
        let begin = [format!("{:.5}", seconds / 3600.0), clock.to_text(seconds)];
        let values = columns
            .iter()
            .map(|c| c.1.get(&time).cloned().unwrap_or_default());
        begin.into_iter().chain(values).collect()
    });
    csv(std::iter::once(heads).chain(rows))
}

/// Rows of one length as the text of a CSV file.
pub fn csv(rows: impl Iterator<Item = Vec<String>>) -> Vec<u8> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    for row in rows {
        writer
            .write_record(row)
            .expect("every row has as many cells as the head");
    }
    writer.into_inner().expect("memory takes every row")
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
