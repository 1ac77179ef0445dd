//! `coldsoak completions` and `coldsoak man`: what a shell and a manual know of the command, from its own flags.

use super::args::Args;
use super::outcome::{Failure, Outcome};
use super::say;
use crate::files::safe::{WriteError, write_file};
use clap::CommandFactory;
use std::path::PathBuf;

/// What the help of `completions` teaches with.
const COMPLETIONS_EXAMPLES: &str = "Examples:\n  \
coldsoak completions bash > ~/.local/share/bash-completion/completions/coldsoak\n  \
coldsoak completions zsh > ~/.zfunc/_coldsoak         with ~/.zfunc in fpath\n  \
coldsoak completions fish > ~/.config/fish/completions/coldsoak.fish";
/// What the help of `man` teaches with.
const MAN_EXAMPLES: &str = "Examples:\n  \
coldsoak man | man -l -                    the page of the command itself\n  \
coldsoak man --out ~/.local/share/man/man1  that page and one for each command";

/// What `completions` was given.
#[derive(Debug, clap::Args)]
#[command(after_help = COMPLETIONS_EXAMPLES)]
pub struct Completions {
    /// The shell.
    #[arg(value_enum)]
    pub shell: clap_complete::Shell,
}

/// What `man` was given.
#[derive(Debug, clap::Args)]
#[command(after_help = MAN_EXAMPLES)]
pub struct Man {
    /// Write a page for each command into this folder.
    #[arg(long, value_name = "FOLDER")]
    pub out: Option<PathBuf>,
    /// Replace pages that are there already.
    #[arg(long, requires = "out")]
    pub force: bool,
}

/// Prints the completions of a shell.
pub fn completions(wanted: &Completions) -> Result<Outcome, Failure> {
    let mut text = Vec::new();
    clap_complete::generate(wanted.shell, &mut Args::command(), "coldsoak", &mut text);
    say::out(&String::from_utf8_lossy(&text))?;
    Ok(Outcome::Done)
}

/// Prints or writes manual pages.
pub fn man(wanted: &Man) -> Result<Outcome, Failure> {
    let Some(folder) = &wanted.out else {
        say::out(&page(Args::command())?)?;
        return Ok(Outcome::Done);
    };
    // Built, so that pages of commands tell the flags that all share.
    let mut command = Args::command();
    command.build();
    let mut pages = Vec::new();
    for sub in command.get_subcommands() {
        let name = format!("coldsoak-{}.1", sub.get_name());
        pages.push((folder.join(name), page(sub.clone())?));
    }
    pages.push((folder.join("coldsoak.1"), page(command)?));
    // All or none: a page that is there already is found before the first is written.
    if let Some((there, _)) = pages
        .iter()
        .find(|(path, _)| !wanted.force && path.exists())
    {
        return Err(WriteError::Exists(there.clone()).into());
    }
    std::fs::create_dir_all(folder).map_err(|source| WriteError::Refused {
        path: folder.clone(),
        source,
    })?;
    for (path, text) in &pages {
        write_file(path, text.as_bytes(), wanted.force)?;
    }
    Ok(Outcome::Done)
}

fn page(command: clap::Command) -> Result<String, Failure> {
    let mut text = Vec::new();
    clap_mangen::Man::new(command)
        .render(&mut text)
        .map_err(|e| Failure::Format(e.to_string()))?;
    Ok(String::from_utf8_lossy(&text).into_owned())
}
