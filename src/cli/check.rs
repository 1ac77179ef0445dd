//! `coldsoak check`: every fault of a file, and every number that is hard to believe, without computing anything.

use super::args::Args;
use super::outcome::{Failure, Outcome};
use super::say;
use crate::files::examine::examine;
use crate::files::fault::Gathered;
use crate::files::library::Kind;
use crate::files::ron::written;
use crate::scenario::document::Scenario;
use crate::scenario::engine::Engine;
use crate::scenario::opposed;
use crate::scenario::plausible::doubts;
use std::path::PathBuf;

/// What `check` was given.
#[derive(Debug, clap::Args)]
pub struct Check {
    /// Model files of any kind: nights, comparisons, engines, heaters, hangars, oils, weather (CSV).
    #[arg(required = true, value_name = "FILE")]
    pub files: Vec<PathBuf>,
    /// The kind of the files, if their keys do not tell.
    #[arg(long = "as", value_enum, value_name = "KIND")]
    pub kind: Option<KindName>,
    /// Print the engine part by part instead, as an engine file: a Layout written out.
    #[arg(long)]
    pub expand: bool,
}

/// The kinds of file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
#[allow(missing_docs)]
pub enum KindName {
    Night,
    Comparison,
    Engine,
    Heater,
    Hangar,
    Oil,
    Weather,
}

impl From<KindName> for Kind {
    fn from(name: KindName) -> Self {
        match name {
            KindName::Night => Self::Night,
            KindName::Comparison => Self::Comparison,
            KindName::Engine => Self::Engine,
            KindName::Heater => Self::Heater,
            KindName::Hangar => Self::Hangar,
            KindName::Oil => Self::Oil,
            KindName::Weather => Self::Weather,
        }
    }
}

/// Runs the command.
pub fn run(wanted: &Check, args: &Args) -> Result<Outcome, Failure> {
    let mut gathered = Gathered::default();
    let mut told = String::new();
    for file in &wanted.files {
        let mut notes = Vec::new();
        let kind = wanted.kind.map(Kind::from);
        let examined = examine(file, kind, args.outside(), &mut notes);
        say::notes(&notes, args.quiet);
        let Some(sound) = gathered.keep(examined) else {
            continue;
        };
        if wanted.expand {
            if let Some((_, night)) = sound.nights.first() {
                told += &expanded(night)?;
            }
            continue;
        }
        if !args.quiet {
            warn(&sound.nights);
        }
        let kind = sound.kind.word();
        told += &format!("{}: a sound {kind} file\n", file.display());
    }
    gathered.ended(Some(()))?;
    if !args.quiet || wanted.expand {
        say::out(&told)?;
    }
    Ok(Outcome::Done)
}

/// Tells on standard error which numbers are hard to believe, each once.
pub fn warn(nights: &[(Option<String>, Scenario)]) {
    let mut told: Vec<String> = Vec::new();
    for (_, night) in nights {
        for doubt in doubts(night) {
            let line = doubt.to_string();
            if !told.contains(&line) {
                anstream::eprintln!("warning: {line}");
                told.push(line);
            }
        }
    }
}

fn expanded(night: &Scenario) -> Result<String, Failure> {
    let engine = match &night.engine {
        Engine::opposed(layout) => Engine::body(opposed::expand(layout)),
        Engine::body(body) => Engine::body(body.clone()),
    };
    let text = written(&engine).map_err(|e| Failure::Format(e.to_string()))?;
    Ok(format!(
        "// Written by `coldsoak check --expand`.\n{text}\n"
    ))
}
