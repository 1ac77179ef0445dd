//! All findings of one night, put together.

use super::circuit::CircuitFinding;
use super::clearance::ClearanceFinding;
use super::coldest::Coldest;
use super::condensation::Condensation;
use super::dew::OutsideDew;
use super::energy::EnergyFinding;
use super::events::Event;
use super::losses::PathLoss;
use super::oil::OilFinding;
use super::parts::PartFinding;
use super::readings::GroupTemperature;
use super::ready::Ready;
use super::steady::Steady;
use super::threshold::ThresholdFinding;
use super::unevenness::Unevenness;
use super::warnings::Warning;
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
