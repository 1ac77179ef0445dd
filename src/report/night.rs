//! One night: ready or not and why, what was computed, what became of it.

use super::columns::{Cell, Show, Table};
use super::format::{crossing, difference, in_full, not_reached, size, temperature};
use super::model::{Block, Fact, Report, Section};
use super::provenance::Provenance;
use super::{cautions, circuit, events, heat, inputs, verdict, warning};
use crate::findings::{
    CrossingTime, CrossingTimes, Findings, NoCondensation, OilRange, Onset, PartFinding,
    REFERENCE_C,
};
use crate::night::Night;
use crate::quantity::Units;
use serde_json::{Map, Value, json};

/// A balance that is off by less than this is closed: what the rounding of numbers leaves is far smaller.
const CLOSED: f64 = 1e-9;
/// Water under this is not worth a word, g.
const LEAST_G: f64 = 0.005;

impl Night {
    /// Its report, for a night made by code.
    pub fn report(&self) -> Report {
        report(self, "", &Provenance::new(Vec::new(), Vec::new()))
    }
}

/// The report of a night; `engine` is what its file is called, if it has one.
pub fn report(night: &Night, engine: &str, from: &Provenance) -> Report {
    let scenario = night.scenario.scenario();
    let (f, units) = (&night.findings, scenario.units);
    Report::of_scenario("night", &scenario.title, from)
        .with(answer(night))
        .with(Section::new("").facts(inputs::facts(night, engine)))
        .with(Section::new("").block(groups(night)))
        .with(Section::new("").facts(findings(&scenario.title, f, units)))
        .with(Section::new("Warnings").list("warnings", warning::cells(f, units)))
        .with(Section::new("Events").facts(events::facts(&f.events, night.scenario.clock())))
        .with(Section::json([Fact::json(
            "events",
            events::json(&f.events, night.scenario.clock()),
        )]))
        .with(details(night).shown(Show::Wide))
        .with(
            Section::new("Parts at departure")
                .shown(Show::Wide)
                .block(parts(f, units)),
        )
        .with(cautions::section())
}

/// Ready or not, how far to trust it, and what must not be done.
fn answer(night: &Night) -> Section {
    let (f, units) = (&night.findings, night.scenario.scenario().units);
    Section::new("")
        .block(Block::Say(verdict::fact(night)))
        .say(verdict::do_not(f))
        .say(verdict::small_margin(f, units))
}

/// What a program reads of one night, alone or as a choice of a comparison: all but its warnings and whether it is ready.
fn findings(name: &str, f: &Findings, units: Units) -> Vec<Fact> {
    let mut facts = vec![
        Fact::json("name", name),
        Fact::json("reached", f.reached),
        Fact::json("margin_k", f.ready.margin_k),
        Fact::json("hazards", verdict::harm(f)),
    ];
    facts.extend(warmth(f, units));
    facts.extend(water(f));
    facts.push(oil(f, units));
    facts.push(energy(f));
    facts.push(Fact::json("cost", f.energy.cost));
    facts.extend(circuit::facts(&f.circuit));
    facts.push(heat::fact(f));
    let groups = f.groups_c.iter().map(|g| (g.key.clone(), g.temp_c.into()));
    facts.push(Fact::json("groups_c", Value::Object(groups.collect())));
    facts.push(Fact::json(
        "conservation",
        json!({"energy_error": f.ledger.energy_error, "water_error": f.ledger.water_error}),
    ));
    facts
}

/// One choice of a comparison for programs.
pub fn choice(name: &str, f: &Findings) -> Value {
    let mut facts = findings(name, f, Units::Celsius);
    facts.push(Fact::json("ready_at_departure", f.ready.ready_at_departure));
    let warnings = warning::cells(f, Units::Celsius).into_iter();
    let warnings: Vec<Value> = warnings.map(|cell| cell.value).collect();
    facts.push(Fact::json("warnings", warnings));
    let keyed = facts.into_iter().filter(|fact| !fact.key.is_empty());
    let members: Map<String, Value> = keyed
        .map(|fact| (fact.key.to_owned(), fact.cell.value))
        .collect();
    Value::Object(members)
}

fn warmth(f: &Findings, units: Units) -> Vec<Fact> {
    let minimum = temperature(f.threshold.threshold_c, units);
    let all = &f.threshold.all_parts;
    let mut facts = vec![
        Fact::new(
            "time_to_threshold_h",
            format!("To {minimum}"),
            all.hold.hours(),
            in_full(&all.hold, units),
        ),
        Fact::new(
            "first_crossing_h",
            "For the first time",
            all.first.hours(),
            match all.lost() {
                true => in_full(&all.first, units),
                false => String::new(),
            },
        ),
        Fact::json("not_reached_reason", reason(&all.hold)),
        Fact::json(
            "coldest",
            f.coldest
                .as_ref()
                .map_or(Value::Null, |c| json!({"part": c.part, "temp_c": c.temp_c})),
        ),
    ];
    if let (Some(oil_c), Some(oil)) = (f.threshold.oil_threshold_c, &f.threshold.oil) {
        let label = format!("Oil to {}", temperature(oil_c, units));
        facts.push(Fact::text(label, in_full(&oil.hold, units)));
    }
    facts
}

fn water(f: &Findings) -> Vec<Fact> {
    let Some(c) = &f.condensation else {
        return vec![Fact::json("condensation", Value::Null)];
    };
    let walls = c.walls.iter();
    let walls: Value = walls
        .map(|w| json!({"wall": w.wall, "hours": w.hours, "water_g": w.grams}))
        .collect();
    let value = json!({
        "hours": c.hours,
        "upper_g": c.upper_g,
        "condensed_total_g": c.turnover_g,
        "onset_h": c.onset.hours(),
        "walls": walls,
    });
    let groups = c.groups.iter().filter(|g| g.grams >= LEAST_G);
    let groups: Vec<String> = groups
        .map(|g| format!("{} {:.2} g", g.group, g.grams))
        .collect();
    let walls = match groups.is_empty() {
        true => "none on the inner walls".to_owned(),
        false => format!("on the inner walls: {}", groups.join(", ")),
    };
    let oil = c
        .oil_water_g
        .map_or(String::new(), |g| format!("; in the oil {g:.2} g"));
    let begun = match &c.onset {
        Onset::After { hours } => format!(
            "from {hours:.2} h on; some wall {:.2} h, an upper wall {:.2} h, over 1 g/m² {:.2} h; {:.2} g in all",
            c.hours, c.upper_hours, c.wet_hours, c.turnover_g
        ),
        Onset::Never { why, .. } => format!("never: {}", dry(*why)),
    };
    let mut facts = vec![
        Fact::new("condensation", "Water", value, format!("{walls}{oil}")),
        Fact::text("Condensing", begun),
    ];
    facts.extend(f.outside_dew.iter().map(|dew| {
        Fact::text(
            "Outside",
            format!(
                "{} below the dew point of its air for {:.2} h",
                dew.label, dew.hours
            ),
        )
    }));
    facts
}

fn oil(f: &Findings, units: Units) -> Fact {
    let Some(oil) = &f.oil else {
        return Fact::json("oil", Value::Null);
    };
    let value = json!({
        "temp_c": oil.temp_c,
        "pickup_temp_c": oil.pickup_temp_c,
        "viscosity_mm2_s": oil.viscosity_mm2_s,
        "flagged": oil.flagged,
    });
    let range = |range: &OilRange| match range {
        OilRange::Sound => "",
        OilRange::Extrapolated => " (near the pour point: extrapolated)",
        OilRange::BelowPourPoint => " (below the pour point: it does not flow as a liquid)",
    };
    let text = format!(
        "{}, {:.0} mm²/s{}; at the pick-up {}, {:.0} mm²/s{}",
        temperature(oil.temp_c, units),
        oil.viscosity_mm2_s,
        range(&oil.range),
        temperature(oil.pickup_temp_c, units),
        oil.pickup_viscosity_mm2_s,
        range(&oil.pickup_range),
    );
    Fact::new("oil", "Oil", value, text)
}

fn energy(f: &Findings) -> Fact {
    let e = &f.energy;
    let mut text = format!("{:.2} kWh", e.kwh);
    if let Some(cost) = e.cost {
        text += &format!(", {cost:.2} {}", e.currency);
    }
    if let Some(share) = e.useful_share {
        text += &format!(", {:.0} % of it kept by the engine", 100.0 * share);
    }
    if e.heaters.len() > 1 {
        let each = e
            .heaters
            .iter()
            .map(|h| format!("{} {:.2} kWh", h.name, h.kwh));
        text += &format!(" ({})", each.collect::<Vec<_>>().join(", "));
    }
    Fact::new("energy_kwh", "Energy", e.kwh, text)
}

/// Groups of parts, the coldest part first: how warm at the departure, and by when at the minimum.
fn groups(night: &Night) -> Table {
    let (f, units) = (&night.findings, night.scenario.scenario().units);
    let clock = night.scenario.clock();
    let at =
        |pair: &CrossingTimes| crossing(pair, |hours| clock.dated((f.first_on_h + hours) * 3600.0));
    let coldest = f
        .coldest
        .iter()
        .map(|c| (&c.label, c.temp_c, at(&f.threshold.all_parts)));
    let groups = f.groups_c.iter().map(|g| {
        let found = f.threshold.readings.iter().find(|r| r.key == g.key);
        (
            &g.label,
            g.temp_c,
            found.map_or(String::new(), |r| at(&r.reach)),
        )
    });
    let rows: Vec<_> = coldest.chain(groups).collect();
    let minimum = temperature(f.threshold.threshold_c, units);
    Table::of("", &rows)
        .words("", "Part, or mean of a group", |r| r.0.as_str())
        .number("", clock.dated(night.trace.departure_s), |r| {
            temperature(r.1, units)
        })
        .number("", format!("{minimum} at").replace(' ', "\u{a0}"), |r| {
            r.2.clone()
        })
        .table()
}

fn parts(f: &Findings, units: Units) -> Table {
    let margin = format!("Above {}", temperature(f.threshold.threshold_c, units));
    Table::of("parts", &f.parts)
        .json("part", |p| p.part.as_str())
        .words("label", "Part", |p| p.label.as_str())
        .number("temp_c", "Departure", |p| {
            (p.temp_c, temperature(p.temp_c, units))
        })
        .number("time_to_threshold_h", "Warm after", |p| {
            (
                p.reached.hold.hours(),
                crossing(&p.reached, |hours| format!("{hours:.1} h")),
            )
        })
        .json("first_crossing_h", |p| p.reached.first.hours())
        .number("margin_k", margin, |p| {
            (p.margin_k, difference(p.margin_k, units))
        })
        .words("engine", "", |p: &PartFinding| match p.engine {
            true => Cell::new(true, ""),
            false => Cell::new(false, "need not be warm"),
        })
        .table()
}

/// What the nominal answer leaves out.
fn details(night: &Night) -> Section {
    let (f, units) = (&night.findings, night.scenario.scenario().units);
    let mut facts = Vec::new();
    if let Some(spread) = &f.unevenness {
        let (at_departure, most) = (
            size(spread.at_departure_k, units),
            size(spread.max_k, units),
        );
        let text = format!("differ by {at_departure} at departure, {most} at most");
        facts.push(Fact::text("Cylinders", text));
    }
    if let Some(steady) = &f.steady {
        let text = format!(
            "{} at {}, weather and heaters as at departure",
            steady.label,
            temperature(steady.temp_c, units)
        );
        facts.push(Fact::text("Steady state", text));
    }
    facts.extend(
        night
            .unsettled
            .iter()
            .map(|why| Fact::text("Steady state", why.to_string())),
    );
    facts.extend(f.clearances.iter().map(|b| {
        let warmer = match b.case_warmer_than_crank {
            true => "the case is the warmer one, which eases it",
            false => "the crankshaft is as warm or warmer, which does not ease it",
        };
        let text = format!(
            "{:+.1} µm of diameter against {} ({warmer})",
            b.change_um,
            temperature(REFERENCE_C, units)
        );
        Fact::text(&b.label, text)
    }));
    let text = format!(
        "energy {}, water {}; {} steps, {} rejected",
        balance(f.ledger.energy_error),
        balance(f.ledger.water_error),
        night.effort.steps,
        night.effort.rejected
    );
    facts.push(Fact::text("Balance error", text));
    Section::new("Details").facts(facts)
}

/// An error of a balance, over what went through it; rounding is not shown in digits.
fn balance(error: f64) -> String {
    match error.abs() {
        small if small < CLOSED => format!("< {CLOSED:e}"),
        error => format!("{error:.1e}"),
    }
}

/// Why nothing condenses.
fn dry(why: NoCondensation) -> &'static str {
    match why {
        NoCondensation::NoWater => "there is no water in the oil or on the walls",
        NoCondensation::AboveDewPoint => {
            "no wall under a film is below the dew point of the air inside"
        }
    }
}

/// Why not every part comes to the minimum to stay, with the best value; none if it does.
fn reason(hold: &CrossingTime) -> Option<String> {
    match hold {
        CrossingTime::After { .. } => None,
        CrossingTime::Never { best_c, why, .. } if best_c.is_finite() => Some(format!(
            "{}; the best was {best_c:.2} °C",
            not_reached(*why)
        )),
        CrossingTime::Never { why, .. } => Some(not_reached(*why).to_owned()),
    }
}
