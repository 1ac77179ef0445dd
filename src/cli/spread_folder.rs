//! The folder a spread leaves behind: findings, a row for each night, a chart.

use super::folder::ResultFolder;
use super::outcome::Failure;
use crate::files::safe::FINDINGS;
use crate::night::Night;
use crate::report::chart::{ChartView, bands, sensitivity};
use crate::report::colour::Theme;
use crate::report::provenance::Provenance;
use crate::study::summary::Summary;
use crate::study::uncertain_inputs::UncertainInput;
use std::path::Path;

/// Writes it.
///
/// *Errors*: the folder is there and not to be replaced, or cannot be written; the chart cannot be drawn.
#[expect(clippy::too_many_arguments, reason = "what a folder holds")]
pub fn write(
    path: &Path,
    force: bool,
    json: &str,
    rows: &[u8],
    night: &Night,
    summary: &Summary,
    doubts: &[UncertainInput],
    paper: Theme,
    from: &Provenance,
) -> Result<(), Failure> {
    let mut folder = ResultFolder::begin(path, force, from)?;
    folder.write(FINDINGS, json.as_bytes())?;
    folder.write("nights.csv", rows)?;
    let view = ChartView::of(night, &night.scenario.scenario().title, "", paper);
    folder.picture("bands", &bands::groups(night, summary, &view)?)?;
    let drawn = sensitivity::sensitivity(summary, doubts, &view)?;
    folder.picture("sensitivity", &drawn)?;
    folder.finish()
}
