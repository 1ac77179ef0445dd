//! `coldsoak chart`: one night or the choices of a comparison as pictures, each with its numbers.

use super::compare::computed;
use super::deliver::{CHOICES, ResultFolder, choices_chart, may_write_folder};
use super::exit_code::{Failure, Outcome};
use super::flags::{Flags, LookFlags, flag_error};
use super::session::{ComparisonSession, Session};
use super::set::Set;
use super::terminal;
use crate::files::library::{Kind, builtin};
use crate::files::safe::{may_write, write_file};
use crate::files::sources::Sources;
use crate::files::validate::kind_named;
use crate::night::run as run_night;
use crate::picture::chart::{self, ChartView, Show as Shown, of_night};
use crate::picture::draw::{png, svg};
use crate::report::provenance::Provenance;
use crate::study::compare::CompareOptions;
use std::path::{Path, PathBuf};

/// Examples in the help.
const EXAMPLES: &str = "Examples:\n  \
coldsoak chart demo                                    all charts of the built-in night, in a folder\n  \
coldsoak chart my-night.ron --show heat --out heat.png   one, as a picture\n  \
coldsoak chart my-night.ron --show heat --out heat.csv   its numbers\n  \
coldsoak chart demo --show temperature --out - > t.svg   to standard output, as SVG\n  \
coldsoak chart demo --theme dark --size projector --out talk   for a talk\n  \
coldsoak chart demo --show heat --size phone --out heat.svg    for a telephone\n  \
coldsoak chart my-choices.ron --out choices.png        the choices of a comparison\n  \
coldsoak chart demo --show choices --out choices.svg   those of the built-in one\n\n\
temperature: coldest part, part groups, air, minimum, dew point, heaters, condensation\n\
heat: heat flows by the clock, stacked\n\
water: grams on each inner wall, at departure and at most\n\
dew: how far the walls are above the dew point, and the water on them, by the clock\n\
choices: of a comparison, the coldest engine part of each choice by the clock\n\n\
Every chart comes with its numbers (CSV) beside it, units in the names of the columns.";

/// Flags of `chart`.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub struct Chart {
    /// A night or a comparison: a file, `-` for standard input, or a built-in name
    pub file: String,
    #[command(flatten)]
    set: Set,
    /// What to show [default: all charts of a night]
    #[arg(long, value_enum, value_delimiter = ',')]
    pub show: Vec<Show>,
    #[command(flatten)]
    pub look: LookFlags,
    /// A folder, or for one chart a file .svg, .png or .csv; `-` is standard output
    #[arg(long, value_name = "FOLDER or FILE", default_value = "coldsoak-charts")]
    pub out: PathBuf,
    /// Replace what exists
    #[arg(long)]
    pub force: bool,
}

/// What a chart shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
pub enum Show {
    /// Temperatures by the hours.
    Temperature,
    /// Where the heat went, by the hours.
    Heat,
    /// Water on each wall at departure.
    Water,
    /// Distance from the dew point and water, by the hours.
    Dew,
    /// The choices of a comparison.
    Choices,
}

impl Show {
    /// The chart of a night that it is; none of a comparison's.
    fn of_night(self) -> Option<Shown> {
        match self {
            Self::Temperature => Some(Shown::Temperature),
            Self::Heat => Some(Shown::Heat),
            Self::Water => Some(Shown::Water),
            Self::Dew => Some(Shown::Dew),
            Self::Choices => None,
        }
    }
}

/// Where it goes.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Target {
    Folder,
    StandardOutput,
    Svg,
    Png,
    Csv,
}

/// Runs the command.
pub fn run(typed: &Chart, flags: &Flags) -> Result<Outcome, Failure> {
    if typed.show.contains(&Show::Choices) || kind(typed) == Some(Kind::Comparison) {
        return choices(typed, flags);
    }
    let mut shows: Vec<Shown> = Vec::new();
    for show in typed.show.iter().filter_map(|show| show.of_night()) {
        if !shows.contains(&show) {
            shows.push(show);
        }
    }
    if shows.is_empty() {
        shows = Shown::ALL.to_vec();
    }
    let target = target(&typed.out, shows.len())?;
    let session = Session::open(&typed.file, &typed.set, flags)?;
    may_write_to(target, typed)?;
    let scenario = &session.night.scenario;
    let night = run_night(scenario).map_err(|e| session.failure(e))?;
    let view = ChartView::of(&night, &scenario.title, "", typed.look.look());
    let mut drawn = Vec::new();
    for show in shows {
        drawn.push((show.word(), of_night(show, &night.trace, &view)));
    }
    write(&drawn, target, typed, flags, &session.from)
}

/// The kind of the file; what cannot be read is an error of its reader.
fn kind(typed: &Chart) -> Option<Kind> {
    let mut sources = Sources::beside(Path::new(&typed.file));
    kind_named(&typed.file, &mut sources).unwrap_or_default()
}

/// Refuses, before anything is computed, what could not be written afterwards.
fn may_write_to(target: Target, typed: &Chart) -> Result<(), Failure> {
    match target {
        Target::StandardOutput => Ok(()),
        Target::Folder => may_write_folder(&typed.out, typed.force),
        Target::Svg | Target::Png | Target::Csv => Ok(may_write(&typed.out, typed.force)?),
    }
}

/// The choices of a comparison in one chart.
fn choices(typed: &Chart, flags: &Flags) -> Result<Outcome, Failure> {
    let name = typed.file.as_str();
    if let Some(show) = typed.show.iter().find_map(|show| show.of_night()) {
        let word = show.word();
        let message = format!("{word} is of one night, and {name} is a comparison.");
        return Err(flag_error("--show", message, "--show choices"));
    }
    if kind(typed) == Some(Kind::Night) && builtin(Kind::Comparison, name).is_none() {
        let message = format!("choices is of a comparison, and {name} is a night.");
        return Err(flag_error("--show", message, "--show temperature"));
    }
    let target = target(&typed.out, 1)?;
    let session = ComparisonSession::open(Some(Path::new(name)), &typed.set, flags)?;
    may_write_to(target, typed)?;
    let options = CompareOptions {
        count: None,
        ..CompareOptions::default()
    };
    let compared = computed(&session, flags, options)?;
    let title = &session.comparison.base.scenario.title;
    let drawn = choices_chart(&compared, title, typed.look.look());
    write(&[(CHOICES, drawn)], target, typed, flags, &session.from)
}

/// Writes pictures, each under its word, into a folder; one alone elsewhere.
fn write(
    drawn: &[(&str, chart::Chart)],
    target: Target,
    typed: &Chart,
    flags: &Flags,
    from: &Provenance,
) -> Result<Outcome, Failure> {
    if target == Target::Folder {
        let mut folder = ResultFolder::begin(&typed.out, typed.force, from)?;
        for (word, chart) in drawn {
            folder.picture(word, chart)?;
        }
        folder.finish()?;
        if !flags.quiet {
            terminal::print(&format!("Charts are in {}\n", typed.out.display()))?;
        }
        return Ok(Outcome::Done);
    }
    for (_, chart) in drawn {
        let bytes = bytes(target, chart, from)?;
        if target == Target::StandardOutput {
            terminal::print(&String::from_utf8_lossy(&bytes))?;
        } else {
            write_file(&typed.out, &bytes, typed.force)?;
        }
    }
    Ok(Outcome::Done)
}

/// One chart as the bytes of its file.
fn bytes(target: Target, chart: &chart::Chart, from: &Provenance) -> Result<Vec<u8>, Failure> {
    match target {
        Target::Csv => Ok(chart.csv.clone()),
        Target::Png => Ok(png(&chart.picture, 1.0)?),
        _ => Ok(svg::file(&chart.picture, &from.in_lines()).into_bytes()),
    }
}

/// Where `--out` leads.
fn target(out: &Path, charts: usize) -> Result<Target, Failure> {
    let refused = |message: String, instead| Err(flag_error("--out", message, instead));
    let ending = out.extension().and_then(|e| e.to_str());
    let target = match ending.map(str::to_lowercase).as_deref() {
        _ if out.as_os_str() == "-" => Target::StandardOutput,
        None => Target::Folder,
        Some("svg") => Target::Svg,
        Some("png") => Target::Png,
        Some("csv") => Target::Csv,
        Some(other) => {
            let message = format!("a chart cannot be written as .{other}.");
            return refused(message, "--out chart.svg, .png or .csv, or a folder");
        }
    };
    if charts > 1 && target != Target::Folder {
        let message = format!("{} is one file, for {charts} charts.", out.display());
        return refused(
            message,
            "--show temperature (or heat, water, dew), or a folder",
        );
    }
    Ok(target)
}
