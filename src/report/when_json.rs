//! When to switch on, for other programs. The schema is `schema/when.schema.json`.

use super::change_text;
use super::provenance::{Head, Provenance};
use super::warning::sentence;
use crate::findings::{CircuitFinding, Coldest, Unmet};
use crate::quantity::Units;
use crate::scenario::clock::NightClock;
use crate::scenario::document::Scenario;
use crate::study::change::Change;
use crate::study::when::{Planned, Probe, REMEDY_RANKING, Verdict, When};
use serde::Serialize;

#[derive(Serialize)]
struct WhenJson<'a> {
    #[serde(flatten)]
    head: Head<'a>,
    verdict: &'static str,
    departure_clock: String,
    /// The plan; with verdict `never`, heating the whole time.
    starts: Vec<StartJson>,
    outcome: OutcomeJson,
    cost: Option<f64>,
    binding: Vec<UnmetJson>,
    whole_time: WholeTimeJson,
    /// With verdict `never`, what came nearest to ready of all that was tried.
    nearest: Option<NearestJson>,
    latest_alone: Vec<StartJson>,
    not_ready_earlier: Vec<String>,
    checkpoint: Option<CheckpointJson>,
    what_if: Vec<WhatIfJson>,
    reserve: Option<ReserveJson>,
    remedies: Vec<RemedyJson>,
    remedies_ranked_by: &'static str,
    tried_in_vain: Vec<TriedJson>,
    /// Changes of which nothing is known.
    not_computed: Vec<NotComputedJson>,
    circuit: &'a CircuitFinding,
    warnings: Vec<String>,
}

/// A switching-on; no minutes and no clock where none is ready, 0 minutes and no clock where none is needed.
#[derive(Serialize)]
struct StartJson {
    heater: String,
    minutes_before_departure: Option<usize>,
    clock: Option<String>,
}

#[derive(Serialize)]
struct OutcomeJson {
    ready_at_departure: bool,
    margin_k: Option<f64>,
    coldest: Option<Coldest>,
    unmet: Vec<UnmetJson>,
    energy_kwh: f64,
}

#[derive(Serialize)]
struct UnmetJson {
    what: &'static str,
    label: Option<String>,
}

#[derive(Serialize)]
struct WholeTimeJson {
    from_clock: String,
    outcome: OutcomeJson,
    cost: Option<f64>,
}

#[derive(Serialize)]
struct NearestJson {
    starts: Vec<StartJson>,
    outcome: OutcomeJson,
}

#[derive(Serialize)]
struct CheckpointJson {
    clock: String,
    spot: String,
    label: String,
    temp_c: f64,
    rate_k_per_h: f64,
}

#[derive(Serialize)]
struct ReserveJson {
    starts: Vec<StartJson>,
    as_it_is: OutcomeJson,
    ready_in_changed: usize,
    changed: usize,
}

#[derive(Serialize)]
struct WhatIfJson {
    change: String,
    outcome: OutcomeJson,
    needed: Option<Vec<StartJson>>,
}

#[derive(Serialize)]
struct RemedyJson {
    change: String,
    outcome: OutcomeJson,
    range_share: f64,
    overloads_circuit: bool,
}

#[derive(Serialize)]
struct TriedJson {
    change: String,
    outcome: Option<OutcomeJson>,
}

#[derive(Serialize)]
struct NotComputedJson {
    change: String,
    why: String,
}

/// What clocks and names are looked up in.
struct Names<'a> {
    scenario: &'a Scenario,
    clock: &'a NightClock,
}

/// The JSON of an answer for a scenario.
///
/// *Errors*: none but those of the writer.
pub fn told(when: &When, scenario: &Scenario, from: &Provenance) -> serde_json::Result<String> {
    let night = when.night();
    let names = Names {
        scenario,
        clock: night.scenario.clock(),
    };
    let heaters = &when.switches.heaters;
    let whole_time = when.switches.together(when.switches.most);
    let (planned, never) = match &when.verdict {
        Verdict::Planned(planned) => (Some(&**planned), None),
        Verdict::Never(never) => (None, Some(&**never)),
    };
    let starts = planned.map_or(&whole_time, |p| &p.starts);
    let what_if = planned.map_or(&[][..], |p| &p.what_if).iter();
    let remedies = never.map_or(&[][..], |n| &n.remedies).iter();
    let in_vain = never.map_or(&[][..], |n| &n.in_vain).iter();
    serde_json::to_string_pretty(&WhenJson {
        head: from.head(&scenario.title),
        verdict: match planned {
            None => "never",
            Some(planned) if planned.needs_no_heat() => "no_heat_needed",
            Some(_) => "planned",
        },
        departure_clock: names.before(0),
        starts: names.starts(heaters, starts),
        outcome: outcome(&Probe::of(night)),
        cost: night.findings.energy.cost,
        binding: planned.map_or(Vec::new(), |p| unmet(&p.binding)),
        whole_time: WholeTimeJson {
            from_clock: names.before(when.switches.most),
            outcome: outcome(&Probe::of(&when.whole_time)),
            cost: when.whole_time.findings.energy.cost,
        },
        nearest: never.map(|n| NearestJson {
            starts: names.starts(heaters, &n.nearest.0),
            outcome: outcome(&n.nearest.1),
        }),
        latest_alone: when
            .alone
            .iter()
            .map(|a| names.start(a.heater, a.sought.found))
            .collect(),
        not_ready_earlier: planned.map_or(Vec::new(), |p| {
            p.worse_earlier.iter().map(|&m| names.before(m)).collect()
        }),
        checkpoint: planned.and_then(|p| names.checkpoint(p)),
        reserve: planned
            .and_then(|p| p.reserve.as_ref())
            .map(|r| ReserveJson {
                starts: names.starts(heaters, &r.starts),
                as_it_is: outcome(&r.as_it_is),
                ready_in_changed: r.ready_in.0,
                changed: r.ready_in.1,
            }),
        what_if: what_if
            .map(|w| WhatIfJson {
                change: names.change(&w.change),
                outcome: outcome(&w.probe),
                needed: w.needed.as_ref().map(|s| names.starts(heaters, s)),
            })
            .collect(),
        remedies: remedies
            .map(|r| RemedyJson {
                change: names.change(&r.change),
                outcome: outcome(&r.probe),
                range_share: r.range_share,
                overloads_circuit: r.overloads,
            })
            .collect(),
        remedies_ranked_by: REMEDY_RANKING,
        tried_in_vain: in_vain
            .map(|t| TriedJson {
                change: names.change(&t.change),
                outcome: t.probe.as_ref().map(outcome),
            })
            .collect(),
        not_computed: when
            .unsolved
            .iter()
            .map(|u| NotComputedJson {
                change: names.change(&u.change),
                why: u.why.to_string(),
            })
            .collect(),
        circuit: &night.findings.circuit,
        warnings: night
            .findings
            .warnings
            .iter()
            .map(|w| sentence(w, Units::Celsius))
            .collect(),
    })
}

impl Names<'_> {
    fn before(&self, minutes: usize) -> String {
        self.clock
            .told(self.clock.night_s() - 60.0 * minutes as f64)
    }
    fn start(&self, heater: usize, minutes: Option<usize>) -> StartJson {
        StartJson {
            heater: self.scenario.heaters[heater].name.clone(),
            minutes_before_departure: minutes,
            clock: minutes.filter(|&m| m > 0).map(|m| self.before(m)),
        }
    }
    fn starts(&self, heaters: &[usize], starts: &[usize]) -> Vec<StartJson> {
        let pairs = heaters.iter().zip(starts);
        pairs.map(|(&h, &m)| self.start(h, Some(m))).collect()
    }
    /// In kelvin, whatever the reader's degrees.
    fn change(&self, change: &Change) -> String {
        change_text::told(change, self.scenario, self.clock, Units::Celsius)
    }
    fn checkpoint(&self, planned: &Planned) -> Option<CheckpointJson> {
        planned.checkpoint.as_ref().map(|c| CheckpointJson {
            clock: self.clock.told(c.time_s),
            spot: c.spot.clone(),
            label: c.label.clone(),
            temp_c: c.temp_c,
            rate_k_per_h: c.rate_k_h,
        })
    }
}

fn outcome(probe: &Probe) -> OutcomeJson {
    OutcomeJson {
        ready_at_departure: probe.ready.ready_at_departure,
        margin_k: probe.ready.margin_k,
        coldest: probe.coldest.clone(),
        unmet: unmet(&probe.ready.unmet),
        energy_kwh: probe.kwh,
    }
}

fn unmet(list: &[Unmet]) -> Vec<UnmetJson> {
    let one = |u: &Unmet| {
        let (what, label) = match u {
            Unmet::Cold { label, .. } => ("cold", Some(label.clone())),
            Unmet::Wet { .. } => ("wet", None),
            Unmet::ColdOil { .. } => ("cold_oil", None),
            Unmet::NoOil => ("no_oil", None),
            Unmet::NoEngine => ("no_engine", None),
        };
        UnmetJson { what, label }
    };
    list.iter().map(one).collect()
}
