//! `coldsoak spread`: one night over all that is uncertain about it.

use super::args::{Args, Theme};
use super::book::SampleStore;
use super::outcome::{Failure, Outcome as Ending};
use super::{folder, interrupt, night, opening, progress, say};
use crate::files::safe::FINDINGS;
use crate::night::{NightError, run as run_night};
use crate::report::chart::{ChartView, bands, sensitivity};
use crate::report::spread_json::{SpreadView, spread as spread_json};
use crate::report::spread_text;
use crate::study::sample_result::SampleResult;
use crate::study::spread::{Purpose, Spread as Study, Task};
use crate::study::summary::{Mixed, Summary, indexed};
use std::path::PathBuf;

/// What `spread` was given.
#[derive(Debug, clap::Args)]
pub struct Spread {
    /// A night file, `-` for standard input, or the name of a built-in night.
    pub night: String,
    /// Plausible nights; a power of two fills the ranges most evenly.
    #[arg(long, value_name = "N", default_value_t = 256,
        value_parser = clap::value_parser!(u32).range(2..=65_536))]
    pub nights: u32,
    /// The seed of the plausible nights; the same seed gives the same answer.
    #[arg(long, value_name = "N", default_value_t = 1)]
    pub seed: u32,
    /// Also find what share of the doubt each of the strongest unknowns explains; takes about ten times the nights.
    #[arg(long)]
    pub indices: bool,
    /// Keep the nights in this file, and go on from there if it exists.
    #[arg(long, value_name = "FILE.db")]
    pub study: Option<PathBuf>,
    /// Print JSON instead of text.
    #[arg(long)]
    pub json: bool,
    /// Write findings, a row for each night (CSV) and charts into this folder.
    #[arg(long, value_name = "FOLDER")]
    pub out: Option<PathBuf>,
    /// What charts are drawn on.
    #[arg(long, value_enum, default_value_t)]
    pub paper: Theme,
    /// Replace the folder if it is there already.
    #[arg(long, requires = "out")]
    pub force: bool,
}

/// Runs the command.
pub fn run(wanted: &Spread, args: &Args) -> Result<Ending, Failure> {
    let loaded = opening::loaded(&wanted.night, args)?;
    let from = opening::told(&loaded, &loaded.doubts(), args);
    folder::may_write_folder(wanted.out.as_deref(), wanted.force)?;
    let (scenario, title) = (&loaded.scenario, loaded.scenario.title.clone());
    let failed = |e| night::failed(e, &loaded.file, &loaded.sources, None);
    let study = Study::of(scenario, wanted.seed).map_err(|p| failed(NightError::Problems(p)))?;
    let written = run_night(scenario).map_err(failed)?;
    let mut book = match &wanted.study {
        Some(path) => SampleStore::open(path, scenario, &SampleResult::of(&written), wanted.seed)?,
        None => SampleStore::in_memory(),
    };
    interrupt::watch();

    let (plausible, singles) = (study.plausible(wanted.nights), study.singles());
    let mut mixed: Option<(Vec<Vec<usize>>, Vec<Task>)> = None;
    let all = [plausible.as_slice(), &singles].concat();
    let bar = progress::bar(all.len(), args.quiet);
    let mut finished = book.complete(&study, &all, &bar)?;
    if wanted.indices && finished {
        let groups = indexed(&book.outcomes(&singles), study.doubts.len());
        let tasks = study.mixed(&groups, wanted.nights);
        bar.inc_length(tasks.len() as u64);
        finished = book.complete(&study, &tasks, &bar)?;
        mixed = finished.then_some((groups, tasks));
    }
    bar.finish_and_clear();

    let done: Vec<Task> = plausible.into_iter().filter(|t| book.has(t)).collect();
    let outcomes = book.outcomes(&done);
    let of_mixed = mixed.map(|(groups, tasks)| (groups, book.outcomes(&tasks)));
    let mixed = of_mixed
        .as_ref()
        .map(|(groups, outcomes)| Mixed { groups, outcomes });
    // Half of the single nights would name the wrong unknown.
    let whole = book.count(Purpose::Single) == singles.len();
    let single_outcomes = if whole {
        book.outcomes(&singles)
    } else {
        Vec::new()
    };
    let (question, seed) = (&scenario.question, wanted.seed);
    let summary = Summary::of(&title, question, &outcomes, &single_outcomes, mixed, seed);

    let keys: Vec<String> = (written.findings.groups_c.iter().map(|g| g.key.clone())).collect();
    let json = spread_json(
        &SpreadView {
            title: &title,
            from: &from,
            seed: wanted.seed,
            nights: outcomes.len(),
            finished,
            doubts: &study.doubts,
            groups: &keys,
        },
        &summary,
    )
    .map_err(|e| Failure::Format(e.to_string()))?;
    // What a study file keeps is taken up by the same command, which an occupied folder would stop.
    let folder = wanted
        .out
        .as_ref()
        .filter(|_| finished || wanted.study.is_none());
    if let Some(path) = folder {
        let rows = crate::report::spread_csv::nights(&study.doubts, &keys, &done, &outcomes)
            .map_err(|e| Failure::Format(e.to_string()))?;
        let view = ChartView::of(&written, &title, "", wanted.paper.into());
        let mut folder = folder::ResultFolder::begin(path, wanted.force, &from)?;
        folder.write(FINDINGS, json.as_bytes())?;
        folder.write("nights.csv", &rows)?;
        folder.picture("bands", &bands::groups(&written, &summary, &view)?)?;
        let drawn = sensitivity::sensitivity(&summary, &study.doubts, &view)?;
        folder.picture("sensitivity", &drawn)?;
        folder.finish()?;
    }
    if wanted.json {
        say::out(&json)?;
    } else {
        let (doubts, seed) = (&study.doubts, wanted.seed);
        let mut text = spread_text::told(&title, &written, doubts, &summary, seed, say::width());
        if let Some(path) = folder.filter(|_| !args.quiet) {
            text += &format!("\nFindings, nights and charts are in {}\n", path.display());
        }
        text += &format!("\n{}\n", from.told(say::width()));
        say::out(&text)?;
    }
    if finished {
        Ok(Ending::Done)
    } else {
        Err(Failure::Stopped(stopped(wanted, outcomes.len())))
    }
}

fn stopped(wanted: &Spread, nights: usize) -> String {
    let kept = match &wanted.study {
        Some(path) => format!(
            "they are kept in {}, and the same command goes on from there{}",
            path.display(),
            match &wanted.out {
                Some(out) => format!(" and then writes {}", out.display()),
                None => String::new(),
            }
        ),
        None => "with --study FILE.db they would have been kept".to_owned(),
    };
    format!(
        "stopped after {nights} of {} plausible nights; {kept}",
        wanted.nights
    )
}
