//! What surrounds the engine: heaters, blankets, hangar, hours, money.

use super::super::document::Scenario;
use super::super::heater::HeaterKind;
use super::super::hours::Hours;
use super::super::weather::Weather;
use super::warning::{PlausibilityWarnings, Usual};

const NIGHT_H: Usual = Usual(
    0.5,
    96.0,
    "h",
    "estimate: from a short stop to a long weekend",
);
const FAN_W: Usual = Usual(
    20.0,
    6000.0,
    "W",
    "estimate: what one or two household circuits feed",
);
const BONDED_W: Usual = Usual(10.0, 1500.0, "W", "estimate: pads and rings");
const LAMP_W: Usual = Usual(10.0, 3000.0, "W", "estimate: lamps and panels");
/// Nights whose clock has no dates, so that a departure before the beginning is taken to be of the next day.
const UNDATED_H: Usual = Usual(
    0.5,
    18.0,
    "h",
    "estimate: one evening to the next noon; put dates on a longer night",
);
const HANGAR_OVER_OUTDOORS_K: Usual = Usual(
    -15.0,
    20.0,
    "K",
    "estimate: an unheated building; is the unit right, degC or degF?",
);

pub(super) fn clock(scenario: &Scenario, doubts: &mut PlausibilityWarnings) {
    if let Ok(clock) = scenario.clock.resolve() {
        let hours = clock.night_s() / 3600.0;
        let usual = match scenario.clock.departure.date {
            Some(_) => &NIGHT_H,
            None => &UNDATED_H,
        };
        let called = "the time from beginning to departure";
        doubts.outside("clock.departure", called, hours, usual);
    }
}

pub(super) fn all(scenario: &Scenario, doubts: &mut PlausibilityWarnings) {
    heaters(scenario, doubts);
    if let (Weather::steady { outdoors, .. }, Some(start)) =
        (&scenario.weather, scenario.hangar.start)
    {
        doubts.outside(
            "hangar_start",
            "the hangar at the beginning, less the outdoors,",
            start.celsius() - outdoors.celsius(),
            &HANGAR_OVER_OUTDOORS_K,
        );
    }
    let circuit = &scenario.circuit;
    let watts = scenario.heaters.iter().map(|h| h.power.si());
    let amperes = watts.fold(circuit.other_load.si(), |sum, w| sum + w) / circuit.volts.si();
    let breaker = circuit.breaker.si();
    if amperes > breaker {
        doubts.odd(
            "circuit",
            format!("all heaters and the other load together draw {amperes:.1} A"),
            &format!("less than the {breaker:.0} A breaker, unless they never are on at once"),
        );
    }
}

fn heaters(scenario: &Scenario, doubts: &mut PlausibilityWarnings) {
    let night_s = scenario.clock.resolve().ok().map(|clock| clock.night_s());
    for (i, heater) in scenario.heaters.iter().enumerate() {
        let path = format!("heaters[{i}]");
        let usual = match heater.kind {
            HeaterKind::bay_fan { .. } | HeaterKind::ducted { .. } => &FAN_W,
            HeaterKind::bonded => &BONDED_W,
            HeaterKind::radiant { .. } => &LAMP_W,
        };
        let called = format!("the power of `{}`", heater.name);
        doubts.outside(format!("{path}.power"), &called, heater.power.si(), usual);
        if let (Hours::before_departure(span), Some(night_s)) = (&heater.hours, night_s)
            && span.si() > 0.0
            && span.si() < 120.0
            && night_s > 3600.0
        {
            let what = format!("`{}` is on for {} s only", heater.name, span.si());
            doubts.odd(
                format!("{path}.hours"),
                what,
                "half an hour or more (estimate)",
            );
        }
        if let Some(thermostat) = &heater.thermostat {
            let gap = thermostat.off_at.celsius() - thermostat.on_at.celsius();
            let usual = Usual(0.5, 60.0, "K", "estimate: bimetal to capillary thermostats");
            let called = format!("the span of the thermostat of `{}`", heater.name);
            doubts.outside(format!("{path}.thermostat.on_at"), &called, gap, &usual);
        }
    }
}
