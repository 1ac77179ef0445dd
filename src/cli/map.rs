//! `coldsoak map`: the engine as a drawing coloured by temperature.

use super::args::Args;
use super::outcome::{Failure, Outcome};
use super::{night, opening, say};
use crate::files::fault::Fault;
use crate::files::safe::write_file;
use crate::night::run as run_night;
use crate::report::map::{MOST, Map as EngineMap, strip};
use crate::scenario::clock::ClockTime;
use std::path::{Path, PathBuf};

/// What the help teaches with.
const EXAMPLES: &str = "Examples:\n  \
coldsoak map demo                            the built-in night at departure, into engine-map.svg\n  \
coldsoak map my-night.ron --at 05:30         at half past five by the local clock\n  \
coldsoak map demo --at 22:00 --out ten.png   as PNG\n  \
coldsoak map demo --every 30min --out strip.svg   the whole night in small pictures\n\n\
Blue is colder than asked, amber warm enough; lighter is warmer. Numbers in circles are heaters.";

/// The file that is written when none is named.
const DEFAULT: &str = "engine-map.svg";

/// What `map` was given.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub struct Map {
    /// A night file, `-` for standard input, or the name of a built-in night.
    pub night: String,
    /// The moment by the local clock: the first such time of the night. The departure if not given.
    #[arg(long, value_name = "HH:MM")]
    pub at: Option<String>,
    /// A strip of small pictures in place of one: from the beginning to the departure, so long apart.
    #[arg(long, value_name = "15min", conflicts_with = "at")]
    pub every: Option<String>,
    /// Write it to this file, `.svg` or `.png`; `-` is standard output (SVG).
    #[arg(long, value_name = "FILE", default_value = DEFAULT)]
    pub out: PathBuf,
    /// Replace the file if it is there already.
    #[arg(long)]
    pub force: bool,
}

/// Runs the command.
pub fn run(wanted: &Map, args: &Args) -> Result<Outcome, Failure> {
    let png = form(&wanted.out)?;
    let loaded = opening::loaded(&wanted.night, args)?;
    let from = opening::told(&loaded, &loaded.doubts(), args);
    let time = wanted.at.as_ref().map(|at| ClockTime::try_from(at.clone()));
    let time = time
        .transpose()
        .map_err(|what| slip(format!("--at: {what}"), "the local clock, as in --at 05:30"))?;
    let night = run_night(&loaded.scenario)
        .map_err(|e| night::failed(e, &loaded.file, &loaded.sources, None))?;
    let clock = night.scenario.clock();
    let at_s = time.map_or(night.trace.departure_s, |time| clock.seconds_until(time));
    let end_s = night.trace.times_s.last().copied().unwrap_or(0.0);
    if at_s > end_s {
        let (begin, end) = (clock.told(0.0), clock.told(end_s));
        let what = format!(
            "--at: {} is not within the night, which runs from {begin} to {end}",
            clock.told(at_s)
        );
        return Err(slip(what, "name a time between its beginning and its end").into());
    }
    let map = EngineMap::of(&night);
    let svg = match &wanted.every {
        None => map.svg(at_s),
        Some(every) => strip(&map, &times(every, night.trace.departure_s)?),
    };
    let svg = from.in_svg(&svg);
    if wanted.out.as_os_str() == "-" {
        say::out(&svg)?;
        return Ok(Outcome::Done);
    }
    let bytes = if png { drawn(&svg)? } else { svg.into_bytes() };
    write_file(&wanted.out, &bytes, wanted.force)?;
    if !args.quiet {
        let what = match &wanted.every {
            None => format!("at {}", clock.told(at_s)),
            Some(every) => format!("every {every}"),
        };
        let out = wanted.out.display();
        say::out(&format!("The engine {what} is in {out}\n"))?;
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
        return Err(slip(format!("--every: `{every}` is no span of time"), help).into());
    };
    let count = (leave_s / step_s + 1e-9).floor() + 1.0;
    if count > MOST as f64 {
        let least = (leave_s / 60.0 / (MOST - 1) as f64).ceil();
        let what = format!("--every: {every} makes {count:.0} pictures, {MOST} at most");
        let help = format!("take them further apart, as in --every {least:.0}min");
        return Err(slip(what, &help).into());
    }
    let mut times: Vec<f64> = (0..count as usize).map(|k| k as f64 * step_s).collect();
    // The departure is always the last.
    if times.last().is_some_and(|last| leave_s - last > 1.0) && times.len() < MOST {
        times.push(leave_s);
    }
    Ok(times)
}

/// Whether a file is to be a PNG, by its ending.
fn form(out: &Path) -> Result<bool, Failure> {
    let ending = out.extension().map(|e| e.to_string_lossy().to_lowercase());
    match ending.as_deref() {
        _ if out.as_os_str() == "-" => Ok(false),
        Some("svg") => Ok(false),
        Some("png") if cfg!(feature = "png") => Ok(true),
        Some("png") => Err(slip(
            "--out: this coldsoak was built without PNG".to_owned(),
            "name a file that ends in .svg",
        )
        .into()),
        _ => Err(slip(
            format!("--out: {} ends in neither .svg nor .png", out.display()),
            "name a file with one of these endings, as in --out engine.svg",
        )
        .into()),
    }
}

#[cfg(feature = "png")]
fn drawn(svg: &str) -> Result<Vec<u8>, Failure> {
    Ok(crate::report::png::from_svg(svg, 1.5)?)
}

#[cfg(not(feature = "png"))]
fn drawn(svg: &str) -> Result<Vec<u8>, Failure> {
    Ok(svg.as_bytes().to_vec())
}

fn slip(what: String, help: &str) -> Fault {
    Fault::of("the command line", what).help(help)
}
