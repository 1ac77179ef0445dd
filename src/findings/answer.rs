//! All findings of one night, put together.

use super::circuit::CircuitFinding;
use super::clearance::{ClearanceFinding, clearances};
use super::coldest::Coldest;
use super::condensation::Condensation;
use super::cylinder_spread::Unevenness;
use super::dew::SurfaceCondensation;
use super::energy::EnergyFinding;
use super::events::{Event, events};
use super::losses::{PathLoss, losses};
use super::oil::OilFinding;
use super::parts::{PartFinding, parts};
use super::readings::{GroupTemperature, groups, row_at};
use super::ready::Ready;
use super::steady::Steady;
use super::threshold::{ThresholdFinding, first_on_s};
use super::warning_rules::WarningInputs;
use super::warnings::Warning;
use crate::scenario::circuit::Circuit;
use crate::scenario::criteria::Criteria;
use crate::scenario::oil::Oil;
use crate::trace::{Conservation, Trace};
use serde::Serialize;

/// What one night answers. States are those at the departure, sums run from the beginning to the departure,
/// and only the times to the threshold look at the whole time followed.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Findings {
    /// The departure, hours after the beginning.
    pub departure_h: f64,
    /// The first time a heater was on, hours after the beginning; times to a threshold are counted from here.
    /// Without a heater it is the beginning.
    pub first_on_h: f64,
    /// Whether every engine part came to the threshold and stayed there, some time within the time followed.
    pub reached: bool,
    /// When the engine was warm, as a whole, by group and in the oil.
    pub threshold: ThresholdFinding,
    /// Whether it was ready at the departure, and by how much.
    pub ready: Ready,
    /// The coldest engine part at the departure; none if no part is marked as an engine part.
    pub coldest: Option<Coldest>,
    /// How far the cylinders differ; none if there are no cylinders.
    pub unevenness: Option<Unevenness>,
    /// Water on the inner walls; none if there is no air room inside the engine.
    pub condensation: Option<Condensation>,
    /// The engine surface that was longest below the dew point of the bay's air; none if none ever was.
    pub outside_dew: Option<SurfaceCondensation>,
    /// How thick the oil is; none if there is no oil.
    pub oil: Option<OilFinding>,
    /// What was drawn at the plug, and what of it the engine kept.
    pub energy: EnergyFinding,
    /// What the circuit had to carry.
    pub circuit: CircuitFinding,
    /// How the clearance of each main bearing has changed, nose first.
    pub clearances: Vec<ClearanceFinding>,
    /// Where heat was lost during the last hour before the departure, W by path.
    pub losses_w: Vec<PathLoss>,
    /// Temperatures of groups of parts at the departure.
    pub groups_c: Vec<GroupTemperature>,
    /// Every part, in the order of the engine.
    pub parts: Vec<PartFinding>,
    /// Whether the books close.
    pub ledger: LedgerFinding,
    /// Where the night would have settled, if that was computed and found.
    pub steady: Option<Steady>,
    /// What happened when, in order.
    pub events: Vec<Event>,
    /// What deserves care.
    pub warnings: Vec<Warning>,
}

/// How well the books of energy and water close.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LedgerFinding {
    /// Energy unaccounted for, relative: `(change - in + out) / max(in, |change|, 1 kJ)`.
    pub energy_error: f64,
    /// Water unaccounted for, relative: `(change + lost) / max(before, turnover, 1 g)`.
    pub water_error: f64,
    /// Whether both are small enough for the night to count.
    pub closes: bool,
}

/// Questions the trace of a night.
///
/// *Valid*: any trace whose legend fits its columns; one without samples gives numbers that are none, and "never".
pub fn answer(
    trace: &Trace,
    ledger: &Conservation,
    criteria: &Criteria,
    oil: &Oil,
    circuit: &Circuit,
    steady: Option<Steady>,
) -> Findings {
    let (legend, row) = (&trace.legend, row_at(trace, trace.departure_s));
    let (departure_h, first_on_h) = (trace.departure_s / 3600.0, first_on_s(trace) / 3600.0);
    let threshold = ThresholdFinding::of(trace, criteria);
    let coldest = Coldest::of(legend, &row);
    let condensation = Condensation::of(trace, &row);
    let oil = OilFinding::of(legend, &row, oil);
    let circuit_finding = CircuitFinding::of(trace, circuit);
    let ready = Ready::of(
        criteria,
        &threshold,
        coldest.as_ref(),
        condensation.as_ref(),
        oil.as_ref(),
        departure_h - first_on_h,
    );
    let warm_h = threshold.all_parts.hold.hours();
    let warnings = WarningInputs {
        trace,
        row: &row,
        ready: ready.ready_at_departure,
        warm_s: warm_h.map(|hours| (first_on_h + hours) * 3600.0),
        condensation: condensation.as_ref(),
        circuit: &circuit_finding,
        oil: oil.as_ref(),
    }
    .warnings();
    Findings {
        departure_h,
        first_on_h,
        reached: warm_h.is_some(),
        events: events(trace, &threshold, first_on_h),
        parts: parts(trace, &row, threshold.threshold_c),
        unevenness: Unevenness::of(trace, &row),
        outside_dew: SurfaceCondensation::of(trace),
        energy: EnergyFinding::of(trace, &row, circuit),
        clearances: clearances(legend, &row),
        losses_w: losses(trace, &row),
        groups_c: groups(legend, &row),
        ledger: LedgerFinding {
            energy_error: ledger.energy_error(),
            water_error: ledger.water_error(),
            closes: ledger.check().is_ok(),
        },
        circuit: circuit_finding,
        threshold,
        ready,
        coldest,
        condensation,
        oil,
        steady,
        warnings,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::findings::ready::Unmet;
    use crate::quantity::{Temperature, Viscosity};
    use crate::test_traces::Handmade;

    fn oil() -> Oil {
        Oil {
            grade: "15W-50".to_owned(),
            at_40: Viscosity::mm2_s(141.0),
            at_100: Viscosity::mm2_s(19.6),
            pour_point: Temperature::degC(-36.0),
            uncertain: Default::default(),
        }
    }
    fn answered(trace: &Trace, criteria: &Criteria) -> Findings {
        answer(
            trace,
            &Conservation::default(),
            criteria,
            &oil(),
            &Circuit::default(),
            None,
        )
    }
    /// Warms by 2 K an hour from -10 °C for 10 h, the last two of them after the departure; the sump lags by 1 K.
    fn warming(upper_g: f64) -> Handmade {
        let hours: Vec<f64> = (0..=10).map(f64::from).collect();
        let temps: Vec<f64> = hours.iter().map(|h| -10.0 + 2.0 * h).collect();
        let lagging: Vec<f64> = temps.iter().map(|t| t - 1.0).collect();
        let mut night = Handmade::hours(&hours).leaving(8.0);
        night.cell("head", &temps);
        night.cell("sump", &lagging);
        night.oil(&[&lagging, &temps]);
        night.gas(&[10.0], &[0.0], &[5.0]);
        night.wall("top", "upper", &temps, &[upper_g]);
        night.plugged("fan", 500.0, 1.0, 10.0);
        night
    }
    fn criteria(threshold_c: f64) -> Criteria {
        Criteria {
            min_temperature: Temperature::degC(threshold_c),
            ..Criteria::default()
        }
    }

    #[test]
    fn a_night_is_ready_by_the_margin_and_the_hours_to_spare() {
        let found = answered(&warming(0.99).trace(), &criteria(4.0));
        // The sump is at 5 °C at 8 h, and came to 4 °C at 7.5 h, which is 6.5 h after the heater.
        assert_eq!((found.departure_h, found.first_on_h), (8.0, 1.0));
        let coldest = found.coldest.expect("there is an engine");
        assert_eq!((coldest.part.as_str(), coldest.temp_c), ("sump", 5.0));
        assert_eq!(found.threshold.all_parts.hold.hours(), Some(6.5));
        assert_eq!(found.ready.margin_k, Some(1.0));
        assert_eq!(found.ready.slack_h, Some(0.5));
        assert!(found.ready.ready_at_departure && found.reached && found.ready.unmet.is_empty());
    }

    /// The left cylinder is 30 K hotter when the engine comes to 4 °C, at 7.5 h, and as cold as the right one when it leaves.
    #[test]
    fn cylinders_apart_when_the_engine_became_warm_are_told() {
        let mut night = warming(0.0);
        let left: Vec<f64> = (0..=10).map(|h| if h == 7 { 60.0 } else { 0.0 }).collect();
        night.cylinder("left", &left);
        night.cylinder("right", &[0.0]);
        let found = answered(&night.trace(), &criteria(4.0));
        let (spread_k, time_h) = (30.0, 7.5);
        let apart = Warning::Uneven { spread_k, time_h };
        assert!(found.warnings.contains(&apart), "{:?}", found.warnings);
    }

    #[test]
    fn exactly_at_the_threshold_is_ready_and_exactly_at_the_water_limit_is_not() {
        let found = answered(&warming(0.0).trace(), &criteria(5.0));
        assert!(found.ready.ready_at_departure);
        let found = answered(&warming(1.0).trace(), &criteria(5.0));
        let (upper_g, limit_g) = (1.0, 1.0);
        assert_eq!(found.ready.unmet, [Unmet::Wet { upper_g, limit_g }]);
    }

    #[test]
    fn warm_after_the_departure_is_reached_but_not_ready() {
        let found = answered(&warming(0.0).trace(), &criteria(8.0));
        assert!(found.reached && !found.ready.ready_at_departure);
        assert_eq!(
            (found.ready.margin_k, found.ready.slack_h),
            (Some(-3.0), Some(-1.5))
        );
        assert!(matches!(
            found.ready.unmet[..],
            [Unmet::Cold { temp_c: 5.0, .. }]
        ));
    }

    #[test]
    fn the_oil_counts_only_if_it_was_asked_for() {
        let with_oil = |threshold_c| Criteria {
            min_oil_temperature: Some(Temperature::degC(threshold_c)),
            ..criteria(4.0)
        };
        // Half of the oil is at 5 °C, half at 6 °C.
        assert!(
            answered(&warming(0.0).trace(), &with_oil(5.5))
                .ready
                .ready_at_departure
        );
        let (temp_c, threshold_c) = (5.5, 5.6);
        let found = answered(&warming(0.0).trace(), &with_oil(5.6));
        assert_eq!(
            found.ready.unmet,
            [Unmet::ColdOil {
                temp_c,
                threshold_c
            }]
        );
        let mut dry = warming(0.0).trace();
        dry.legend.oil = None;
        assert_eq!(answered(&dry, &with_oil(5.5)).ready.unmet, [Unmet::NoOil]);
    }

    #[test]
    fn a_record_without_samples_answers_never_and_null() {
        let mut empty = warming(0.0).trace();
        empty.times_s.clear();
        empty.values.clear();
        let found = answered(&empty, &criteria(4.0));
        assert!(!found.reached && !found.ready.ready_at_departure);
        let json = serde_json::to_value(&found).expect("findings are plain data");
        assert!(json["coldest"]["temp_c"].is_null());
        let nothing = answered(&Trace::default(), &criteria(4.0));
        assert_eq!(nothing.ready.unmet, [Unmet::NoEngine]);
    }

    #[test]
    fn books_that_do_not_close_are_told() {
        let mut ledger = Conservation::default();
        let trace = warming(0.0).trace();
        let closes = |ledger: &Conservation| {
            answer(
                &trace,
                ledger,
                &criteria(4.0),
                &oil(),
                &Circuit::default(),
                None,
            )
            .ledger
            .closes
        };
        assert!(closes(&ledger));
        ledger.water_lost_g = 1.0;
        assert!(!closes(&ledger));
    }
}
