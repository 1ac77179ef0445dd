//! One moment of a night as the map shows it: what is how warm, what is wet, which heater is on, what is coldest.

use super::drawing::{Drawing, Kind};
use crate::findings::{Coldest, TRACE_FILM_G_PER_M2};
use crate::night::Night;

/// One moment.
#[derive(Debug, Clone, PartialEq)]
pub struct Moment {
    /// Seconds after the beginning.
    pub time_s: f64,
    /// The temperature of each subject of the drawing, °C.
    pub celsius: Vec<f64>,
    /// Parts with water on their inner walls.
    pub wet: Vec<String>,
    /// Whether each heater is on.
    pub on: Vec<bool>,
    /// The coldest engine part.
    pub coldest: Option<Coldest>,
    /// Engine parts under the threshold, and engine parts in all.
    pub under: (usize, usize),
    /// The minimum of every engine part, °C.
    pub threshold_c: f64,
    /// The hangar air, °C.
    pub hangar_c: f64,
}

impl Moment {
    /// The moment so many seconds after the beginning.
    pub fn of(drawing: &Drawing, night: &Night, time_s: f64) -> Self {
        let (trace, legend) = (&night.trace, &night.trace.legend);
        let row = trace.at(time_s);
        let threshold_c = night.scenario.scenario().criteria.min_temperature.celsius();
        let wet = legend
            .walls
            .iter()
            .filter(|w| row[w.film] > TRACE_FILM_G_PER_M2 * w.area_m2)
            .map(|w| w.name.clone())
            .collect();
        let on = (0..legend.heaters.len()).map(|h| {
            let spans = trace.on_spans(h);
            // A heater that is unplugged to leave was on until then.
            let until = |end_s: f64| time_s < end_s || end_s == trace.departure_s;
            spans
                .iter()
                .any(|s| s.0 <= time_s && time_s <= s.1 && until(s.1))
        });
        let parts = &night.findings.parts;
        let cold = |part: &str| {
            let mut cells = legend.cells.iter().filter(|c| c.part == part);
            cells.any(|c| row[c.column] < threshold_c)
        };
        let engine = || parts.iter().filter(|p| p.engine);
        Self {
            time_s,
            celsius: drawing.subjects.iter().map(|s| s.celsius(&row)).collect(),
            wet,
            on: on.collect(),
            coldest: Coldest::of(legend, &row),
            under: (engine().filter(|p| cold(&p.part)).count(), engine().count()),
            threshold_c,
            hangar_c: row[legend.hangar],
        }
    }
    /// Whether a subject is metal with a wet inner wall.
    pub fn is_wet(&self, drawing: &Drawing, subject: usize) -> bool {
        let subject = &drawing.subjects[subject];
        subject.kind != Kind::Air && subject.cells.iter().any(|c| self.wet.contains(c))
    }
}
