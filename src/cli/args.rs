//! The commands, and the flags that several share; those of one command stand with it.

use crate::files::sources::Outside;
use clap::{Parser, Subcommand, ValueEnum};
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
coldsoak spread demo                    how sure its answers are, and what to measure next\n  \
coldsoak new my-night.ron               a commented night to begin with\n  \
coldsoak catalogue                      what is built in\n\n\
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
    /// When to use colour in errors.
    #[arg(long, global = true, value_enum, default_value_t = ColourChoice::Auto)]
    pub color: ColourChoice,
    /// Threads to compute with, 1024 at most; all cores if not given. The answer does not depend on it.
    #[arg(long, global = true, value_parser = clap::value_parser!(u16).range(1..=1024))]
    pub threads: Option<u16>,
    /// Say nothing but the result.
    #[arg(long, short, global = true)]
    pub quiet: bool,
    /// Let names in your files lead out of their folder.
    #[arg(long, global = true)]
    pub allow_outside: bool,
}

/// The commands.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Rank several choices of heater through one night.
    Compare(super::compare::Compare),
    /// Find every fault of model files, and every number that is hard to believe.
    #[command(
        after_help = "The kind of a file is told from its keys. Nothing is computed and nothing written.\n\
coldsoak check my-engine.ron --expand    the engine part by part, as an engine file"
    )]
    Check(super::check::Check),
    /// Tell one night in full.
    Night(super::night::Night),
    /// Draw the engine at one moment of a night, coloured by temperature.
    Map(super::map::Map),
    /// Draw one night: temperatures, heat, water, dew point, each with its numbers.
    Chart(super::chart::Chart),
    /// Find when to switch on: the latest time that is ready at departure.
    When(super::when::When),
    /// Vary all that is uncertain about a night, and say how sure its answers are.
    Spread(super::spread::Spread),
    /// Write a commented night to begin with.
    New(super::new::New),
    /// Tell what is built in, or print a file of it.
    Catalogue(super::catalogue::Catalogue),
    /// Lay open what is being solved: nodes, conductances, time constants.
    Network(super::network::Network),
    /// Print what a shell completes words from.
    Completions(super::manual::Completions),
    /// Print or write manual pages.
    Man(super::manual::Man),
    /// Show the weather of a file as a night would use it: reports (METAR), a table (CSV) or a built-in record.
    #[command(after_help = "Examples:\n  \
coldsoak weather ksea.txt --station KSEA --month 2018-01 --zone America/Los_Angeles\n  \
coldsoak weather logger.csv --zone Europe/Oslo --csv > clean.csv\n\n\
Built-in records: greensboro_nc_1996-02-04, chicago_il_1986-01-06, newark_nj_2013-01-22, alamosa_co_2016-01-01.")]
    Weather(super::weather::Weather),
}

/// How a result is told and kept.
#[derive(Debug, clap::Args)]
#[command(group(clap::ArgGroup::new("kept").multiple(true)))]
pub struct Output {
    /// Print JSON instead of text, and write no folder unless --out names one.
    #[arg(long)]
    pub json: bool,
    /// Write findings, traces and charts into this folder.
    #[arg(long, value_name = "FOLDER", group = "kept")]
    pub out: Option<PathBuf>,
    /// What charts are drawn on.
    #[arg(long, value_enum, default_value_t)]
    pub paper: Theme,
    /// Replace what is there already.
    #[arg(long, requires = "kept")]
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

/// What charts are drawn on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, ValueEnum)]
pub enum Theme {
    /// Dark on light, to print.
    #[default]
    Light,
    /// Light on dark.
    Dark,
}

/// When to use colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum ColourChoice {
    /// On a terminal, unless NO_COLOR is set.
    Auto,
    /// Always.
    Always,
    /// Never.
    Never,
}

impl Args {
    /// Whether names in files may lead out of their folder.
    pub fn outside(&self) -> Outside {
        if self.allow_outside {
            Outside::Allowed
        } else {
            Outside::Refused
        }
    }
}

impl ColourChoice {
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

impl From<Theme> for crate::report::colour::Theme {
    fn from(paper: Theme) -> Self {
        match paper {
            Theme::Light => Self::Light,
            Theme::Dark => Self::Dark,
        }
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
