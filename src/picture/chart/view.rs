//! What every chart needs, and what comes of it.

use crate::findings::Coldest;
use crate::night::Night;
use crate::picture::draw::{Look, Picture, Size};
use crate::picture::text::beside_minimum;
use crate::quantity::{Temperature, Units};
use crate::scenario::clock::NightClock;
use crate::trace::Trace;

/// What a chart needs beside the record.
#[derive(Debug, Clone, Copy)]
pub struct ChartView<'a> {
    /// The finding, as its headline; without one the chart states what it can.
    pub headline: &'a str,
    /// The night it is of, in the smaller lines under the headline.
    pub title: &'a str,
    /// What follows the title there.
    pub subtitle: &'a str,
    /// The local clock.
    pub clock: &'a NightClock,
    /// The degrees a reader thinks in.
    pub units: Units,
    /// The minimum.
    pub threshold: Temperature,
    /// Its colours and its size.
    pub look: Look,
}

/// A chart that was drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct Chart {
    /// What is drawn.
    pub picture: Picture,
    /// Its numbers as CSV, in the units it shows, which the heads of the columns name.
    pub csv: Vec<u8>,
}

/// What an axis counts in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Unit {
    /// As people write it.
    pub symbol: &'static str,
    /// At the end of the head of a column.
    pub key: &'static str,
}

impl Unit {
    /// Watts.
    pub const WATTS: Self = Self {
        symbol: "W",
        key: "W",
    };
    /// Parts of a hundred.
    pub const PERCENT: Self = Self {
        symbol: "%",
        key: "percent",
    };
    /// Grams.
    pub const GRAMS: Self = Self {
        symbol: "g",
        key: "g",
    };

    /// Temperatures.
    pub fn temperature(units: Units) -> Self {
        match units {
            Units::Celsius => Self {
                symbol: "°C",
                key: "degC",
            },
            Units::Fahrenheit => Self {
                symbol: "°F",
                key: "degF",
            },
        }
    }
    /// Differences of temperature.
    pub fn step(units: Units) -> Self {
        match units {
            Units::Celsius => Self {
                symbol: "K",
                key: "K",
            },
            Units::Fahrenheit => Self {
                symbol: "°F",
                key: "difference_degF",
            },
        }
    }
}

impl<'a> ChartView<'a> {
    /// What the charts of a night need.
    pub fn of(night: &'a Night, title: &'a str, subtitle: &'a str, look: Look) -> Self {
        let scenario = night.scenario.scenario();
        Self {
            headline: "",
            title,
            subtitle,
            clock: night.scenario.clock(),
            units: scenario.units,
            threshold: scenario.criteria.min_temperature,
            look,
        }
    }
    /// The headline, or else what the chart itself finds.
    pub(super) fn headline(&self, found: String) -> String {
        match self.headline {
            "" => found,
            given => given.to_owned(),
        }
    }
    /// The title, the subtitle, and what the chart shows.
    pub(super) fn note(&self, what: &str) -> String {
        let parts = [self.title, self.subtitle, what];
        let parts: Vec<&str> = parts.into_iter().filter(|p| !p.is_empty()).collect();
        parts.join(" · ")
    }
    /// What is said of the coldest part at departure: `44 °F at 07:30, 4 °F above the minimum`.
    pub(super) fn coldest(&self, trace: &Trace) -> Option<(Coldest, String)> {
        let row = (!trace.is_empty()).then(|| trace.at(trace.departure_s))?;
        let coldest = Coldest::of(&trace.legend, &row)?;
        let at = self.clock.dated(trace.departure_s);
        let said = beside_minimum(coldest.temp_c, self.threshold.celsius(), self.units, &at);
        Some((coldest, said))
    }
    /// The left edge of panels.
    pub(super) fn left(&self) -> f64 {
        match self.look.size {
            Size::Phone => 52.0,
            _ => 62.0,
        }
    }
    /// The widest a name beside its line may be.
    pub(super) fn widest_name(&self) -> f64 {
        match self.look.size {
            Size::Phone => 116.0,
            _ => 240.0,
        }
    }
    /// The most hours that are written along the clock.
    pub(super) fn hours(&self) -> f64 {
        match self.look.size {
            Size::Phone => 3.6,
            _ => 8.5,
        }
    }
}
