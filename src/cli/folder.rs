//! The folder a run leaves behind: findings, traces, charts.

use super::args::Output;
use super::outcome::Failure;
use crate::files::fault::Fault;
use crate::files::safe::{FINDINGS, NewFolder, PROVENANCE, may_replace, may_write};
use crate::files::sources::sha256;
use crate::files::trace_csv;
use crate::night::Night;
use crate::report::chart::{self, ChartView, Picture, Show};
use crate::report::colour::Theme;
use crate::report::provenance::{InputJson, Provenance};
use serde::Serialize;
use std::path::{Path, PathBuf};

/// The folder written when none is named; a number follows if it is taken.
const DEFAULT: &str = "coldsoak-out";
/// Standard output, where a file is written.
const STANDARD: &str = "-";
/// What the chart of all choices is called in a folder.
pub const CHOICES: &str = "comparison";
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

/// Refuses a folder before anything is computed.
///
/// *Errors*: the folder that was named is there and not to be replaced, or is no folder but standard output.
pub fn may_write_folder(out: Option<&Path>, force: bool) -> Result<(), Failure> {
    match out {
        Some(path) if path.as_os_str() == STANDARD => Err(Fault::of(
            "the command line",
            "--out: a folder is wanted, and `-` is standard output",
        )
        .help("name a folder, as in --out tonight")
        .into()),
        Some(path) => Ok(may_replace(path, force)?),
        None => Ok(()),
    }
}

/// Refuses a report before anything is computed; `out` is the folder that is written besides.
///
/// *Errors*: the file does not end in .html or .htm, is there and not to be replaced, is no plain file, has no folder to go to or one that is replaced
/// as a whole, or is standard output.
pub fn may_write_report(
    report: Option<&Path>,
    out: Option<&Path>,
    force: bool,
) -> Result<(), Failure> {
    let Some(path) = report else {
        return Ok(());
    };
    let refused = |what: String| -> Result<(), Failure> {
        let fault = Fault::of("the command line", what);
        Err(fault
            .help("name a file, as in --report tonight.html")
            .into())
    };
    if path.as_os_str() == STANDARD {
        return refused("--report: a file is wanted, and `-` is standard output".to_owned());
    }
    // A night file given in its place would be replaced by a page.
    let ending = path.extension().map(|e| e.to_string_lossy().to_lowercase());
    if !matches!(ending.as_deref(), Some("html" | "htm")) {
        return refused(format!(
            "--report: {} does not end in .html",
            path.display()
        ));
    }
    may_write(path, force)?;
    let real = |path: &Path| path.canonicalize().ok();
    let parent = path.parent().filter(|p| !p.as_os_str().is_empty());
    let parent = real(parent.unwrap_or(Path::new(".")));
    match (parent, out.and_then(real)) {
        (Some(parent), Some(out)) if parent.starts_with(&out) => refused(format!(
            "--report: {} lies in the folder of --out, which is replaced as a whole",
            path.display()
        )),
        _ => Ok(()),
    }
}

/// Writes ranked nights: `findings.json`, a chart of all, a trace and charts of each, and
/// `provenance.json` with the hash of every file.
///
/// *Errors*: the folder is there and not to be replaced, or cannot be written; a chart cannot be drawn.
pub fn write(
    path: &Path,
    force: bool,
    title: &str,
    json: &str,
    nights: &[(String, &Night)],
    paper: Theme,
    from: &Provenance,
) -> Result<(), Failure> {
    let mut folder = ResultFolder::begin(path, force, from)?;
    folder.write(FINDINGS, json.as_bytes())?;
    if let Some((_, first)) = nights.first().filter(|_| nights.len() > 1) {
        let traces: Vec<_> = nights
            .iter()
            .map(|(name, night)| (name.as_str(), &night.trace))
            .collect();
        let drawn =
            chart::comparison::coldest_parts(&traces, &ChartView::of(first, title, "", paper))?;
        folder.picture(CHOICES, &drawn)?;
    }
    for (number, (name, night)) in nights.iter().enumerate() {
        let stem = if nights.len() > 1 {
            format!("{:02}-{}", number + 1, slug(name))
        } else {
            "night".to_owned()
        };
        let csv = trace_csv::written(&night.trace).map_err(|e| Failure::Format(e.to_string()))?;
        folder.write(&format!("{stem}.csv"), &csv)?;
        let subtitle = if title == name { "" } else { title };
        for show in Show::ALL {
            let drawn = chart::of_night(
                show,
                &night.trace,
                &ChartView::of(night, name, subtitle, paper),
            )?;
            folder.picture(&format!("{stem}-{}", show.word()), &drawn)?;
        }
    }
    folder.finish()
}

/// A folder that is being written, and the hash of what is in it.
pub struct ResultFolder<'a> {
    folder: NewFolder,
    from: &'a Provenance,
    files: Vec<InputJson>,
}

/// Where the files of a folder come from, for those (CSV, PNG) that cannot say it themselves.
#[derive(Serialize)]
struct FolderJson<'a> {
    #[serde(flatten)]
    from: &'a Provenance,
    files: &'a [InputJson],
}

impl<'a> ResultFolder<'a> {
    /// A folder to come: nothing stands at its path before [`ResultFolder::finish`].
    ///
    /// *Errors*: the folder is there and not to be replaced, or cannot be written.
    pub fn begin(path: &Path, force: bool, from: &'a Provenance) -> Result<Self, Failure> {
        Ok(Self {
            folder: NewFolder::begin(path, force)?,
            from,
            files: Vec::new(),
        })
    }

    /// A file of it.
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

    /// A chart, its PNG copy, and its numbers.
    ///
    /// *Errors*: it cannot be drawn or written.
    pub fn picture(&mut self, stem: &str, drawn: &Picture) -> Result<(), Failure> {
        let svg = self.from.in_svg(&drawn.svg);
        self.write(&format!("{stem}.csv"), &drawn.csv)?;
        self.write(&format!("{stem}.svg"), svg.as_bytes())?;
        #[cfg(feature = "png")]
        self.write(
            &format!("{stem}.png"),
            &crate::report::png::from_svg(&svg, 1.5)?,
        )?;
        Ok(())
    }

    /// Puts the folder in its place, with `provenance.json`.
    ///
    /// *Errors*: it cannot be written.
    pub fn finish(self) -> Result<(), Failure> {
        let told = serde_json::to_string_pretty(&FolderJson {
            from: self.from,
            files: &self.files,
        })
        .map_err(|e| Failure::Format(e.to_string()))?;
        self.folder.write(PROVENANCE, told.as_bytes())?;
        self.folder.finish()?;
        Ok(())
    }
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
