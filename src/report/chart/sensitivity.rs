//! What each uncertain number does alone to the margin at departure, as bars from its low end to its high end.

use super::super::canvas::DrawError;
use super::super::colour;
use super::super::spread_text::number;
use super::super::unknown_words;
use super::bars::{Bars, Row};
use super::view::{ChartView, Picture, Unit};
use crate::study::summary::Summary;
use crate::study::uncertain_inputs::UncertainInput;

/// The most rows: as many as fit a quarter of a page.
const MOST: usize = 14;

/// What a number is called, and what the files say it is.
fn as_written(doubt: &UncertainInput) -> String {
    let name = unknown_words::told(&doubt.path);
    format!("{name}: {}", number(doubt, doubt.value))
}

/// The chart, the strongest first.
///
/// *Errors*: the drawing failed, which is a fault of the program.
pub fn sensitivity(
    summary: &Summary,
    doubts: &[UncertainInput],
    view: &ChartView,
) -> Result<Picture, DrawError> {
    let units = view.units;
    let rows = summary.influences.iter().take(MOST).map(|influence| {
        let (low, high) = (
            units.step(influence.at_low_k),
            units.step(influence.at_high_k),
        );
        Row {
            name: as_written(&doubts[influence.doubt]),
            bars: vec![(low, high, colour::SERIES[5])],
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
    let unit = Unit::step(units);
    let head = |end: &str| format!("margin_at_{end}_end_{}", unit.key);
    Bars {
        view: *view,
        what: "margin at departure with one uncertain number, told as written, at the low and, at the stroke, at the \
high end of its range; zero is just ready"
            .to_owned(),
        axis: format!("coldest part above the threshold at departure, {}", unit.symbol),
        heads: vec![head("low"), head("high")],
        drawn: rows.len(),
        rows: rows.collect(),
        empty: "The nights that change one number alone were not computed.".to_owned(),
    }
    .picture()
}
