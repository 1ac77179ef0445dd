//! `coldsoak completions` and `coldsoak man`: completions and manual pages, from the flags of the commands.

use super::exit_code::{Failure, Outcome};
use super::terminal;
use crate::files::safe::{WriteError, write_file};
use std::path::PathBuf;

/// Examples in the help of `completions`.
const COMPLETIONS_EXAMPLES: &str = "Examples:\n  \
coldsoak completions bash > ~/.local/share/bash-completion/completions/coldsoak\n  \
coldsoak completions zsh > ~/.zfunc/_coldsoak         with ~/.zfunc in fpath\n  \
coldsoak completions fish > ~/.config/fish/completions/coldsoak.fish";
/// Examples in the help of `man`.
const MAN_EXAMPLES: &str = "Examples:\n  \
coldsoak man | man -l -                    the page of the command itself\n  \
coldsoak man --out ~/.local/share/man/man1  that page and one for each command";

/// Flags of `completions`.
#[derive(Debug, clap::Args)]
#[command(after_help = COMPLETIONS_EXAMPLES)]
pub struct Completions {
    /// The shell
    #[arg(value_enum)]
    pub shell: clap_complete::Shell,
}

/// Flags of `man`.
#[derive(Debug, clap::Args)]
#[command(after_help = MAN_EXAMPLES)]
pub struct Man {
    /// Write a page for each command into this folder
    #[arg(long, value_name = "FOLDER")]
    pub out: Option<PathBuf>,
    /// Replace pages that exist
    #[arg(long, requires = "out")]
    pub force: bool,
}

/// Prints the completions of a shell.
pub fn completions(typed: &Completions, mut command: clap::Command) -> Result<Outcome, Failure> {
    let mut text = Vec::new();
    clap_complete::generate(typed.shell, &mut command, "coldsoak", &mut text);
    terminal::print(&String::from_utf8_lossy(&text))?;
    Ok(Outcome::Done)
}

/// Prints or writes manual pages.
pub fn man(typed: &Man, mut command: clap::Command) -> Result<Outcome, Failure> {
    let Some(folder) = &typed.out else {
        terminal::print(&page(command)?)?;
        return Ok(Outcome::Done);
    };
    // Built, so that pages of commands have the flags that all share.
    command.build();
    let mut pages = Vec::new();
    for sub in command.get_subcommands() {
        let name = format!("coldsoak-{}.1", sub.get_name());
        pages.push((folder.join(name), page(sub.clone())?));
    }
    pages.push((folder.join("coldsoak.1"), page(command)?));
    // All or none: a page that is there already is found before the first is written.
    if let Some((there, _)) = pages.iter().find(|(path, _)| !typed.force && path.exists()) {
        return Err(WriteError::Exists(there.clone()).into());
    }
    std::fs::create_dir_all(folder).map_err(|source| WriteError::Refused {
        path: folder.clone(),
        source,
    })?;
    for (path, text) in &pages {
        write_file(path, text.as_bytes(), typed.force)?;
    }
    Ok(Outcome::Done)
}

fn page(command: clap::Command) -> Result<String, Failure> {
    let mut text = Vec::new();
    clap_mangen::Man::new(command)
        .render(&mut text)
        .map_err(Failure::Print)?;
    Ok(String::from_utf8_lossy(&text).into_owned())
}
