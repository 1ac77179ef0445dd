//! Standard output; a reader that closes it ends the run quietly.

use super::outcome::Failure;
use std::io::{self, Write};

/// Narrower terminals are written to as if they were so wide.
const NARROWEST: u16 = 60;

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

/// Characters that a line holds: what `COLUMNS` says, or else the terminal; a hundred and eighteen where there is
/// neither.
pub fn width() -> u16 {
    columns().map_or(118, |columns| columns.clamp(NARROWEST, 200))
}

fn columns() -> Option<u16> {
    let said = std::env::var("COLUMNS").ok();
    let said = said.and_then(|columns| columns.parse().ok());
    let seen = || terminal_size::terminal_size_of(io::stdout()).map(|(width, _)| width.0);
    said.or_else(seen)
}
