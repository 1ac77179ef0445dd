//! Where the night would settle if nothing changed any more.

use super::coldest::Coldest;
use super::readings::{GroupTemperature, groups};
use crate::trace::ColumnInfo;
use serde::Serialize;

/// The settled state, everything dry, with the heaters as they stand just before the departure.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Steady {
    /// The coldest engine part.
    pub part: String,
    /// What people call it.
    pub label: String,
    /// Its temperature, °C.
    pub temp_c: f64,
    /// Temperatures of groups of parts.
    pub groups_c: Vec<GroupTemperature>,
}

impl Steady {
    /// The settled state from one value for each of a legend's columns; none if there is no engine part.
    pub fn of(legend: &ColumnInfo, row: &[f64]) -> Option<Self> {
        let coldest = Coldest::of(legend, row)?;
        Some(Self {
            part: coldest.part,
            label: coldest.label,
            temp_c: coldest.temp_c,
            groups_c: groups(legend, row),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::test_traces::Handmade;

    #[test]
    fn the_settled_state_names_its_coldest_part_and_its_groups() {
        let mut night = Handmade::hours(&[0.0]);
        let sump = night.cell("sump", &[1.0]).column;
        night.cell("head", &[30.0]);
        night.reading("sump", &[sump]);
        let trace = night.trace();
        let settled = Steady::of(&trace.legend, &[12.0, 9.0]).expect("there is an engine");
        assert_eq!((settled.part.as_str(), settled.temp_c), ("head", 9.0));
        assert_eq!(settled.groups_c[0].temp_c, 12.0);
        assert_eq!(Steady::of(&ColumnInfo::default(), &[]), None);
    }
}
