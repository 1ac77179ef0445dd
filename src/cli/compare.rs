//! `coldsoak compare`: several choices through one night, ranked.

use super::deliver::{deliver, may_deliver};
use super::exit_code::{Failure, Outcome};
use super::flags::{Flags, Output, Page};
use super::session::ComparisonSession;
use super::terminal;
use crate::report::{self, page};
use crate::study::case::Case;
use crate::study::compare::{Comparison, compare};
use crate::study::paired::paired;
use crate::study::uncertain_inputs::uncertain_inputs;
use std::path::PathBuf;

/// Examples in the help.
const EXAMPLES: &str = "Examples:\n  \
coldsoak compare                               the built-in comparison of seven choices\n  \
coldsoak compare my-choices.ron --units degF   your own choices\n  \
coldsoak compare my-choices.ron --report choices.html   and a page to read and to print\n  \
coldsoak compare my-choices.ron --json         for another program\n  \
coldsoak catalogue comparison demo > my-choices.ron   a comparison to change\n\n\
Writes a folder with findings.json, a trace (CSV) and charts (SVG, PNG, CSV) of each choice, and provenance.json.";

/// The folder that is written when none is named and no JSON is printed; a number follows if it exists.
const FOLDER: &str = "coldsoak-out";
/// The most numbers that are tried.
const MOST_TRIES: usize = 1000;

/// Flags of `compare`.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub struct Compare {
    /// A comparison file, `-` for standard input, or a built-in name [default: demo]
    pub file: Option<PathBuf>,
    /// Compute each choice once, without simulated nights
    #[arg(long)]
    pub quick: bool,
    /// Simulated nights of each choice
    #[arg(long, value_name = "N", default_value_t = 64, conflicts_with = "quick",
        value_parser = clap::value_parser!(u32).range(8..=65_536))]
    pub samples: u32,
    /// Seed of the simulated nights
    #[arg(long, value_name = "N", default_value_t = 1, conflicts_with = "quick")]
    pub seed: u32,
    /// End with exit code 3 if no choice is ready at departure
    #[arg(long)]
    pub require_ready: bool,
    #[command(flatten)]
    page: Page,
    #[command(flatten)]
    output: Output,
}

/// Runs the command.
pub fn run(typed: &Compare, flags: &Flags) -> Result<Outcome, Failure> {
    let session = ComparisonSession::open(typed.file.as_deref(), flags)?;
    may_deliver(&typed.output, Some(&typed.page))?;
    let samples = (!typed.quick).then_some((typed.samples, typed.seed));
    let compared = computed(&session, flags, samples)?;
    let (base, from) = (&session.comparison.base, &session.from);
    let title = &base.scenario.title;
    let report = report::compare::report(title, &compared, from);
    let page = || page::of_comparison(report.clone(), &compared, &base.engine, from);
    let page = Some((&typed.page, &page as &dyn Fn() -> _));
    let mut output = typed.output.clone();
    if !output.json {
        output.out.get_or_insert_with(free_folder);
    }
    let holds = "Findings, traces and charts";
    deliver(&report, page, &output, flags, holds, |folder| {
        folder.choices(&compared.nights, title, typed.output.theme)
    })?;
    let any = (compared.nights.iter()).any(|(_, night)| night.findings.ready.ready_at_departure);
    Ok(Outcome::of(any || !typed.require_ready))
}

/// The first folder of the usual name that does not exist.
fn free_folder() -> PathBuf {
    let numbered = (2..MOST_TRIES).map(|n| PathBuf::from(format!("{FOLDER}-{n}")));
    let mut names = std::iter::once(PathBuf::from(FOLDER)).chain(numbered);
    names
        .find(|path| !path.exists())
        .unwrap_or_else(|| PathBuf::from(FOLDER))
}

/// The choices of a comparison, computed and ranked, and over so many simulated nights of this seed.
///
/// *Errors*: ranges that no night can be drawn from, of all choices, before anything is computed; the first choice that
/// cannot be computed.
pub fn computed(
    session: &ComparisonSession,
    flags: &Flags,
    samples: Option<(u32, u32)>,
) -> Result<Comparison, Failure> {
    let loaded = &session.comparison;
    if samples.is_some() {
        loaded.audited(&|night| uncertain_inputs(night).err().unwrap_or_default())?;
    }
    let choices: Vec<Case> = (loaded.choices.iter())
        .map(|(name, night)| Case::whole(name, night))
        .collect();
    let night = &loaded.base.scenario;
    let each = 1 + samples.map_or(0, |(nights, _)| nights as usize);
    let bar = terminal::progress_bar(choices.len() * each, flags.quiet);
    let compared = compare(night, &choices, &|| bar.inc(1)).and_then(|mut compared| {
        if let Some((nights, seed)) = samples {
            let find = |name: &String| choices.iter().find(|choice| choice.name == *name);
            let ranked: Vec<_> = (compared.nights.iter())
                .filter_map(|(name, _)| find(name))
                .collect();
            compared.paired = Some(paired(night, &ranked, nights, seed, &|| bar.inc(1))?);
        }
        Ok(compared)
    });
    bar.finish_and_clear();
    compared.map_err(|e| session.failure(&e.case, e.source))
}
