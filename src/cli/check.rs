//! `coldsoak check`: every error of a file, and every implausible number, without computing anything.

use super::exit_code::{Failure, Outcome};
use super::flags::Flags;
use super::terminal;
use crate::files::catalogue::KINDS;
use crate::files::fault::{ErrorList, FileError, InputError};
use crate::files::library::Kind;
use crate::files::ron::written;
use crate::files::validate::{ValidFile, validate};
use crate::report::check::{CheckedFile, Located, report};
use crate::scenario::body::Body;
use crate::scenario::document::Scenario;
use crate::scenario::engine::Engine;
use crate::scenario::opposed;
use crate::scenario::uncertain::Uncertain;
use crate::study::uncertain_inputs::{contradictions, unsound};
use clap::builder::{PossibleValuesParser, TypedValueParser};
use std::path::PathBuf;

/// Examples in the help.
const EXAMPLES: &str = "The kind of a file follows from its keys. Nothing is computed and nothing written.\n\
coldsoak check my-engine.ron --expand    the engine part by part, as an engine file";

/// Flags of `check`.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub struct Check {
    /// Files: nights, comparisons, engines, heaters, hangars, oils, weather
    #[arg(required = true, value_name = "FILE")]
    pub files: Vec<PathBuf>,
    /// Kind of the files [default: from their keys]
    #[arg(long, value_parser = kind())]
    pub kind: Option<Kind>,
    /// Print the engine part by part instead, as an engine file
    #[arg(long)]
    pub expand: bool,
    /// Print JSON: for each file its kind, errors, warnings and notes
    #[arg(long, conflicts_with = "expand")]
    pub json: bool,
}

/// Reads the kind of a file.
fn kind() -> impl TypedValueParser<Value = Kind> {
    PossibleValuesParser::new(KINDS.map(|(_, word, _)| word)).map(|word| {
        let found = KINDS.iter().find(|(_, one, _)| *one == word);
        found.map_or(Kind::Night, |(kind, ..)| *kind)
    })
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
pub fn run(typed: &Check, flags: &Flags) -> Result<Outcome, Failure> {
    let mut gathered = ErrorList::default();
    let mut text = String::new();
    let mut files = Vec::new();
    // Whether errors of a file kept it from being checked further.
    let mut unfinished = false;
    for file in &typed.files {
        let mut notes = Vec::new();
        let examined = validate(file, typed.kind, flags.outside(), &mut notes);
        terminal::notes(&notes, flags.quiet);
        let mut found = CheckedFile {
            file: file.display().to_string(),
            notes,
            ..CheckedFile::default()
        };
        unfinished |= matches!(examined, Err(FileError::Faults(_)));
        let examined = examined.and_then(|sound| ranges(&sound).map(|()| sound));
        if let Err(FileError::Faults(faults)) = &examined {
            found.errors = located(faults);
        }
        if let Some(sound) = gathered.keep(examined) {
            let kind = sound.kind.word();
            if typed.expand {
                let engine = matches!(sound.kind, Kind::Engine | Kind::Night | Kind::Comparison);
                match sound.night().filter(|_| engine) {
                    Some(night) => text += &expanded(night)?,
                    None => {
                        let what = format!("a {kind} file has no engine to expand");
                        let help = "name an engine, a night or a comparison";
                        gathered.add(InputError::of(&found.file, what).help(help));
                    }
                }
                continue;
            }
            terminal::warnings(&sound.doubts, flags.quiet);
            found.kind = Some(kind);
            found.detected_format = sound.taken_for;
            found.warnings = located(&sound.doubts);
        }
        files.push(found);
    }
    let report = report(&files);
    if typed.json {
        terminal::print(&report.json())?;
    }
    // With --json a program reads the errors there; people see them here.
    if let Err(FileError::Faults(errors)) = gathered.ended(Some(())) {
        return Err(Failure::Invalid {
            errors,
            unfinished: unfinished && !flags.quiet,
        });
    }
    if typed.expand {
        terminal::print(&text)?;
    } else if !typed.json && !flags.quiet {
        terminal::print(&report.text(terminal::width(false)))?;
    }
    Ok(Outcome::Done)
}

fn located(errors: &[InputError]) -> Vec<Located> {
    let one = |e: &InputError| Located {
        file: e.file.clone(),
        place: e.line_and_column(),
        message: e.message.clone(),
        suggestion: e.suggestion.clone(),
    };
    errors.iter().map(one).collect()
}

fn expanded(night: &Scenario) -> Result<String, Failure> {
    let engine = match &night.engine {
        // The ranges of a Layout are of its own numbers, which parts do not have.
        Engine::opposed(layout) => Engine::body(Body {
            uncertain: Uncertain::default(),
            ..opposed::expand(layout)
        }),
        Engine::body(body) => Engine::body(body.clone()),
    };
    let text = written(&engine)?;
    Ok(format!(
        "// Written by `coldsoak check --expand`.\n{text}\n"
    ))
}
