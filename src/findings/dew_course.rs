//! How far the walls inside the engine stand above the dew point of the air inside, and when water settles on any, all
//! through a night.

use super::condensation::{GROUPS, condensing, dew_series};
use super::spans::Spans;
use crate::trace::Trace;

/// The course of a night's moisture; lists have one value a sample.
#[derive(Debug, Clone, PartialEq)]
pub struct DewMarginSeries {
    /// Groups of walls, in their order; a group without walls is left out.
    pub groups: Vec<WallGroupCourse>,
    /// When some wall was condensing (by the definition of [`Condensation`](super::Condensation)), seconds after the
    /// beginning, to the end of the record.
    pub condensing_s: Vec<(f64, f64)>,
    /// Water in or under the oil, g, if the oil can give off water.
    pub oil_water_g: Option<Vec<f64>>,
}

/// A group of walls.
#[derive(Debug, Clone, PartialEq)]
pub struct WallGroupCourse {
    /// `upper`, `crank`, `accessory` or `lower`.
    pub group: String,
    /// The least of its walls' temperatures over the dew (frost) point of the air inside, K.
    pub margin_k: Vec<f64>,
    /// Water on its walls, g.
    pub grams: Vec<f64>,
}

impl WallGroupCourse {
    /// What people call it.
    pub fn label(&self) -> &'static str {
        match self.group.as_str() {
            "upper" => "upper walls",
            "crank" => "crankshaft",
            "accessory" => "accessory case",
            _ => "lower walls",
        }
    }
}

impl DewMarginSeries {
    /// The course of a trace; none if no air is inside.
    pub fn of(trace: &Trace) -> Option<Self> {
        let gas = trace.legend.gas.as_ref()?;
        let dew = dew_series(trace, gas.temperature, gas.vapour);
        let walls = &trace.legend.walls;
        let spans: Vec<Spans> = walls.iter().map(|w| condensing(trace, w, &dew)).collect();
        let group = |name: &&str| {
            let mut course = WallGroupCourse {
                group: (*name).to_owned(),
                margin_k: vec![f64::INFINITY; trace.len()],
                grams: vec![0.0; trace.len()],
            };
            let of_group = walls.iter().filter(|w| w.group == *name);
            let mut any = false;
            for wall in of_group {
                any = true;
                let temps = trace.column(wall.temperature).zip(&dew);
                for (least, (temp, dew)) in course.margin_k.iter_mut().zip(temps) {
                    *least = least.min(temp - dew);
                }
                for (sum, film) in course.grams.iter_mut().zip(trace.column(wall.film)) {
                    *sum += film.max(0.0);
                }
            }
            any.then_some(course)
        };
        Some(Self {
            groups: GROUPS.iter().filter_map(group).collect(),
            condensing_s: Spans::any(spans.iter()).listed(),
            oil_water_g: gas
                .oil_water
                .map(|column| trace.column(column).map(|g| g.max(0.0)).collect()),
        })
    }

    /// The least margin of all groups at every sample, K.
    pub fn least_k(&self) -> Vec<f64> {
        let samples = self.groups.first().map_or(0, |g| g.margin_k.len());
        let at = |k: usize| self.groups.iter().map(move |g| g.margin_k[k]);
        (0..samples)
            .map(|k| at(k).fold(f64::INFINITY, f64::min))
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::findings::Condensation;
    use crate::test_traces::Handmade;

    /// PsychroLib 2.5.0: 20 °C and 10.3720 g/m3 have their dew point at 12.007 °C; the Magnus form is within 0.05 K.
    #[test]
    fn the_margin_is_that_of_the_nearest_wall_and_spans_are_those_of_the_finding() {
        let mut night = Handmade::hours(&[0.0, 20.0]);
        night.gas(&[20.0], &[10.3720], &[15.0]);
        night.wall("top", "upper", &[20.0, 0.0], &[2.0]);
        night.wall("head", "upper", &[30.0], &[1.0]);
        night.wall("sump", "lower", &[40.0], &[0.0]);
        let trace = night.trace();
        let course = DewMarginSeries::of(&trace).expect("there is air inside");
        assert_eq!(course.groups.len(), 2);
        assert!((course.groups[0].margin_k[0] - 7.993).abs() < 0.05);
        assert!((course.least_k()[1] + 12.007).abs() < 0.05);
        assert_eq!(course.groups[0].grams, [3.0, 3.0]);
        // From 0.1 K below the dew point on: the wall falls by 1 K an hour.
        let [(from_s, to_s)] = course.condensing_s[..] else {
            panic!("{:?}", course.condensing_s)
        };
        assert!((from_s / 3600.0 - 8.093).abs() < 0.05, "{from_s} s");
        assert_eq!(to_s, 72_000.0);
        let row = trace.at(trace.departure_s);
        let found = Condensation::of(&trace, &row).expect("there is air inside");
        let hours: f64 = course
            .condensing_s
            .iter()
            .map(|s| (s.1 - s.0) / 3600.0)
            .sum();
        assert!((hours - found.hours).abs() < 1e-9);
        assert_eq!(course.oil_water_g, Some(vec![15.0, 15.0]));
    }

    #[test]
    fn walls_are_called_what_people_call_them() {
        let label = |group: &str| {
            WallGroupCourse {
                group: group.to_owned(),
                margin_k: Vec::new(),
                grams: Vec::new(),
            }
            .label()
        };
        assert_eq!(
            GROUPS.map(label),
            ["upper walls", "crankshaft", "accessory case", "lower walls"]
        );
    }
}
