//! Flags that several commands share, and errors in flags in the plain form of every other error.

use super::exit_code::Failure;
use crate::files::sources::Outside;
use crate::picture::draw::colour::Theme;
use crate::picture::draw::{Look, Size};
use crate::quantity::Units;
use crate::study::simulate::SampleCount;
use anstream::ColorChoice;
use clap::Args;
use clap::builder::{PossibleValue, PossibleValuesParser, TypedValueParser};
use clap::error::{ContextKind, ContextValue, ErrorKind};
use std::error::Error;
use std::path::PathBuf;

/// Flags of every command.
#[derive(Debug, Args)]
#[command(next_help_heading = "Flags of every command")]
pub struct Flags {
    /// Temperature unit of the output [default: as in the file]
    #[arg(long, global = true, value_parser = units())]
    pub units: Option<Units>,
    /// When to use colour
    #[arg(long, global = true, value_parser = colour(), default_value = "auto")]
    pub color: ColorChoice,
    /// Threads to compute with, 1 to 1024 [default: all cores]
    #[arg(long, global = true, value_parser = clap::value_parser!(u16).range(1..=1024))]
    pub threads: Option<u16>,
    /// Print nothing but the result
    #[arg(long, short, global = true)]
    pub quiet: bool,
    /// Allow files to name files outside their folder
    #[arg(long, global = true)]
    pub allow_outside: bool,
}

/// How a result is written.
#[derive(Debug, Clone, Args)]
#[command(group(clap::ArgGroup::new("written").multiple(true)))]
pub struct Output {
    /// Print JSON in °C and SI units instead of text
    #[arg(long)]
    pub json: bool,
    /// Print all figures, in lines of 110 characters or more
    #[arg(long, conflicts_with = "json")]
    pub wide: bool,
    /// Write findings, traces and charts into this folder
    #[arg(long, value_name = "FOLDER", group = "written")]
    pub out: Option<PathBuf>,
    #[command(flatten)]
    pub look: LookFlags,
    /// Replace what exists
    #[arg(long, requires = "written")]
    pub force: bool,
}

impl Output {
    /// The same without its folder.
    pub fn without_folder(&self) -> Self {
        Self {
            out: None,
            ..self.clone()
        }
    }
}

/// How pictures look.
#[derive(Debug, Clone, Copy, Args)]
pub struct LookFlags {
    /// Colours of pictures
    #[arg(long, value_parser = theme(), default_value = "light")]
    theme: Theme,
    /// Size of pictures: 880 pixels wide, 360 wide, or 1920 by 1080
    #[arg(long, value_parser = size(), default_value = "page")]
    size: Size,
}

impl LookFlags {
    /// As pictures have it.
    pub fn look(self) -> Look {
        Look {
            theme: self.theme,
            size: self.size,
        }
    }
}

/// The simulated nights that a chance is counted on: the same in every command.
#[derive(Debug, Clone, Copy, Args)]
pub struct Simulated {
    /// Simulated nights
    #[arg(long, value_name = "N", default_value_t = SampleCount::default().nights,
        value_parser = clap::value_parser!(u32).range(8..=65_536))]
    pub samples: u32,
    /// Seed of the simulated nights
    #[arg(long, value_name = "N", default_value_t = SampleCount::default().seed)]
    pub seed: u32,
    /// Required chance of being ready, in percent, 50 to 99.9
    #[arg(long, value_name = "PERCENT", default_value = "95", value_parser = percent)]
    pub chance: f64,
}

impl Simulated {
    /// Which nights.
    pub fn count(&self) -> SampleCount {
        SampleCount {
            nights: self.samples,
            seed: self.seed,
        }
    }

    /// The required chance, 0 to 1.
    pub fn target(&self) -> f64 {
        self.chance / 100.0
    }
}

/// Reads a required chance in percent.
fn percent(text: &str) -> Result<f64, String> {
    let number = text.trim_end_matches('%').trim().parse::<f64>();
    let number = number.map_err(|_| format!("\"{text}\" is not a number of percent."))?;
    match (50.0..=99.9).contains(&number) {
        true => Ok(number),
        false => Err(format!("{text} is not from 50 to 99.9 percent.")),
    }
}

/// A page of a result.
#[derive(Debug, Args)]
pub struct Page {
    /// Write a page (HTML, one file) to read and to print
    #[arg(long, value_name = "FILE.html", group = "written")]
    pub report: Option<PathBuf>,
}

/// Reads the temperature unit of the output.
fn units() -> impl TypedValueParser<Value = Units> {
    let celsius = PossibleValue::new("degC").alias("C");
    let fahrenheit = PossibleValue::new("degF").alias("F");
    PossibleValuesParser::new([celsius, fahrenheit]).map(|word| match word.as_str() {
        "degC" | "C" => Units::Celsius,
        _ => Units::Fahrenheit,
    })
}

/// Reads when to use colour.
fn colour() -> impl TypedValueParser<Value = ColorChoice> {
    PossibleValuesParser::new(["auto", "always", "never"]).map(|word| match word.as_str() {
        "always" => ColorChoice::Always,
        "never" => ColorChoice::Never,
        _ => ColorChoice::Auto,
    })
}

/// Reads the colours of pictures.
fn theme() -> impl TypedValueParser<Value = Theme> {
    PossibleValuesParser::new(["light", "dark"]).map(|word| match word.as_str() {
        "dark" => Theme::Dark,
        _ => Theme::Light,
    })
}

/// Reads the size of pictures.
fn size() -> impl TypedValueParser<Value = Size> {
    PossibleValuesParser::new(["page", "phone", "projector"]).map(|word| match word.as_str() {
        "phone" => Size::Phone,
        "projector" => Size::Projector,
        _ => Size::Page,
    })
}

impl Flags {
    /// Makes the choice of colour hold for all output, and the number of threads for all computing.
    ///
    /// *Errors*: the system does not give so many threads.
    pub fn apply(&self) -> Result<(), Failure> {
        self.color.write_global();
        let Some(threads) = self.threads else {
            return Ok(());
        };
        rayon::ThreadPoolBuilder::new()
            .num_threads(threads.into())
            .build_global()
            .map_err(|e| Failure::Threads(threads, e.to_string()))
    }

    /// Whether names in files may lead out of their folder.
    pub fn outside(&self) -> Outside {
        if self.allow_outside {
            Outside::Allowed
        } else {
            Outside::Refused
        }
    }

    /// The temperature unit of the output, where the files name one.
    pub fn units_or(&self, files: Units) -> Units {
        self.units.unwrap_or(files)
    }
}

/// Flags of 0.1 with their names now: only for error texts, until 0.3.0.
const OLD_FLAGS: [(&str, &str); 6] = [
    ("--paper", "--theme"),
    ("--indices", "--sobol"),
    ("--nights", "--samples"),
    ("--as", "--kind"),
    ("--unheated", "--no-heater"),
    ("--format", "--json"),
];

/// An error in the value of a flag: what is wrong with it, and what to write instead.
pub fn flag_error(flag: &str, message: impl std::fmt::Display, instead: &str) -> Failure {
    Failure::Flag(format!("{flag}: {message}\n    Try: {instead}"))
}

/// An error that the parser of the command line found; help and version are none.
pub fn plain(e: &clap::Error) -> Option<String> {
    let text = |kind| match e.get(kind) {
        Some(ContextValue::String(text)) => Some(text.clone()),
        Some(ContextValue::Strings(texts)) => Some(texts.join(", ")),
        _ => None,
    };
    let first = |kind| match e.get(kind) {
        Some(ContextValue::Strings(texts)) => texts.first().cloned(),
        _ => text(kind),
    };
    // `--threads <THREADS>` without its value.
    let flag = text(ContextKind::InvalidArg).unwrap_or_default();
    let flag = flag.split(" <").next().unwrap_or_default();
    // A group in angle brackets.
    let flag = flag
        .strip_prefix("<--")
        .map_or(flag.to_owned(), |name| format!("--{name}"));
    let value = text(ContextKind::InvalidValue).unwrap_or_default();
    let help = || "coldsoak --help".to_owned();
    let (message, instead) = match e.kind() {
        ErrorKind::DisplayHelp
        | ErrorKind::DisplayVersion
        | ErrorKind::DisplayHelpOnMissingArgumentOrSubcommand => return None,
        ErrorKind::UnknownArgument => {
            let new = OLD_FLAGS.iter().find(|(old, _)| *old == flag);
            let new = new.map(|(_, new)| (*new).to_owned());
            let near = new.or(first(ContextKind::SuggestedArg));
            (
                format!("{flag}: not a flag of this command."),
                near.unwrap_or_else(help),
            )
        }
        ErrorKind::InvalidSubcommand => {
            let command = text(ContextKind::InvalidSubcommand).unwrap_or_default();
            let near = first(ContextKind::SuggestedSubcommand);
            let near = near.map(|near| format!("coldsoak {near}"));
            (
                format!("\"{command}\": not a command."),
                near.unwrap_or_else(help),
            )
        }
        ErrorKind::InvalidValue if value.is_empty() => {
            (format!("{flag}: a value is missing."), help())
        }
        ErrorKind::InvalidValue => {
            let near = first(ContextKind::SuggestedValue).or(first(ContextKind::ValidValue));
            let known = text(ContextKind::ValidValue).unwrap_or_default();
            let near = near.map_or_else(help, |near| format!("{flag} {near}"));
            (format!("{flag}: \"{value}\" is not one of {known}."), near)
        }
        ErrorKind::ValueValidation => {
            let why = e.source().map(ToString::to_string).unwrap_or_default();
            (format!("{flag}: {why}"), help())
        }
        ErrorKind::MissingRequiredArgument => (format!("{flag} is missing."), help()),
        ErrorKind::ArgumentConflict => {
            let other = text(ContextKind::PriorArg).unwrap_or_default();
            (
                format!("{flag}: not together with {other}."),
                format!("without {flag}"),
            )
        }
        _ => {
            let whole = e.to_string();
            let line = whole.lines().next().unwrap_or_default();
            (line.trim_start_matches("error: ").to_owned(), help())
        }
    };
    Some(format!("{message}\n    Try: {instead}"))
}
