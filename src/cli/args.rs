//! The commands, and the flags that several share; those of one command stand with it.

use clap::{Parser, Subcommand, ValueEnum};
use std::num::NonZeroUsize;
use std::path::PathBuf;

/// What was typed.
#[derive(Debug, Parser)]
#[command(
    name = "coldsoak",
    version,
    about = "Computes how a cold-soaked light-aircraft piston engine warms through a winter night",
    long_about = "Computes how a cold-soaked light-aircraft piston engine in an unheated hangar warms through a \
winter night: for every place a heater can go, when every part is warm enough, which part is last, \
whether water condenses inside, and what it costs.",
    after_help = "Examples:\n  \
coldsoak compare                        the built-in night, every heater place\n  \
coldsoak compare my-choices.ron         your own choices\n  \
coldsoak night my-night.ron --units degF   one night in full\n  \
coldsoak night demo --json              for another program\n  \
coldsoak spread demo                    how sure its answers are, and what to measure next\n\n\
Exit codes: 0 done, whatever the answer; 1 could not finish; 2 your file or flags;\n\
3 ran, but not ready at departure (only with --require-ready)."
)]
pub struct Args {
    /// What to do.
    #[command(subcommand)]
    pub command: Command,
    /// Degrees to tell results in; those of the file if not given. Machine output stays in °C.
    #[arg(long, global = true, value_enum)]
    pub units: Option<Degrees>,
    /// When to use colour.
    #[arg(long, global = true, value_enum, default_value_t = Colour::Auto)]
    pub color: Colour,
    /// Threads to compute with; all cores if not given. The answer does not depend on it.
    #[arg(long, global = true)]
    pub threads: Option<NonZeroUsize>,
    /// Say nothing but the result.
    #[arg(long, short, global = true)]
    pub quiet: bool,
}

/// The commands.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Rank several choices of heater through one night.
    #[command(
        after_help = "Without a file it runs the built-in comparison of seven choices.\n\
Writes a folder with findings.json, a trace (CSV) and a chart (SVG, PNG) for each choice."
    )]
    Compare(super::compare::Compare),
    /// Tell one night in full.
    #[command(
        after_help = "NIGHT is a file, or the name of a built-in night: demo, small-engine-top, six-after-flight,\n\
block-cooling, radial-underneath, thermostat-pad."
    )]
    Night(super::night::Night),
    /// Vary all that is uncertain about a night, and say how sure its answers are.
    #[command(
        after_help = "NIGHT as for `coldsoak night`. Every number that a file calls uncertain (`unknowns`) is varied over its\n\
range. Ctrl-C stops within a second; with --study what was done is kept and the same command goes on."
    )]
    Spread(super::spread::Spread),
}

/// How a result is told and kept.
#[derive(Debug, clap::Args)]
pub struct Output {
    /// Print JSON instead of text, and write no folder unless --out names one.
    #[arg(long)]
    pub json: bool,
    /// Write findings, traces and charts into this folder.
    #[arg(long, value_name = "FOLDER")]
    pub out: Option<PathBuf>,
    /// Replace the folder if it is there already.
    #[arg(long, requires = "out")]
    pub force: bool,
    /// Leave with exit code 3 if nothing is ready at departure.
    #[arg(long)]
    pub require_ready: bool,
}

/// Degrees.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Degrees {
    /// Celsius.
    #[value(name = "degC", alias = "C")]
    Celsius,
    /// Fahrenheit.
    #[value(name = "degF", alias = "F")]
    Fahrenheit,
}

/// When to use colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Colour {
    /// On a terminal, unless NO_COLOR is set.
    Auto,
    /// Always.
    Always,
    /// Never.
    Never,
}

impl Colour {
    /// Makes the choice hold for all output.
    pub fn apply(self) {
        match self {
            Self::Auto => anstream::ColorChoice::Auto,
            Self::Always => anstream::ColorChoice::Always,
            Self::Never => anstream::ColorChoice::Never,
        }
        .write_global();
    }
}

impl From<Degrees> for crate::quantity::Units {
    fn from(degrees: Degrees) -> Self {
        match degrees {
            Degrees::Celsius => Self::Celsius,
            Degrees::Fahrenheit => Self::Fahrenheit,
        }
    }
}
