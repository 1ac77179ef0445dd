//! `coldsoak compare`: several choices through one night, ranked.

use super::deliver::{deliver, may_deliver};
use super::exit_code::{Failure, Outcome};
use super::flags::{Flags, Output, Page, Simulated};
use super::session::ComparisonSession;
use super::set::Set;
use super::spare::spare;
use super::terminal;
use crate::report::{self, page};
use crate::study::case::Case;
use crate::study::compare::{CompareOptions, Comparison, compare};
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
    #[command(flatten)]
    set: Set,
    /// Compute each choice once, without chances
    #[arg(long, conflicts_with_all = ["samples", "seed", "chance"])]
    pub quick: bool,
    #[command(flatten)]
    simulated: Simulated,
    /// End with exit code 3 unless the recommended choice reaches the required chance
    #[arg(long)]
    pub require_ready: bool,
    #[command(flatten)]
    page: Page,
    #[command(flatten)]
    output: Output,
}

/// Runs the command.
pub fn run(typed: &Compare, flags: &Flags) -> Result<Outcome, Failure> {
    let session = ComparisonSession::open(typed.file.as_deref(), &typed.set, flags)?;
    may_deliver(&typed.output, Some(&typed.page))?;
    let options = CompareOptions {
        count: (!typed.quick).then(|| typed.simulated.count()),
        target: typed.simulated.target(),
        all_starts: typed.output.wide,
    };
    let compared = computed(&session, flags, options)?;
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
        folder.choices(&compared, title, typed.output.look.look())
    })?;
    Ok(Outcome::of(compared.is_reached() || !typed.require_ready))
}

/// The first folder of the usual name that does not exist.
fn free_folder() -> PathBuf {
    let numbered = (2..MOST_TRIES).map(|n| PathBuf::from(format!("{FOLDER}-{n}")));
    let mut names = std::iter::once(PathBuf::from(FOLDER)).chain(numbered);
    names
        .find(|path| !path.exists())
        .unwrap_or_else(|| PathBuf::from(FOLDER))
}

/// The choices of a comparison, computed and ranked.
///
/// *Errors*: ranges that no night can be drawn from, of all choices, before anything is computed; the first choice that
/// cannot be computed.
pub fn computed(
    session: &ComparisonSession,
    flags: &Flags,
    options: CompareOptions,
) -> Result<Comparison, Failure> {
    let loaded = &session.comparison;
    if options.count.is_some() {
        loaded.audited(&|night| uncertain_inputs(night).err().unwrap_or_default())?;
    }
    let choices: Vec<Case> = (loaded.choices.iter())
        .map(|choice| Case::whole(&choice.name, &choice.night))
        .collect();
    let bar = terminal::progress_bar(0, flags.quiet);
    let advance = terminal::advance(&bar);
    let compared = compare(
        &loaded.base.scenario,
        &choices,
        options,
        &spare()?,
        &advance,
    );
    bar.finish_and_clear();
    compared.map_err(|e| session.failure(&e.case, e.source))
}
