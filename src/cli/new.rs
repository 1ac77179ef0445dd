//! `coldsoak new`: a commented night to start from.

use super::exit_code::{Failure, Outcome};
use super::flags::Flags;
use super::terminal;
use crate::files::safe::write_file;
use crate::files::template::{TemplateOptions, template};
use std::path::{Path, PathBuf};

/// Examples in the help.
const EXAMPLES: &str = "Examples:\n  \
coldsoak new my-night.ron                                   a flat-four, a fan on top, steady weather\n  \
coldsoak new six.ron --engine flat-six-8l5 --heater sump-pad-250w --heater lamp-100w\n  \
coldsoak new - --weather chicago_il_1986-01-06               a recorded night, printed\n\n\
The file is complete: coldsoak night my-night.ron. `coldsoak catalogue` lists the names.";

/// Flags of `new`.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub struct New {
    /// The file to write; `-` prints it
    pub file: PathBuf,
    /// The engine
    #[arg(long, value_name = "NAME", default_value = "flat-four-5l9")]
    pub engine: String,
    /// A heater; repeat the flag for another
    #[arg(long = "heater", value_name = "NAME", default_value = "bay-fan-350w")]
    pub heaters: Vec<String>,
    /// No heater at all
    #[arg(long, conflicts_with = "heaters")]
    pub no_heater: bool,
    /// The hangar
    #[arg(long, value_name = "NAME", default_value = "shut")]
    pub hangar: String,
    /// The oil
    #[arg(long, value_name = "NAME", default_value = "15w-50")]
    pub oil: String,
    /// A weather record [default: steady weather]
    #[arg(long, value_name = "NAME")]
    pub weather: Option<String>,
    /// Replace the file if it exists
    #[arg(long)]
    pub force: bool,
}

/// Runs the command.
pub fn run(typed: &New, flags: &Flags) -> Result<Outcome, Failure> {
    let text = template(&TemplateOptions {
        engine: typed.engine.clone(),
        heaters: if typed.no_heater {
            Vec::new()
        } else {
            typed.heaters.clone()
        },
        hangar: typed.hangar.clone(),
        oil: typed.oil.clone(),
        weather: typed.weather.clone(),
    })?;
    if typed.file == Path::new("-") {
        terminal::print(&text)?;
    } else {
        write_file(&typed.file, text.as_bytes(), typed.force)?;
        if !flags.quiet {
            let file = typed.file.display();
            terminal::print(&format!(
                "Wrote {file}. Edit it, then run: coldsoak night {file}"
            ))?;
        }
    }
    Ok(Outcome::Done)
}
