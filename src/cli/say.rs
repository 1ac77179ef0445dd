//! Standard output; a reader that closes it ends the run quietly.

use super::outcome::Failure;
use std::io::{self, IsTerminal, Write};

/// Prints a text and its last newline.
///
/// *Errors*: [`Failure::Closed`] if the reader has closed the pipe, [`Failure::Say`] otherwise.
pub fn out(text: &str) -> Result<(), Failure> {
    let mut out = anstream::stdout();
    let ended = if text.ends_with('\n') { "" } else { "\n" };
    write!(out, "{text}{ended}")
        .and_then(|()| out.flush())
        .map_err(refused)
}

/// Tells on standard error what was left out or mended in the files.
pub fn notes(notes: &[String], quiet: bool) {
    for note in notes.iter().filter(|_| !quiet) {
        anstream::eprintln!("note: {note}");
    }
}

/// What a refusal of standard output means.
pub fn refused(e: io::Error) -> Failure {
    if e.kind() == io::ErrorKind::BrokenPipe {
        Failure::Closed
    } else {
        Failure::Say(e)
    }
}

/// Whether pictures made of characters are told: on a terminal that is not a dumb one, unless quiet.
pub fn sketches(quiet: bool) -> bool {
    let dumb = std::env::var("TERM").is_ok_and(|term| term == "dumb");
    !quiet && !dumb && io::stdout().is_terminal()
}

/// Characters a line of the terminal holds, if `COLUMNS` says so; a hundred and eighteen otherwise.
pub fn width() -> u16 {
    std::env::var("COLUMNS")
        .ok()
        .and_then(|columns| columns.parse().ok())
        .map_or(118, |columns: u16| columns.clamp(60, 200))
}
