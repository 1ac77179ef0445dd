//! The list of commands, and which function runs each.

use super::exit_code::{Failure, Outcome, exit_code};
use super::flags::{Flags, plain};
use super::{
    catalogue, chart, check, compare, manual, map, network, new, night, spread, terminal, weather,
    when,
};
use clap::{CommandFactory, Parser, Subcommand};
use std::process::ExitCode;

/// The command line.
#[derive(Debug, Parser)]
#[command(
    name = "coldsoak",
    version,
    about = "Computes how a cold-soaked light-aircraft piston engine warms through a winter night",
    long_about = "Computes how a cold-soaked light-aircraft piston engine in an unheated hangar warms through a \
winter night: the chance that it is ready at departure, when to switch on, which part is coldest, \
whether water condenses inside, and what it costs.",
    after_help = "Examples:\n  \
coldsoak compare                        the built-in night, seven choices\n  \
coldsoak compare my-choices.ron         your own choices\n  \
coldsoak when my-night.ron              when to switch on, with its chance\n  \
coldsoak night my-night.ron --units degF   one night in full\n  \
coldsoak night demo --json              for another program\n  \
coldsoak spread demo                    what to measure next\n  \
coldsoak new my-night.ron               a commented night to start from\n  \
coldsoak catalogue                      what is built in\n\n\
Exit codes: 0 done, whatever the answer; 1 could not finish; 2 your file or flags;\n\
3 done, but the required chance is not reached (only with --require-ready)."
)]
struct CommandLine {
    #[command(subcommand)]
    command: Command,
    #[command(flatten)]
    flags: Flags,
}

/// The commands.
#[derive(Debug, Subcommand)]
enum Command {
    /// Rank several choices of heater by the chance that the engine is ready
    Compare(compare::Compare),
    /// Check model files: every error, and every implausible number
    Check(check::Check),
    /// Show one night in full: its chance, then the nominal night
    Night(night::Night),
    /// Draw the engine at one time of a night, coloured by temperature
    Map(map::Map),
    /// Draw one night: temperatures, heat, water, dew point, with numbers
    Chart(chart::Chart),
    /// Find the latest switch-on time that reaches the required chance
    When(when::When),
    /// Vary all uncertain inputs of a night, and find what to measure next
    Spread(spread::Spread),
    /// Write a commented night to start from
    New(new::New),
    /// List what is built in, or print a file of it
    Catalogue(catalogue::Catalogue),
    /// Show the thermal network at one time: nodes, conductances, time constants
    Network(network::Network),
    /// Print the completions of a shell
    Completions(manual::Completions),
    /// Print or write manual pages
    Man(manual::Man),
    /// Show the weather of a file as a night would use it
    Weather(weather::Weather),
}

/// Runs the command that was typed.
pub fn main() -> ExitCode {
    match CommandLine::try_parse() {
        Ok(line) => exit_code(line.flags.apply().and_then(|()| run(&line))),
        Err(e) => match plain(&e) {
            Some(error) => exit_code(Err(Failure::Flag(error))),
            None => match e.print() {
                Ok(()) => ExitCode::from(u8::try_from(e.exit_code()).unwrap_or(2)),
                Err(e) => exit_code(Err(terminal::refused(e))),
            },
        },
    }
}

fn run(line: &CommandLine) -> Result<Outcome, Failure> {
    let flags = &line.flags;
    match &line.command {
        Command::Check(typed) => check::run(typed, flags),
        Command::Compare(typed) => compare::run(typed, flags),
        Command::Night(typed) => night::run(typed, flags),
        Command::Map(typed) => map::run(typed, flags),
        Command::Chart(typed) => chart::run(typed, flags),
        Command::When(typed) => when::run(typed, flags),
        Command::Spread(typed) => spread::run(typed, flags),
        Command::New(typed) => new::run(typed, flags),
        Command::Catalogue(typed) => catalogue::run(typed),
        Command::Network(typed) => network::run(typed, flags),
        Command::Completions(typed) => manual::completions(typed, CommandLine::command()),
        Command::Man(typed) => manual::man(typed, CommandLine::command()),
        Command::Weather(typed) => weather::run(typed, flags),
    }
}
