//! `coldsoak network`: what is being solved, laid open at one moment of a night.

use super::args::Args;
use super::outcome::{Failure, Outcome};
use super::{at, night, opening, say};
use crate::files::fault::Fault;
use crate::files::safe::write_file;
use crate::inspect::{NetworkSnapshot, SnapshotError, anatomy};
use crate::report::network_table::table;
use crate::report::provenance::Provenance;
use serde::Serialize;
use std::path::PathBuf;

/// What the help teaches with.
const EXAMPLES: &str = "Examples:\n  \
coldsoak network demo                          the built-in night at departure, as tables\n  \
coldsoak network my-night.ron --at 05:30       at half past five by the local clock\n  \
coldsoak network demo --format json            for another program (schema/network.schema.json)\n\n\
Nodes are what heat flows between; conductances are slopes at that moment, in W/K. The night is computed to get\n\
there. At the moment of a switching the heater counts as on.";

/// What `network` was given.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub struct Network {
    /// A night file, `-` for standard input, or the name of a built-in night.
    pub night: String,
    /// The moment by the local clock, as in 05:30 (the first such time of the night), "day 2, 05:30" or
    /// "2026-01-12 05:30". The departure if not given.
    #[arg(long, value_name = "TIME")]
    pub at: Option<String>,
    /// How it is told.
    #[arg(long, value_enum, default_value_t = Format::Table)]
    pub format: Format,
    /// Write it to this file; `-` is standard output.
    #[arg(long, value_name = "FILE")]
    pub out: Option<PathBuf>,
    /// Replace the file if it is there already.
    #[arg(long, requires = "out")]
    pub force: bool,
}

/// Forms of a network.
#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
pub enum Format {
    /// Tables for the terminal.
    Table,
    /// JSON in °C, W and W/K.
    Json,
}

/// The JSON of a network: where it comes from, then the anatomy.
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
pub fn run(wanted: &Network, args: &Args) -> Result<Outcome, Failure> {
    let loaded = opening::loaded(&wanted.night, args)?;
    let slip = |what: String, help: &str| Fault::of("the command line", what).help(help);
    let from = opening::told(&loaded, &loaded.doubts(), args);
    // A clock that is wrong is told by the gate, with its place in the file.
    let at_s = match (loaded.scenario.clock.resolve(), &wanted.at) {
        (Err(_), _) => 0.0,
        (Ok(clock), None) => clock.night_s(),
        (Ok(clock), Some(at)) => at::seconds(at, &clock).map_err(|e| at::slip(&e))?,
    };
    let found = anatomy(&loaded.scenario, at_s).map_err(|e| match e {
        SnapshotError::Night(e) => night::failed(e, &loaded.file, &loaded.sources, None),
        e @ SnapshotError::Outside { .. } => slip(
            e.to_string(),
            "name a time between its beginning and its end",
        )
        .into(),
        other => Failure::Network(other),
    })?;
    let text = match wanted.format {
        Format::Table => {
            let told = table(&found, loaded.scenario.units, say::width());
            format!("{told}\n{}\n", from.told(say::width()))
        }
        Format::Json => serde_json::to_string_pretty(&NetworkJson {
            from: &from,
            notes: &from.notes,
            hard_to_believe: &from.hard_to_believe,
            anatomy: &found,
        })
        .map_err(|e| Failure::Format(e.to_string()))?,
    };
    match wanted.out.as_ref().filter(|out| out.as_os_str() != "-") {
        Some(out) => write_file(out, text.as_bytes(), wanted.force)?,
        None => say::out(&text)?,
    }
    Ok(Outcome::Done)
}
