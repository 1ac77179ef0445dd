//! What surrounds the engine: heaters, blankets, hangar, hours, money.

use super::super::document::Scenario;
use super::super::heater::HeaterKind;
use super::super::hours::Hours;
use super::super::start::Warmth;
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
/// Quilted covers are near 0.2 to 0.6; 5 m2K/W is a house roof.
const BLANKET: Usual = Usual(
    0.02,
    3.0,
    "m2K/W",
    "estimate: a cloth to a thick quilt; a house roof has 5",
);
const LAG_H: Usual = Usual(0.1, 24.0, "h", "estimate: open shed to insulated hall");
const DRAUGHT: Usual = Usual(0.02, 3.0, "m/s", "estimate: still air to nearly outdoors");
const SHARE: Usual = Usual(0.0, 0.6, "", "estimate: a hangar slows the wind");
const TARIFF: Usual = Usual(0.0, 5.0, "a kWh", "estimate: in dollars or euros");
const BREAKER: Usual = Usual(5.0, 125.0, "A", "common practice, no source");
const VOLTS: Usual = Usual(
    90.0,
    480.0,
    "V",
    "common practice, no source: 100, 120, 230, 240, 400 V",
);
const START_C: Usual = Usual(
    -60.0,
    100.0,
    "°C",
    "estimate: the coldest nights to an engine just shut down",
);
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
const THRESHOLD_C: Usual = Usual(
    -30.0,
    60.0,
    "°C",
    "estimate: makers ask for a few degrees above freezing",
);
const WATER_G: Usual = Usual(0.0, 200.0, "g", "estimate: 5 to 30 g stay from a flight");
const OUTDOORS_C: Usual = Usual(
    -55.0,
    15.0,
    "°C",
    "estimate: nights in which an engine is heated; is the unit right, degC or degF?",
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
    for (pocket, resistance) in &scenario.covers.blankets {
        let called = format!("the resistance of the blanket on `{pocket}`");
        doubts.outside(
            format!("covers.blankets.{pocket}"),
            &called,
            resistance.si(),
            &BLANKET,
        );
    }
    if let Some(resistance) = scenario.covers.propeller {
        doubts.outside(
            "covers.propeller",
            "the resistance of the propeller cover",
            resistance.si(),
            &BLANKET,
        );
    }
    heaters(scenario, doubts);
    let hangar = &scenario.hangar;
    doubts.outside(
        "hangar.lag",
        "the lag of the hangar",
        hangar.lag.si() / 3600.0,
        &LAG_H,
    );
    doubts.outside(
        "hangar.draught",
        "the draught in the hangar",
        hangar.draught.si(),
        &DRAUGHT,
    );
    doubts.outside(
        "hangar.draught_share",
        "the share of the wind in the hangar",
        hangar.draught_share,
        &SHARE,
    );
    if let Weather::steady { outdoors, .. } = &scenario.weather {
        doubts.outside(
            "weather.outdoors",
            "the temperature outdoors",
            outdoors.celsius(),
            &OUTDOORS_C,
        );
        if let Some(start) = hangar.start {
            doubts.outside(
                "hangar_start",
                "the hangar at the beginning, less the outdoors,",
                start.celsius() - outdoors.celsius(),
                &HANGAR_OVER_OUTDOORS_K,
            );
        }
    }
    let start = &scenario.start;
    doubts.outside(
        "start.water_in_oil",
        "the water in the oil",
        start.water_in_oil.si() * 1e3,
        &WATER_G,
    );
    if let Warmth::given { all, parts } = &start.warmth {
        doubts.outside(
            "start.warmth.all",
            "the temperature at the beginning",
            all.celsius(),
            &START_C,
        );
        for (name, t) in parts {
            let called = format!("the temperature of `{name}` at the beginning");
            doubts.outside(
                format!("start.warmth.parts.{name}"),
                &called,
                t.celsius(),
                &START_C,
            );
        }
    }
    let circuit = &scenario.circuit;
    doubts.outside(
        "circuit.volts",
        "the mains voltage",
        circuit.volts.si(),
        &VOLTS,
    );
    doubts.outside(
        "circuit.breaker",
        "the breaker",
        circuit.breaker.si(),
        &BREAKER,
    );
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
    if let Some(tariff) = circuit.tariff_per_kwh {
        doubts.outside("circuit.tariff_per_kwh", "the price", tariff, &TARIFF);
    }
    let question = &scenario.question;
    doubts.outside(
        "question.threshold",
        "the threshold",
        question.threshold.celsius(),
        &THRESHOLD_C,
    );
    if let Some(t) = question.oil_threshold {
        doubts.outside(
            "question.oil_threshold",
            "the threshold of the oil",
            t.celsius(),
            &THRESHOLD_C,
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
            let gap = thermostat.hi.celsius() - thermostat.lo.celsius();
            let usual = Usual(0.5, 60.0, "K", "estimate: bimetal to capillary thermostats");
            let called = format!("the span of the thermostat of `{}`", heater.name);
            doubts.outside(format!("{path}.thermostat.lo"), &called, gap, &usual);
        }
    }
}
