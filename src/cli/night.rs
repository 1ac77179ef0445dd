//! `coldsoak night`: one night in full.

use super::args::{Args, Output};
use super::outcome::{Failure, Outcome};
use super::{assumed, check, folder, say};
use crate::files::fault::FileError;
use crate::files::locate::{located, located_choice};
use crate::files::night::load_named_from;
use crate::files::sources::{Input, Sources};
use crate::night::{NightError, run as run_night};
use crate::report::json::{InputJson, Provenance};
use crate::report::{json, night_text};

/// What the help teaches with.
const EXAMPLES: &str = "Examples:\n  \
coldsoak night my-night.ron                  what became of it, in words\n  \
coldsoak night my-night.ron --out tonight    and findings, trace and chart in a folder\n  \
coldsoak night my-night.ron --verbose        what was assumed, first\n  \
coldsoak new - --unheated | coldsoak night -   from standard input\n\n\
Built in are demo, small-engine-top, six-after-flight, block-cooling, radial-underneath, thermostat-pad.";

/// What `night` was given.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub struct Night {
    /// A night file, `-` for standard input, or the name of a built-in night.
    pub night: String,
    /// How it is told and kept.
    #[command(flatten)]
    pub output: Output,
}

/// Runs the command.
pub fn run(wanted: &Night, args: &Args) -> Result<Outcome, Failure> {
    let mut loaded = load_named_from(&wanted.night, args.outside())?;
    if let Some(degrees) = args.units {
        loaded.scenario.units = degrees.into();
    }
    if args.verbose {
        assumed::tell(&loaded);
    }
    say::notes(loaded.sources.notes(), args.quiet);
    let doubts = loaded.doubts();
    if !args.quiet {
        check::warn(&doubts);
    }
    folder::allowed(&wanted.output)?;
    let night =
        run_night(&loaded.scenario).map_err(|e| failed(e, &loaded.file, &loaded.sources, None))?;
    let notes = loaded.sources.notes().to_vec();
    let from = origin(&loaded.inputs).told_of(notes, check::in_words(&doubts));
    let findings = json::night(&from, &night).map_err(|e| Failure::Format(e.to_string()))?;
    if let Some(path) = &wanted.output.out {
        let title = &loaded.scenario.title;
        let nights = [(title.clone(), &night)];
        folder::write(path, wanted.output.force, title, &findings, &nights, &from)?;
    }
    if wanted.output.json {
        say::out(&findings)?;
    } else {
        let mut text = night_text::told(&night, &loaded.engine, say::width());
        if let Some(path) = wanted.output.out.as_ref().filter(|_| !args.quiet) {
            text += &format!("\nFindings, trace and chart are in {}\n", path.display());
        }
        text += &format!("\n{}\n", from.told(say::width()));
        say::out(&text)?;
    }
    Ok(
        if wanted.output.require_ready && !night.findings.ready.ready_at_departure {
            Outcome::NotReady
        } else {
            Outcome::Done
        },
    )
}

/// What a night that was not computed means for the user: problems are told at their places in the files.
pub fn failed(e: NightError, file: &str, sources: &Sources, choice: Option<&str>) -> Failure {
    match e {
        NightError::Problems(problems) => {
            let mut faults = match choice {
                Some(choice) => located_choice(&problems, choice, file, sources),
                None => located(&problems, file, sources),
            };
            if let Some(choice) = choice {
                for fault in &mut faults {
                    fault.what = format!("{}, in the choice \"{choice}\"", fault.what);
                }
            }
            FileError::Faults(faults).into()
        }
        other => Failure::Night(other),
    }
}

/// Where a result comes from: the words that were typed, and these files.
pub fn origin(read: &[Input]) -> Provenance {
    let typed = std::env::args_os().skip(1);
    let typed = typed.map(|word| word.to_string_lossy().into_owned());
    Provenance::new(typed.collect(), inputs(read))
}

/// Inputs as machine output tells them.
fn inputs(inputs: &[Input]) -> Vec<InputJson> {
    inputs
        .iter()
        .map(|input| InputJson {
            name: input.name.clone(),
            sha256: input.sha256.clone(),
        })
        .collect()
}
