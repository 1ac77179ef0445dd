//! `coldsoak when`: the latest switching-on of each heater, and what it rests on.

use super::args::{Args, Output};
use super::night::failed;
use super::outcome::{Failure, Outcome};
use super::{folder, opening, progress, say};
use crate::files::fault::{Fault, FileError};
use crate::files::library::{Kind, model};
use crate::files::night::Loaded;
use crate::report::{when_json, when_text};
use crate::scenario::check::check;
use crate::scenario::clock::Moment;
use crate::scenario::heater::Heater;
use crate::scenario::hours::Hours;
use crate::study::when::{Progress, Verdict, when};

/// What the help teaches with.
const EXAMPLES: &str = "Examples:\n  \
coldsoak when my-night.ron                   when to switch on, what with, how sure\n  \
coldsoak when my-night.ron --depart 09:00    the same night, leaving later\n  \
coldsoak when demo --units degC --json       for another program\n\n\
One heater: its latest switching-on, to the minute. Two: the pair of times that takes the least energy. Three or\n\
more: the latest common time. A heater stays on until departure; one with `between` hours keeps them.";

/// Heaters that may be added if nothing else makes the engine ready.
const SPARE: [&str; 2] = ["sump-pad-150w", "bay-fan-350w"];

/// What `when` was given.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub struct When {
    /// A night file, `-` for standard input, or the name of a built-in night.
    pub night: String,
    /// When the engine is to be started, as in 07:30 or "1996-02-05 07:30"; the file's departure if not given.
    #[arg(long, value_name = "TIME", value_parser = moment)]
    pub depart: Option<Moment>,
    /// How it is told and kept.
    #[command(flatten)]
    pub output: Output,
}

fn moment(typed: &str) -> Result<Moment, String> {
    Moment::try_from(typed.to_owned())
}

/// Runs the command.
pub fn run(wanted: &When, args: &Args) -> Result<Outcome, Failure> {
    let mut loaded = opening::loaded(&wanted.night, args)?;
    if let Some(depart) = wanted.depart {
        leave_at(depart, &mut loaded)?;
    }
    let from = opening::told(&loaded, &loaded.doubts(), args);
    folder::may_write_folder(wanted.output.out.as_deref(), wanted.output.force)?;
    let bar = progress::bar(0, args.quiet);
    let answered = when(&loaded.scenario, &spare()?, &|step| match step {
        Progress::Planned(nights) => bar.inc_length(nights as u64),
        Progress::Done => bar.inc(1),
    });
    bar.finish_and_clear();
    let answer = answered.map_err(|e| failed(e, &loaded.file, &loaded.sources, None))?;

    let findings = when_json::told(&answer, &loaded.scenario, &from)
        .map_err(|e| Failure::Format(e.to_string()))?;
    if let Some(path) = &wanted.output.out {
        let title = &loaded.scenario.title;
        let nights = [(title.clone(), answer.night())];
        folder::write(
            path,
            wanted.output.force,
            title,
            &findings,
            &nights,
            wanted.output.paper.into(),
            &from,
        )?;
    }
    if wanted.output.json {
        say::out(&findings)?;
    } else {
        let mut text = when_text::told(&answer, &loaded.scenario, say::width());
        if let Some(path) = wanted.output.out.as_ref().filter(|_| !args.quiet) {
            text += &format!(
                "\nFindings, and trace and chart of that night, are in {}\n",
                path.display()
            );
        }
        text += &format!("\n{}\n", from.told(say::width()));
        say::out(&text)?;
    }
    let never = matches!(answer.verdict, Verdict::Never(_));
    Ok(if wanted.output.require_ready && never {
        Outcome::NotReady
    } else {
        Outcome::Done
    })
}

/// Sets the departure; what is wrong with the night only since then is the flag's fault.
fn leave_at(depart: Moment, loaded: &mut Loaded) -> Result<(), Failure> {
    let sound = check(&loaded.scenario).is_ok();
    loaded.scenario.clock.departure = depart;
    if let Err(problems) = check(&loaded.scenario) {
        // Hours that are sought anew are no reason to refuse.
        for (i, heater) in loaded.scenario.heaters.iter_mut().enumerate() {
            let sought = matches!(heater.hours, Hours::from(_) | Hours::before_departure(_));
            let path = format!("heaters[{i}].hours");
            if sought && problems.iter().any(|p| p.path == path) {
                heater.hours = Hours::always;
            }
        }
    }
    match check(&loaded.scenario) {
        Err(problems) if sound => {
            let typed = format!("--depart {}", String::from(depart));
            let begin = String::from(loaded.scenario.clock.begin);
            let fault = |what: &str| {
                Fault::of(&typed, what.to_owned()).help(format!(
                    "the night of {} begins at {begin}; leave after that and after the hours of heaters that run by a timer, while its weather is recorded",
                    loaded.file
                ))
            };
            let faults = problems.iter().map(|p| fault(&p.what)).collect();
            Err(FileError::Faults(faults).into())
        }
        _ => Ok(()),
    }
}

fn spare() -> Result<Vec<Heater>, FileError> {
    let built_in = |name: &&str| model(Kind::Heater, name);
    SPARE.iter().map(built_in).collect()
}
