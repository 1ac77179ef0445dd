//! `coldsoak night`: one night in full.

use super::args::{Args, Output};
use super::outcome::{Failure, Outcome};
use super::{folder, opening, progress, say};
use crate::files::fault::FileError;
use crate::files::locate::{located, located_choice};
use crate::files::night::Loaded;
use crate::files::safe::write_file;
use crate::files::sources::Sources;
use crate::night::{NightError, run as run_night};
use crate::report::provenance::Provenance;
use crate::report::{json, night_text, page, refine_json, refine_text};
use crate::study::refine::{NIGHTS, refine};
use std::path::PathBuf;

/// What the help teaches with.
const EXAMPLES: &str = "Examples:\n  \
coldsoak night my-night.ron                  what became of it, in words\n  \
coldsoak night my-night.ron --out tonight    and findings, trace and charts in a folder\n  \
coldsoak night my-night.ron --report tonight.html   and a page to read and to print\n  \
coldsoak night my-night.ron --refine         how far the numbers move when computed more finely\n  \
coldsoak new - --unheated | coldsoak night -   from standard input\n\n\
Built in are demo, small-engine-top, six-after-flight, block-cooling, radial-underneath, thermostat-pad.";

/// What `night` was given.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub struct Night {
    /// A night file, `-` for standard input, or the name of a built-in night.
    pub night: String,
    /// Write a page (HTML, one file) with verdict, chart, engine map, schedule card and budget, to read and to print.
    #[arg(long, value_name = "FILE.html", group = "kept")]
    pub report: Option<PathBuf>,
    /// Compute it more finely, seven nights in all, and tell how far its findings may be off for want of it.
    #[arg(long, conflicts_with_all = ["out", "report", "require_ready"])]
    pub refine: bool,
    /// How it is told and kept.
    #[command(flatten)]
    pub output: Output,
}

/// Runs the command.
pub fn run(wanted: &Night, args: &Args) -> Result<Outcome, Failure> {
    let loaded = opening::loaded(&wanted.night, args)?;
    let from = opening::told(&loaded, &loaded.doubts(), args);
    if wanted.refine {
        return refined(wanted, args, &loaded, &from);
    }
    let (out, force) = (wanted.output.out.as_deref(), wanted.output.force);
    folder::may_write_folder(out, force)?;
    folder::may_write_report(wanted.report.as_deref(), out, force)?;
    let night =
        run_night(&loaded.scenario).map_err(|e| failed(e, &loaded.file, &loaded.sources, None))?;
    if let Some(path) = &wanted.report {
        let html = page::html(&night, &loaded.engine, &from)?;
        write_file(path, html.as_bytes(), wanted.output.force)?;
    }
    let findings = json::night(&from, &night).map_err(|e| Failure::Format(e.to_string()))?;
    if let Some(path) = &wanted.output.out {
        let title = &loaded.scenario.title;
        let nights = [(title.clone(), &night)];
        folder::write(
            path,
            wanted.output.force,
            title,
            &findings,
            &nights,
            wanted.output.paper.into(),
            &from,
        )?;
    }
    if wanted.output.json {
        say::out(&findings)?;
    } else {
        let mut text = night_text::told(&night, &loaded.engine, say::width());
        if let Some(path) = wanted.output.out.as_ref().filter(|_| !args.quiet) {
            text += &format!("\nFindings, trace and charts are in {}\n", path.display());
        }
        if let Some(path) = wanted.report.as_ref().filter(|_| !args.quiet) {
            text += &format!("\nThe report is in {}\n", path.display());
        }
        text += &format!("\n{}\n", from.told(say::width()));
        say::out(&text)?;
    }
    Ok(
        if wanted.output.require_ready && !night.findings.ready.ready_at_departure {
            Outcome::NotReady
        } else {
            Outcome::Done
        },
    )
}

/// Tells the same night computed more finely.
fn refined(
    wanted: &Night,
    args: &Args,
    loaded: &Loaded,
    from: &Provenance,
) -> Result<Outcome, Failure> {
    let bar = progress::bar(NIGHTS, args.quiet);
    let refinement = refine(&loaded.scenario, &|| bar.inc(1));
    bar.finish_and_clear();
    let refinement = refinement.map_err(|e| failed(e, &loaded.file, &loaded.sources, None))?;
    let told = if wanted.output.json {
        refine_json::told(&refinement, from).map_err(|e| Failure::Format(e.to_string()))?
    } else {
        let width = say::width();
        let text = refine_text::told(&refinement, width);
        format!("{text}\n{}\n", from.told(width))
    };
    say::out(&told)?;
    Ok(Outcome::Done)
}

/// What a night that was not computed means for the user: problems are told at their places in the files.
pub fn failed(e: NightError, file: &str, sources: &Sources, choice: Option<&str>) -> Failure {
    match e {
        NightError::Problems(problems) => {
            let mut faults = match choice {
                Some(choice) => located_choice(&problems, choice, file, sources),
                None => located(&problems, file, sources),
            };
            if let Some(choice) = choice {
                for fault in &mut faults {
                    fault.what = format!("{}, in the choice \"{choice}\"", fault.what);
                }
            }
            FileError::Faults(faults).into()
        }
        other => Failure::Night(other),
    }
}
