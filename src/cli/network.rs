//! `coldsoak network`: the thermal network at one time of a night.

use super::deliver::{Forms, deliver, may_deliver};
use super::exit_code::{Failure, Outcome};
use super::flags::{Flags, Output};
use super::session::Session;
use super::time_argument::at_seconds;
use crate::inspect::{NetworkSnapshot, SnapshotError, anatomy};
use crate::report::network_table::table;
use crate::report::provenance::Provenance;
use serde::Serialize;

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
    /// Local time, as in 05:30, "day 2, 05:30" or "2026-01-12 05:30" [default: departure]
    #[arg(long, value_name = "TIME")]
    pub at: Option<String>,
    #[command(flatten)]
    output: Output,
}

/// The JSON of a network: where it comes from, then the network.
#[derive(Serialize)]
struct NetworkJson<'a> {
    #[serde(flatten)]
    from: &'a Provenance,
    notes: &'a [String],
    hard_to_believe: &'a [String],
    #[serde(flatten)]
    anatomy: &'a NetworkSnapshot,
}

/// Runs the command.
pub fn run(typed: &Network, flags: &Flags) -> Result<Outcome, Failure> {
    let session = Session::open(&typed.night, flags)?;
    may_deliver(&typed.output, None)?;
    let (scenario, from) = (&session.night.scenario, &session.from);
    let checked = session.checked()?;
    let at_s = at_seconds(typed.at.as_deref(), checked.clock(), checked.end_s())?;
    let found = anatomy(scenario, at_s).map_err(|e| match e {
        SnapshotError::Night(e) => session.failure(e),
        other => Failure::Network(other),
    })?;
    let forms = Forms {
        text: &|width| table(&found, scenario.units, width),
        json: &|| {
            serde_json::to_string_pretty(&NetworkJson {
                from,
                notes: &from.notes,
                hard_to_believe: &from.hard_to_believe,
                anatomy: &found,
            })
        },
        page: None,
    };
    deliver(&forms, &typed.output, from, flags, "Findings", |_| Ok(()))?;
    Ok(Outcome::Done)
}
