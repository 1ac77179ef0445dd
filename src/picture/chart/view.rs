//! What every chart needs, and what comes of it.

use crate::night::Night;
use crate::picture::draw::Picture;
use crate::picture::draw::colour::Theme;
use crate::quantity::{Temperature, Units};
use crate::scenario::clock::NightClock;

/// What a chart needs beside the record.
#[derive(Debug, Clone, Copy)]
pub struct ChartView<'a> {
    /// Its heading.
    pub title: &'a str,
    /// A second, smaller heading, which the chart says what it shows after.
    pub subtitle: &'a str,
    /// The local clock.
    pub clock: &'a NightClock,
    /// The degrees a reader thinks in.
    pub units: Units,
    /// The minimum.
    pub threshold: Temperature,
    /// The colours it is drawn in.
    pub theme: Theme,
    /// How wide it is.
    pub breadth: Breadth,
}

/// How wide a chart is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Breadth {
    /// For a screen or a quarter of a page.
    Sheet,
    /// For a telephone: fewer figures on the axes, headings and names as short as can be.
    Phone,
}

impl Breadth {
    /// The width of the picture, in pixels. On a quarter of a page (a landscape A6 sheet, 148 mm) the words of a sheet
    /// are then 2.2 mm high; on a telephone of 380 pixels those of a phone are 11 pixels.
    pub fn width(self) -> f64 {
        match self {
            Self::Sheet => 880.0,
            Self::Phone => 420.0,
        }
    }
    /// The left edge of panels.
    pub(super) fn left(self) -> f64 {
        match self {
            Self::Sheet => 62.0,
            Self::Phone => 44.0,
        }
    }
    /// The widest a name beside its line may be.
    pub(super) fn name_widest(self) -> f64 {
        match self {
            Self::Sheet => 240.0,
            Self::Phone => 150.0,
        }
    }
    /// The most hours that are written along the clock.
    pub(super) fn hours(self) -> f64 {
        match self {
            Self::Sheet => 8.5,
            Self::Phone => 3.6,
        }
    }
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
    /// What the charts of a night need, on a sheet.
    pub fn of(night: &'a Night, title: &'a str, subtitle: &'a str, theme: Theme) -> Self {
        let scenario = night.scenario.scenario();
        Self {
            title,
            subtitle,
            clock: night.scenario.clock(),
            units: scenario.units,
            threshold: scenario.criteria.min_temperature,
            theme,
            breadth: Breadth::Sheet,
        }
    }
    /// The subtitle, and what the chart shows.
    pub(super) fn saying(&self, what: &str) -> String {
        match self.subtitle {
            "" => what.to_owned(),
            before => format!("{before} · {what}"),
        }
    }
}
