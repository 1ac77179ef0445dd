//! A number as it is kept in a night and in the unit of its range.

use crate::document::Node;
use crate::scenario::uncertain::UncertainRange;
use crate::study::path::{PathError, Tree};

/// The unit of a quantity that moves in differences, not in ratios.
pub const TEMPERATURE: &str = "degC";

/// The number at a path: the unit it is kept in, and its value in the unit of its range, which is given too.
pub fn in_unit_of(
    tree: &Tree,
    path: &str,
    unknown: &UncertainRange,
) -> Result<RangeNumber, PathError> {
    let kept = tree.number(path)?;
    let unit = unknown.unit.clone().or(kept.unit.clone());
    let value = Scale::of(tree, path, unit.as_deref())?.in_unit(kept.value);
    Ok(RangeNumber {
        kept_in: kept.unit,
        value,
        unit,
    })
}

/// How a number in the unit of its range becomes one in the unit it is kept in, for a unit that is another: a factor,
/// and for a temperature that is not in °C an offset as well.
pub struct Scale(Option<(f64, f64)>);

impl Scale {
    /// That of the number at a path and of this unit.
    ///
    /// *Errors*: no number there, or none that can have this unit.
    pub fn of(tree: &Tree, path: &str, unit: Option<&str>) -> Result<Self, PathError> {
        if unit == tree.number(path)?.unit.as_deref() {
            return Ok(Self(None));
        }
        let kept = |number| {
            let mut other = tree.clone();
            other.put(path, Node::number(number, unit))?;
            Tree::of(&other.scenario()?)?.number(path)
        };
        let zero = kept(0.0)?.value;
        Ok(Self(Some((zero, kept(1.0)?.value - zero))))
    }

    /// A kept number in the unit of its range.
    pub fn in_unit(&self, kept: f64) -> f64 {
        match self.0 {
            None => kept,
            // What a change of units leaves in the last digits is no digit of the number.
            Some((zero, one)) => rounded((kept - zero) / one),
        }
    }

    /// A number in the unit of its range as it is kept.
    pub fn kept(&self, in_unit: f64) -> f64 {
        self.0.map_or(in_unit, |(zero, one)| zero + one * in_unit)
    }
}

/// A number as it is kept and in the unit of its range.
pub struct RangeNumber {
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
