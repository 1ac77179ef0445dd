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

/// A wall condenses when it is this far below the dew point, K.
pub(super) const BELOW_DEW_K: f64 = 0.1;
/// Films thinner than this are traces and do not count as condensing, g/m2.
const TRACE_FILM_G_PER_M2: f64 = 0.05;
/// Films thicker than this are wet, g/m2.
const WET_FILM_G_PER_M2: f64 = 1.0;
/// The group whose water is the headline.
const UPPER: &str = "upper";
/// The order in which groups are told.
const GROUPS: [&str; 4] = [UPPER, "crank", "accessory", "lower"];

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
    /// The sum of all increments of the films, g; may exceed the water there is, as films dry and form again.
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
        /// Why, in words.
        why: String,
    },
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
            upper_g: upper().map(|w| w.grams).sum(),
            groups: groups(&walls),
            turnover_g: notes.iter().map(|w| increments_g(trace, w)).sum(),
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

fn condensing(trace: &Trace, wall: &WallNote, dew_c: &[f64]) -> Spans {
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

/// The sum of a film's increments between samples until the departure, g.
fn increments_g(trace: &Trace, wall: &WallNote) -> f64 {
    let until = trace.times_s.partition_point(|&t| t <= trace.departure_s);
    let films: Vec<f64> = trace.column(wall.film).take(until).collect();
    let steps = films.windows(2).map(|w| w[1].max(0.0) - w[0].max(0.0));
    steps.filter(|step| *step > 0.0).sum()
}

fn groups(walls: &[WallFinding]) -> Vec<GroupGrams> {
    let grams = |group: &str| {
        let of_group = walls.iter().filter(|w| w.group == group);
        of_group.map(|w| w.grams).reduce(|a, b| a + b)
    };
    let told = GROUPS.iter().filter_map(|group| {
        Some(GroupGrams {
            group: (*group).to_owned(),
            grams: grams(group)?,
        })
    });
    told.collect()
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
    let why = if dry {
        "there was no water in the oil or on the walls"
    } else {
        "no wall under a film was below the dew point of the air inside"
    };
    Onset::Never {
        horizon_h: trace.departure_s / 3600.0,
        why: why.to_owned(),
    }
}
