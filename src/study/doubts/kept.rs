//! A number as it is kept in a night and as its range tells it.

use crate::scenario::unknowns::Unknown;
use crate::study::path::{PathError, Tree};

/// The number at a path: the unit it is kept in, and its value in the unit of its range, which is given too.
pub fn in_unit_of(tree: &Tree, path: &str, unknown: &Unknown) -> Result<Kept, PathError> {
    let kept = tree.number(path)?;
    let unit = unknown.unit.clone().or(kept.unit.clone());
    let value = if unit == kept.unit {
        kept.value
    } else {
        // The unit is a factor; a temperature that is not in °C is an offset as well.
        let unit_of = |number| {
            let mut other = tree.clone();
            other.set(path, number, unit.as_deref())?;
            let again = Tree::of(&other.scenario()?)?;
            again.number(path)
        };
        let (zero, one) = (unit_of(0.0)?.value, unit_of(1.0)?.value);
        // What a change of units leaves in the last digits is no digit of the number.
        rounded((kept.value - zero) / (one - zero))
    };
    Ok(Kept {
        kept_in: kept.unit,
        value,
        unit,
    })
}

/// A number as it is kept and as its range tells it.
pub struct Kept {
    /// The unit it is kept in.
    pub kept_in: Option<String>,
    /// Its value in the unit of its range.
    pub value: f64,
    /// That unit; none for a plain number.
    pub unit: Option<String>,
}

/// A number to twelve digits.
pub fn rounded(value: f64) -> f64 {
    format!("{value:.11e}").parse().unwrap_or(value)
}
