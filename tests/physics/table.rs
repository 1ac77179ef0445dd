//! Reading reference tables, and the two ways a law is held against one.

use crate::kit::record;
use std::ops::RangeInclusive;

/// The rows of a committed table, cells as they stand.
pub fn rows(text: &str) -> Vec<Vec<String>> {
    csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .from_reader(text.as_bytes())
        .records()
        .map(|record| record.unwrap().iter().map(str::to_owned).collect())
        .collect()
}

/// The rows of a committed table of numbers; an empty cell is not a number.
pub fn numbers(text: &str) -> Vec<Vec<f64>> {
    rows(text)
        .iter()
        .map(|row| {
            row.iter()
                .map(|cell| cell.parse().unwrap_or(f64::NAN))
                .collect()
        })
        .collect()
}

/// Asserts that a value agrees with a published one within a share of it.
#[track_caller]
pub fn assert_agrees(found: f64, published: f64, relative: f64) {
    record::check("a value, of it", relative, (found / published - 1.0).abs());
    assert!(
        (found - published).abs() <= relative * published.abs(),
        "found {found}, published {published}, off by {:+.4} %",
        100.0 * (found / published - 1.0)
    );
}

/// Asserts that pairs of (found, published) differ, in percent, within an envelope.
///
/// The envelope must be a measured one: the test also fails when a bound lies more than `slack` percent
/// beyond the worst error found, so that it cannot be widened out of reach.
#[track_caller]
pub fn assert_envelope(
    pairs: impl IntoIterator<Item = (f64, f64)>,
    percent: RangeInclusive<f64>,
    slack: f64,
) {
    let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
    for (found, published) in pairs {
        let error = 100.0 * (found / published - 1.0);
        assert!(error.is_finite(), "found {found}, published {published}");
        low = low.min(error);
        high = high.max(error);
    }
    let widest = percent.start().abs().max(percent.end().abs());
    record::check(
        "the smooth law's envelope, %",
        widest,
        low.abs().max(high.abs()),
    );
    let stated = format!("errors {low:+.3} to {high:+.3} %, stated {percent:?} %");
    assert!(
        percent.contains(&low) && percent.contains(&high),
        "{stated}"
    );
    assert!(
        low - percent.start() <= slack,
        "stated too wide below: {stated}"
    );
    assert!(
        percent.end() - high <= slack,
        "stated too wide above: {stated}"
    );
}
