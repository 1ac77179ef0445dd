//! `coldsoak spread`: one night over all that is uncertain about it.

use super::deliver::{deliver, may_deliver};
use super::exit_code::{Failure, Outcome};
use super::flags::{Flags, Output, Simulated, flag_error};
use super::sample_store::{self, SampleStore};
use super::session::Session;
use super::set::Set;
use super::terminal;
use crate::night::{NightError, run as run_night};
use crate::picture::chart::{ChartView, bands, sensitivity};
use crate::report::samples;
use crate::report::spread::{Spread as SpreadResult, as_written};
use crate::study::sample_result::SampleResult;
use crate::study::sobol::FEWEST;
use crate::study::spread::{Purpose, Spread as Study, Task};
use crate::study::summary::{Mixed, Summary, indexed};
use std::path::PathBuf;

/// Flags of `spread`.
#[derive(Debug, clap::Args)]
pub struct Spread {
    /// A night file, `-` for standard input, or the name of a built-in night
    pub night: String,
    #[command(flatten)]
    set: Set,
    #[command(flatten)]
    simulated: Simulated,
    /// Compute Sobol' indices of the strongest inputs, in ten times the nights
    #[arg(long)]
    pub sobol: bool,
    /// Keep the nights in this file, and continue from it if it exists
    #[arg(long, value_name = "FILE.db")]
    pub study: Option<PathBuf>,
    #[command(flatten)]
    output: Output,
}

/// Runs the command.
pub fn run(typed: &Spread, flags: &Flags) -> Result<Outcome, Failure> {
    let session = Session::open(&typed.night, &typed.set, flags)?;
    may_deliver(&typed.output, None)?;
    if typed.sobol && typed.simulated.samples < FEWEST {
        let message = format!("indices need {FEWEST} simulated nights or more.");
        return Err(flag_error(
            "--sobol",
            message,
            &format!("--sobol --samples {FEWEST}"),
        ));
    }
    let (scenario, from) = (&session.night.scenario, &session.from);
    let study = Study::of(scenario, typed.simulated.seed)
        .map_err(|p| session.failure(NightError::Problems(p)))?;
    let nominal = run_night(scenario).map_err(|e| session.failure(e))?;
    let mut store = match &typed.study {
        Some(path) => SampleStore::open(
            path,
            scenario,
            &SampleResult::of(&nominal),
            typed.simulated.seed,
        )?,
        None => SampleStore::in_memory(),
    };
    sample_store::stop_on_interrupt();

    let (samples, singles) = (study.samples(typed.simulated.samples), study.singles());
    let mut mixed: Option<(Vec<Vec<usize>>, Vec<Task>)> = None;
    let all = [samples.as_slice(), &singles].concat();
    let bar = terminal::progress_bar(all.len(), flags.quiet);
    let mut finished = store.complete(&study, &all, &bar)?;
    if typed.sobol && finished {
        let groups = indexed(&store.outcomes(&singles), study.inputs().len());
        let tasks = study.mixed(&groups, typed.simulated.samples);
        bar.inc_length(tasks.len() as u64);
        finished = store.complete(&study, &tasks, &bar)?;
        mixed = finished.then_some((groups, tasks));
    }
    bar.finish_and_clear();

    let done: Vec<Task> = samples.into_iter().filter(|t| store.has(t)).collect();
    let outcomes = store.outcomes(&done);
    let of_mixed = mixed.map(|(groups, tasks)| (groups, store.outcomes(&tasks)));
    let mixed = of_mixed
        .as_ref()
        .map(|(groups, outcomes)| Mixed { groups, outcomes });
    // Half of the single nights would name the wrong input.
    let whole = store.count(Purpose::OneAtATime) == singles.len();
    let single_outcomes = if whole {
        store.outcomes(&singles)
    } else {
        Vec::new()
    };
    let (title, doubts) = (scenario.title.as_str(), study.inputs());
    let (criteria, seed) = (&scenario.criteria, typed.simulated.seed);
    let summary = Summary::of(title, criteria, &outcomes, &single_outcomes, mixed, seed);

    let result = SpreadResult {
        nominal: &nominal,
        inputs: doubts,
        summary: &summary,
        seed,
        target: typed.simulated.target(),
        finished,
    };
    // A study file is continued by the same command, which an existing folder would stop.
    let output = match finished || typed.study.is_none() {
        true => &typed.output,
        false => &typed.output.without_folder(),
    };
    let holds = "Findings, nights and charts";
    deliver(&result.report(from), None, output, flags, holds, |folder| {
        let groups = nominal.findings.groups_c.iter();
        let groups: Vec<String> = groups.map(|g| g.key.clone()).collect();
        let nights = samples::table(doubts, &groups, &done, &outcomes);
        folder.write("nights.csv", &nights.csv()?)?;
        let view = ChartView::of(&nominal, title, "", output.look.look());
        folder.picture("bands", &bands::groups(&nominal, &summary, &view))?;
        folder.picture(
            "sensitivity",
            &sensitivity::sensitivity(&summary, as_written, doubts, &view),
        )
    })?;
    match finished {
        true => Ok(Outcome::Done),
        false => Err(Failure::Stopped(stopped(typed, outcomes.len()))),
    }
}

fn stopped(typed: &Spread, nights: usize) -> String {
    let kept = match (&typed.study, &typed.output.out) {
        (None, _) => "--study FILE.db would keep them".to_owned(),
        (Some(path), None) => {
            format!(
                "they are kept in {}; the same command continues",
                path.display()
            )
        }
        (Some(path), Some(out)) => format!(
            "they are kept in {}; the same command continues, then writes {}",
            path.display(),
            out.display()
        ),
    };
    format!(
        "stopped after {nights} of {} simulated nights; {kept}",
        typed.simulated.samples
    )
}
