//! The folder a spread leaves behind: findings, a row for each night, a chart.

use super::folder::Kept;
use super::outcome::Failure;
use crate::files::safe::FINDINGS;
use crate::night::Night;
use crate::report::chart::ChartView;
use crate::report::chart_bands;
use crate::report::provenance::Provenance;
use crate::study::summary::Summary;
use std::path::Path;

/// Writes it.
///
/// *Errors*: the folder is there and not to be replaced, or cannot be written; the chart cannot be drawn.
pub fn write(
    path: &Path,
    force: bool,
    json: &str,
    rows: &[u8],
    night: &Night,
    summary: &Summary,
    from: &Provenance,
) -> Result<(), Failure> {
    let mut folder = Kept::begin(path, force, from)?;
    folder.write(FINDINGS, json.as_bytes())?;
    folder.write("nights.csv", rows)?;
    let scenario = night.scenario.scenario();
    let view = ChartView {
        title: &scenario.title,
        subtitle: "the three coldest groups of parts: half of the plausible nights lie below the thick line, \
one in ten below and above the dotted ones",
        clock: night.scenario.clock(),
        units: scenario.units,
        threshold: scenario.question.threshold,
    };
    let svg = chart_bands::groups(night, summary, &view)?;
    folder.picture("bands", &svg)?;
    folder.finish()
}
