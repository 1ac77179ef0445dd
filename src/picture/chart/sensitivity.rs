//! What each uncertain number does alone to the margin at departure, as bars from its low end to its high end.

use super::bars::{Bars, Row};
use super::view::{Chart, ChartView, Unit};
use crate::picture::draw::colour;
use crate::study::summary::Summary;
use crate::study::uncertain_inputs::UncertainInput;

/// The most rows: as many as fit a quarter of a page.
const MOST: usize = 14;

/// The chart, the strongest first; `named` gives the name of an uncertain number and its value, as the files have it.
pub fn sensitivity(
    summary: &Summary,
    named: impl Fn(&UncertainInput) -> String,
    doubts: &[UncertainInput],
    view: &ChartView,
) -> Chart {
    let units = view.units;
    let rows = summary.influences.iter().take(MOST).map(|influence| {
        let (low, high) = (
            units.step(influence.at_low_k),
            units.step(influence.at_high_k),
        );
        Row {
            name: named(&doubts[influence.doubt]),
            bars: vec![(low, high, colour::SERIES[0])],
            mark: Some(high),
            figures: format!(
                "{} to {}",
                units.difference(influence.at_low_k),
                units.difference(influence.at_high_k)
            )
            .replace('-', "\u{2212}"),
            numbers: vec![low, high],
        }
    });
    let none = "The nights that change one input alone were not computed".to_owned();
    let found = summary.influences.first().map_or(none, |first| {
        let moved = units.size(first.at_high_k - first.at_low_k);
        let name = named(&doubts[first.doubt]);
        // Without its value.
        let name = name.split(':').next().unwrap_or_default();
        let (head, rest) = name.split_at(name.chars().next().map_or(0, char::len_utf8));
        format!(
            "{}{rest} moves the margin most: {moved}",
            head.to_uppercase()
        )
    });
    let unit = Unit::step(units);
    let head = |end: &str| format!("margin_at_{end}_end_{}", unit.key);
    Bars {
        view: *view,
        found,
        what: format!(
            "{}; margin at departure with one input at the low end and, stroke, at the high end of its range; zero: ready",
            unit.symbol
        ),
        axis: format!("margin at departure, {}", unit.symbol),
        heads: vec![head("low"), head("high")],
        drawn: rows.len(),
        rows: rows.collect(),
    }
    .chart()
}
