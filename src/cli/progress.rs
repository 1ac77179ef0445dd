//! A bar on the terminal while nights are computed; nothing where there is no terminal.

use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};
use std::io::IsTerminal;

/// A bar over so many nights, on standard error.
pub fn bar(nights: usize, quiet: bool) -> ProgressBar {
    let shown = !quiet && std::io::stderr().is_terminal();
    let target = if shown {
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
