//! `coldsoak map`: the engine as a drawing coloured by temperature.

use super::args::{Args, Theme};
use super::outcome::{Failure, Outcome};
use super::{at, night, opening, say};
use crate::files::fault::Fault;
use crate::files::safe::{may_write, write_file};
use crate::night::{NightError, run as run_night};
use crate::report::map::{MOST, Map as EngineMap, strip};
#[cfg(feature = "png")]
use crate::report::{gif, png};
use crate::scenario::check::check;
use std::path::{Path, PathBuf};

/// What the help teaches with.
const EXAMPLES: &str = "Examples:\n  \
coldsoak map demo                            the built-in night at departure, into engine-map.svg\n  \
coldsoak map my-night.ron --at 05:30         at half past five by the local clock\n  \
coldsoak map demo --at 22:00 --out ten.png   as PNG\n  \
coldsoak map demo --every 30min --out strip.svg   the whole night in small pictures\n  \
coldsoak map demo --every 15min --out night.gif   the whole night in motion\n\n\
Blue is colder than asked, amber warm enough; lighter is warmer. Numbers in circles are heaters.";

/// The file that is written when none is named.
const DEFAULT: &str = "engine-map.svg";

/// Moments closer than this are one, s.
const SAME_S: f64 = 1.0;

/// What `map` was given.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub struct Map {
    /// A night file, `-` for standard input, or the name of a built-in night.
    pub night: String,
    /// The moment by the local clock, as in 05:30 (the first such time of the night), "day 2, 05:30" or
    /// "2026-01-12 05:30". The departure if not given.
    #[arg(long, value_name = "TIME")]
    pub at: Option<String>,
    /// Pictures at this interval, from the beginning to the departure: a strip of small ones or, in a file that ends in
    /// .gif, one after the other.
    #[arg(long, value_name = "15min", conflicts_with = "at")]
    pub every: Option<String>,
    /// What it is drawn on.
    #[arg(long, value_enum, default_value_t)]
    pub paper: Theme,
    /// Write it to this file, `.svg`, `.png` or `.gif`; `-` is standard output (SVG).
    #[arg(long, value_name = "FILE", default_value = DEFAULT)]
    pub out: PathBuf,
    /// Replace the file if it is there already.
    #[arg(long)]
    pub force: bool,
}

/// Runs the command.
pub fn run(wanted: &Map, args: &Args) -> Result<Outcome, Failure> {
    let form = form(&wanted.out, wanted.every.is_some())?;
    let loaded = opening::loaded(&wanted.night, args)?;
    let from = opening::told(&loaded, &loaded.doubts(), args);
    let failed = |e| night::failed(e, &loaded.file, &loaded.sources, None);
    // Slips are told before anything is computed.
    let checked = check(&loaded.scenario).map_err(|p| failed(NightError::Problems(p)))?;
    let clock = checked.clock();
    let at = wanted.at.as_ref().map(|at| at::seconds(at, clock));
    let at = at.transpose().map_err(|e| at::slip(&e))?;
    let at_s = at.unwrap_or(clock.night_s());
    let end_s = checked.end_s();
    if at_s > end_s {
        let (begin, end) = (clock.dated(0.0), clock.dated(end_s));
        let what = format!(
            "--at: {} is not within the night, which runs from {begin} to {end}",
            clock.dated(at_s)
        );
        return Err(slip(what, "name a time between its beginning and its end").into());
    }
    let times = match &wanted.every {
        None => vec![at_s],
        Some(every) => times(every, clock.night_s())?,
    };
    let to_file = wanted.out.as_os_str() != "-";
    if to_file {
        may_write(&wanted.out, wanted.force)?;
    }
    let night = run_night(&loaded.scenario).map_err(failed)?;
    let map = EngineMap::of(&night);
    let paper = wanted.paper.into();
    let svg = || match &wanted.every {
        None => from.in_svg(&map.svg(at_s, paper)),
        Some(_) => from.in_svg(&strip(&map, &times, paper)),
    };
    if !to_file {
        say::out(&svg())?;
        return Ok(Outcome::Done);
    }
    let bytes = match form {
        #[cfg(feature = "png")]
        Form::Png => png::from_svg(&svg(), 1.5)?,
        #[cfg(feature = "png")]
        Form::Gif => {
            let each = times.iter().map(|time_s| map.svg(*time_s, paper));
            gif::from_svgs(&each.collect::<Vec<_>>(), 1.0, &from.in_lines())?
        }
        // Without PNG any other was refused.
        _ => svg().into_bytes(),
    };
    write_file(&wanted.out, &bytes, wanted.force)?;
    if !args.quiet {
        let what = match &wanted.every {
            None => format!(" at {}", clock.dated(at_s)),
            Some(every) => format!(", every {every},"),
        };
        let out = wanted.out.display();
        say::out(&format!("The engine{what} is in {out}\n"))?;
    }
    Ok(Outcome::Done)
}

/// The moments from the beginning to the departure, so long apart.
fn times(every: &str, leave_s: f64) -> Result<Vec<f64>, Failure> {
    let spelt = [("min", 60.0), ("h", 3600.0)];
    let step_s = spelt.iter().find_map(|(unit, seconds)| {
        let number: f64 = every.trim().strip_suffix(unit)?.trim().parse().ok()?;
        (number > 0.0 && number.is_finite()).then_some(number * seconds)
    });
    let help = "minutes or hours, as in --every 15min or --every 1h";
    let Some(step_s) = step_s else {
        let what = format!("--every: `{every}` is no span of time in minutes or hours");
        return Err(slip(what, help).into());
    };
    // The departure is always the last, however little after the one before.
    let whole = (leave_s / step_s + 1e-9).floor();
    let count = whole
        + if leave_s - whole * step_s > SAME_S {
            2.0
        } else {
            1.0
        };
    if count > MOST as f64 {
        let least = (leave_s / 60.0 / (MOST - 1) as f64).ceil();
        let what = format!("--every: {every} makes {count:.0} pictures, {MOST} at most");
        let help = format!("take them further apart, as in --every {least:.0}min");
        return Err(slip(what, &help).into());
    }
    let before = (0..count as usize - 1).map(|k| k as f64 * step_s);
    Ok(before.chain([leave_s]).collect())
}

/// What kind of picture is written.
enum Form {
    Svg,
    Png,
    Gif,
}

/// The kind of a file, by its ending; `many` moments are asked or one.
fn form(out: &Path, many: bool) -> Result<Form, Failure> {
    let ending = out.extension().map(|e| e.to_string_lossy().to_lowercase());
    let form = match ending.as_deref() {
        _ if out.as_os_str() == "-" => Form::Svg,
        Some("svg") => Form::Svg,
        Some("png") => Form::Png,
        Some("gif") if many => Form::Gif,
        Some("gif") => {
            let what = format!(
                "--out: {}: a .gif shows many moments, and one is asked",
                out.display()
            );
            let help = "say how far its pictures are apart, as in --every 15min, or end it in .png";
            return Err(slip(what, help).into());
        }
        _ => {
            let what = format!(
                "--out: {} ends in none of .svg, .png and .gif",
                out.display()
            );
            let help = "name a file with one of these endings, as in --out engine.svg";
            return Err(slip(what, help).into());
        }
    };
    if cfg!(not(feature = "png")) && !matches!(form, Form::Svg) {
        let what = "--out: this coldsoak was built without PNG and GIF".to_owned();
        return Err(slip(what, "name a file that ends in .svg").into());
    }
    Ok(form)
}

fn slip(what: String, help: &str) -> Fault {
    Fault::of("the command line", what).help(help)
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
