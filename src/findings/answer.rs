//! All findings of one night, put together.

use super::circuit::CircuitFinding;
use super::clearance::{ClearanceFinding, clearances};
use super::coldest::Coldest;
use super::condensation::Condensation;
use super::dew::OutsideDew;
use super::energy::EnergyFinding;
use super::events::{Event, events};
use super::losses::{PathLoss, losses};
use super::oil::OilFinding;
use super::parts::{PartFinding, parts};
use super::readings::{GroupTemperature, groups, row_at};
use super::ready::Ready;
use super::steady::Steady;
use super::threshold::{ThresholdFinding, first_on_s};
use super::unevenness::Unevenness;
use super::warnings::{Grounds, Warning};
use crate::scenario::circuit::Circuit;
use crate::scenario::oil::Oil;
use crate::scenario::question::Question;
use crate::trace::{Ledger, Trace};
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
    pub outside_dew: Option<OutsideDew>,
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
    /// Where the night would have settled, if that was asked and found.
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
    ledger: &Ledger,
    question: &Question,
    oil: &Oil,
    circuit: &Circuit,
    steady: Option<Steady>,
) -> Findings {
    let (legend, row) = (&trace.legend, row_at(trace, trace.departure_s));
    let (departure_h, first_on_h) = (trace.departure_s / 3600.0, first_on_s(trace) / 3600.0);
    let threshold = ThresholdFinding::of(trace, question);
    let coldest = Coldest::of(legend, &row);
    let condensation = Condensation::of(trace, &row);
    let oil = OilFinding::of(legend, &row, oil);
    let circuit_finding = CircuitFinding::of(trace, circuit);
    let ready = Ready::of(
        question,
        &threshold,
        coldest.as_ref(),
        condensation.as_ref(),
        oil.as_ref(),
        departure_h - first_on_h,
    );
    let warm_h = threshold.all_parts.hold.hours();
    let warnings = Grounds {
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
        outside_dew: OutsideDew::of(trace),
        energy: EnergyFinding::of(trace, &row, circuit),
        clearances: clearances(legend, &row),
        losses_w: losses(trace, &row),
        groups_c: groups(legend, &row),
        ledger: LedgerFinding {
            energy_error: ledger.energy_error(),
            water_error: ledger.water_error(),
            closes: ledger.audit().is_ok(),
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
