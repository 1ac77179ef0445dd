//! How thick the oil is at the departure.
//!
//! Heated from below, the lowest layer holds the warmth of the boundary layer, with which the pick-up should not
//! be credited: the pick-up is given at the lower of the mean and the lowest layer.

use super::readings::{mean, oil_columns};
use crate::physics::oil::Walther;
use crate::scenario::oil::Oil;
use crate::trace::ColumnInfo;
use serde::Serialize;

/// Nearer than this to the pour point a viscosity is extrapolated, K.
const NEAR_POUR_POINT_K: f64 = 10.0;

/// The oil at the departure.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct OilFinding {
    /// Its grade.
    pub grade: String,
    /// Mean of its layers, °C.
    pub temp_c: f64,
    /// At the pick-up, °C: the lower of the mean and the lowest layer.
    pub pickup_temp_c: f64,
    /// Kinematic viscosity at the mean, mm2/s.
    pub viscosity_mm2_s: f64,
    /// Kinematic viscosity at the pick-up, mm2/s.
    pub pickup_viscosity_mm2_s: f64,
    /// Its pour point, °C.
    pub pour_point_c: f64,
    /// How far the viscosity at the mean can be trusted.
    pub range: OilRange,
    /// How far the viscosity at the pick-up can be trusted.
    pub pickup_range: OilRange,
    /// Whether either figure is more than an oil's law can vouch for.
    pub flagged: bool,
}

/// How far a viscosity can be trusted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum OilRange {
    /// More than 10 K above the pour point: a liquid, and the law holds.
    Sound,
    /// Less than 10 K above the pour point: wax may thicken it beyond what is given.
    Extrapolated,
    /// Below the pour point: it no longer flows as a liquid; the figure is an equivalent.
    BelowPourPoint,
}

impl OilFinding {
    /// The oil in one row of a legend's columns, with the law through its two published viscosities.
    ///
    /// *Source*: ASTM D341 by [`Walther`]; the flag after the limits of that law (wax and gelation from about
    /// 10 K above the pour point).
    pub fn of(legend: &ColumnInfo, row: &[f64], oil: &Oil) -> Option<Self> {
        let columns = oil_columns(legend)?;
        let temp_c = mean(row, &columns);
        let pickup_temp_c = temp_c.min(row[columns[0].0]);
        let law = Walther::through(oil.at_40.si(), oil.at_100.si());
        let pour_point_c = oil.pour_point.celsius();
        let pickup_range = OilRange::of(pickup_temp_c, pour_point_c);
        Some(Self {
            grade: oil.grade.clone(),
            temp_c,
            pickup_temp_c,
            viscosity_mm2_s: law.viscosity_mm2_s(temp_c),
            pickup_viscosity_mm2_s: law.viscosity_mm2_s(pickup_temp_c),
            pour_point_c,
            range: OilRange::of(temp_c, pour_point_c),
            pickup_range,
            flagged: pickup_range != OilRange::Sound,
        })
    }
}

impl OilRange {
    /// How far a viscosity at this temperature can be trusted for an oil of this pour point, both °C.
    pub fn of(temp_c: f64, pour_point_c: f64) -> Self {
        if temp_c < pour_point_c {
            Self::BelowPourPoint
        } else if temp_c < pour_point_c + NEAR_POUR_POINT_K {
            Self::Extrapolated
        } else {
            Self::Sound
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Temperature, Viscosity};
    use crate::test_traces::Handmade;

    fn oil_of(grade: &str, at_40: f64, at_100: f64, pour_c: f64) -> Oil {
        Oil {
            grade: grade.to_owned(),
            at_40: Viscosity::mm2_s(at_40),
            at_100: Viscosity::mm2_s(at_100),
            pour_point: Temperature::degC(pour_c),
            uncertain: Default::default(),
        }
    }
    fn found(oil: &Oil, layers_c: &[f64]) -> OilFinding {
        let mut night = Handmade::hours(&[0.0]);
        let layers: Vec<&[f64]> = layers_c.iter().map(std::slice::from_ref).collect();
        night.oil(&layers);
        let trace = night.trace();
        OilFinding::of(&trace.legend, trace.sample(0), oil).expect("there is oil")
    }

    /// Rows worked out by the equation of ASTM D341 through 40/100 °C pairs typical of aviation oils (pairs from
    /// memory), printed to four figures.
    #[test]
    fn viscosity_follows_walthers_line_for_five_grades() {
        let rows = [
            ("SAE 50", 225.0, 19.8, -10.0, 1.599e4),
            ("SAE 50", 225.0, 19.8, 20.0, 856.2),
            ("SAE 30", 100.0, 11.0, 0.0, 1861.0),
            ("SAE 60", 310.0, 24.5, 60.0, 107.4),
            ("15W-50", 141.0, 19.6, -20.0, 8643.0),
            ("20W-50", 165.0, 19.5, 10.0, 1024.0),
        ];
        for (grade, at_40, at_100, temp_c, expected) in rows {
            let found = found(&oil_of(grade, at_40, at_100, -40.0), &[temp_c; 4]);
            let error = found.viscosity_mm2_s / expected - 1.0;
            // Four printed figures, and 1e-5 of a and b.
            assert!(error.abs() < 2e-3, "{grade} at {temp_c}: {error}");
            assert_eq!(found.pickup_viscosity_mm2_s, found.viscosity_mm2_s);
        }
    }

    #[test]
    fn the_pickup_is_not_credited_with_the_warmth_of_the_lowest_layer() {
        let oil = oil_of("15W-50", 141.0, 19.6, -36.0);
        let from_below = found(&oil, &[30.0, 10.0, 10.0, 10.0]);
        assert_eq!((from_below.temp_c, from_below.pickup_temp_c), (15.0, 15.0));
        let from_above = found(&oil, &[0.0, 10.0, 20.0, 30.0]);
        assert_eq!((from_above.temp_c, from_above.pickup_temp_c), (15.0, 0.0));
        assert!(from_above.pickup_viscosity_mm2_s > from_above.viscosity_mm2_s);
    }

    #[test]
    fn oil_near_or_under_its_pour_point_is_flagged() {
        let oil = oil_of("SAE 50", 225.0, 19.8, -18.0);
        for (temp_c, range) in [
            (-8.0, OilRange::Sound),
            (-8.1, OilRange::Extrapolated),
            (-18.0, OilRange::Extrapolated),
            (-18.1, OilRange::BelowPourPoint),
        ] {
            let found = found(&oil, &[temp_c]);
            assert_eq!(
                (found.range, found.flagged),
                (range, range != OilRange::Sound)
            );
        }
        // A sound mean over a cold pick-up is flagged all the same.
        let mixed = found(&oil, &[-12.0, 10.0]);
        assert_eq!((mixed.range, mixed.flagged), (OilRange::Sound, true));
    }
}
