//! Which numbers of a file are uncertain, and by how much.

use crate::document::{choice, model};
use std::collections::BTreeMap;

/// Uncertain numbers by their path in the file, such as `bay.seam_area`.
pub type Uncertain = BTreeMap<String, UncertainRange>;

model! {
    /// How uncertain a number is, in the unit its file gives it in.
    #[derive(serde::Deserialize)]
    #[serde(deny_unknown_fields)]
    pub struct UncertainRange {
        /// The lowest plausible value.
        pub low: f64;
        /// The highest plausible value.
        pub high: f64;
        /// The unit of both, such as `L`: that of the number in its file, which the reader of files fills in. Without
        /// one they are in the unit the number is kept in, the first of its quantity's spellings.
        @[serde(default, skip_serializing_if = "Option::is_none")]
        pub unit: Option<String> = None;
        /// How it is spread between them.
        pub distribution: Distribution, example("triangular");
        /// What the number rests on.
        pub basis: Basis, example("estimated");
        /// Where it is from.
        pub source: String, example("\"an estimate\"");
    }
}

choice! {
    /// How a number is spread between its bounds.
    #[derive(Copy, Eq, serde::Deserialize)]
    pub enum Distribution {
        /// Every value alike.
        uniform,
        /// Every ratio alike.
        log_uniform,
        /// Most likely in the middle, falling in straight lines to the bounds.
        triangular,
    }
}

choice! {
    /// What a number rests on.
    #[derive(Copy, Eq, serde::Deserialize)]
    pub enum Basis {
        /// Measured on this very thing.
        measured,
        /// Printed somewhere one can look up.
        published,
        /// An engineer's estimate.
        estimated,
        /// Adjusted to a few practice readings.
        calibrated,
    }
}
