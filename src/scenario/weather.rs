//! The air outdoors: steady, or as a station recorded it.

use crate::document::{choice, model};
use crate::quantity::{Speed, Temperature};
use jiff::Timestamp;
use std::ops::RangeInclusive;

/// Air temperatures that are believed, °C: beyond the coldest and the hottest air recorded at the ground
/// (-89.2 and 56.7 °C, World Meteorological Organization, World Weather and Climate Extremes Archive; from memory).
pub const AIR_C: RangeInclusive<f64> = -90.0..=60.0;
/// Dew points that are believed, °C: air as cold as the coldest, and far drier than any station's sensor shows.
pub const DEW_POINT_C: RangeInclusive<f64> = -120.0..=60.0;
/// Winds that are believed, m/s: beyond the strongest gust recorded (113 m/s, the same archive; from memory).
pub const WIND_M_S: RangeInclusive<f64> = 0.0..=120.0;
/// How far a dew point may lie above the temperature, K: a report may give the one in whole degrees and the other in
/// tenths, so half a degree and a tenth.
pub const DEW_POINT_ABOVE_K: f64 = 0.6;
/// The longest time over which a straight line is drawn between two readings, s (estimate: the air may turn within
/// three hours, but stations of the synoptic network report every three).
pub const LONGEST_GAP_S: f64 = 3.0 * 3600.0;

choice! {
    /// The weather of the night.
    pub enum Weather {
        /// The same all night.
        steady {
            /// Temperature outdoors.
            outdoors: Temperature, limits(*AIR_C.start(), *AIR_C.end()), usual(-55.0, 15.0, "estimate: nights in which an engine is heated; is the unit right, degC or degF?");
            /// Relative humidity, over ice below freezing (0.8 usual).
            humidity: f64, fraction();
            /// Wind outdoors; none leaves the hangar its own air speed.
            wind: Option<Speed>, limits(*WIND_M_S.start(), *WIND_M_S.end()) = None;
        },
        /// As recorded.
        recorded(Record),
    }
}

model! {
    /// A station's readings, in order of time, with straight lines between them.
    #[derive(Default)]
    pub struct Record {
        /// Station and source.
        pub name: String;
        /// Each reading.
        pub readings: Vec<Observation>;
    }
}

model! {
    /// One reading.
    #[derive(Copy)]
    pub struct Observation {
        /// Seconds since 1970 UTC.
        pub unix_s: f64;
        /// Air temperature, °C.
        pub temp_c: f64, limits(*AIR_C.start(), *AIR_C.end());
        /// Dew point over liquid water at all temperatures, °C.
        pub dew_point_c: f64, limits(*DEW_POINT_C.start(), *DEW_POINT_C.end());
        /// Wind speed, m/s.
        pub wind_m_s: f64, limits(*WIND_M_S.start(), *WIND_M_S.end());
    }
}

/// A moment in seconds since 1970 UTC as people write it: `2018-01-09 22:35 UTC`.
pub fn utc(unix_s: f64) -> String {
    match Timestamp::from_second(unix_s.round() as i64) {
        Ok(at) => at.strftime("%Y-%m-%d %H:%M UTC").to_string(),
        Err(_) => format!("{unix_s} s"),
    }
}
