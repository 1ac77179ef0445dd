//! `coldsoak chart`: one night or the choices of a comparison as pictures, each with its numbers.

use super::args::{Args, Theme};
use super::outcome::{Failure, Outcome};
use super::{compare, folder, night, opening, say};
use crate::files::comparison::load_named_comparison_from;
use crate::files::fault::Fault;
use crate::files::library::{Kind, builtin};
use crate::files::safe::{may_write, write_file};
use crate::files::sources::Sources;
use crate::files::validate::kind_named;
use crate::night::run as run_night;
use crate::report::chart::comparison::coldest_parts;
use crate::report::chart::{ChartView, Picture, Show as Shown, of_night};
use crate::report::provenance::Provenance;
use std::path::{Path, PathBuf};

/// What the help teaches with.
const EXAMPLES: &str = "Examples:\n  \
coldsoak chart demo                                    all charts of the built-in night, in a folder\n  \
coldsoak chart my-night.ron --show heat --out heat.png   one, as a picture\n  \
coldsoak chart my-night.ron --show heat --out heat.csv   its numbers\n  \
coldsoak chart demo --show temperature --out - > t.svg   to standard output, as SVG\n  \
coldsoak chart demo --paper dark --units degC --out dark   light on dark, in degrees Celsius\n  \
coldsoak chart my-choices.ron --out choices.png        the choices of a comparison\n  \
coldsoak chart demo --show choices --out choices.svg   those of the built-in one\n\n\
temperature: groups of parts, air, threshold, dew point, heaters and settling water by the clock\n\
heat: where the watts go, piled up by the clock\n\
water: grams on each wall inside, at departure and at most\n\
dew: how far the walls stand above the dew point, and the water on them, by the clock\n\
choices: of a comparison, the coldest engine part of each choice by the clock\n\n\
Every chart comes with its numbers (CSV) beside it, units in the heads of the columns.";

/// What `chart` was given.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub struct Chart {
    /// A night or a comparison: a file, `-` for standard input, or the name of a built-in one (of a night, if both are
    /// called so).
    pub file: String,
    /// What to show; of a night all of them if not given.
    #[arg(long, value_enum, value_delimiter = ',')]
    pub show: Vec<Show>,
    /// What it is drawn on.
    #[arg(long, value_enum, default_value_t)]
    pub paper: Theme,
    /// A folder, or for one chart a file that ends in .svg, .png or .csv; `-` is standard output.
    #[arg(long, value_name = "FOLDER or FILE", default_value = "coldsoak-charts")]
    pub out: PathBuf,
    /// Replace what is there already.
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
enum Way {
    Folder,
    Out,
    Svg,
    Png,
    Csv,
}

/// Runs the command.
pub fn run(wanted: &Chart, args: &Args) -> Result<Outcome, Failure> {
    if wanted.show.contains(&Show::Choices) || kind(wanted) == Some(Kind::Comparison) {
        return choices(wanted, args);
    }
    let mut shows: Vec<Shown> = Vec::new();
    for show in wanted.show.iter().filter_map(|show| show.of_night()) {
        if !shows.contains(&show) {
            shows.push(show);
        }
    }
    if shows.is_empty() {
        shows = Shown::ALL.to_vec();
    }
    let way = way(&wanted.out, shows.len())?;
    let loaded = opening::loaded(&wanted.file, args)?;
    let from = opening::told(&loaded, &loaded.doubts(), args);
    may_keep(&way, wanted)?;
    let night = run_night(&loaded.scenario)
        .map_err(|e| night::failed(e, &loaded.file, &loaded.sources, None))?;
    let view = ChartView::of(&night, &loaded.scenario.title, "", wanted.paper.into());
    let mut drawn = Vec::new();
    for show in shows {
        drawn.push((show.word(), of_night(show, &night.trace, &view)?));
    }
    kept(&drawn, &way, wanted, args, &from)
}

/// What kind of file is asked for; what cannot be read is told by who reads it.
fn kind(wanted: &Chart) -> Option<Kind> {
    let mut sources = Sources::beside(Path::new(&wanted.file));
    kind_named(&wanted.file, &mut sources).unwrap_or_default()
}

/// Refuses, before anything is computed, what would not be written afterwards.
fn may_keep(way: &Way, wanted: &Chart) -> Result<(), Failure> {
    match way {
        Way::Out => Ok(()),
        Way::Folder => folder::may_write_folder(Some(&wanted.out), wanted.force),
        Way::Svg | Way::Png | Way::Csv => Ok(may_write(&wanted.out, wanted.force)?),
    }
}

/// The choices of a comparison in one chart.
fn choices(wanted: &Chart, args: &Args) -> Result<Outcome, Failure> {
    if let Some(show) = wanted.show.iter().find_map(|show| show.of_night()) {
        let word = show.word();
        return Err(slip(
            format!("--show {word} is of one night, and a comparison is shown by --show choices"),
            &format!("name the night itself, as in `coldsoak chart my-night.ron --show {word}`"),
        ));
    }
    let name = wanted.file.as_str();
    if kind(wanted) == Some(Kind::Night) && builtin(Kind::Comparison, name).is_none() {
        return Err(slip(
            format!("--show choices is of a comparison, and {name} is a night"),
            &format!("leave it out, as in `coldsoak chart {name}`"),
        ));
    }
    let way = way(&wanted.out, 1)?;
    let loaded = load_named_comparison_from(Path::new(&wanted.file), args.outside())?;
    loaded.audit()?;
    let base = &loaded.base;
    let from = opening::told(base, &loaded.doubts(), args);
    may_keep(&way, wanted)?;
    let compared = compare::computed(&loaded, args, None)?;
    let title = &base.scenario.title;
    let nights: Vec<_> = compared
        .nights
        .iter()
        .map(|n| (n.0.as_str(), &n.1.trace))
        .collect();
    let mut drawn = Vec::new();
    // A comparison without choices was refused.
    if let Some((_, first)) = compared.nights.first() {
        let view = ChartView::of(first, title, "", wanted.paper.into());
        drawn.push((folder::CHOICES, coldest_parts(&nights, &view)?));
    }
    kept(&drawn, &way, wanted, args, &from)
}

/// Writes pictures, each under its word, to where they go; one alone if that is no folder.
fn kept(
    drawn: &[(&str, Picture)],
    way: &Way,
    wanted: &Chart,
    args: &Args,
    from: &Provenance,
) -> Result<Outcome, Failure> {
    if let Way::Folder = way {
        let mut kept = folder::ResultFolder::begin(&wanted.out, wanted.force, from)?;
        for (word, picture) in drawn {
            kept.picture(word, picture)?;
        }
        kept.finish()?;
        if !args.quiet {
            say::out(&format!("Charts are in {}\n", wanted.out.display()))?;
        }
        return Ok(Outcome::Done);
    }
    for (_, picture) in drawn {
        let bytes = bytes(way, picture, from)?;
        if let Way::Out = way {
            say::out(&String::from_utf8_lossy(&bytes))?;
        } else {
            write_file(&wanted.out, &bytes, wanted.force)?;
        }
    }
    Ok(Outcome::Done)
}

/// One chart as the bytes of its file.
fn bytes(way: &Way, picture: &Picture, from: &Provenance) -> Result<Vec<u8>, Failure> {
    match way {
        Way::Csv => Ok(picture.csv.clone()),
        #[cfg(feature = "png")]
        Way::Png => Ok(crate::report::png::from_svg(
            &from.in_svg(&picture.svg),
            1.5,
        )?),
        _ => Ok(from.in_svg(&picture.svg).into_bytes()),
    }
}

/// What `--out` asks for.
fn way(out: &Path, charts: usize) -> Result<Way, Failure> {
    let ending = out.extension().and_then(|e| e.to_str());
    let way = match ending.map(str::to_lowercase).as_deref() {
        _ if out.as_os_str() == "-" => Way::Out,
        None => Way::Folder,
        Some("svg") => Way::Svg,
        Some("png") => Way::Png,
        Some("csv") => Way::Csv,
        Some(other) => {
            return Err(slip(
                format!("--out: a chart cannot be written as .{other}"),
                "end it in .svg, .png or .csv for one chart, or name a folder without an ending",
            ));
        }
    };
    if cfg!(not(feature = "png")) && matches!(way, Way::Png) {
        return Err(slip(
            "--out: this coldsoak was built without PNG".to_owned(),
            "end it in .svg",
        ));
    }
    if charts > 1 && !matches!(way, Way::Folder) {
        return Err(slip(
            format!(
                "--out: {} is one file, and {charts} charts are asked",
                out.display()
            ),
            "choose one with --show temperature (or heat, water, dew), or name a folder",
        ));
    }
    Ok(way)
}

fn slip(what: String, help: &str) -> Failure {
    Fault::of("the command line", what).help(help).into()
}
