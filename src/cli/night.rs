//! `coldsoak night`: one night in full.

use super::deliver::{deliver, may_deliver};
use super::exit_code::{Failure, Outcome};
use super::flags::{Flags, Output, Page, Simulated};
use super::session::Session;
use super::set::Set;
use super::terminal;
use super::time_argument::at_seconds;
use crate::findings::forbidding;
use crate::night::run as run_night;
use crate::report::{convergence, night as night_report, page};
use crate::study::latest_start::reaches;
use crate::study::refine::{NIGHTS, refine};
use crate::study::simulate::simulate;

/// Examples in the help.
const EXAMPLES: &str = "Examples:\n  \
coldsoak night my-night.ron                  the result as text\n  \
coldsoak night my-night.ron --out tonight    and findings, trace and charts in a folder\n  \
coldsoak night my-night.ron --report tonight.html   and a page to read and to print\n  \
coldsoak night my-night.ron --refine         how far finer cells and steps move the numbers\n  \
coldsoak new - --no-heater | coldsoak night -   from standard input\n\n\
Built-in nights: demo, small-engine-top, six-after-flight, block-cooling, radial-underneath, thermostat-pad.";

/// Flags of `night`.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub struct Night {
    /// A night file, `-` for standard input, or the name of a built-in night
    pub night: String,
    #[command(flatten)]
    set: Set,
    /// Add the groups of parts at this time, as in 05:30
    #[arg(long, value_name = "TIME")]
    pub at: Option<String>,
    /// Estimate the numerical error from seven nights on finer meshes
    #[arg(long, conflicts_with_all = ["out", "report", "require_ready"])]
    pub refine: bool,
    /// Compute the nominal night alone, without its chance
    #[arg(long, conflicts_with_all = ["samples", "seed", "chance"])]
    pub quick: bool,
    #[command(flatten)]
    simulated: Simulated,
    /// End with exit code 3 unless ready with the required chance
    #[arg(long)]
    pub require_ready: bool,
    #[command(flatten)]
    page: Page,
    #[command(flatten)]
    output: Output,
}

/// Runs the command.
pub fn run(typed: &Night, flags: &Flags) -> Result<Outcome, Failure> {
    let session = Session::open(&typed.night, &typed.set, flags)?;
    if typed.refine {
        return refined(typed, flags, &session);
    }
    may_deliver(&typed.output, Some(&typed.page))?;
    let Session {
        night: loaded,
        from,
    } = &session;
    let night = run_night(&loaded.scenario).map_err(|e| session.failure(e))?;
    let at_s = match &typed.at {
        None => None,
        typed => Some(at_seconds(
            typed.as_deref(),
            night.scenario.clock(),
            night.scenario.end_s(),
        )?),
    };
    let (count, target) = (typed.simulated.count(), typed.simulated.target());
    let bands = match typed.quick {
        true => None,
        false => {
            let bar = terminal::progress_bar(0, flags.quiet);
            let bands = simulate(&loaded.scenario, count, &terminal::advance(&bar));
            bar.finish_and_clear();
            Some(bands.map_err(|e| session.failure(e))?)
        }
    };
    let chance = bands.as_ref().map(|bands| night_report::Chance {
        bands,
        count,
        target,
    });
    let mut report = night_report::report(&night, chance, &loaded.engine, from);
    if let Some(time_s) = at_s {
        // Behind the name of the night and the answer.
        report.sections.insert(2, night_report::at(&night, time_s));
    }
    let page = || page::of_night(report.clone(), &night, None, from);
    let page = Some((&typed.page, &page as &dyn Fn() -> _));
    let holds = "Findings, trace and charts";
    deliver(&report, page, &typed.output, flags, holds, |folder| {
        let title = &loaded.scenario.title;
        folder.night("night", &night, title, "", typed.output.look.look())
    })?;
    let ready = match &bands {
        Some(bands) => {
            let safe = forbidding(&night.findings.warnings).is_empty() && !bands.hazardous();
            safe && reaches(bands.ready, target)
        }
        None => night.findings.ready.ready_at_departure,
    };
    Ok(Outcome::of(ready || !typed.require_ready))
}

/// The same night on finer meshes.
fn refined(typed: &Night, flags: &Flags, session: &Session) -> Result<Outcome, Failure> {
    let bar = terminal::progress_bar(NIGHTS, flags.quiet);
    let refinement = refine(&session.night.scenario, &|| bar.inc(1));
    bar.finish_and_clear();
    let refinement = refinement.map_err(|e| session.failure(e))?;
    let report = convergence::report(&refinement, &session.from);
    deliver(&report, None, &typed.output, flags, "", |_| Ok(()))?;
    Ok(Outcome::Done)
}
