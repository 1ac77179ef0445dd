//! Standard output and standard error: text, notes, the progress bar, and how wide a line is.

use super::exit_code::Failure;
use crate::files::fault::InputError;
use crate::study::simulate::Progress;
use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};
use std::io::{self, IsTerminal, Write};

/// The narrowest width that is written for.
const NARROWEST: u16 = 60;
/// The width where there is neither a terminal nor `COLUMNS`.
const USUAL: u16 = 80;
/// The least width of wide text.
const WIDE: u16 = 110;

/// Prints a text and its last newline.
///
/// *Errors*: [`Failure::Closed`] if the reader has closed the pipe, [`Failure::Print`] otherwise.
pub fn print(text: &str) -> Result<(), Failure> {
    let mut out = anstream::stdout();
    let ended = if text.ends_with('\n') { "" } else { "\n" };
    write!(out, "{text}{ended}")
        .and_then(|()| out.flush())
        .map_err(refused)
}

/// The failure that a refusal of standard output is.
pub fn refused(e: io::Error) -> Failure {
    match e.kind() {
        io::ErrorKind::BrokenPipe => Failure::Closed,
        _ => Failure::Print(e),
    }
}

/// Prints on standard error what was skipped or corrected in the files, unless quiet.
pub fn notes(notes: &[String], quiet: bool) {
    for note in notes.iter().filter(|_| !quiet) {
        anstream::eprintln!("note: {note}");
    }
}

/// Prints on standard error the implausible numbers of files, unless quiet.
pub fn warnings(warnings: &[InputError], quiet: bool) {
    for warning in warnings.iter().filter(|_| !quiet) {
        anstream::eprintln!("{}", warning.warned());
    }
}

/// Characters of a line: those of `COLUMNS`, else of the terminal; with `wide` as many as wide text needs, without it
/// fewer.
pub fn width(wide: bool) -> u16 {
    let set = std::env::var("COLUMNS").ok();
    let set = set.and_then(|set| set.parse().ok());
    let seen = || terminal_size::terminal_size_of(io::stdout()).map(|(width, _)| width.0);
    let columns: u16 = set.or_else(seen).unwrap_or(USUAL);
    match wide {
        true => columns.clamp(WIDE, 200),
        false => columns.clamp(NARROWEST, WIDE - 1),
    }
}

/// A progress bar over so many nights on standard error; nothing where that is no terminal.
pub fn progress_bar(nights: usize, quiet: bool) -> ProgressBar {
    let target = if !quiet && io::stderr().is_terminal() {
        ProgressDrawTarget::stderr()
    } else {
        ProgressDrawTarget::hidden()
    };
    let bar = ProgressBar::with_draw_target(Some(nights as u64), target);
    if let Ok(style) = ProgressStyle::with_template("{bar:30} {pos} of {len} nights") {
        bar.set_style(style);
    }
    bar
}

/// Advances a bar as a study does.
pub fn advance(bar: &ProgressBar) -> impl Fn(Progress) + Sync {
    move |step| match step {
        Progress::Planned(nights) => bar.inc_length(nights as u64),
        Progress::Done => bar.inc(1),
    }
}
