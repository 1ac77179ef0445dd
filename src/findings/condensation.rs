//! Water that settles on the walls inside the engine: how long, where, and how much.
//!
//! ```text
//! condensing: dew(w_g 461.5 T_g / 1000) - T_wall > 0.1 K  and  film > 0.05 g/m2
//! wet:        film > 1 g/m2
//! ```
//!
//! with `w_g` in g/m3 and `T_g` in K the air inside; below freezing the dew point is the frost point. Hours alone
//! do not rank heaters, as after a hot shutdown some wall condenses nearly all night: the grams left do.

use super::spans::Spans;
use crate::physics::vapour;
use crate::trace::{GasNote, Trace, WallNote};
use serde::Serialize;

/// A wall condenses when it is this far below the dew point, K. This and the next two are
/// definitions of the word, not measurements.
pub(super) const BELOW_DEW_K: f64 = 0.1;
/// Films thinner than this are traces and do not count as condensing, g/m2.
pub const TRACE_FILM_G_PER_M2: f64 = 0.05;
/// Films thicker than this are wet, g/m2.
const WET_FILM_G_PER_M2: f64 = 1.0;
/// The group whose water is the headline.
const UPPER: &str = "upper";
/// The order of the groups.
pub(super) const GROUPS: [&str; 4] = [UPPER, "crank", "accessory", "lower"];

/// Water on the inner walls, from the beginning to the departure.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Condensation {
    /// Hours during which some wall was condensing.
    pub hours: f64,
    /// Hours of the upper wall that was condensing longest.
    pub upper_hours: f64,
    /// Water on the upper walls at the departure, g (the headline).
    pub upper_g: f64,
    /// Water on every group of walls at the departure.
    pub groups: Vec<GroupGrams>,
    /// The sum of all increments of the films until the departure, g; may exceed the water there is, as films dry and form again.
    pub turnover_g: f64,
    /// When the first wall began to condense.
    pub onset: Onset,
    /// Hours of the wall that was wet longest (film above 1 g/m2).
    pub wet_hours: f64,
    /// Water in or under the oil at the departure, g, if the oil can give off water.
    pub oil_water_g: Option<f64>,
    /// Every wall, in the order of the engine.
    pub walls: Vec<WallFinding>,
}

/// Water on a group of walls.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct GroupGrams {
    /// `upper`, `crank`, `accessory` or `lower`.
    pub group: String,
    /// Its water, g.
    pub grams: f64,
}

/// When condensing began.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Onset {
    /// It began then.
    After {
        /// Hours after the beginning of the night.
        hours: f64,
    },
    /// No wall condensed before the departure.
    Never {
        /// How long was looked at, hours.
        horizon_h: f64,
        /// Why.
        why: NoCondensation,
    },
}

/// Why no wall condensed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum NoCondensation {
    /// There was no water in the oil or on the walls.
    NoWater,
    /// No wall under a film was below the dew point of the air inside.
    AboveDewPoint,
}

/// One inner wall.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct WallFinding {
    /// Its name.
    pub wall: String,
    /// What people call it.
    pub label: String,
    /// `upper`, `crank`, `accessory` or `lower`.
    pub group: String,
    /// Hours of condensing: more than 0.1 K below the dew (frost) point of the air inside, under a film of more
    /// than 0.05 g/m2.
    pub hours: f64,
    /// Hours with a film of more than 1 g/m2.
    pub wet_hours: f64,
    /// Water on it at the departure, g.
    pub grams: f64,
}

impl Onset {
    /// The hours, or none for never.
    pub fn hours(&self) -> Option<f64> {
        match self {
            Self::After { hours } => Some(*hours),
            Self::Never { .. } => None,
        }
    }
}

impl Condensation {
    /// What settled from the beginning to the departure, whose columns are `row`; none if no air is inside.
    pub fn of(trace: &Trace, row: &[f64]) -> Option<Self> {
        let gas = trace.legend.gas.as_ref()?;
        let (end_s, notes) = (trace.departure_s, &trace.legend.walls);
        let dew = dew_series(trace, gas.temperature, gas.vapour);
        let condensing: Vec<Spans> = notes
            .iter()
            .map(|wall| condensing(trace, wall, &dew).until(end_s))
            .collect();
        let any = Spans::any(condensing.iter());
        let walls: Vec<WallFinding> = notes
            .iter()
            .zip(&condensing)
            .map(|(note, spans)| WallFinding {
                wall: note.name.clone(),
                label: note.label.clone(),
                group: note.group.clone(),
                hours: spans.hours(),
                wet_hours: film_above(trace, note, WET_FILM_G_PER_M2)
                    .until(end_s)
                    .hours(),
                grams: row[note.film].max(0.0),
            })
            .collect();
        let upper = || walls.iter().filter(|w| w.group == UPPER);
        Some(Self {
            hours: any.hours(),
            upper_hours: upper().map(|w| w.hours).fold(0.0, f64::max),
            upper_g: upper().fold(0.0, |sum, w| sum + w.grams),
            groups: groups(&walls),
            turnover_g: trace.turnover_g(end_s),
            onset: onset(trace, gas, &any),
            wet_hours: walls.iter().map(|w| w.wet_hours).fold(0.0, f64::max),
            oil_water_g: gas.oil_water.map(|column| row[column].max(0.0)),
            walls,
        })
    }
}

/// Dew (frost) point at every sample of air whose temperature and vapour density are in these columns, °C.
pub(super) fn dew_series(trace: &Trace, temperature: usize, density: usize) -> Vec<f64> {
    let air = trace.column(temperature).zip(trace.column(density));
    air.map(|(temp_c, g_per_m3)| vapour::dew_point_c(vapour::pressure_pa(g_per_m3, temp_c)))
        .collect()
}

pub(super) fn condensing(trace: &Trace, wall: &WallNote, dew_c: &[f64]) -> Spans {
    let below = dew_c.iter().zip(trace.column(wall.temperature));
    let cold = Spans::above_zero(
        &trace.times_s,
        below.map(|(dew, temp)| dew - temp - BELOW_DEW_K),
    );
    cold.and(&film_above(trace, wall, TRACE_FILM_G_PER_M2))
}

fn film_above(trace: &Trace, wall: &WallNote, g_per_m2: f64) -> Spans {
    let least_g = g_per_m2 * wall.area_m2;
    Spans::above_zero(&trace.times_s, trace.column(wall.film).map(|g| g - least_g))
}

fn groups(walls: &[WallFinding]) -> Vec<GroupGrams> {
    let grams = |group: &str| {
        let of_group = walls.iter().filter(|w| w.group == group);
        of_group.map(|w| w.grams).reduce(|a, b| a + b)
    };
    let groups = GROUPS.iter().filter_map(|group| {
        Some(GroupGrams {
            group: (*group).to_owned(),
            grams: grams(group)?,
        })
    });
    groups.collect()
}

fn onset(trace: &Trace, gas: &GasNote, any: &Spans) -> Onset {
    if let Some(begin_s) = any.begin_s() {
        return Onset::After {
            hours: begin_s / 3600.0,
        };
    }
    let dry = gas
        .oil_water
        .is_none_or(|c| trace.column(c).all(|g| g <= 0.0))
        && (trace.legend.walls.iter()).all(|w| trace.column(w.film).all(|g| g <= 0.0));
    Onset::Never {
        horizon_h: trace.departure_s / 3600.0,
        why: match dry {
            true => NoCondensation::NoWater,
            false => NoCondensation::AboveDewPoint,
        },
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::test_traces::Handmade;

    /// Air at 20 °C and 60 percent: its vapour density and dew point by PsychroLib 2.5.0.
    const AIR_C: f64 = 20.0;
    const AIR_G_PER_M3: f64 = 10.3720;
    const AIR_DEW_C: f64 = 12.007;
    /// The Magnus form finds dew points to within this of PsychroLib, K.
    const DEW_TOLERANCE_K: f64 = 0.05;

    fn found(night: Handmade) -> Condensation {
        let trace = night.trace();
        let row = trace.at(trace.departure_s);
        Condensation::of(&trace, &row).expect("there is air inside")
    }
    fn damp(hours: &[f64]) -> Handmade {
        let mut night = Handmade::hours(hours);
        night.gas(&[AIR_C], &[AIR_G_PER_M3], &[15.0]);
        night
    }

    #[test]
    fn a_wall_that_cools_in_a_straight_line_condenses_from_a_tenth_below_the_dew_point() {
        // Sampled twice only: the crossing must come from the line, not from the samples. 1 K is 1 h.
        let mut night = damp(&[0.0, 20.0]);
        night.wall("top", "upper", &[20.0, 0.0], &[2.0]);
        let found = found(night);
        let crossing_h = AIR_C - (AIR_DEW_C - 0.1);
        let onset_h = found.onset.hours().expect("it condenses");
        assert!((onset_h - crossing_h).abs() < DEW_TOLERANCE_K, "{onset_h}");
        assert!((found.hours + onset_h - 20.0).abs() < 1e-9);
        assert_eq!((found.upper_hours, found.wet_hours), (found.hours, 20.0));
    }

    #[test]
    fn below_freezing_the_frost_point_counts() {
        // PsychroLib: air at -10 °C, 70 percent over ice: 1.4980 g/m3, frost point -13.957 °C.
        let mut night = Handmade::hours(&[0.0, 20.0]);
        night.gas(&[-10.0], &[1.4980], &[15.0]);
        night.wall("top", "upper", &[0.0, -20.0], &[2.0]);
        let onset_h = found(night).onset.hours().expect("it frosts");
        assert!((onset_h - 14.057).abs() < DEW_TOLERANCE_K, "{onset_h}");
    }

    #[test]
    fn traces_of_film_do_not_count_and_wet_begins_at_a_gram() {
        // Cold all along; the film grows from nothing to 2 g/m2 in 20 h: a trace until 0.5 h, wet from 10 h.
        let mut night = damp(&[0.0, 20.0]);
        night.wall("top", "upper", &[0.0], &[0.0, 2.0]);
        let found = found(night);
        assert!((found.hours - 19.5).abs() < 1e-9);
        assert!((found.wet_hours - 10.0).abs() < 1e-9);
    }

    /// Twice as thick on half the area: 2 g in 20 h on 0.5 m2 pass 0.05 g/m2 after 0.25 h and 1 g/m2 after 5 h.
    #[test]
    fn the_same_grams_on_a_smaller_wall_are_a_thicker_film() {
        let mut night = damp(&[0.0, 20.0]);
        night.wall("top", "upper", &[0.0], &[0.0, 2.0]);
        let mut trace = night.trace();
        trace.legend.walls[0].area_m2 = 0.5;
        let found = Condensation::of(&trace, trace.sample(1)).expect("there is air inside");
        assert!((found.hours - 19.75).abs() < 1e-9);
        assert!((found.wet_hours - 15.0).abs() < 1e-9);
    }

    #[test]
    fn the_walls_of_a_group_add_up_to_what_the_headline_tells() {
        let mut night = damp(&[0.0, 9.0]);
        for (name, group, film_g) in [
            ("top", "upper", 1.5),
            ("sump", "lower", 4.0),
            ("head", "upper", 0.75),
            ("tank", "lower", 1.0),
        ] {
            night.wall(name, group, &[30.0], &[film_g]);
        }
        let found = found(night);
        let seen = found.groups.iter().map(|g| (g.group.as_str(), g.grams));
        assert_eq!(seen.collect::<Vec<_>>(), [("upper", 2.25), ("lower", 5.0)]);
        assert_eq!(found.upper_g, 2.25);
    }

    #[test]
    fn any_is_the_union_and_upper_the_longest_upper_wall() {
        let hours = [0.0, 2.0, 4.0, 6.0, 8.0, 10.0];
        let mut night = damp(&hours);
        let film = &[1.0];
        night.wall("top", "upper", &[0.0, 0.0, 30.0, 30.0, 30.0, 30.0], film);
        night.wall("head", "upper", &[30.0, 0.0, 0.0, 0.0, 30.0, 30.0], film);
        night.wall("crank", "crank", &[30.0, 30.0, 30.0, 30.0, 30.0, 0.0], film);
        let found = found(night);
        // Each edge of 30 K in 2 h crosses 0.1 K below the dew point at this share of its way up.
        let share = (AIR_DEW_C - 0.1) / 30.0;
        let (top, head, crank) = (2.0 + 2.0 * share, 4.0 + 4.0 * share, 2.0 * share);
        for (wall, hours) in found.walls.iter().zip([top, head, crank]) {
            assert!(
                (wall.hours - hours).abs() < 0.01,
                "{} {}",
                wall.wall,
                wall.hours
            );
        }
        let union = 6.0 + 2.0 * share + crank;
        assert!((found.hours - union).abs() < 0.02, "{}", found.hours);
        assert_eq!(found.upper_hours, found.walls[1].hours);
        assert_eq!(found.onset.hours(), Some(0.0));
    }

    #[test]
    fn grams_are_told_by_group_and_turnover_counts_water_twice_that_settles_twice() {
        let mut night = damp(&[0.0, 1.0, 2.0, 3.0, 4.0]).leaving(3.0);
        night.wall("sump", "lower", &[30.0], &[0.0, 0.0, 0.0, 4.0, 90.0]);
        night.wall("top", "upper", &[30.0], &[0.0, 3.0, 1.0, 2.0, 90.0]);
        night.wall("head", "upper", &[30.0], &[0.0, 0.5, 0.5, -1e-7, 90.0]);
        let found = found(night);
        assert_eq!(found.upper_g, 2.0);
        let seen: Vec<_> = found
            .groups
            .iter()
            .map(|g| (g.group.as_str(), g.grams))
            .collect();
        assert_eq!(seen, [("upper", 2.0), ("lower", 4.0)]);
        assert!((found.turnover_g - (4.0 + 3.0 + 1.0 + 0.5)).abs() < 1e-12);
        assert_eq!(found.oil_water_g, Some(15.0));
    }

    #[test]
    fn onset_is_never_with_its_reason_when_nothing_condenses() {
        let mut warm = damp(&[0.0, 9.0]);
        warm.wall("top", "upper", &[15.0], &[2.0]);
        let mut dry = Handmade::hours(&[0.0, 9.0]);
        dry.gas(&[AIR_C], &[AIR_G_PER_M3], &[0.0]);
        dry.wall("top", "upper", &[0.0], &[0.0]);
        for (night, reason) in [
            (warm, NoCondensation::AboveDewPoint),
            (dry, NoCondensation::NoWater),
        ] {
            let found = found(night);
            assert_eq!(found.hours, 0.0);
            let Onset::Never { horizon_h, why } = found.onset else {
                panic!("nothing condenses");
            };
            assert_eq!(horizon_h, 9.0);
            assert_eq!(why, reason);
        }
    }

    #[test]
    fn a_night_with_water_in_the_oil_or_on_the_walls_alone_is_not_called_one_without_water() {
        for (oil_water_g, film_g) in [(15.0, 0.0), (0.0, 2.0)] {
            let mut night = Handmade::hours(&[0.0, 9.0]);
            night.gas(&[AIR_C], &[AIR_G_PER_M3], &[oil_water_g]);
            night.wall("top", "upper", &[15.0], &[film_g]);
            let Onset::Never { why, .. } = found(night).onset else {
                panic!("nothing condenses at 3 K above the dew point");
            };
            assert_eq!(
                why,
                NoCondensation::AboveDewPoint,
                "{oil_water_g} g, {film_g} g"
            );
        }
    }

    #[test]
    fn what_settles_after_the_departure_is_not_counted() {
        let mut night = damp(&[0.0, 2.0, 4.0]).leaving(2.0);
        night.wall("top", "upper", &[30.0, 30.0, 0.0], &[2.0]);
        assert_eq!(found(night).onset.hours(), None);
    }
}
