//! `coldsoak check`: every fault of a file, and every number that is hard to believe, without computing anything.

use super::args::Args;
use super::outcome::{Failure, Outcome};
use super::say;
use crate::files::fault::{ErrorList, Fault, FileError};
use crate::files::library::Kind;
use crate::files::ron::written;
use crate::files::validate::{ValidFile, validate};
use crate::scenario::body::Body;
use crate::scenario::document::Scenario;
use crate::scenario::engine::Engine;
use crate::scenario::opposed;
use crate::scenario::unknowns::Unknowns;
use crate::study::uncertain_inputs::{contradictions, unsound};
use serde::Serialize;
use std::path::PathBuf;

/// What `check` was given.
#[derive(Debug, clap::Args)]
pub struct Check {
    /// Model files of any kind: nights, comparisons, engines, heaters, hangars, oils, weather
    /// (METAR reports or a table).
    #[arg(required = true, value_name = "FILE")]
    pub files: Vec<PathBuf>,
    /// The kind of the files, if their keys do not tell.
    #[arg(long = "as", value_enum, value_name = "KIND")]
    pub kind: Option<KindName>,
    /// Print the engine part by part instead, as an engine file: a Layout written out.
    #[arg(long)]
    pub expand: bool,
    /// Print JSON: for each file its kind, faults, numbers that are hard to believe, and notes.
    #[arg(long, conflicts_with = "expand")]
    pub json: bool,
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

/// What was found in the files, for other programs.
#[derive(Debug, Serialize)]
struct CheckJson {
    version: &'static str,
    files: Vec<FileJson>,
}

/// What was found in one of them.
#[derive(Debug, Serialize)]
struct FileJson {
    file: String,
    sound: bool,
    kind: Option<&'static str>,
    taken_for: Option<String>,
    faults: Vec<FaultJson>,
    hard_to_believe: Vec<FaultJson>,
    notes: Vec<String>,
}

/// Something wrong, or hard to believe, at its place.
#[derive(Debug, Serialize)]
struct FaultJson {
    file: String,
    line: Option<usize>,
    column: Option<usize>,
    what: String,
    help: Option<String>,
}

/// Looks at the plausible ranges of a file's nights, which only studies of them use.
///
/// *Errors*: what is wrong with them.
fn ranges(sound: &ValidFile) -> Result<(), FileError> {
    sound.audited(&|night| {
        let mut problems = unsound(night);
        // A choice may move a number out of the range that its night gives it.
        if sound.kind == Kind::Night {
            problems.extend(contradictions(night));
        }
        problems
    })
}

/// Runs the command.
pub fn run(wanted: &Check, args: &Args) -> Result<Outcome, Failure> {
    let mut gathered = ErrorList::default();
    let mut told = String::new();
    let mut files = Vec::new();
    // Whether a file's faults kept it from being looked at further.
    let mut unfinished = false;
    for file in &wanted.files {
        let mut notes = Vec::new();
        let kind = wanted.kind.map(Kind::from);
        let validated = validate(file, kind, args.outside(), &mut notes);
        say::notes(&notes, args.quiet);
        let mut found = FileJson {
            file: file.display().to_string(),
            sound: false,
            kind: None,
            taken_for: None,
            faults: Vec::new(),
            hard_to_believe: Vec::new(),
            notes,
        };
        unfinished |= matches!(validated, Err(FileError::Faults(_)));
        let validated = validated.and_then(|sound| ranges(&sound).map(|()| sound));
        if let Err(FileError::Faults(faults)) = &validated {
            found.faults = faults.iter().map(fault_json).collect();
        }
        if let Some(sound) = gathered.keep(validated) {
            let whole = matches!(sound.kind, Kind::Engine | Kind::Night | Kind::Comparison);
            if wanted.expand && !whole {
                let word = sound.kind.word();
                let fault = Fault::of(
                    &file.display().to_string(),
                    format!("a {word} file has no engine, so there is nothing to expand"),
                );
                gathered.add(vec![fault.help("name an engine, a night or a comparison")]);
                continue;
            }
            if wanted.expand {
                if let Some(night) = sound.night() {
                    told += &expanded(night)?;
                }
                continue;
            }
            if !args.quiet {
                warn(&sound.doubts);
            }
            let kind = sound.kind.word();
            let for_what = sound.taken_for.as_ref();
            let for_what = for_what.map_or(String::new(), |what| format!(" ({what})"));
            told += &format!("{}: a sound {kind} file{for_what}\n", file.display());
            found.sound = true;
            found.kind = Some(kind);
            found.taken_for = sound.taken_for;
            found.hard_to_believe = sound.doubts.iter().map(fault_json).collect();
        }
        files.push(found);
    }
    if wanted.json {
        let version = env!("CARGO_PKG_VERSION");
        let json = serde_json::to_string_pretty(&CheckJson { version, files });
        say::out(&json.map_err(|e| Failure::Format(e.to_string()))?)?;
    }
    // With --json a program reads the faults there; people see them here.
    if let Err(FileError::Faults(faults)) = gathered.ended(Some(())) {
        return Err(Failure::Unsound {
            faults,
            unfinished: unfinished && !args.quiet,
        });
    }
    if wanted.json {
        return Ok(Outcome::Done);
    }
    if !args.quiet || wanted.expand {
        say::out(&told)?;
    }
    Ok(Outcome::Done)
}

fn fault_json(fault: &Fault) -> FaultJson {
    let (line, column) = fault.line_and_column().unzip();
    FaultJson {
        file: fault.file.clone(),
        line,
        column,
        what: fault.what.clone(),
        help: fault.help.clone(),
    }
}

/// Tells on standard error which numbers are hard to believe.
pub fn warn(doubts: &[Fault]) {
    for doubt in doubts {
        anstream::eprintln!("{}\n", doubt.warned(true));
    }
}

/// The same for machine output.
pub fn in_words(doubts: &[Fault]) -> Vec<String> {
    doubts.iter().map(ToString::to_string).collect()
}

fn expanded(night: &Scenario) -> Result<String, Failure> {
    let engine = match &night.engine {
        // The ranges of a Layout are of its own numbers, which parts do not have.
        Engine::opposed(layout) => Engine::body(Body {
            unknowns: Unknowns::default(),
            ..opposed::expand(layout)
        }),
        Engine::body(body) => Engine::body(body.clone()),
    };
    let text = written(&engine).map_err(|e| Failure::Format(e.to_string()))?;
    Ok(format!(
        "// Written by `coldsoak check --expand`.\n{text}\n"
    ))
}
