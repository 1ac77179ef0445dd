//! A comparison for other programs. The schema is `schema/compare.schema.json`.

use super::bands_json::PairedJson;
use super::night::choice;
use super::provenance::{Head, Provenance};
use crate::findings::RANKING_KEY;
use crate::quantity::Units;
use crate::study::compare::Comparison;
use serde::Serialize;
use serde_json::Value;

#[derive(Debug, Clone, Serialize)]
struct ComparisonJson<'a> {
    #[serde(flatten)]
    head: Head<'a>,
    ranking_key: &'a str,
    choices: Vec<Value>,
    recommendation: String,
    plausible: Option<PairedJson>,
}

/// The JSON of a comparison. Its sentences are in °C and K whatever the reader's degrees.
///
/// *Errors*: none but those of the writer.
pub fn comparison(
    title: &str,
    from: &Provenance,
    comparison: &Comparison,
) -> serde_json::Result<String> {
    let choices = comparison
        .nights
        .iter()
        .map(|(name, night)| choice(name, &night.findings));
    serde_json::to_string_pretty(&ComparisonJson {
        head: from.head(title),
        ranking_key: RANKING_KEY,
        choices: choices.collect(),
        recommendation: comparison.recommendation_in(Units::Celsius),
        plausible: comparison.paired.as_ref().map(PairedJson::from),
    })
}
