//! `coldsoak network`: the thermal network at one time of a night.

use super::deliver::{deliver, may_deliver};
use super::exit_code::{Failure, Outcome};
use super::flags::{Flags, Output};
use super::session::Session;
use super::set::Set;
use super::time_argument::at_seconds;
use crate::inspect::{SnapshotError, anatomy};
use crate::report;

/// Examples in the help.
const EXAMPLES: &str = "Examples:\n  \
coldsoak network demo                     the built-in night at departure, as tables\n  \
coldsoak network my-night.ron --at 05:30  at half past five by the local clock\n  \
coldsoak network demo --json              for another program (schema/network.schema.json)\n\n\
Heat flows between nodes; conductances are slopes at that time, in W/K. The night is computed up to it. At the time\n\
of a switching the heater counts as on.";

/// Flags of `network`.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub struct Network {
    /// A night file, `-` for standard input, or the name of a built-in night
    pub night: String,
    #[command(flatten)]
    set: Set,
    /// Local time, as in 05:30, "day 2, 05:30" or "2026-01-12 05:30" [default: departure]
    #[arg(long, value_name = "TIME")]
    pub at: Option<String>,
    #[command(flatten)]
    output: Output,
}

/// Runs the command.
pub fn run(typed: &Network, flags: &Flags) -> Result<Outcome, Failure> {
    let session = Session::open(&typed.night, &typed.set, flags)?;
    may_deliver(&typed.output, None)?;
    let (scenario, from) = (&session.night.scenario, &session.from);
    let checked = session.checked()?;
    let at_s = at_seconds(typed.at.as_deref(), checked.clock(), checked.end_s())?;
    let found = anatomy(scenario, at_s).map_err(|e| match e {
        SnapshotError::Night(e) => session.failure(e),
        other => Failure::Network(other),
    })?;
    let report = report::network::report(&found, scenario.units, from);
    deliver(&report, None, &typed.output, flags, "Findings", |_| Ok(()))?;
    Ok(Outcome::Done)
}
