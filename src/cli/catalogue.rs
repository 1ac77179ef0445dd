//! `coldsoak catalogue`: what is built in, and each file of it to save and change.

use super::outcome::{Failure, Outcome};
use super::say;
use crate::files::catalogue::{Entry, KINDS, entries, kind};
use crate::files::library::known;

/// What the help teaches with.
const EXAMPLES: &str = "Examples:\n  \
coldsoak catalogue                                    everything\n  \
coldsoak catalogue heaters                            one kind\n  \
coldsoak catalogue heater bay-fan-350w > my-fan.ron   a file to change and name as \"my-fan.ron\"\n  \
coldsoak catalogue weather --json                     for another program\n\n\
Kinds: engines, heaters, hangars, oils, weather, nights, comparisons.";

/// What `catalogue` was given.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub struct Catalogue {
    /// One kind only, in the singular or the plural.
    pub kind: Option<String>,
    /// Print the file of this name, with its comments and sources.
    #[arg(requires = "kind")]
    pub name: Option<String>,
    /// Print JSON instead of text.
    #[arg(long, conflicts_with = "name")]
    pub json: bool,
}

/// Runs the command.
pub fn run(wanted: &Catalogue) -> Result<Outcome, Failure> {
    let kind = wanted.kind.as_deref().map(kind).transpose()?;
    if let (Some(kind), Some(name)) = (kind, &wanted.name) {
        say::out(known(kind, name)?)?;
        return Ok(Outcome::Done);
    }
    let found = entries(kind);
    if wanted.json {
        let json =
            serde_json::to_string_pretty(&found).map_err(|e| Failure::Format(e.to_string()))?;
        say::out(&json)?;
    } else {
        say::out(&told(&found, usize::from(say::width())))?;
    }
    Ok(Outcome::Done)
}

fn told(found: &[Entry], width: usize) -> String {
    let longest = found.iter().map(|e| e.name.len()).max().unwrap_or(0);
    let mut text = String::new();
    for (_, one, many) in KINDS {
        let of_kind: Vec<&Entry> = found.iter().filter(|e| e.kind == one).collect();
        if of_kind.is_empty() {
            continue;
        }
        if !text.is_empty() {
            text.push('\n');
        }
        text += &format!("{many}\n");
        for entry in of_kind {
            let line = format!("  {:longest$}  {}", entry.name, entry.description);
            let indent = " ".repeat(longest + 4);
            let fold = textwrap::Options::new(width).subsequent_indent(&indent);
            text += &textwrap::fill(&line, fold);
            text.push('\n');
        }
    }
    text
}
