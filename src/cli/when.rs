//! `coldsoak when`: the latest switch-on time that reaches the required chance.

use super::deliver::{deliver, may_deliver};
use super::exit_code::{Failure, Outcome};
use super::flags::{Flags, Output, Page, Simulated, flag_error};
use super::session::Session;
use super::set::Set;
use super::spare::spare;
use super::terminal;
use crate::files::night::Loaded;
use crate::picture::chart::ChartView;
use crate::picture::chart::chance::chances;
use crate::report::{self, page};
use crate::scenario::check::check;
use crate::scenario::clock::Moment;
use crate::scenario::hours::Hours;
use crate::study::when::{WhenOptions, when};

/// Examples in the help.
const EXAMPLES: &str = "Examples:\n  \
coldsoak when my-night.ron                   when to switch on, what with, how certain\n  \
coldsoak when my-night.ron --depart 09:00    the same night, leaving later\n  \
coldsoak when demo --units degC --json       for another program\n\n\
The heaters come on together, as late as the required chance allows; with two heaters, apart by as much as takes\n\
the least energy in the nominal night. A heater stays on until departure; one with `between` hours keeps them.";

/// Flags of `when`.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub struct When {
    /// A night file, `-` for standard input, or the name of a built-in night
    pub night: String,
    #[command(flatten)]
    set: Set,
    /// Departure, as in 07:30 or "1996-02-05 07:30" [default: as in the file]
    #[arg(long, value_name = "TIME")]
    pub depart: Option<String>,
    #[command(flatten)]
    simulated: Simulated,
    /// End with exit code 3 if no switch-on time reaches the required chance
    #[arg(long)]
    pub require_ready: bool,
    #[command(flatten)]
    page: Page,
    #[command(flatten)]
    output: Output,
}

/// Runs the command.
pub fn run(typed: &When, flags: &Flags) -> Result<Outcome, Failure> {
    let session = Session::open_with(&typed.night, &typed.set, flags, |night| {
        match &typed.depart {
            Some(depart) => leave_at(depart, night),
            None => Ok(()),
        }
    })?;
    may_deliver(&typed.output, Some(&typed.page))?;
    let (scenario, from) = (&session.night.scenario, &session.from);
    let options = WhenOptions {
        count: typed.simulated.count(),
        target: typed.simulated.target(),
        other_weather: typed.output.wide || typed.output.json || typed.output.out.is_some(),
    };
    let bar = terminal::progress_bar(0, flags.quiet);
    let advance = terminal::advance(&bar);
    let answer = when(scenario, options, &spare()?, &advance);
    bar.finish_and_clear();
    let answer = answer.map_err(|e| session.failure(e))?;
    let report = report::when::report(&answer, scenario, from);
    let page = || page::of_when(report.clone(), &answer, from);
    let page = Some((&typed.page, &page as &dyn Fn() -> _));
    let holds = "Findings, the chart of chances, and trace and charts of that night";
    deliver(&report, page, &typed.output, flags, holds, |folder| {
        let (title, look) = (&scenario.title, typed.output.look.look());
        let headline = report::when::headline(&answer);
        let view = ChartView {
            headline: &headline,
            ..ChartView::of(&answer.night, title, "", look)
        };
        folder.picture("chance", &chances(&answer, &view))?;
        folder.night("night", &answer.night, title, "", look)
    })?;
    Ok(Outcome::of(answer.is_reached() || !typed.require_ready))
}

/// Sets the departure; what is wrong with the night only since then is an error in the flag.
fn leave_at(typed: &str, loaded: &mut Loaded) -> Result<(), Failure> {
    let depart = Moment::try_from(typed.to_owned())
        .map_err(|e| flag_error("--depart", e, "--depart 07:30"))?;
    let valid = check(&loaded.scenario).is_ok();
    loaded.scenario.clock.departure = depart;
    if let Err(problems) = check(&loaded.scenario) {
        // Hours that are searched anew are no reason to refuse.
        for (i, heater) in loaded.scenario.heaters.iter_mut().enumerate() {
            let searched = matches!(heater.hours, Hours::from(_) | Hours::before_departure(_));
            let path = format!("heaters[{i}].hours");
            if searched && problems.iter().any(|p| p.path == path) {
                heater.hours = Hours::always;
            }
        }
    }
    match check(&loaded.scenario) {
        Err(problems) if valid => {
            let why: Vec<&str> = problems.iter().map(|p| p.what.as_str()).collect();
            let instead = format!(
                "a time after {}, when this night begins, after the hours of heaters on a timer, and within its weather",
                String::from(loaded.scenario.clock.begin)
            );
            Err(flag_error(
                "--depart",
                format!("{typed}: {}.", why.join("; ")),
                &instead,
            ))
        }
        _ => Ok(()),
    }
}
