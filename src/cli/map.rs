//! `coldsoak map`: the engine as a drawing coloured by temperature.

use super::exit_code::{Failure, Outcome};
use super::flags::{Flags, LookFlags, flag_error};
use super::session::Session;
use super::set::Set;
use super::terminal;
use super::time_argument::at_seconds;
use crate::files::safe::{may_write, write_file};
use crate::night::run as run_night;
use crate::picture::draw::{gif, png, svg};
use crate::picture::map::{MOST, Map as EngineMap, strip};
use std::path::{Path, PathBuf};

/// Examples in the help.
const EXAMPLES: &str = "Examples:\n  \
coldsoak map demo                            the built-in night at departure, into engine-map.svg\n  \
coldsoak map my-night.ron --at 05:30         at half past five by the local clock\n  \
coldsoak map demo --at 22:00 --out ten.png   as PNG\n  \
coldsoak map demo --every 30min --out strip.svg   the whole night in small pictures\n  \
coldsoak map demo --every 15min --out night.gif   the whole night in motion\n  \
coldsoak map demo --size phone               for a telephone\n\n\
Blue is below the minimum, amber warm enough; lighter is warmer. Numbers in circles are heaters.";

/// The file that is written when none is named.
const DEFAULT: &str = "engine-map.svg";

/// Times closer than this are one, s.
const SAME_S: f64 = 1.0;

/// Flags of `map`.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub struct Map {
    /// A night file, `-` for standard input, or the name of a built-in night
    pub night: String,
    #[command(flatten)]
    set: Set,
    /// Local time, as in 05:30, "day 2, 05:30" or "2026-01-12 05:30" [default: departure]
    #[arg(long, value_name = "TIME")]
    pub at: Option<String>,
    /// Draw pictures at this interval: a strip, or in motion in a .gif
    #[arg(long, value_name = "15min", conflicts_with = "at")]
    pub every: Option<String>,
    #[command(flatten)]
    pub look: LookFlags,
    /// Write it to this file, .svg, .png or .gif; `-` is standard output (SVG)
    #[arg(long, value_name = "FILE", default_value = DEFAULT)]
    pub out: PathBuf,
    /// Replace the file if it exists
    #[arg(long)]
    pub force: bool,
}

/// Runs the command.
pub fn run(typed: &Map, flags: &Flags) -> Result<Outcome, Failure> {
    let form = form(&typed.out, typed.every.is_some())?;
    let session = Session::open(&typed.night, &typed.set, flags)?;
    let from = &session.from;
    // Errors in flags come before anything is computed.
    let checked = session.checked()?;
    let clock = checked.clock();
    let at_s = at_seconds(typed.at.as_deref(), clock, checked.end_s())?;
    let times = match &typed.every {
        None => vec![at_s],
        Some(every) => times(every, clock.night_s())?,
    };
    let to_file = typed.out.as_os_str() != "-";
    if to_file {
        may_write(&typed.out, typed.force)?;
    }
    let night = run_night(&session.night.scenario).map_err(|e| session.failure(e))?;
    let map = EngineMap::of(&night, typed.look.look());
    let picture = || match &typed.every {
        None => map.picture(at_s),
        Some(_) => strip(&map, &times),
    };
    let svg = || svg::file(&picture(), &from.in_lines());
    if !to_file {
        terminal::print(&svg())?;
        return Ok(Outcome::Done);
    }
    let bytes = match form {
        Form::Png => png(&picture(), 1.0)?,
        Form::Gif => {
            let each = times.iter().map(|time_s| map.picture(*time_s));
            gif(&each.collect::<Vec<_>>(), &from.in_lines())?
        }
        Form::Svg => svg().into_bytes(),
    };
    write_file(&typed.out, &bytes, typed.force)?;
    if !flags.quiet {
        let what = match &typed.every {
            None => format!(" at {}", clock.dated(at_s)),
            Some(every) => format!(", every {every},"),
        };
        let out = typed.out.display();
        terminal::print(&format!("The engine{what} is in {out}\n"))?;
    }
    Ok(Outcome::Done)
}

/// The times from the beginning to the departure, so long apart.
fn times(every: &str, leave_s: f64) -> Result<Vec<f64>, Failure> {
    let units = [("min", 60.0), ("h", 3600.0)];
    let step_s = units.iter().find_map(|(unit, seconds)| {
        let number: f64 = every.trim().strip_suffix(unit)?.trim().parse().ok()?;
        (number > 0.0 && number.is_finite()).then_some(number * seconds)
    });
    let Some(step_s) = step_s else {
        let message = format!("\"{every}\" is not a time in minutes or hours.");
        return Err(flag_error(
            "--every",
            message,
            "--every 15min or --every 1h",
        ));
    };
    // The departure is always the last, however little after the one before.
    let whole = (leave_s / step_s + 1e-9).floor();
    let rest = leave_s - whole * step_s > SAME_S;
    let count = whole + if rest { 2.0 } else { 1.0 };
    if count > MOST as f64 {
        let least = (leave_s / 60.0 / (MOST - 1) as f64).ceil();
        let message = format!("{every} makes {count:.0} pictures, and {MOST} is the limit.");
        return Err(flag_error(
            "--every",
            message,
            &format!("--every {least:.0}min"),
        ));
    }
    let before = (0..count as usize - 1).map(|k| k as f64 * step_s);
    Ok(before.chain([leave_s]).collect())
}

/// The format of a picture.
enum Form {
    Svg,
    Png,
    Gif,
}

/// The format of a file by its ending; `many` times are drawn or one.
fn form(out: &Path, many: bool) -> Result<Form, Failure> {
    let refused = |message: String, instead| flag_error("--out", message, instead);
    let name = out.display();
    let ending = out.extension().map(|e| e.to_string_lossy().to_lowercase());
    let form = match ending.as_deref() {
        _ if out.as_os_str() == "-" => Form::Svg,
        Some("svg") => Form::Svg,
        Some("png") => Form::Png,
        Some("gif") if many => Form::Gif,
        Some("gif") => {
            let message = format!("{name}: a .gif shows many times, and this is one.");
            return Err(refused(
                message,
                "--every 15min, or a file that ends in .png",
            ));
        }
        _ => {
            let message = format!("{name} ends in none of .svg, .png and .gif.");
            return Err(refused(message, "--out engine.svg"));
        }
    };
    Ok(form)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_departure_is_always_the_last() {
        let night = |every: &str, leave_s: f64| times(every, leave_s).unwrap();
        assert_eq!(night("1h", 7200.0), [0.0, 3600.0, 7200.0]);
        assert_eq!(night("1h", 7260.0), [0.0, 3600.0, 7200.0, 7260.0]);
        // As many spans as there may be pictures, and the departure between the last two.
        let span = |most: usize| 60.0 * (most - 1) as f64;
        let whole = night("1min", span(MOST));
        assert_eq!((whole.len(), whole.last()), (MOST, Some(&span(MOST))));
        assert!(times("1min", span(MOST) + 30.0).is_err());
        let one_less = night("1min", span(MOST - 1) + 30.0);
        assert_eq!(one_less.len(), MOST);
        assert_eq!(one_less.last(), Some(&(span(MOST - 1) + 30.0)));
    }
}
