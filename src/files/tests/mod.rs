//! Files with every slip a writer makes, and what the reader says to each.

mod choices;
mod names;
mod places;
mod reference;
mod slips;

use super::fault::{FileError, InputError};
use super::locate::located;
use super::night::{Loaded, load};
use crate::scenario::check::check;
use std::fs;
use std::path::PathBuf;

const NIGHT: &str = r#"(
    title: "own night",
    clock: (begin: "19:00", departure: "07:00"),
    engine: "flat-four-3l1",
    hangar: "shut",
    weather: steady(outdoors: degC(-9), humidity: 0.8),
    covers: (blankets: { "UL": m2K_W(0.3) }),
    heaters: [
        (heater: "bay-fan-350w", place: at("bottom")),
        (heater: "sump-pad-150w", hours: before_departure(min(30))),
    ],
)
"#;

/// A folder of the test's own, with files in it.
fn folder(files: &[(&str, &str)]) -> (tempfile::TempDir, PathBuf) {
    let room = tempfile::tempdir().unwrap();
    for (name, text) in files {
        fs::write(room.path().join(name), text).unwrap();
    }
    let first = room.path().join(files[0].0);
    (room, first)
}

fn loaded(text: &str) -> Result<Loaded, FileError> {
    let (_room, path) = folder(&[("night.ron", text)]);
    load(&path)
}

/// The only fault of the night with one thing replaced: of the file, or of what it says.
#[track_caller]
fn fault(was: &str, is: &str) -> InputError {
    assert!(NIGHT.contains(was), "{was}");
    let mut faults = match loaded(&NIGHT.replacen(was, is, 1)) {
        Err(FileError::Faults(faults)) => faults,
        Err(other) => panic!("{other}"),
        Ok(loaded) => {
            let problems = check(&loaded.scenario).expect_err("nothing was found wrong");
            located(&problems, &loaded.file, &loaded.sources)
        }
    };
    assert_eq!(faults.len(), 1, "{faults:?}");
    faults.remove(0)
}

/// The bytes that are underlined.
fn underlined(fault: &InputError) -> &str {
    let (text, span) = fault.place.as_ref().expect("no place");
    &text[span.range()]
}

#[track_caller]
fn shows(fault: &InputError, what: &str, place: &str, help: &str) {
    assert!(fault.message.contains(what), "{fault:?}");
    assert_eq!(underlined(fault), place, "{}", fault.message);
    let said = fault.suggestion.as_deref().unwrap_or("");
    assert!(
        said.contains(help) && said.is_empty() == help.is_empty(),
        "{}: {said}",
        fault.message
    );
}
