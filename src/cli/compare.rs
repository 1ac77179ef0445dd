//! `coldsoak compare`: several choices through one night, ranked.

use super::args::{Args, Output};
use super::outcome::{Failure, Outcome};
use super::{check, folder, night, progress, say};
use crate::files::comparison::{LoadedComparison, load_builtin_comparison, load_named_comparison};
use crate::report::{comparison_text, json};
use crate::study::compare::{Choice, compare};
use std::path::PathBuf;

/// What `compare` was given.
#[derive(Debug, clap::Args)]
pub struct Compare {
    /// A comparison file, or the name of a built-in one; the built-in `demo` if not given.
    pub file: Option<PathBuf>,
    /// How it is told and kept.
    #[command(flatten)]
    pub output: Output,
}

/// The comparison that runs when none is named.
const BUILT_IN: &str = "demo";

/// Runs the command.
pub fn run(wanted: &Compare, args: &Args) -> Result<Outcome, Failure> {
    let loaded = match &wanted.file {
        Some(file) => load_named_comparison(file)?,
        None => load_builtin_comparison(BUILT_IN)?,
    };
    loaded.audit()?;
    let base = &loaded.base;
    let choices = choices(&loaded, args);
    if !args.quiet {
        check::warn(
            &loaded
                .choices
                .iter()
                .map(|(n, s)| (Some(n.clone()), s.clone()))
                .collect::<Vec<_>>(),
        );
    }
    let bar = progress::bar(choices.len(), args.quiet);
    let compared = compare(&choices, &|| bar.inc(1));
    bar.finish_and_clear();
    let compared = compared
        .map_err(|e| night::failed(e.source, &base.file, &base.sources, Some(&e.choice)))?;

    let title = &base.scenario.title;
    let inputs = night::inputs(&base.inputs);
    let findings =
        json::comparison(title, &inputs, &compared).map_err(|e| Failure::Format(e.to_string()))?;
    let written = (!wanted.output.json || wanted.output.out.is_some())
        .then(|| folder::chosen(&wanted.output));
    if let Some(path) = &written {
        let nights: Vec<_> = compared
            .nights
            .iter()
            .map(|(name, night)| (name.clone(), night))
            .collect();
        folder::write(path, wanted.output.force, title, &findings, &nights)?;
    }
    if wanted.output.json {
        say::out(&findings)?;
    } else {
        let mut text = comparison_text::told(title, &compared, say::width());
        if let Some(path) = written.filter(|_| !args.quiet) {
            text += &format!("\nFindings, traces and charts are in {}\n", path.display());
        }
        say::out(&text)?;
    }
    let any = compared
        .nights
        .iter()
        .any(|(_, night)| night.findings.ready.ready_at_departure);
    Ok(if wanted.output.require_ready && !any {
        Outcome::NotReady
    } else {
        Outcome::Done
    })
}

fn choices(loaded: &LoadedComparison, args: &Args) -> Vec<Choice> {
    loaded
        .choices
        .iter()
        .map(|(name, scenario)| {
            let mut scenario = scenario.clone();
            if let Some(degrees) = args.units {
                scenario.units = degrees.into();
            }
            Choice {
                name: name.clone(),
                scenario,
            }
        })
        .collect()
}
