//! Built-in nights and models, and nights from files, for programs that use the library.

use super::fault::FileError;
use super::library::{Kind, model};
use super::night::{load, load_builtin};
use crate::scenario::document::Scenario;
use crate::scenario::engine::Engine;
use crate::scenario::hangar::Hangar;
use crate::scenario::heater::Heater;
use crate::scenario::oil::Oil;
use std::path::Path;

impl Scenario {
    /// A built-in night, such as `demo`.
    ///
    /// *Errors*: no night of this name; the nearest is named.
    pub fn builtin(name: &str) -> Result<Self, FileError> {
        Ok(load_builtin(name)?.scenario)
    }

    /// The night of a file, with the models it names: built-in ones, or files beside it.
    ///
    /// *Errors*: a file that cannot be read, or every error of the files, with line and column.
    pub fn read(path: impl AsRef<Path>) -> Result<Self, FileError> {
        Ok(load(path.as_ref())?.scenario)
    }
}

impl Engine {
    /// A built-in engine, such as `flat-four-5l9`.
    ///
    /// *Errors*: no engine of this name; the nearest is named.
    pub fn builtin(name: &str) -> Result<Self, FileError> {
        model(Kind::Engine, name)
    }
}

impl Hangar {
    /// A built-in hangar, such as `shut`.
    ///
    /// *Errors*: no hangar of this name; the nearest is named.
    pub fn builtin(name: &str) -> Result<Self, FileError> {
        model(Kind::Hangar, name)
    }
}

impl Heater {
    /// A built-in heater, such as `bay-fan-350w`, at its own place and on all night.
    ///
    /// *Errors*: no heater of this name; the nearest is named.
    pub fn builtin(name: &str) -> Result<Self, FileError> {
        model(Kind::Heater, name)
    }
}

impl Oil {
    /// A built-in oil, such as `15w-50`.
    ///
    /// *Errors*: no oil of this name; the nearest is named.
    pub fn builtin(name: &str) -> Result<Self, FileError> {
        model(Kind::Oil, name)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn built_in_things_are_read_and_others_name_the_nearest() {
        assert!(Engine::builtin("flat-four-5l9").is_ok() && Oil::builtin("15w-50").is_ok());
        assert!(Hangar::builtin("shut").is_ok() && Scenario::builtin("demo").is_ok());
        let error = Heater::builtin("bay-fan-340w").unwrap_err().to_string();
        assert!(error.contains("bay-fan-350w"), "{error}");
        let error = Scenario::read("no-such.ron").unwrap_err().to_string();
        assert!(error.contains("no-such.ron"), "{error}");
    }
}
