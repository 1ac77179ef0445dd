//! Nights for other programs: fixed units, named in the keys, whatever the reader's degrees are.
//! The schemas are in `schema/`.

use super::bands_json::PairedJson;
use crate::findings::{
    CrossingTime, Event, EventKind, Findings, Onset, PartFinding, RANKING_KEY, dangers,
};
use crate::night::Night;
use crate::quantity::Units;
use crate::study::compare::Comparison;
use crate::trace::{LossPath, SwitchCause};
use serde::Serialize;
use std::collections::BTreeMap;

use super::provenance::Head;
pub use super::provenance::{InputJson, Provenance};

/// A comparison.
#[derive(Debug, Clone, Serialize)]
struct ComparisonJson<'a> {
    #[serde(flatten)]
    head: Head<'a>,
    ranking_key: &'a str,
    choices: Vec<ChoiceJson>,
    recommendation: String,
    plausible: Option<PairedJson>,
}

/// One night.
#[derive(Debug, Clone, Serialize)]
struct NightJson<'a> {
    #[serde(flatten)]
    head: Head<'a>,
    #[serde(flatten)]
    choice: ChoiceJson,
    parts: Vec<PartJson>,
    events: Vec<EventJson>,
}

#[derive(Debug, Clone, Serialize)]
struct ChoiceJson {
    name: String,
    reached: bool,
    time_to_threshold_h: Option<f64>,
    first_reach_h: Option<f64>,
    never_because: Option<String>,
    ready_at_departure: bool,
    margin_k: Option<f64>,
    coldest: Option<ColdestJson>,
    condensation: Option<CondensationJson>,
    oil: Option<OilJson>,
    energy_kwh: f64,
    cost: Option<f64>,
    peak_current_a: f64,
    losses_w: BTreeMap<String, f64>,
    groups_c: BTreeMap<String, f64>,
    ledger: LedgerJson,
    /// The harm among the warnings, each in a few words.
    dangers: Vec<&'static str>,
    warnings: Vec<String>,
}

#[derive(Debug, Clone, Serialize)]
struct ColdestJson {
    part: String,
    temp_c: f64,
}

#[derive(Debug, Clone, Serialize)]
struct CondensationJson {
    hours: f64,
    upper_g: f64,
    turnover_g: f64,
    onset_h: Option<f64>,
    walls: Vec<WallJson>,
}

#[derive(Debug, Clone, Serialize)]
struct WallJson {
    wall: String,
    hours: f64,
    grams: f64,
}

#[derive(Debug, Clone, Serialize)]
struct OilJson {
    temp_c: f64,
    pickup_temp_c: f64,
    viscosity_mm2_s: f64,
    flagged: bool,
}

#[derive(Debug, Clone, Serialize)]
struct LedgerJson {
    energy_error: f64,
    water_error: f64,
}

#[derive(Debug, Clone, Serialize)]
struct PartJson {
    part: String,
    label: String,
    engine: bool,
    temp_c: f64,
    margin_k: f64,
    time_to_threshold_h: Option<f64>,
    first_reach_h: Option<f64>,
}

#[derive(Debug, Clone, Serialize)]
struct EventJson {
    time_h: f64,
    clock: String,
    what: &'static str,
    subject: Option<String>,
    cause: Option<&'static str>,
}

/// The JSON of a comparison. Its sentences are in °C and K whatever the reader's degrees.
///
/// *Errors*: none but those of the writer.
pub fn comparison(
    title: &str,
    from: &Provenance,
    comparison: &Comparison,
) -> serde_json::Result<String> {
    let choices = comparison
        .nights
        .iter()
        .map(|(name, night)| choice(name, &night.findings));
    serde_json::to_string_pretty(&ComparisonJson {
        head: from.head(title),
        ranking_key: RANKING_KEY,
        choices: choices.collect(),
        recommendation: comparison.recommendation_in(Units::Celsius),
        plausible: comparison.paired.as_ref().map(PairedJson::from),
    })
}

/// The JSON of one night.
///
/// *Errors*: none but those of the writer.
pub fn night(from: &Provenance, night: &Night) -> serde_json::Result<String> {
    let title = &night.scenario.scenario().title;
    let f = &night.findings;
    serde_json::to_string_pretty(&NightJson {
        head: from.head(title),
        choice: choice(title, f),
        parts: f.parts.iter().map(part).collect(),
        events: f.events.iter().map(|e| event(night, e)).collect(),
    })
}

fn hours(reach: &CrossingTime) -> Option<f64> {
    match reach {
        CrossingTime::After { hours } => Some(*hours),
        CrossingTime::Never { .. } => None,
    }
}

fn choice(name: &str, f: &Findings) -> ChoiceJson {
    let all = &f.threshold.all_parts;
    ChoiceJson {
        name: name.to_owned(),
        reached: f.reached,
        time_to_threshold_h: hours(&all.hold),
        first_reach_h: hours(&all.first),
        never_because: match &all.hold {
            CrossingTime::After { .. } => None,
            CrossingTime::Never { best_c, why, .. } if best_c.is_finite() => {
                Some(format!("{why}; the best was {best_c:.2} °C"))
            }
            CrossingTime::Never { why, .. } => Some(why.clone()),
        },
        ready_at_departure: f.ready.ready_at_departure,
        margin_k: f.ready.margin_k,
        coldest: f.coldest.as_ref().map(|c| ColdestJson {
            part: c.part.clone(),
            temp_c: c.temp_c,
        }),
        condensation: f.condensation.as_ref().map(|c| CondensationJson {
            hours: c.hours,
            upper_g: c.upper_g,
            turnover_g: c.turnover_g,
            onset_h: match c.onset {
                Onset::After { hours } => Some(hours),
                Onset::Never { .. } => None,
            },
            walls: c
                .walls
                .iter()
                .map(|w| WallJson {
                    wall: w.wall.clone(),
                    hours: w.hours,
                    grams: w.grams,
                })
                .collect(),
        }),
        oil: f.oil.as_ref().map(|o| OilJson {
            temp_c: o.temp_c,
            pickup_temp_c: o.pickup_temp_c,
            viscosity_mm2_s: o.viscosity_mm2_s,
            flagged: o.flagged,
        }),
        energy_kwh: f.energy.kwh,
        cost: f.energy.cost,
        peak_current_a: f.circuit.peak_current_a,
        losses_w: f
            .losses_w
            .iter()
            .map(|loss| (loss_key(loss.path).to_owned(), loss.watts))
            .collect(),
        groups_c: f
            .groups_c
            .iter()
            .map(|group| (group.key.clone(), group.temp_c))
            .collect(),
        ledger: LedgerJson {
            energy_error: f.ledger.energy_error,
            water_error: f.ledger.water_error,
        },
        dangers: dangers(&f.warnings),
        warnings: f.warnings.iter().map(ToString::to_string).collect(),
    }
}

/// The key of a way that heat leaves by; these names are part of the contract.
fn loss_key(path: LossPath) -> &'static str {
    match path {
        LossPath::Skins => "skins",
        LossPath::Gaps => "gaps",
        LossPath::Duct => "duct",
        LossPath::Propeller => "propeller",
        LossPath::Firewall => "firewall",
        LossPath::Breather => "breather",
        LossPath::Surroundings => "surroundings",
    }
}

fn part(p: &PartFinding) -> PartJson {
    PartJson {
        part: p.part.clone(),
        label: p.label.clone(),
        engine: p.engine,
        temp_c: p.temp_c,
        margin_k: p.margin_k,
        time_to_threshold_h: hours(&p.reached.hold),
        first_reach_h: hours(&p.reached.first),
    }
}

fn event(night: &Night, e: &Event) -> EventJson {
    let word = |cause: &SwitchCause| match cause {
        SwitchCause::Hours => "hours",
        SwitchCause::Thermostat => "thermostat",
    };
    let (what, subject, cause) = match &e.what {
        EventKind::HeaterOn { heater, cause } => ("heater_on", Some(heater), Some(word(cause))),
        EventKind::HeaterOff { heater, cause } => ("heater_off", Some(heater), Some(word(cause))),
        EventKind::Warm { key, .. } => ("group_warm", Some(key), None),
        EventKind::AllPartsWarm => ("all_parts_warm", None, None),
        EventKind::Lost { key, .. } => ("group_lost", Some(key), None),
        EventKind::AllPartsLost => ("all_parts_lost", None, None),
        EventKind::Departure => ("departure", None, None),
    };
    EventJson {
        time_h: e.time_h,
        clock: night.scenario.clock().told(e.time_h * 3600.0),
        what,
        subject: subject.cloned(),
        cause,
    }
}
