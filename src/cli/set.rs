//! `--set`: values of a night set by their paths, and the ranges that go with them.

use super::exit_code::Failure;
use crate::files::fault::FileError;
use crate::files::settings::{RANGES, SetValue, Setting};
use crate::scenario::document::Scenario;
use crate::study::uncertain_inputs::measure;

/// Values to be set in the night.
#[derive(Debug, Clone, clap::Args)]
pub struct Set {
    /// Set a value of the night: covers.outlet_plug=0.9, oil=sae-50
    #[arg(long, value_name = "PATH=VALUE")]
    set: Vec<String>,
}

impl Set {
    /// The settings that were typed.
    ///
    /// *Errors*: every one that is not of the form `PATH=VALUE`.
    pub fn settings(&self) -> Result<Vec<Setting>, Failure> {
        let (mut settings, mut errors) = (Vec::new(), Vec::new());
        for typed in &self.set {
            match Setting::typed(typed) {
                Ok(setting) => settings.push(setting),
                Err(error) => errors.push(error),
            }
        }
        match errors.is_empty() {
            true => Ok(settings),
            false => Err(FileError::Faults(errors).into()),
        }
    }
}

/// Gives each number that was set the range of a measured one, unless its range was set too, and says which in `set`.
pub fn take_ranges_along(night: &mut Scenario, set: &mut [SetValue]) {
    let ranges = set
        .iter()
        .filter_map(|value| value.path.strip_prefix(RANGES));
    let own: Vec<String> = ranges.map(str::to_owned).collect();
    for value in set.iter_mut().filter(|value| !own.contains(&value.path)) {
        // A range in a wrong unit is an error of the ranges, reported with them.
        if let Ok(Some(range)) = measure(night, &value.path) {
            value.range = Some((range.low, range.high));
        }
    }
}
