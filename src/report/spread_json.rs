//! A spread of nights for other programs; its schema is `schema/spread.schema.json`.

use super::bands_json::{BandJson, BandsJson};
use super::provenance::{Head, Provenance};
use crate::study::sobol::Index;
use crate::study::summary::Summary;
use crate::study::uncertain_inputs::UncertainInput;
use serde::Serialize;

/// What is told beside the summary.
#[derive(Debug, Clone, Copy)]
pub struct SpreadView<'a> {
    /// The title of the night.
    pub title: &'a str,
    /// Where it comes from.
    pub from: &'a Provenance,
    /// The seed of the points.
    pub seed: u32,
    /// Plausible nights, those that failed included.
    pub nights: usize,
    /// Whether all nights were computed.
    pub finished: bool,
    /// The unknowns.
    pub doubts: &'a [UncertainInput],
    /// The keys of the groups, in their order.
    pub groups: &'a [String],
}

#[derive(Debug, Serialize)]
struct SpreadJson<'a> {
    #[serde(flatten)]
    head: Head<'a>,
    seed: u32,
    finished: bool,
    nights: usize,
    failed: usize,
    failed_mostly: Option<FaultJson<'a>>,
    headlines: BandsJson,
    oil_mm2_s: Option<BandJson>,
    groups: Vec<GroupJson<'a>>,
    unknowns: Vec<UnknownJson<'a>>,
    influences: Vec<InfluenceJson<'a>>,
    indices: Vec<IndicesJson<'a>>,
}

/// The commonest reason why nights could not be computed.
#[derive(Debug, Serialize)]
struct FaultJson<'a> {
    why: &'a str,
    nights: usize,
}

#[derive(Debug, Serialize)]
struct GroupJson<'a> {
    group: &'a str,
    at_departure_c: Option<BandJson>,
    over_time_c: Vec<BandJson>,
}

#[derive(Debug, Serialize)]
struct UnknownJson<'a> {
    path: &'a str,
    unit: Option<&'a str>,
    value: f64,
    low: f64,
    high: f64,
    source: &'a str,
    usual: bool,
}

#[derive(Debug, Serialize)]
struct InfluenceJson<'a> {
    path: &'a str,
    margin_at_low_k: f64,
    margin_at_high_k: f64,
}

#[derive(Debug, Serialize)]
struct IndicesJson<'a> {
    paths: Vec<&'a str>,
    first: IndexJson,
    total: IndexJson,
}

#[derive(Debug, Serialize)]
struct IndexJson {
    share: f64,
    low: f64,
    high: f64,
}

impl From<Index> for IndexJson {
    fn from(i: Index) -> Self {
        Self {
            share: i.share,
            low: i.low,
            high: i.high,
        }
    }
}

/// The JSON of a spread.
///
/// *Errors*: none but those of the writer.
pub fn spread(view: &SpreadView, summary: &Summary) -> serde_json::Result<String> {
    let path = |doubt: usize| view.doubts[doubt].path.as_str();
    let groups = view.groups.iter().zip(&summary.groups);
    serde_json::to_string_pretty(&SpreadJson {
        head: view.from.head(view.title),
        seed: view.seed,
        finished: view.finished,
        nights: view.nights,
        failed: summary.failed,
        failed_mostly: summary.fault.as_ref().map(|fault| FaultJson {
            why: &fault.why,
            nights: fault.nights,
        }),
        headlines: (&summary.bands).into(),
        oil_mm2_s: summary.oil_mm2_s.map(Into::into),
        groups: groups
            .map(|(group, band)| GroupJson {
                group,
                at_departure_c: band.at_departure_c.map(Into::into),
                over_time_c: band.over_time_c.iter().map(|b| (*b).into()).collect(),
            })
            .collect(),
        unknowns: view
            .doubts
            .iter()
            .map(|d| UnknownJson {
                path: &d.path,
                unit: d.unit.as_deref(),
                value: d.value,
                low: d.low,
                high: d.high,
                source: &d.source,
                usual: d.usual,
            })
            .collect(),
        influences: summary
            .influences
            .iter()
            .map(|i| InfluenceJson {
                path: path(i.doubt),
                margin_at_low_k: i.at_low_k,
                margin_at_high_k: i.at_high_k,
            })
            .collect(),
        indices: summary
            .indices
            .iter()
            .map(|(group, found)| IndicesJson {
                paths: group.iter().map(|i| path(*i)).collect(),
                first: found.first.into(),
                total: found.total.into(),
            })
            .collect(),
    })
}
