//! `coldsoak new`: a commented night to begin with.

use super::args::Args;
use super::outcome::{Failure, Outcome};
use super::say;
use crate::files::safe::write_file;
use crate::files::template::{TemplateOptions, template};
use std::path::{Path, PathBuf};

/// What the help teaches with.
const EXAMPLES: &str = "Examples:\n  \
coldsoak new my-night.ron                                   a flat-four, a fan underneath, steady weather\n  \
coldsoak new six.ron --engine flat-six-8l5 --heater sump-pad-250w --heater lamp-100w\n  \
coldsoak new - --weather chicago_il_1986-01-06               a recorded night, printed\n\n\
The file runs as it stands: coldsoak night my-night.ron. `coldsoak catalogue` tells the names.";

/// What `new` was given.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub struct New {
    /// The file to write; `-` prints it.
    pub file: PathBuf,
    /// The engine.
    #[arg(long, value_name = "NAME", default_value = "flat-four-5l9")]
    pub engine: String,
    /// A heater; say it again for another.
    #[arg(long = "heater", value_name = "NAME", default_value = "bay-fan-350w")]
    pub heaters: Vec<String>,
    /// No heater at all.
    #[arg(long, conflicts_with = "heaters")]
    pub unheated: bool,
    /// The hangar.
    #[arg(long, value_name = "NAME", default_value = "shut")]
    pub hangar: String,
    /// The oil.
    #[arg(long, value_name = "NAME", default_value = "15w-50")]
    pub oil: String,
    /// A weather record; steady weather if not given.
    #[arg(long, value_name = "NAME")]
    pub weather: Option<String>,
    /// Replace the file if it is there already.
    #[arg(long)]
    pub force: bool,
}

/// Runs the command.
pub fn run(new: &New, args: &Args) -> Result<Outcome, Failure> {
    let text = template(&TemplateOptions {
        engine: new.engine.clone(),
        heaters: if new.unheated {
            Vec::new()
        } else {
            new.heaters.clone()
        },
        hangar: new.hangar.clone(),
        oil: new.oil.clone(),
        weather: new.weather.clone(),
    })?;
    if new.file == Path::new("-") {
        say::out(&text)?;
    } else {
        write_file(&new.file, text.as_bytes(), new.force)?;
        if !args.quiet {
            let file = new.file.display();
            say::out(&format!(
                "Wrote {file}. Edit it, then run: coldsoak night {file}"
            ))?;
        }
    }
    Ok(Outcome::Done)
}
