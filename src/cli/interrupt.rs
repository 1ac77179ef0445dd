//! Ctrl-C during a study: no further night is begun, what was done is kept.

use std::sync::atomic::{AtomicBool, Ordering};

static STOP: AtomicBool = AtomicBool::new(false);

/// From now on Ctrl-C (and a request to terminate) only asks to stop; a second one ends the program at once.
pub fn watch() {
    // It fails only if a handler is there already, which then does the same.
    let _ = ctrlc::set_handler(|| {
        if STOP.swap(true, Ordering::Relaxed) {
            std::process::exit(1);
        }
    });
}

/// Whether to stop.
pub fn flag() -> &'static AtomicBool {
    &STOP
}
