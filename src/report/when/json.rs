//! The answer for programs; its schema is `schema/when.schema.json`.

use super::words::Words;
use crate::findings::Unmet;
use crate::quantity::Units;
use crate::report::change;
use crate::report::model::Fact;
use crate::study::change::Change;
use crate::study::when::{Never, Planned, Probe, REMEDY_RANKING, Verdict};
use serde_json::{Value, json};

/// Every key but the warnings.
pub fn facts(words: &Words) -> Vec<Fact> {
    let when = words.when;
    let night = when.night();
    let (planned, never) = match &when.verdict {
        Verdict::Planned(planned) => (Some(&**planned), None),
        Verdict::Never(never) => (None, Some(&**never)),
    };
    let verdict = match planned {
        None => "never",
        Some(planned) if planned.needs_no_heat() => "no_heat_needed",
        Some(_) => "planned",
    };
    let most = when.switches.most;
    let all_night = when.switches.together(most);
    let alone = when.alone.iter();
    let alone: Value = alone
        .map(|a| start(words, a.heater, a.search.found))
        .collect();
    let unsolved = when.unsolved.iter();
    let unsolved: Value = unsolved
        .map(|u| json!({"change": words_of(words, &u.change), "why": u.why.to_string()}))
        .collect();
    let mut facts = vec![
        Fact::json("verdict", verdict),
        Fact::json("departure_clock", time(words, 0)),
        // With verdict `never`, heating all night.
        Fact::json(
            "starts",
            starts(words, planned.map_or(&all_night, |p| &p.starts)),
        ),
        Fact::json("outcome", outcome(&Probe::of(night))),
        Fact::json("cost", night.findings.energy.cost),
        Fact::json(
            "all_night",
            json!({
                "from_clock": time(words, most),
                "outcome": outcome(&Probe::of(&when.whole_time)),
                "cost": when.whole_time.findings.energy.cost,
            }),
        ),
        Fact::json("latest_alone", alone),
        Fact::json("not_computed", unsolved),
        Fact::json("circuit", json!(night.findings.circuit)),
    ];
    facts.extend(of_plan(words, planned));
    facts.extend(of_never(words, never));
    facts
}

fn of_plan(words: &Words, planned: Option<&Planned>) -> [Fact; 5] {
    let earlier = planned.map_or(&[][..], |p| &p.worse_earlier).iter();
    let earlier: Value = earlier.map(|m| time(words, *m)).collect();
    let check = planned.and_then(|p| p.checkpoint.as_ref()).map(|c| {
        json!({
            "clock": words.clock.told(c.time_s),
            "spot": c.spot,
            "label": c.label,
            "temp_c": c.temp_c,
            "rate_k_per_h": c.rate_k_h,
        })
    });
    let reserve = planned.and_then(|p| p.reserve.as_ref()).map(|r| {
        json!({
            "starts": starts(words, &r.starts),
            "as_it_is": outcome(&r.as_it_is),
            "ready_in_changed": r.ready_in.0,
            "changed": r.ready_in.1,
        })
    });
    let what_if = planned.map_or(&[][..], |p| &p.what_if).iter();
    let what_if: Value = what_if
        .map(|w| {
            json!({
                "change": words_of(words, &w.change),
                "outcome": outcome(&w.probe),
                "required_starts": w.needed.as_ref().map(|s| starts(words, s)),
            })
        })
        .collect();
    [
        Fact::json("limiting", planned.map_or(json!([]), |p| unmet(&p.binding))),
        Fact::json("not_ready_earlier", earlier),
        Fact::json("checkpoint", check),
        Fact::json("earlier_start", reserve),
        Fact::json("what_if", what_if),
    ]
}

fn of_never(words: &Words, never: Option<&Never>) -> [Fact; 4] {
    let best = never
        .map(|n| json!({"starts": starts(words, &n.nearest.0), "outcome": outcome(&n.nearest.1)}));
    let sufficient = never.map_or(&[][..], |n| &n.remedies).iter();
    let sufficient: Value = sufficient
        .map(|r| {
            json!({
                "change": words_of(words, &r.change),
                "outcome": outcome(&r.probe),
                "range_share": r.range_share,
                "overloads_circuit": r.overloads,
            })
        })
        .collect();
    let insufficient = never.map_or(&[][..], |n| &n.in_vain).iter();
    let insufficient: Value = insufficient
        .map(|t| {
            json!({
                "change": words_of(words, &t.change),
                "outcome": t.probe.as_ref().map(outcome),
            })
        })
        .collect();
    [
        Fact::json("best_not_ready", best),
        Fact::json("sufficient_changes", sufficient),
        Fact::json("sufficient_changes_ranked_by", REMEDY_RANKING),
        Fact::json("insufficient_changes", insufficient),
    ]
}

fn time(words: &Words, minutes: usize) -> String {
    let clock = words.clock;
    clock.told(clock.night_s() - 60.0 * minutes as f64)
}

/// A switch-on time; no minutes and no clock where none is ready, 0 minutes and no clock where none is required.
fn start(words: &Words, heater: usize, minutes: Option<usize>) -> Value {
    json!({
        "heater": words.name(heater),
        "minutes_before_departure": minutes,
        "clock": minutes.filter(|m| *m > 0).map(|m| time(words, m)),
    })
}

fn starts(words: &Words, starts: &[usize]) -> Value {
    let pairs = words.when.switches.heaters.iter().zip(starts);
    pairs.map(|(&h, &m)| start(words, h, Some(m))).collect()
}

/// In kelvin, whatever the reader's units.
fn words_of(words: &Words, what: &Change) -> String {
    change::words(what, words.scenario, words.clock, Units::Celsius)
}

fn outcome(probe: &Probe) -> Value {
    json!({
        "ready_at_departure": probe.ready.ready_at_departure,
        "margin_k": probe.ready.margin_k,
        "coldest": probe.coldest,
        "unmet": unmet(&probe.ready.unmet),
        "energy_kwh": probe.kwh,
    })
}

fn unmet(list: &[Unmet]) -> Value {
    let one = |u: &Unmet| {
        let (what, label) = match u {
            Unmet::Cold { label, .. } => ("cold", Some(label)),
            Unmet::Wet { .. } => ("wet", None),
            Unmet::ColdOil { .. } => ("cold_oil", None),
            Unmet::NoOil => ("no_oil", None),
            Unmet::NoEngine => ("no_engine", None),
        };
        json!({"what": what, "label": label})
    };
    list.iter().map(one).collect()
}
