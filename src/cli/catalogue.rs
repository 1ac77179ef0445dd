//! `coldsoak catalogue`: what is built in, and each file of it to save and change.

use super::exit_code::{Failure, Outcome};
use super::terminal;
use crate::files::catalogue::{entries, kind};
use crate::files::library::known;
use crate::report;

/// Examples in the help.
const EXAMPLES: &str = "Examples:\n  \
coldsoak catalogue                                    everything\n  \
coldsoak catalogue heaters                            one kind\n  \
coldsoak catalogue heater bay-fan-350w > my-fan.ron   a file to change and name as \"my-fan.ron\"\n  \
coldsoak catalogue weather --json                     for another program\n\n\
Kinds: engines, heaters, hangars, oils, weather, nights, comparisons.";

/// Flags of `catalogue`.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub struct Catalogue {
    /// One kind only, in the singular or the plural
    pub kind: Option<String>,
    /// Print the file of this name, with its comments and sources
    #[arg(requires = "kind")]
    pub name: Option<String>,
    /// Print JSON instead of text
    #[arg(long, conflicts_with = "name")]
    pub json: bool,
}

/// Runs the command.
pub fn run(typed: &Catalogue) -> Result<Outcome, Failure> {
    let kind = typed.kind.as_deref().map(kind).transpose()?;
    if let (Some(kind), Some(name)) = (kind, &typed.name) {
        terminal::print(known(kind, name)?)?;
        return Ok(Outcome::Done);
    }
    let models = entries(kind).into_iter();
    let models: Vec<_> = models.map(|m| (m.kind, m.name, m.description)).collect();
    let report = report::catalogue::report(&models);
    terminal::print(&match typed.json {
        true => report.json(),
        false => report.text(terminal::width(false)),
    })?;
    Ok(Outcome::Done)
}
