//! A result to its outputs: the terminal as text or JSON, a page, a folder of findings, traces and charts.

use super::exit_code::Failure;
use super::flags::{Flags, Output, Page, flag_error};
use super::terminal;
use crate::files::safe::{FINDINGS, NewFolder, PROVENANCE, may_replace, may_write, write_file};
use crate::files::sources::sha256;
use crate::files::trace_csv;
use crate::night::Night;
use crate::picture::chart::comparison::{choices, coldest_parts};
use crate::picture::chart::{self, Chart, ChartView, Show};
use crate::picture::draw::{Look, png, svg};
use crate::report::Report;
use crate::report::provenance::{InputJson, Provenance};
use crate::report::recommend::headline;
use crate::study::compare::Comparison;
use serde::Serialize;
use std::path::Path;

/// The name of standard output, where a file could be written.
const STANDARD: &str = "-";
/// The name of the chart of all choices in a folder.
pub const CHOICES: &str = "comparison";
/// The most letters of a name that stand in the name of a file.
const LONGEST_NAME: usize = 40;

/// The file that was requested for the page of a result, and the report with what only its page shows.
pub type PageOf<'a> = (&'a Page, &'a dyn Fn() -> Report);

/// Refuses outputs before anything is computed.
///
/// *Errors*: the folder or the page exists and is not to be replaced, is standard output, or could not be written there.
pub fn may_deliver(output: &Output, page: Option<&Page>) -> Result<(), Failure> {
    if let Some(out) = &output.out {
        may_write_folder(out, output.force)?;
    }
    match page.and_then(|page| page.report.as_deref()) {
        Some(report) => may_write_report(report, output.out.as_deref(), output.force),
        None => Ok(()),
    }
}

/// Refuses a folder before anything is computed.
///
/// *Errors*: it exists and is not to be replaced, or is no folder but standard output.
pub fn may_write_folder(out: &Path, force: bool) -> Result<(), Failure> {
    if out.as_os_str() == STANDARD {
        let message = "`-` is standard output, and a folder is required.";
        return Err(flag_error("--out", message, "--out tonight"));
    }
    Ok(may_replace(out, force)?)
}

fn may_write_report(report: &Path, out: Option<&Path>, force: bool) -> Result<(), Failure> {
    let refused = |message: String| flag_error("--report", message, "--report tonight.html");
    if report.as_os_str() == STANDARD {
        let message = "`-` is standard output, and a file is required.";
        return Err(refused(message.to_owned()));
    }
    // A night file given in its place would be replaced by a page.
    let ending = report.extension().map(|e| e.to_ascii_lowercase());
    if !ending.is_some_and(|e| e == "html" || e == "htm") {
        return Err(refused(format!(
            "{} does not end in .html.",
            report.display()
        )));
    }
    may_write(report, force)?;
    let real = |path: &Path| path.canonicalize().ok();
    let parent = report.parent().filter(|p| !p.as_os_str().is_empty());
    match (real(parent.unwrap_or(Path::new("."))), out.and_then(real)) {
        (Some(parent), Some(out)) if parent.starts_with(&out) => Err(refused(format!(
            "{} lies in the folder of --out, which is replaced as a whole.",
            report.display()
        ))),
        _ => Ok(()),
    }
}

/// Writes the page and the folder that were requested, then prints the result and where they are. `fill` writes the
/// files of the folder besides the findings, which `holds` names.
///
/// *Errors*: a picture cannot be drawn; something cannot be written.
pub fn deliver(
    report: &Report,
    page: Option<PageOf>,
    output: &Output,
    flags: &Flags,
    holds: &str,
    fill: impl FnOnce(&mut ResultFolder) -> Result<(), Failure>,
) -> Result<(), Failure> {
    let page = page.and_then(|(page, report)| Some((page.report.as_ref()?, report)));
    if let Some((path, report)) = page {
        write_file(path, report().page().as_bytes(), output.force)?;
    }
    if let Some((path, from)) = output.out.as_ref().zip(report.head.as_ref()) {
        let mut folder = ResultFolder::begin(path, output.force, from)?;
        folder.write(FINDINGS, report.json().as_bytes())?;
        fill(&mut folder)?;
        folder.finish()?;
    }
    if output.json {
        return terminal::print(&report.json());
    }
    let mut text = report.text(terminal::width(output.wide));
    if let Some(path) = output.out.as_ref().filter(|_| !flags.quiet) {
        text += &format!("\n{holds} are in {}\n", path.display());
    }
    if let Some((path, _)) = page.filter(|_| !flags.quiet) {
        text += &format!("\nThe report is in {}\n", path.display());
    }
    terminal::print(&text)
}

/// A folder of results that is being written, and the hash of what is in it.
pub struct ResultFolder<'a> {
    folder: NewFolder,
    from: &'a Provenance,
    files: Vec<InputJson>,
}

/// Where the files of a folder come from, for those (CSV, PNG) that cannot hold it themselves.
#[derive(Serialize)]
struct FolderJson<'a> {
    #[serde(flatten)]
    from: &'a Provenance,
    files: &'a [InputJson],
}

impl<'a> ResultFolder<'a> {
    /// A new folder: nothing appears at its path before [`ResultFolder::finish`].
    ///
    /// *Errors*: the folder exists and is not to be replaced, or cannot be written.
    pub fn begin(path: &Path, force: bool, from: &'a Provenance) -> Result<Self, Failure> {
        Ok(Self {
            folder: NewFolder::begin(path, force)?,
            from,
            files: Vec::new(),
        })
    }

    /// Writes a file of it.
    ///
    /// *Errors*: it cannot be written.
    pub fn write(&mut self, name: &str, bytes: &[u8]) -> Result<(), Failure> {
        self.folder.write(name, bytes)?;
        self.files.push(InputJson {
            name: name.to_owned(),
            sha256: sha256(bytes),
        });
        Ok(())
    }

    /// Writes a chart, its PNG copy, and its numbers.
    ///
    /// *Errors*: it cannot be drawn or written.
    pub fn picture(&mut self, stem: &str, drawn: &Chart) -> Result<(), Failure> {
        let svg = svg::file(&drawn.picture, &self.from.in_lines());
        self.write(&format!("{stem}.csv"), &drawn.csv)?;
        self.write(&format!("{stem}.svg"), svg.as_bytes())?;
        self.write(&format!("{stem}.png"), &png(&drawn.picture, 1.0)?)
    }

    /// Writes the trace and the charts of one night.
    ///
    /// *Errors*: a chart cannot be drawn; a file cannot be written.
    pub fn night(
        &mut self,
        stem: &str,
        night: &Night,
        title: &str,
        subtitle: &str,
        look: Look,
    ) -> Result<(), Failure> {
        self.write(&format!("{stem}.csv"), &trace_csv::written(&night.trace)?)?;
        let view = ChartView::of(night, title, subtitle, look);
        for show in Show::ALL {
            let drawn = chart::of_night(show, &night.trace, &view);
            self.picture(&format!("{stem}-{}", show.word()), &drawn)?;
        }
        Ok(())
    }

    /// Writes a chart of all choices, then the trace and the charts of each.
    ///
    /// *Errors*: a chart cannot be drawn; a file cannot be written.
    pub fn choices(
        &mut self,
        comparison: &Comparison,
        title: &str,
        look: Look,
    ) -> Result<(), Failure> {
        let nights = &comparison.nights;
        if nights.len() > 1 {
            self.picture(CHOICES, &choices_chart(comparison, title, look))?;
        }
        for (number, (name, night)) in nights.iter().enumerate() {
            let stem = match nights.len() {
                1 => "night".to_owned(),
                _ => format!("{:02}-{}", number + 1, slug(name)),
            };
            let subtitle = if title == name { "" } else { title };
            self.night(&stem, night, name, subtitle, look)?;
        }
        Ok(())
    }

    /// Puts the folder in its place, with `provenance.json`.
    ///
    /// *Errors*: it cannot be written.
    pub fn finish(self) -> Result<(), Failure> {
        let json = serde_json::to_string_pretty(&FolderJson {
            from: self.from,
            files: &self.files,
        })?;
        self.folder.write(PROVENANCE, json.as_bytes())?;
        Ok(self.folder.finish()?)
    }
}

/// The chart of the coldest part of each choice, under what was found.
pub fn choices_chart(comparison: &Comparison, title: &str, look: Look) -> Chart {
    let found = headline(comparison).unwrap_or_default();
    let view = ChartView {
        headline: &found,
        ..ChartView::of(&comparison.nights[0].1, title, "", look)
    };
    coldest_parts(&choices(comparison), &view)
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
    slug.trim_end_matches('-')
        .chars()
        .take(LONGEST_NAME)
        .collect()
}
