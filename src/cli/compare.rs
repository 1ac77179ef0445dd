//! `coldsoak compare`: several choices through one night, ranked.

use super::args::{Args, Output};
use super::outcome::{Failure, Outcome};
use super::{folder, night, opening, progress, say};
use crate::files::comparison::{
    LoadedComparison, load_builtin_comparison, load_named_comparison_from,
};
use crate::files::safe::write_file;
use crate::report::{comparison_text, json, page};
use crate::study::choice::Choice;
use crate::study::compare::{Comparison, compare};
use crate::study::paired::paired;
use crate::study::uncertain_inputs::uncertain_inputs;
use std::path::PathBuf;

/// What the help teaches with.
const EXAMPLES: &str = "Examples:\n  \
coldsoak compare                               the built-in comparison of seven choices\n  \
coldsoak compare my-choices.ron --units degF   your own choices\n  \
coldsoak compare my-choices.ron --report choices.html   and a page to read and to print\n  \
coldsoak compare my-choices.ron --json         for another program\n  \
coldsoak catalogue comparison demo > my-choices.ron   a comparison to change\n\n\
Writes a folder with findings.json, a trace (CSV) and charts (SVG, PNG, CSV) for each choice, and provenance.json,\n\
which says what they were made from.";

/// What `compare` was given.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub struct Compare {
    /// A comparison file, `-` for standard input, or the name of a built-in one; the built-in `demo` if not given.
    pub file: Option<PathBuf>,
    /// Write a page (HTML, one file) with advice, table, chart, the schedule card of what is advised, to read and to print.
    #[arg(long, value_name = "FILE.html", group = "kept")]
    pub report: Option<PathBuf>,
    /// Leave out the bands over plausible nights and the verdicts that rest on them.
    #[arg(long)]
    pub quick: bool,
    /// Plausible nights a choice.
    #[arg(long, value_name = "N", default_value_t = 64, conflicts_with = "quick",
        value_parser = clap::value_parser!(u32).range(8..=65_536))]
    pub nights: u32,
    /// The seed of the plausible nights; the same seed gives the same answer.
    #[arg(long, value_name = "N", default_value_t = 1, conflicts_with = "quick")]
    pub seed: u32,
    /// How it is told and kept.
    #[command(flatten)]
    pub output: Output,
}

/// The comparison that runs when none is named.
const BUILT_IN: &str = "demo";

/// Runs the command.
pub fn run(wanted: &Compare, args: &Args) -> Result<Outcome, Failure> {
    let loaded = match &wanted.file {
        Some(file) => load_named_comparison_from(file, args.outside())?,
        None => load_builtin_comparison(BUILT_IN)?,
    };
    loaded.audit()?;
    let base = &loaded.base;
    let from = opening::told(base, &loaded.doubts(), args);
    let (out, force) = (wanted.output.out.as_deref(), wanted.output.force);
    folder::may_write_folder(out, force)?;
    folder::may_write_report(wanted.report.as_deref(), out, force)?;
    let plausible = Plausible {
        nights: wanted.nights,
        seed: wanted.seed,
    };
    let compared = computed(&loaded, args, (!wanted.quick).then_some(plausible))?;

    let title = &base.scenario.title;
    if let Some(path) = &wanted.report {
        let html = page::choices_html(title, &compared, &base.engine, &from)?;
        write_file(path, html.as_bytes(), wanted.output.force)?;
    }
    let findings =
        json::comparison(title, &from, &compared).map_err(|e| Failure::Format(e.to_string()))?;
    let written = (!wanted.output.json || wanted.output.out.is_some())
        .then(|| folder::chosen(&wanted.output));
    if let Some(path) = &written {
        let nights: Vec<_> = compared
            .nights
            .iter()
            .map(|(name, night)| (name.clone(), night))
            .collect();
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
        let mut text = comparison_text::told(title, &compared, say::width());
        if let Some(path) = written.filter(|_| !args.quiet) {
            text += &format!("\nFindings, traces and charts are in {}\n", path.display());
        }
        if let Some(path) = wanted.report.as_ref().filter(|_| !args.quiet) {
            text += &format!("\nThe report is in {}\n", path.display());
        }
        text += &format!("\n{}\n", from.told(say::width()));
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

/// Plausible nights of each choice.
pub struct Plausible {
    /// How many.
    pub nights: u32,
    /// The seed of their points.
    pub seed: u32,
}

/// The choices of a comparison, computed and ranked, and through plausible nights if they are asked.
///
/// *Errors*: ranges that no plausible night can be drawn from, of all choices, before anything is computed; the first
/// choice that cannot be computed.
pub fn computed(
    loaded: &LoadedComparison,
    args: &Args,
    plausible: Option<Plausible>,
) -> Result<Comparison, Failure> {
    let (choices, base) = (choices(loaded, args), &loaded.base);
    if plausible.is_some() {
        loaded.audited(&|night| uncertain_inputs(night).err().unwrap_or_default())?;
    }
    let each = 1 + plausible.as_ref().map_or(0, |p| p.nights as usize);
    let bar = progress::bar(choices.len() * each, args.quiet);
    let compared = compare(&choices, &|| bar.inc(1)).and_then(|mut compared| {
        if let Some(Plausible { nights, seed }) = plausible {
            let ranked = ranked(&compared, &choices);
            compared.paired = Some(paired(&ranked, nights, seed, &|| bar.inc(1))?);
        }
        Ok(compared)
    });
    bar.finish_and_clear();
    compared.map_err(|e| night::failed(e.source, &base.file, &base.sources, Some(&e.choice)))
}

/// The choices in the order of their ranks.
fn ranked<'a>(compared: &Comparison, choices: &'a [Choice]) -> Vec<&'a Choice> {
    let names = compared.nights.iter().map(|(name, _)| name);
    names
        .filter_map(|name| choices.iter().find(|choice| choice.name == *name))
        .collect()
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
