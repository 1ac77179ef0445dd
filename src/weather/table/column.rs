//! The names of a table's columns: what they hold, and in which unit.
//!
//! A name is cut into words, at anything but letters and digits, where a small letter meets a capital, and where known
//! words are run together (`tmpf`, `windspeedkph`). The words say what is measured and in which unit.

use crate::quantity::{Speed, Temperature};

/// What a column holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Holds {
    /// Date and time, or the time of day beside a date.
    Time,
    /// The date.
    Date,
    /// Seconds since 1970 UTC.
    UnixSeconds,
    /// The station.
    Station,
    /// Air temperature.
    Temperature,
    /// Dew point.
    DewPoint,
    /// Relative humidity.
    Humidity,
    /// Mean wind speed.
    Wind,
    /// Something the night does not use.
    Other,
}

/// A unit a column may be in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unit {
    /// Degrees Celsius.
    Celsius,
    /// Degrees Fahrenheit.
    Fahrenheit,
    /// Kelvin.
    Kelvin,
    /// Per cent.
    Percent,
    /// Metres a second.
    MetresPerSecond,
    /// Kilometres an hour.
    KilometresPerHour,
    /// Knots.
    Knots,
    /// Miles an hour.
    MilesPerHour,
}

impl Unit {
    /// A temperature in degrees Celsius, or a speed in metres a second.
    pub fn si(self, number: f64) -> f64 {
        match self {
            Self::Celsius | Self::MetresPerSecond | Self::Percent => number,
            Self::Fahrenheit => Temperature::degF(number).celsius(),
            Self::Kelvin => Temperature::K(number).celsius(),
            Self::KilometresPerHour => Speed::km_h(number).si(),
            Self::Knots => Speed::kt(number).si(),
            Self::MilesPerHour => Speed::mph(number).si(),
        }
    }
    fn is_temperature(self) -> bool {
        matches!(self, Self::Celsius | Self::Fahrenheit | Self::Kelvin)
    }
}

/// Words that may be run together.
#[rustfmt::skip]
const WORDS: [&str; 34] = [
    "temperature", "temp", "tmp", "dewpoint", "dewpt", "dewp", "dew", "point", "dwp",
    "wind", "speed", "spd", "relative", "humidity", "humid", "rh", "air", "date", "time",
    "stamp", "utc", "gmt", "local", "out", "outside", "outdoor", "dry", "wet", "bulb",
    "gust", "dir", "direction", "chill", "avg",
];
/// Words for units.
#[rustfmt::skip]
const UNITS: [(Unit, &[&str]); 8] = [
    (Unit::Celsius, &["c", "degc", "celsius", "centigrade"]),
    (Unit::Fahrenheit, &["f", "degf", "fahrenheit"]),
    (Unit::Kelvin, &["k", "degk", "kelvin"]),
    (Unit::Percent, &["percent", "pct"]),
    (Unit::MetresPerSecond, &["ms", "mps"]),
    (Unit::KilometresPerHour, &["kmh", "kph", "kmph"]),
    (Unit::Knots, &["kt", "kts", "kn", "knot", "knots", "sknt"]),
    (Unit::MilesPerHour, &["mph"]),
];
/// Units of several words.
#[rustfmt::skip]
const PHRASES: [(&str, Unit); 7] = [
    (" m s ", Unit::MetresPerSecond),
    (" metres per second ", Unit::MetresPerSecond),
    (" meters per second ", Unit::MetresPerSecond),
    (" km h ", Unit::KilometresPerHour),
    (" km hr ", Unit::KilometresPerHour),
    (" mi h ", Unit::MilesPerHour),
    (" miles per hour ", Unit::MilesPerHour),
];
/// Words of what is not the night's, though the rest of the name sounds like it: among them what is no dew point but the
/// distance from it, water by mass, and components of the wind.
#[rustfmt::skip]
const OTHERS: [&str; 50] = [
    "pressure", "pres", "slp", "sea", "surface", "battery", "attic", "dir", "direction",
    "drct", "wd", "wdir", "gust", "gst", "peak", "chill", "feel", "feels",
    "feelslike", "apparent", "heat", "index", "wet", "soil", "ground", "road", "water",
    "indoor", "inside", "sky", "max", "min", "depression", "deficit", "spread", "absolute",
    "specific", "mixing", "ratio", "u", "v", "component", "eastward", "northward", "vertical",
    "g", "kg", "m3", "gm3", "gkg",
];

/// What words say that a column holds; the first that fits counts.
#[rustfmt::skip]
const MEANINGS: [(Holds, &[&str]); 9] = [
    (Holds::Other, &OTHERS),
    (Holds::UnixSeconds, &["epoch", "unix", "unixtime"]),
    (Holds::Time, &["time", "timestamp", "datetime", "valid", "stamp"]),
    (Holds::Date, &["date"]),
    (Holds::Station, &["station", "stn", "icao", "site", "stid"]),
    (Holds::DewPoint, &["dewpoint", "dewpt", "dewp", "dew", "dwp", "td"]),
    (Holds::Humidity, &["humidity", "humid", "rh", "relh"]),
    (Holds::Wind, &["wind", "speed", "spd", "wspd", "ws", "sknt", "ff"]),
    (Holds::Temperature, &["temperature", "temp", "tmp", "t", "ta", "tair", "bulb"]),
];

/// A column by its name.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Column {
    /// Its place in a row, from 0.
    pub at: usize,
    /// The name as written.
    pub name: String,
    /// What it holds.
    pub holds: Holds,
    /// The unit in its name.
    pub unit: Option<Unit>,
    /// Whether its name says that times are UTC.
    pub utc: bool,
    /// Whether its name says that times are by a local clock.
    pub local: bool,
}

impl Column {
    /// The column of this name.
    pub fn named(at: usize, name: &str) -> Self {
        let words = words(name);
        let has = |any: &[&str]| words.iter().any(|w| any.contains(&w.as_str()));
        let meaning = MEANINGS.iter().find(|(_, any)| has(any));
        let holds = meaning.map_or(Holds::Other, |(holds, _)| *holds);
        Self {
            at,
            name: name.trim().to_owned(),
            holds,
            unit: unit(&words, holds),
            utc: has(&["utc", "gmt", "zulu", "z"]),
            local: has(&["local", "lt", "lst", "ldt"]),
        }
    }

    /// Its cell in a row.
    pub fn cell<'a>(&self, row: &'a csv::StringRecord) -> &'a str {
        row.get(self.at).unwrap_or("").trim()
    }
}

/// The unit among the words, of the kind that the column can have.
fn unit(words: &[String], holds: Holds) -> Option<Unit> {
    let fits = |unit: &Unit| match holds {
        Holds::Temperature | Holds::DewPoint => unit.is_temperature(),
        Holds::Humidity => *unit == Unit::Percent,
        Holds::Wind => !unit.is_temperature() && *unit != Unit::Percent,
        _ => false,
    };
    let line = format!(" {} ", words.join(" "));
    let phrase = PHRASES.iter().find(|(phrase, _)| line.contains(phrase));
    let mut single = words.iter().rev().filter_map(|word| unit_word(word));
    single
        .find(fits)
        .or(phrase.map(|(_, unit)| *unit).filter(fits))
}

fn unit_word(word: &str) -> Option<Unit> {
    let unit = UNITS.iter().find(|(_, words)| words.contains(&word));
    unit.map(|(unit, _)| *unit)
}

/// The words of a name, in small letters.
fn words(name: &str) -> Vec<String> {
    let mut spaced = String::new();
    let mut small = false;
    for c in name.chars() {
        match c {
            '%' => spaced.push_str(" percent "),
            '°' | 'º' => spaced.push(' '),
            c if c.is_alphanumeric() => {
                if small && c.is_uppercase() {
                    spaced.push(' ');
                }
                spaced.extend(c.to_lowercase());
            }
            _ => spaced.push(' '),
        }
        small = c.is_lowercase();
    }
    let mut words = Vec::new();
    for word in spaced.split_whitespace() {
        match parted(word) {
            Some(parts) => words.extend(parts),
            None => words.push(word.to_owned()),
        }
    }
    words
}

/// The longest word that is looked into, bytes.
const LONGEST_WORD: usize = 40;

/// A word as the known words it is run together from; the last may be a unit.
fn parted(word: &str) -> Option<Vec<String>> {
    if word.len() > LONGEST_WORD {
        return None;
    }
    if WORDS.contains(&word) || unit_word(word).is_some() {
        return Some(vec![word.to_owned()]);
    }
    WORDS.iter().find_map(|first| {
        let mut parts = vec![(*first).to_owned()];
        parts.extend(parted(
            word.strip_prefix(first).filter(|rest| !rest.is_empty())?,
        )?);
        Some(parts)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn common_spellings_are_understood() {
        use Holds::{DewPoint, Humidity, Temperature, Wind};
        use Unit::{
            Celsius, Fahrenheit, Kelvin, KilometresPerHour, Knots, MetresPerSecond, MilesPerHour,
            Percent,
        };
        for (names, holds, unit) in [
            (
                &[
                    "temp_c",
                    "Temperature (°C)",
                    "tmpc",
                    "T [degC]",
                    "Air Temperature, Celsius",
                    "OutdoorTempC",
                    "tempC",
                ][..],
                Temperature,
                Celsius,
            ),
            (
                &[
                    "tmpf",
                    "temp_f",
                    "Temp (°F)",
                    "TEMPERATURE_F",
                    "Outside Temperature (F)",
                ],
                Temperature,
                Fahrenheit,
            ),
            (&["t_k", "temperature [K]"], Temperature, Kelvin),
            (
                &[
                    "dewpoint_c",
                    "Dew Point (°C)",
                    "dew_point_temperature_c",
                    "dwpc",
                    "Td [°C]",
                    "dewPointC",
                ],
                DewPoint,
                Celsius,
            ),
            (&["dwpf", "Dew Point, °F", "dewp_f"], DewPoint, Fahrenheit),
            (
                &[
                    "rh_%",
                    "Relative Humidity (%)",
                    "humidity_pct",
                    "RH [percent]",
                ],
                Humidity,
                Percent,
            ),
            (
                &[
                    "wind_m_s",
                    "Wind Speed (m/s)",
                    "wind_speed_mps",
                    "windspeed_ms",
                    "WS [m s-1]",
                ],
                Wind,
                MetresPerSecond,
            ),
            (
                &["sknt", "wind_kt", "Wind Speed (knots)", "wspd_kts"],
                Wind,
                Knots,
            ),
            (
                &["wind_mph", "windspeedmph", "Wind (mi/h)"],
                Wind,
                MilesPerHour,
            ),
            (
                &["windSpeedKph", "wind km/h", "Wind_kmh"],
                Wind,
                KilometresPerHour,
            ),
        ] {
            for name in names {
                let column = Column::named(0, name);
                assert_eq!((column.holds, column.unit), (holds, Some(unit)), "{name}");
            }
        }
    }

    #[test]
    fn what_the_night_does_not_use_is_something_else() {
        for name in [
            "wind_dir",
            "Wind Gust (mph)",
            "wind chill (°F)",
            "slp",
            "feels_like_c",
            "sky_temp_c",
            "gust",
            "drct",
            "heat_index_f",
            "wet bulb (°C)",
            "dewpoint_depression_c",
            "absolute_humidity_g_m3",
            "specific humidity",
            "humidity_g_kg",
            "humidity (g/m3)",
            "wind_u_m_s",
            "v_component_of_wind",
            "pressure_hpa",
        ] {
            assert_eq!(Column::named(0, name).holds, Holds::Other, "{name}");
        }
        assert_eq!(Column::named(0, "temp").unit, None);
    }

    #[test]
    fn times_are_found_with_their_zone() {
        for (name, holds, utc) in [
            ("time_utc", Holds::Time, true),
            ("valid(UTC)", Holds::Time, true),
            ("valid", Holds::Time, false),
            ("Date Time (GMT)", Holds::Time, true),
            ("timestamp", Holds::Time, false),
            ("datetime", Holds::Time, false),
            ("Date", Holds::Date, false),
            ("unix_s", Holds::UnixSeconds, false),
            ("station", Holds::Station, false),
        ] {
            let column = Column::named(0, name);
            assert_eq!((column.holds, column.utc), (holds, utc), "{name}");
        }
    }
}
