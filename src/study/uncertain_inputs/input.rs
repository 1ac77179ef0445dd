//! One uncertain input: where it stands, its range, and how it is spread.

use crate::scenario::uncertain::Distribution;

/// An uncertain number of a Scenario.
#[derive(Debug, Clone, PartialEq)]
pub struct UncertainInput {
    /// Where it stands: `engine.bay.seam_area`.
    pub path: String,
    /// Its value in the Scenario, in `unit`.
    pub value: f64,
    /// The unit of all its numbers; none for a plain number.
    pub unit: Option<String>,
    /// The lowest plausible value.
    pub low: f64,
    /// The highest plausible value.
    pub high: f64,
    /// How it is spread between them.
    pub distribution: Distribution,
    /// What it rests on, in the words of its file.
    pub source: String,
    /// Whether no file says how far it may be off, and the usual range is taken.
    pub usual: bool,
}

impl UncertainInput {
    /// The value below which this share of the plausible values lies, in `unit`.
    ///
    /// *Valid*: a share from 0 to 1.
    pub fn quantile(&self, share: f64) -> f64 {
        let (low, high) = (self.low, self.high);
        match self.distribution {
            Distribution::uniform => low + share * (high - low),
            Distribution::log_uniform => low * (high / low).powf(share),
            // The inverse of two parabolas that meet in the middle.
            Distribution::triangular if share < 0.5 => low + (high - low) * (share / 2.0).sqrt(),
            Distribution::triangular => high - (high - low) * ((1.0 - share) / 2.0).sqrt(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quantiles_are_those_of_the_distribution() {
        let mut doubt = UncertainInput {
            path: "covers.inlet_plug".to_owned(),
            value: 4.0,
            unit: None,
            low: 1.0,
            high: 16.0,
            distribution: Distribution::log_uniform,
            source: String::new(),
            usual: false,
        };
        assert!((doubt.quantile(0.5) - 4.0).abs() < 1e-12);
        doubt.distribution = Distribution::triangular;
        // Half of a half square: an eighth of the values lie in the first quarter of the range.
        assert!((doubt.quantile(0.125) - 4.75).abs() < 1e-12);
        assert!((doubt.quantile(0.875) - 12.25).abs() < 1e-12);
    }
}
