//! `coldsoak catalogue`: what is built in, and each file of it to save and change.

use super::exit_code::{Failure, Outcome};
use super::terminal;
use crate::files::catalogue::{Entry, KINDS, entries, kind};
use crate::files::library::known;

/// Examples in the help.
const EXAMPLES: &str = "Examples:\n  \
coldsoak catalogue                                    everything\n  \
coldsoak catalogue heaters                            one kind\n  \
coldsoak catalogue heater bay-fan-350w > my-fan.ron   a file to change and name as \"my-fan.ron\"\n  \
coldsoak catalogue weather --json                     for another program\n\n\
Kinds: engines, heaters, hangars, oils, weather, nights, comparisons.";

/// Flags of `catalogue`.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub struct Catalogue {
    /// One kind only, in the singular or the plural
    pub kind: Option<String>,
    /// Print the file of this name, with its comments and sources
    #[arg(requires = "kind")]
    pub name: Option<String>,
    /// Print JSON instead of text
    #[arg(long, conflicts_with = "name")]
    pub json: bool,
}

/// Runs the command.
pub fn run(typed: &Catalogue) -> Result<Outcome, Failure> {
    let kind = typed.kind.as_deref().map(kind).transpose()?;
    if let (Some(kind), Some(name)) = (kind, &typed.name) {
        terminal::print(known(kind, name)?)?;
        return Ok(Outcome::Done);
    }
    let found = entries(kind);
    if typed.json {
        terminal::print(&serde_json::to_string_pretty(&found)?)?;
    } else {
        terminal::print(&told(&found, usize::from(terminal::width())))?;
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
