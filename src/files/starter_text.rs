//! The words of a night to begin with: every line explained, what may be left out behind `//`.

use super::starter_covers::covers;
use std::fmt::Write;

/// What the page says.
#[derive(Debug, Clone)]
pub(super) struct Page {
    pub engine: String,
    pub oil: String,
    pub hangar: String,
    pub weather: Option<String>,
    /// Beginning, departure, zone.
    pub clock: (String, String, Option<String>),
    pub inlet_plug: f64,
    /// Pockets whose skin can be covered, each with what people call it.
    pub skins: Vec<(String, String)>,
    pub propeller: bool,
    /// A part by name, for the example of a given start.
    pub part: Option<String>,
    pub places: Vec<String>,
    pub heaters: Vec<HeaterLine>,
}

/// One heater.
#[derive(Debug, Clone)]
pub(super) struct HeaterLine {
    pub heater: String,
    pub name: Option<String>,
    pub place: String,
    /// The place of its model, where it is put elsewhere.
    pub moved_from: Option<String>,
    pub power_w: f64,
    /// Sensor, on again, off, °C; where the model's own does not fit.
    pub thermostat: Option<(String, f64, f64)>,
}

/// The text of the file.
pub(super) fn written(page: &Page) -> String {
    let mut text = String::new();
    // Writing to a string cannot fail.
    let _ = write(&mut text, page);
    text
}

fn write(text: &mut String, page: &Page) -> std::fmt::Result {
    text.push_str(HEAD);
    let (begin, departure, zone) = &page.clock;
    writeln!(
        text,
        "(\n    // What results are headed with.\n    title: \"My night\",\n"
    )?;
    text.push_str(CLOCK);
    match zone {
        Some(zone) => writeln!(
            text,
            "    clock: (begin: \"{begin}\", departure: \"{departure}\", zone: \"{zone}\"),\n"
        )?,
        None => writeln!(
            text,
            "    clock: (begin: \"{begin}\", departure: \"{departure}\"),\n"
        )?,
    }
    writeln!(
        text,
        "    // The engine with its cowl; `coldsoak catalogue engines` tells what is built in.\n    \
         engine: \"{}\",\n\n    \
         // The oil in the sump, by grade (15w-50 if left out); `coldsoak catalogue oils`.\n    oil: \"{}\",\n\n    \
         // The building: how fast its air follows the outdoors, how draughty it is; `coldsoak catalogue hangars`.\n    \
         hangar: \"{}\",\n    \
         // Its air when the night begins, if you have read it; that of the outdoors if left out.\n    \
         //hangar_start: degC(-9),\n",
        page.engine, page.oil, page.hangar
    )?;
    weather(text, page)?;
    covers(text, page.inlet_plug, &page.skins, page.propeller)?;
    heaters(text, page)?;
    start(text, page)?;
    text.push_str(REST);
    text.push_str(")\n");
    Ok(())
}

const HEAD: &str = "\
// A night to compute. Change what is yours, then run `coldsoak night` on this file.
//
// Whatever stands behind // is not read: words, and keys you may leave out, each with an example.
// Take away the // before a key to use it. Numbers carry their unit: degC(-9) or degF(15), W(350), g(15),
// h(2) or min(30), m_s(3), kt(6) or mph(7), m2(0.05). Names are built in (`coldsoak catalogue` lists them), or,
// with their ending, files beside this one: \"my-engine.ron\", \"my-weather.csv\".
// The engine and airframe makers' manuals, local codes and licensed practice come first.
";

const CLOCK: &str = "    \
    // When the night begins, and when the engine is to be started: the first such time after it.
    // Recorded weather needs dates and a zone: (begin: \"1996-02-04 19:00\", departure: \"1996-02-05 07:30\",
    // zone: \"America/New_York\").
";

fn weather(text: &mut String, page: &Page) -> std::fmt::Result {
    writeln!(
        text,
        "    // The air outdoors. Steady: its temperature, its relative humidity (0 to 1, over ice below freezing;\n    \
         // 0.8 is usual, an estimate), and its wind if there is any (past the cowl the hangar lets through a share of it).\n    \
         // Recorded: recorded(\"greensboro_nc_1996-02-04\"), or a table of your own: recorded(\"mine.csv\").\n    \
         // Aviation reports (METAR): reports(file: \"ksea.txt\", station: \"KSEA\", month: \"2018-01\"). Both need dates\n    \
         // and a zone in the clock. `coldsoak catalogue weather` tells what is built in, `coldsoak weather FILE` what\n    \
         // a file of yours holds."
    )?;
    match &page.weather {
        Some(name) => writeln!(text, "    weather: recorded(\"{name}\"),\n"),
        None => writeln!(
            text,
            "    weather: steady(\n        outdoors: degC(-12),\n        humidity: 0.8,\n        \
             //wind: m_s(3),\n    ),\n"
        ),
    }
}

fn heaters(text: &mut String, page: &Page) -> std::fmt::Result {
    writeln!(
        text,
        "    // The heaters, one entry each; none is [] (`coldsoak catalogue heaters`). Places on this engine:"
    )?;
    let places = format!("{}.", page.places.join(", "));
    for line in textwrap::wrap(&places, 100) {
        writeln!(text, "    // {line}")?;
    }
    text.push_str(
        "    // Hours: always, from(\"02:00\"), between([(\"22:00\", \"01:00\"), (\"04:00\", \"07:00\")]),\n    \
         // before_departure(h(3)), never. An unattended heater is a fire risk: see the manuals.\n    heaters: [\n",
    );
    for heater in &page.heaters {
        writeln!(
            text,
            "        (\n            heater: \"{}\",",
            heater.heater
        )?;
        match &heater.name {
            Some(name) => writeln!(
                text,
                "            // Another name than the same heater before it: results tell them apart by it.\n            name: \"{name}\","
            )?,
            None => writeln!(
                text,
                "            // What it is called in the results.\n            //name: \"the old fan\","
            )?,
        }
        if let Some(own) = &heater.moved_from {
            writeln!(
                text,
                "            // Its model goes {own}, which this engine has no room for: the first place that takes it\n            \
                 // was chosen. See that it is where you can put yours."
            )?;
        }
        writeln!(
            text,
            "            place: at(\"{}\"),\n            hours: always,\n            \
             // Electric power, if not that of its plate.\n            //power: W({:?}),",
            heater.place, heater.power_w
        )?;
        match &heater.thermostat {
            Some((sensor, lo, hi)) => writeln!(
                text,
                "            // The thermostat of its model feels a part that this engine does not have.\n            \
                 thermostat: (sensor: \"{sensor}\", lo: degC({lo:?}), hi: degC({hi:?})),"
            )?,
            None => {
                if let Some(part) = &page.part {
                    writeln!(
                        text,
                        "            // A thermostat, if not that of its model: what it feels, on again at lo, off at hi.\n            \
                         //thermostat: (sensor: \"{part}\", lo: degC(20), hi: degC(30)),"
                    )?;
                }
            }
        }
        writeln!(
            text,
            "            // An element whose own warmth takes its power away, from full to none.\n            \
             //self_limiting: (full_below: degC(60), none_above: degC(110)),\n        ),"
        )?;
    }
    writeln!(text, "    ],\n")
}

fn start(text: &mut String, page: &Page) -> std::fmt::Result {
    writeln!(
        text,
        "    // The engine when the night begins. Warmth: cold_soaked (as cold as the hangar), after_flight(delay: h(1))\n    \
         // (just shut down, heaters plugged in an hour later), or given, as in the line below."
    )?;
    if let Some(part) = &page.part {
        writeln!(
            text,
            "    // warmth: given(all: degC(-5), parts: {{ \"{part}\": degC(20) }})"
        )?;
    }
    writeln!(
        text,
        "    // Water left in the oil from the last flight: 5 to 30 g, 15 g usual (estimate).\n    \
         start: (warmth: cold_soaked, water_in_oil: g(15)),\n"
    )
}

const REST: &str = "    \
    // The circuit: mains voltage, the breaker's rating, what else draws on it, and the price of a kWh (no cost is
    // told without one). These are the defaults (common practice, no source), and an invented price.
    circuit: (
        volts: V(120),
        breaker: A(15),
        other_load: W(0),
        // The extension cord, if there is one: its length, and the gauge of its wires.
        //cord: (length: ft(50), gauge_awg: 14),
        //tariff_per_kwh: 0.15,
        //currency: \"USD\",
    ),

    // What is asked: how warm every engine part must be, and how little water may stand on the upper inner walls.
    question: (
        threshold: degF(40),
        water_limit: g(1),
        // How warm the mean oil must be, if that is asked.
        //oil_threshold: degC(0),
        // How long the night is followed; until the departure if left out.
        //horizon: h(14),
    ),

    // Degrees to tell results in: degC or degF.
    units: degC,

    // How finely it is computed: cells along each axis of a part (1 to 4), the error allowed in a step as a
    // multiple of the default, and seconds between two samples (60 at most).
    //accuracy: (resolution: 1, tolerance: 1.0, sample_s: 60.0),

    // Which of these numbers are uncertain, for studies: bounds in the unit given above, how they are spread
    // (uniform, log_uniform, triangular), and what that rests on.
    //unknowns: { \"start.water_in_oil\": (low: 5, high: 30, distribution: log_uniform, basis: estimated, source: \"what is left after a flight\") },
";
