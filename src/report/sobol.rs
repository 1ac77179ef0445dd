//! What share of the uncertainty each input explains, and which shares so few nights cannot tell from none.

use super::columns::Table;
use super::input_names;
use super::model::Section;
use crate::study::sobol::Index;
use crate::study::summary::Summary;
use crate::study::uncertain_inputs::UncertainInput;
use serde_json::{Value, json};

/// With fewer nights the intervals say little: on functions with known indices they reach up to 29 percent of the whole
/// to either side with 64 points, up to 15 with 256 (measured: `largest_half_width` in `results/studies/indices.csv`).
const ROUGH_UNDER: usize = 256;
/// An interval that ends under this reads as no share at all.
const NOTHING: f64 = 0.005;

/// The section of a spread.
pub fn section(inputs: &[UncertainInput], summary: &Summary) -> Section {
    let table = Table::of("", &summary.indices)
        .words("", "Uncertain input", |(group, _)| match group.as_slice() {
            [one] => input_names::words(&inputs[*one].path),
            more => format!("the other {} together", more.len()),
        })
        .number("", "alone", |(_, found)| share(found.first))
        .number("", "in all", |(_, found)| share(found.total))
        .table();
    let reading = format!(
        "Sobol' indices: shares of the variance of the margin at departure, with 95 % intervals; alone, and with all \
interactions. \"None\" is a share that could be zero, with the most that it may be.{}",
        rough(summary.bands.nights)
    );
    Section::new("").block(table).say([reading])
}

/// The indices for programs.
pub fn json(inputs: &[UncertainInput], summary: &Summary) -> Value {
    let index = |i: Index| json!({"fraction": i.share, "ci95_low": i.low, "ci95_high": i.high});
    let each = summary.indices.iter().map(|(group, found)| {
        let paths: Vec<&str> = group.iter().map(|i| inputs[*i].path.as_str()).collect();
        json!({"paths": paths, "first": index(found.first), "total": index(found.total)})
    });
    each.collect()
}

/// A share with its interval, in percent of the whole, which no share lies outside.
fn share(index: Index) -> String {
    let percent = |x: f64| 100.0 * x.clamp(0.0, 1.0);
    if index.low > 0.0 {
        format!(
            "{:.0} % ({:.0} to {:.0})",
            percent(index.share),
            percent(index.low),
            percent(index.high)
        )
    } else if index.high >= NOTHING {
        format!("none (to {:.0})", percent(index.high))
    } else {
        "none".to_owned()
    }
}

/// What is to be said of shares from so few nights.
fn rough(nights: usize) -> String {
    if nights >= ROUGH_UNDER {
        return String::new();
    }
    format!(
        " Shares from {nights} nights are rough: they may be larger alone than in all, or sum to more than the whole. Use their \
order only, or {ROUGH_UNDER} nights or more (`--samples`)."
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    fn index(share: f64, low: f64, high: f64) -> Index {
        Index { share, low, high }
    }

    /// A share of a variance lies between none of it and all of it (the definition); an estimate may not.
    #[test]
    fn no_share_is_impossible() {
        assert_eq!(share(index(0.36, 0.24, 0.52)), "36 % (24 to 52)");
        assert_eq!(share(index(0.98, 0.9, 1.07)), "98 % (90 to 100)");
        assert_eq!(share(index(0.04, -0.12, 0.18)), "none (to 18)");
        assert_eq!(share(index(-0.05, -0.08, -0.02)), "none");
        assert_eq!(share(index(0.0, 0.0, 0.0)), "none");
    }

    #[test]
    fn shares_from_few_nights_are_called_rough() {
        assert!(rough(255).contains("rough") && rough(64).contains("from 64 nights"));
        assert_eq!(rough(256), "");
    }
}
