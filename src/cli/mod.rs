//! The command line: what was typed, turned into nights and told.

mod args;
mod at;
mod book;
mod catalogue;
mod chart;
mod check;
mod compare;
mod folder;
mod interrupt;
mod manual;
mod map;
mod network;
mod new;
mod night;
mod opening;
mod outcome;
mod progress;
mod say;
mod spread;
mod weather;
mod when;

use args::{Args, Command};
use clap::Parser;
use outcome::{Failure, Outcome};
use std::process::ExitCode;

/// Runs the command that was typed.
pub fn main() -> ExitCode {
    let args = match Args::try_parse() {
        Ok(args) => args,
        // Help and version are told and done; anything else is a slip in the flags.
        Err(e) => {
            let code = u8::try_from(e.exit_code()).unwrap_or(2);
            return match e.print() {
                Ok(()) => ExitCode::from(code),
                Err(e) => outcome::leave(Err(say::refused(e))),
            };
        }
    };
    args.color.apply();
    if let Some(threads) = args.threads {
        let built = rayon::ThreadPoolBuilder::new()
            .num_threads(threads.into())
            .build_global();
        if let Err(e) = built {
            return outcome::leave(Err(Failure::Threads(threads, e.to_string())));
        }
    }
    let done = run(&args);
    outcome::leave(done)
}

fn run(args: &Args) -> Result<Outcome, Failure> {
    match &args.command {
        Command::Check(wanted) => check::run(wanted, args),
        Command::Compare(wanted) => compare::run(wanted, args),
        Command::Night(wanted) => night::run(wanted, args),
        Command::Map(wanted) => map::run(wanted, args),
        Command::Chart(wanted) => chart::run(wanted, args),
        Command::When(wanted) => when::run(wanted, args),
        Command::Spread(wanted) => spread::run(wanted, args),
        Command::New(wanted) => new::run(wanted, args),
        Command::Catalogue(wanted) => catalogue::run(wanted),
        Command::Network(wanted) => network::run(wanted, args),
        Command::Completions(wanted) => manual::completions(wanted),
        Command::Man(wanted) => manual::man(wanted),
        Command::Weather(wanted) => weather::run(wanted, args),
    }
}
