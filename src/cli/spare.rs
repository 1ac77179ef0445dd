//! Heaters that may be added where the chance is not reached.

use crate::files::fault::FileError;
use crate::files::library::{Kind, model};
use crate::scenario::heater::Heater;

/// Their names.
const SPARE: [&str; 2] = ["sump-pad-150w", "bay-fan-350w"];

/// The built-in heaters that are tried.
pub fn spare() -> Result<Vec<Heater>, FileError> {
    let built_in = |name: &&str| model(Kind::Heater, name);
    SPARE.iter().map(built_in).collect()
}
