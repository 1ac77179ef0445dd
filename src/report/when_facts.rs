//! The answer of `when` for programs.

use super::inputs::{clock, leave};
use super::limiting::{Limit, limit};
use super::model::Fact;
use super::{chance, change, improvements, verdict};
use crate::quantity::Units;
use crate::scenario::document::Scenario;
use crate::study::quantile::Share;
use crate::study::when::{Rule, Thermometer, When};
use serde_json::{Value, json};

/// All of it for programs; its schema is `schema/when.schema.json`.
pub fn facts(when: &When, scenario: &Scenario) -> Vec<Fact> {
    let f = &when.night.findings;
    let at = |minutes: usize| clock(&when.night, minutes);
    let hours = when.night.scenario.clock();
    let words = |change| change::words(change, scenario, hours, Units::Celsius);
    let chance = |share: &Share| chance::json(Some(share));
    let starts = |starts: &[usize]| -> Value {
        let pairs = when.switches.heaters.iter().zip(starts);
        let one = |(&heater, &minutes): (&usize, &usize)| {
            json!({
                "heater": scenario.heaters[heater].name,
                "minutes_before_departure": minutes,
                "clock": (minutes > 0).then(|| at(minutes)),
            })
        };
        pairs.map(one).collect()
    };
    let curve = when.curve.iter().map(|(minutes, share)| {
        json!({"minutes_before_departure": minutes, "clock": at(*minutes), "ready": chance(share)})
    });
    let later = when.later.iter().map(
        |l| json!({"minutes": l.minutes, "on": chance(&l.on), "unplugged": chance(&l.unplugged)}),
    );
    let weather = when.other_weather.iter();
    let weather =
        weather.map(|(change, share)| json!({"change": words(change), "ready": chance(share)}));
    let limiting = limit(when, scenario).map(|limit| match limit {
        Limit::Part(label) => label,
        Limit::Water => "water".to_owned(),
        Limit::Oil => "oil".to_owned(),
    });
    let improved = when
        .improvements
        .iter()
        .map(|i| improvements::facts(i, &when.night));
    vec![
        Fact::json("departure_clock", leave(&when.night)),
        Fact::json("target", when.options.target),
        Fact::json("nights", when.options.count.nights),
        Fact::json("seed", when.options.count.seed),
        Fact::json("starts", starts(&when.starts)),
        Fact::json("summary", chance::bands(&when.bands)),
        Fact::json("limiting", limiting),
        Fact::json("energy_kwh", f.energy.kwh),
        Fact::json("cost", f.energy.cost),
        Fact::json(
            "nominal_starts",
            when.nominal.starts.as_ref().map(|s| starts(s)),
        ),
        Fact::json("hazards", verdict::harm(f)),
        Fact::json("curve", curve.collect::<Value>()),
        Fact::json("later", later.collect::<Value>()),
        Fact::json("other_weather", weather.collect::<Value>()),
        Fact::json(
            "thermometer",
            when.thermometer
                .as_ref()
                .map(|t| of_thermometer(t, hours.dated(t.time_s))),
        ),
        Fact::json("improvements", improved.collect::<Value>()),
        Fact::json("circuit", json!(f.circuit)),
    ]
}

fn of_thermometer(t: &Thermometer, clock: String) -> Value {
    json!({
        "clock": clock,
        "part": t.part,
        "label": t.label,
        "expected_c": t.temp_c,
        "rate_k_per_h": t.rate_k_h,
        "whole_celsius": of_rule(&t.celsius),
        "whole_fahrenheit": of_rule(&t.fahrenheit),
    })
}

/// The rule "leave if it reads so much or more".
fn of_rule(rule: &Rule) -> Value {
    json!({
        "leave_from_c": rule.limit_c,
        "wrong_leave": chance::json(Some(&rule.wrong_leave)),
        "wrong_stay": chance::json(Some(&rule.wrong_stay)),
    })
}
