//! What share of the doubt each unknown explains, told; and which shares so few nights cannot tell from none.

use super::format::wrapped;
use super::table::drawn;
use super::unknown_words;
use crate::study::sobol::Index;
use crate::study::summary::Summary;
use crate::study::uncertain_inputs::UncertainInput;

/// With fewer nights the intervals say little: on functions with known indices they reach up to 29 percent of the whole
/// to either side with 64 points, up to 15 with 256 (measured: `largest_half_width` in `results/studies/indices.csv`).
const ROUGH_UNDER: usize = 256;
/// An interval that ends under this reads as no share at all.
const NOTHING: f64 = 0.005;

/// The table with what it is to be read by.
pub(super) fn told(doubts: &[UncertainInput], summary: &Summary, width: u16) -> String {
    let head = ["uncertain number", "alone", "in all"];
    let rows = summary.indices.iter().map(|(group, found)| {
        let name = match group.as_slice() {
            [one] => unknown_words::told(&doubts[*one].path),
            more => format!("the other {} together", more.len()),
        };
        vec![name, share(found.first), share(found.total)]
    });
    let table = drawn(head.map(str::to_owned).to_vec(), rows, &[0], width);
    let reading = format!(
        "Shares of the variance of the margin at departure, with 95 percent intervals: alone, and with all it does together \
with the others. \"None\" is a share not told apart from none, with the most that it may be.{}",
        rough(summary.bands.nights)
    );
    format!("{table}\n{}\n", wrapped(&reading, width, ""))
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
        " Shares from {nights} nights are rough: they may come out larger alone than in all, or sum to more than the whole. Go by \
their order, or take {ROUGH_UNDER} nights or more (`--samples`)."
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
    fn no_share_is_told_that_cannot_be() {
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
