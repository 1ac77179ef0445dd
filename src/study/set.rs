//! One number of a night changed by its path, as files spell it.

use super::case::Case;
use super::path::{PathError, Tree};
use crate::scenario::document::Scenario;

impl Scenario {
    /// Sets a number by its path, such as `covers.inlet_plug` or `heaters[0].power`, in the unit it is kept in.
    ///
    /// *Errors*: no number there, with the nearest path; or a number that cannot be there.
    pub fn set(&mut self, path: &str, value: f64) -> Result<(), PathError> {
        let tree = Tree::of(self)?;
        let unit = tree.number(path)?.unit;
        let case = Case::named(path).number(path, value, unit.as_deref());
        *self = case.night(&tree)?;
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use crate::study::tests::scenario;

    #[test]
    fn a_number_is_set_by_its_path_and_a_misspelt_path_names_the_nearest() {
        let mut night = scenario();
        let before = night.clone();
        night.set("covers.inlet_plug", 0.97).unwrap();
        assert_eq!(night.covers.inlet_plug, 0.97);
        night.covers.inlet_plug = before.covers.inlet_plug;
        assert_eq!(night, before);
        let error = night.set("covers.inlet_plugs", 0.9).unwrap_err();
        assert!(error.to_string().contains("`covers.inlet_plug`"), "{error}");
        assert_eq!(night, before);
    }
}
