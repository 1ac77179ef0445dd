//! The charts of one night.

use super::view::{Chart, ChartView};
use super::{dew, heat, temperature, water};
use crate::trace::Trace;

/// What a chart of a night shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Show {
    /// Temperatures by the hours.
    Temperature,
    /// Where the heat went, by the hours.
    Heat,
    /// Water on each wall at departure.
    Water,
    /// Distance from the dew point and water, by the hours.
    Dew,
}

impl Show {
    /// All of them, in the order in which they are listed.
    pub const ALL: [Self; 4] = [Self::Temperature, Self::Heat, Self::Water, Self::Dew];

    /// Its word, as in names of files.
    pub fn word(self) -> &'static str {
        match self {
            Self::Temperature => "temperature",
            Self::Heat => "heat",
            Self::Water => "water",
            Self::Dew => "dew",
        }
    }
}

/// One chart of a night.
pub fn of_night(show: Show, trace: &Trace, view: &ChartView) -> Chart {
    match show {
        Show::Temperature => temperature::temperature(trace, view),
        Show::Heat => heat::heat(trace, view),
        Show::Water => water::water(trace, view),
        Show::Dew => dew::dew(trace, view),
    }
}
