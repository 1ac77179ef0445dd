//! The folder a run leaves behind: findings, traces, charts.

use super::args::Output;
use super::outcome::Failure;
use crate::files::safe::{FINDINGS, NewFolder};
use crate::files::trace_csv;
use crate::night::Night;
use crate::quantity::Units;
use crate::report::chart::{self, ChartView};
use crate::report::chart_comparison;
use std::path::{Path, PathBuf};

/// The folder written when none is named; a number follows if it is taken.
const DEFAULT: &str = "coldsoak-out";
/// What the lines of a night's chart are.
const MEANS: &str = "solid and dashed: means over groups of parts";
/// Most numbers that are tried.
const MOST_TRIES: usize = 1000;

/// The folder to write to: the one that was named, or the first free one.
pub fn chosen(output: &Output) -> PathBuf {
    if let Some(out) = &output.out {
        return out.clone();
    }
    (1..MOST_TRIES)
        .map(|n| match n {
            1 => PathBuf::from(DEFAULT),
            n => PathBuf::from(format!("{DEFAULT}-{n}")),
        })
        .find(|path| !path.exists())
        .unwrap_or_else(|| PathBuf::from(DEFAULT))
}

/// Writes ranked nights: `findings.json`, a chart of all, and a trace and a chart of each.
///
/// *Errors*: the folder is there and not to be replaced, or cannot be written; a chart cannot be drawn.
pub fn write(
    path: &Path,
    force: bool,
    title: &str,
    json: &str,
    nights: &[(String, &Night)],
) -> Result<(), Failure> {
    let folder = NewFolder::begin(path, force)?;
    folder.write(FINDINGS, json.as_bytes())?;
    if let Some((_, first)) = nights.first().filter(|_| nights.len() > 1) {
        let traces: Vec<_> = nights
            .iter()
            .map(|(name, night)| (name.as_str(), &night.trace))
            .collect();
        let subtitle = "the coldest engine part of each choice";
        let svg = chart_comparison::coldest_parts(&traces, &view(first, title, subtitle))?;
        picture(&folder, "comparison", &svg)?;
    }
    for (number, (name, night)) in nights.iter().enumerate() {
        let stem = if nights.len() > 1 {
            format!("{:02}-{}", number + 1, slug(name))
        } else {
            "night".to_owned()
        };
        let csv = trace_csv::written(&night.trace).map_err(|e| Failure::Format(e.to_string()))?;
        folder.write(&format!("{stem}.csv"), &csv)?;
        let subtitle = match title == name {
            true => MEANS.to_owned(),
            false => format!("{title} · {MEANS}"),
        };
        let svg = chart::night(&night.trace, &view(night, name, &subtitle))?;
        picture(&folder, &stem, &svg)?;
    }
    folder.finish()?;
    Ok(())
}

fn view<'a>(night: &'a Night, title: &'a str, subtitle: &'a str) -> ChartView<'a> {
    let scenario = night.scenario.scenario();
    let units: Units = scenario.units;
    ChartView {
        title,
        subtitle,
        clock: night.scenario.clock(),
        units,
        threshold: scenario.question.threshold,
    }
}

fn picture(folder: &NewFolder, stem: &str, svg: &str) -> Result<(), Failure> {
    folder.write(&format!("{stem}.svg"), svg.as_bytes())?;
    #[cfg(feature = "png")]
    folder.write(
        &format!("{stem}.png"),
        &crate::report::png::from_svg(svg, 1.5)?,
    )?;
    Ok(())
}

/// A name as part of a file name: letters and digits, the rest as single dashes.
fn slug(name: &str) -> String {
    let mut slug = String::new();
    for c in name.to_lowercase().chars() {
        if c.is_ascii_alphanumeric() {
            slug.push(c);
        } else if !slug.ends_with('-') && !slug.is_empty() {
            slug.push('-');
        }
    }
    slug.trim_end_matches('-').chars().take(40).collect()
}
