//! `--verbose`: what was assumed, told on standard error before the result.

use crate::files::night::Loaded;
use crate::files::stated::stated;
use crate::scenario::document::Scenario;
use crate::scenario::heater::Place;
use crate::scenario::start::Warmth;
use crate::scenario::weather::Weather;

/// Tells it.
pub fn tell(loaded: &Loaded) {
    for line in lines(loaded) {
        anstream::eprintln!("{line}");
    }
    anstream::eprintln!();
}

fn lines(loaded: &Loaded) -> Vec<String> {
    let s = &loaded.scenario;
    let mut lines = vec![format!("What was assumed for \"{}\"", s.title)];
    lines.push("  files, with the first digits of their SHA-256:".to_owned());
    for input in &loaded.inputs {
        lines.push(format!("    {} {}", input.name, &input.sha256[..12]));
    }
    let mut keys = std::collections::BTreeSet::new();
    for (_, text) in loaded.sources.texts() {
        let here = stated(text);
        // Nights and comparisons only: an engine's `oil` is something else.
        if here.contains("clock.departure") || here.contains("choices") {
            keys.extend(here);
        }
    }
    lines.push("  left to defaults:".to_owned());
    let mut any = false;
    for (key, told) in defaults(s) {
        if !keys.contains(key) {
            lines.push(format!("    {key}: {told}"));
            any = true;
        }
    }
    if !any {
        lines.push("    nothing".to_owned());
    }
    lines.push(format!("  start: {}", start(s)));
    for heater in &s.heaters {
        let place = match &heater.place {
            Place::at(place) => format!("at {place}"),
            Place::aimed(_) => "aimed by hand".to_owned(),
        };
        lines.push(format!(
            "  heater: {}, {:.0} W, {place}",
            heater.name,
            heater.power.si()
        ));
    }
    lines.push(format!(
        "  clock: zone {}; accuracy: resolution {}, tolerance {} of the default, a sample every {} s at most",
        s.clock.zone.as_deref().unwrap_or("UTC"),
        s.accuracy.resolution,
        s.accuracy.tolerance,
        s.accuracy.sample_s
    ));
    lines
}

/// Every key of a night that has a default, with the value that holds; but `start.warmth`, `hangar_start`, `accuracy` and
/// the keys of heaters are told in lines of their own, given or not, and `circuit.currency` says nothing by itself.
fn defaults(s: &Scenario) -> Vec<(&'static str, String)> {
    let (c, q, circuit) = (&s.covers, &s.question, &s.circuit);
    let mut all = vec![
        (
            "clock.zone",
            "UTC (steady weather needs no other)".to_owned(),
        ),
        ("oil", s.oil.grade.clone()),
        (
            "covers.inlet_plug",
            format!("{} of the inlets closed, parked but leaky", c.inlet_plug),
        ),
        (
            "covers.outlet_plug",
            format!("{} of the outlet closed", c.outlet_plug),
        ),
        ("covers.blankets", "none".to_owned()),
        ("covers.propeller", "no cover".to_owned()),
        ("covers.open_side", "none, the cowl is shut".to_owned()),
        ("covers.filler_open", "no, the cap is on".to_owned()),
        ("heaters", "those of each choice, or none".to_owned()),
        (
            "start.water_in_oil",
            format!("{:.0} g", 1e3 * s.start.water_in_oil.si()),
        ),
        ("circuit.volts", format!("{} V", circuit.volts.si())),
        ("circuit.breaker", format!("{} A", circuit.breaker.si())),
        (
            "circuit.other_load",
            format!("{} W", circuit.other_load.si()),
        ),
        ("circuit.cord", "none, nothing is lost in a cord".to_owned()),
        ("circuit.tariff_per_kwh", "no cost is told".to_owned()),
        (
            "question.threshold",
            format!("{} for every engine part", q.threshold.told(s.units)),
        ),
        ("question.oil_threshold", "none is asked".to_owned()),
        (
            "question.water_limit",
            format!("{:.1} g on the upper inner walls", 1e3 * q.water_limit.si()),
        ),
        (
            "question.horizon",
            "followed until the departure".to_owned(),
        ),
        ("units", s.units.symbol().to_owned()),
    ];
    if let Weather::steady { humidity, wind, .. } = &s.weather {
        all.push(("weather.humidity", format!("{humidity}")));
        if wind.is_none() {
            let draught = s.hangar.draught.si();
            all.push((
                "weather.wind",
                format!("the hangar's own draught, {draught} m/s"),
            ));
        }
    }
    all
}

fn start(s: &Scenario) -> String {
    let hangar = match (&s.hangar.start, &s.weather) {
        (Some(start), _) => format!("hangar air {}", start.told(s.units)),
        (None, Weather::steady { outdoors, .. }) => {
            format!("hangar air as outdoors, {}", outdoors.told(s.units))
        }
        (None, Weather::recorded(_)) => "hangar air as the record's at that hour".to_owned(),
    };
    let warmth = match &s.start.warmth {
        Warmth::cold_soaked => "engine as cold as that".to_owned(),
        Warmth::after_flight { delay } => {
            format!(
                "engine just shut down, heaters from {:.2} h on",
                delay.si() / 3600.0
            )
        }
        Warmth::given { all, parts } => {
            format!(
                "engine at {}, {} parts given by themselves",
                all.told(s.units),
                parts.len()
            )
        }
    };
    format!("{hangar}; {warmth}")
}
