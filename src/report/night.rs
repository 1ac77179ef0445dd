//! One night: ready or not and why, what was computed, what became of it.

use super::columns::Show;
use super::format::{apart, in_full, listed, not_reached, reach, temperature};
use super::model::{Block, Fact, Report, Section};
use super::provenance::Provenance;
use super::{cautions, chance, circuit, events, heat, inputs, parts, verdict, warning};
use crate::findings::{
    CrossingTime, Findings, NoCondensation, OilRange, Onset, REFERENCE_C, Unmet, WallFinding,
};
use crate::night::Night;
use crate::quantity::Units;
use crate::study::paired::Bands;
use crate::study::simulate::SampleCount;
use serde_json::{Value, json};

/// A balance that is off by less than this is closed: what the rounding of numbers leaves is far smaller.
const CLOSED: f64 = 1e-9;
/// Water under this is not worth a word, g.
const LEAST_G: f64 = 0.005;

/// What the simulated nights of a night come to.
#[derive(Debug, Clone, Copy)]
pub struct Chance<'a> {
    /// Their results.
    pub bands: &'a Bands,
    /// Which they are.
    pub count: SampleCount,
    /// The chance that is required, 0 to 1.
    pub target: f64,
}

impl Night {
    /// Its report, for a night made by code: the nominal night alone.
    pub fn report(&self) -> Report {
        report(self, None, "", &Provenance::new(Vec::new(), Vec::new()))
    }
}

/// The report of a night, with its chance if that was computed; `engine` is what its file is called, if it has one.
pub fn report(night: &Night, chance: Option<Chance>, engine: &str, from: &Provenance) -> Report {
    let scenario = night.scenario.scenario();
    let (f, units) = (&night.findings, scenario.units);
    Report::of_scenario("night", &scenario.title, from)
        .with(answer(night, chance))
        .with(Section::new("").facts(inputs::facts(night, engine)))
        .with(Section::new("").block(parts::in_short(night)))
        .with(Section::new("").facts(in_short(night)))
        .with(Section::wide("Nominal night").facts(findings(&scenario.title, f, units)))
        .with(Section::new("Cautions of this night").list("warnings", warning::cells(f, units)))
        .with(events::section(&f.events, night.scenario.clock()))
        .with(details(night).shown(Show::Wide))
        .with(Section::wide("Groups").block(parts::groups(night)))
        .with(Section::wide("Groups by the hour").block(parts::hourly(night)))
        .with(Section::wide("Parts at departure").block(parts::table(f, units)))
        .with(cautions::section())
}

/// Every group of parts at a time, s after the beginning.
pub fn at(night: &Night, time_s: f64) -> Section {
    let clock = night.scenario.clock().dated(time_s);
    Section::new(format!("Groups at {clock}"))
        .block(parts::at_time(night, time_s))
        .block(parts::groups_at(night, time_s))
}

/// The chance, then the nominal night with the three numbers of the job, and what must not be done.
fn answer(night: &Night, chance: Option<Chance>) -> Section {
    let (f, units) = (&night.findings, night.scenario.scenario().units);
    let at = night.scenario.clock().dated(night.trace.departure_s);
    let value = chance.map(|c| {
        json!({
            "nights": c.count.nights,
            "seed": c.count.seed,
            "target": c.target,
            "summary": chance::bands(c.bands),
        })
    });
    let ready = chance.map(|c| match &c.bands.ready {
        Some(share) => chance::sentence(share, c.target, &at),
        None => "No simulated night could be computed.".to_owned(),
    });
    let quick = || "No chance was computed: this is the nominal night alone.".to_owned();
    let reached = chance.is_some_and(|c| {
        let safe = verdict::harm(f).is_empty() && !c.bands.hazardous();
        safe && c.bands.ready.is_some_and(|ready| ready.share >= c.target)
    });
    let nominal = f.ready.ready_at_departure;
    // The sentence with a truth value stands out on a page.
    let answer = match chance {
        Some(_) => Fact::new("", "", reached, ready.unwrap_or_default()),
        None => Fact::text("", quick()),
    };
    Section::new("")
        .block(Block::Say(answer))
        .hazard(verdict::do_not(f))
        .hazard(chance.map_or(Vec::new(), |c| chance::hazards(c.bands)))
        .say(chance.and_then(|c| chance::failed(c.bands, c.count.nights)))
        .block(Block::Say(Fact::text("", nominal_in_short(f, units))))
        .facts([
            Fact::json("uncertainty", value),
            Fact::json("ready_at_departure", nominal),
        ])
}

/// The nominal night: the coldest part, the time to the minimum, condensation.
fn nominal_in_short(f: &Findings, units: Units) -> String {
    let mut text = match (&f.coldest, f.ready.margin_k) {
        (Some(coldest), Some(margin)) => {
            let side = match margin < 0.0 {
                true => "below",
                false => "above",
            };
            let (at, _) = apart(coldest.temp_c, f.threshold.threshold_c, units);
            format!(
                "Nominal: {} coldest, {at}, {} {side} the minimum.",
                coldest.label,
                units.size(margin)
            )
        }
        _ => "Nominal: no part is marked as a part of the engine.".to_owned(),
    };
    let minimum = temperature(f.threshold.threshold_c, units);
    text += &format!(" Time to {minimum}: {}.", reach(&f.threshold.all_parts));
    if let Some(c) = &f.condensation {
        let upper = match c.upper_g < LEAST_G {
            true => "none on the upper walls".to_owned(),
            false => format!("{:.1} g on the upper walls", c.upper_g),
        };
        text += &format!(" Condensation {:.1} h, {upper}.", c.hours);
    }
    let unmet = f
        .ready
        .unmet
        .iter()
        .filter(|u| !matches!(u, Unmet::Cold { .. }));
    let unmet: Vec<String> = unmet.map(|u| verdict::lack(u, units)).collect();
    if !unmet.is_empty() {
        text += &format!(" Not ready: {}.", unmet.join("; "));
    }
    text
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
    let steady = f.steady.as_ref();
    let steady = steady.map(|s| json!({"part": s.part, "label": s.label, "temp_c": s.temp_c}));
    facts.push(Fact::json("steady", steady));
    let groups = f.groups_c.iter().map(|g| (g.key.clone(), g.temp_c.into()));
    facts.push(Fact::json("groups_c", Value::Object(groups.collect())));
    let (energy, water) = (f.ledger.energy_error, f.ledger.water_error);
    let errors = json!({"energy_error": energy, "water_error": water});
    facts.push(Fact::json("conservation", errors));
    facts
}

/// One choice of a comparison for programs.
pub fn choice(name: &str, f: &Findings) -> Value {
    let mut facts = findings(name, f, Units::Celsius);
    facts.push(Fact::json("ready_at_departure", f.ready.ready_at_departure));
    let warnings = warning::cells(f, Units::Celsius).into_iter();
    let warnings: Value = warnings.map(|cell| cell.value).collect();
    facts.push(Fact::json("warnings", warnings));
    let keyed = facts.into_iter().filter(|fact| !fact.key.is_empty());
    let members = keyed.map(|fact| (fact.key.to_owned(), fact.cell.value));
    Value::Object(members.collect())
}

fn warmth(f: &Findings, units: Units) -> Vec<Fact> {
    let minimum = temperature(f.threshold.threshold_c, units);
    let all = &f.threshold.all_parts;
    let first = match all.lost() {
        true => in_full(&all.first, units),
        false => String::new(),
    };
    let (to, hold) = (format!("To {minimum}"), in_full(&all.hold, units));
    let coldest = f.coldest.as_ref();
    let coldest = coldest.map(|c| json!({"part": c.part, "temp_c": c.temp_c}));
    let mut facts = vec![
        Fact::new("time_to_threshold_h", to, all.hold.hours(), hold),
        Fact::new("first_crossing_h", "First time", all.first.hours(), first),
        Fact::json("not_reached_reason", reason(&all.hold)),
        Fact::json("coldest", coldest),
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
    let wall = |w: &WallFinding| json!({"wall": w.wall, "hours": w.hours, "water_g": w.grams});
    let value = json!({
        "hours": c.hours,
        "upper_g": c.upper_g,
        "condensed_total_g": c.turnover_g,
        "onset_h": c.onset.hours(),
        "walls": c.walls.iter().map(wall).collect::<Value>(),
    });
    let groups = c.groups.iter().filter(|g| g.grams >= LEAST_G);
    let groups = groups.map(|g| format!("{} {:.2} g", g.group, g.grams));
    let walls = match listed(groups) {
        none if none.is_empty() => "none on the inner walls".to_owned(),
        groups => format!("on the inner walls: {groups}"),
    };
    let oil = c.oil_water_g.map(|g| format!("; in the oil {g:.2} g"));
    let water = walls + &oil.unwrap_or_default();
    let begun = match &c.onset {
        Onset::After { hours } => format!(
            "from {hours:.2} h on; some wall {:.2} h, an upper wall {:.2} h, over 1 g/m² {:.2} h; {:.2} g in all",
            c.hours, c.upper_hours, c.wet_hours, c.turnover_g
        ),
        Onset::Never { why, .. } => format!("never: {}", dry(*why)),
    };
    let mut facts = vec![
        Fact::new("condensation", "Water", value, water),
        Fact::text("Condensing", begun),
    ];
    facts.extend(f.outside_dew.iter().map(|dew| {
        let (label, hours) = (&dew.label, dew.hours);
        let text = format!("{label} below the dew point of its air for {hours:.2} h");
        Fact::text("Outside", text)
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
        let each = e.heaters.iter();
        let each = each.map(|h| format!("{} {:.2} kWh", h.name, h.kwh));
        text += &format!(" ({})", listed(each));
    }
    Fact::new("energy_kwh", "Energy", e.kwh, text)
}

/// Water, power and heat, a line each.
fn in_short(night: &Night) -> Vec<Fact> {
    let f = &night.findings;
    let water = f.condensation.as_ref().map(|c| {
        let clock = night.scenario.clock();
        let from = c
            .onset
            .hours()
            .map(|h| format!(", from {}", clock.dated(3600.0 * h)));
        let wet = c
            .groups
            .iter()
            .filter(|g| g.group != "upper" && g.grams >= LEAST_G);
        let wet = wet.map(|g| format!("{:.1} g on the {} walls", g.grams, g.group));
        let upper = match c.upper_g < LEAST_G {
            true => "none on the upper walls".to_owned(),
            false => format!("{:.1} g on the upper walls", c.upper_g),
        };
        let text = listed(std::iter::once(upper).chain(wet));
        Fact::text("Water", text + &from.unwrap_or_default())
    });
    let power = (!f.circuit.heaters.is_empty()).then(|| {
        let e = &f.energy;
        let cost = e.cost.map(|c| format!(", {} {c:.2}", e.currency));
        let cost = cost.unwrap_or_default();
        let text = format!("{:.1} kWh{cost}; {}", e.kwh, circuit::in_a_line(&f.circuit));
        Fact::text("Power", text)
    });
    let heat = heat::in_percent(f).map(|heat| Fact::text("Heat", format!("last hour: {heat}")));
    water.into_iter().chain(power).chain(heat).collect()
}

/// What the nominal answer leaves out.
fn details(night: &Night) -> Section {
    let (f, units) = (&night.findings, night.scenario.scenario().units);
    let mut facts = Vec::new();
    if let Some(spread) = &f.unevenness {
        let [leaving, most] = [spread.at_departure_k, spread.max_k].map(|k| units.size(k));
        let text = format!("differ by {leaving} at departure, {most} at most");
        facts.push(Fact::text("Cylinders", text));
    }
    if let Some(steady) = &f.steady {
        let (part, at) = (&steady.label, temperature(steady.temp_c, units));
        let text = format!("{part} at {at}, weather and heaters as at departure");
        facts.push(Fact::text("Steady state", text));
    }
    let unsettled = night.unsettled.iter();
    facts.extend(unsettled.map(|why| Fact::text("Steady state", why.to_string())));
    facts.extend(f.clearances.iter().map(|b| {
        let warmer = match b.case_warmer_than_crank {
            true => "the case is the warmer one, which eases it",
            false => "the crankshaft is as warm or warmer, which does not ease it",
        };
        let (change, at) = (b.change_um, temperature(REFERENCE_C, units));
        Fact::text(
            &b.label,
            format!("{change:+.1} µm of diameter against {at} ({warmer})"),
        )
    }));
    let [energy, water] = [f.ledger.energy_error, f.ledger.water_error].map(balance);
    let (steps, rejected) = (night.effort.steps, night.effort.rejected);
    let text = format!("energy {energy}, water {water}; {steps} steps, {rejected} rejected");
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
        CrossingTime::Never { best_c, why, .. } => Some(match best_c.is_finite() {
            true => format!("{}; the best was {best_c:.2} °C", not_reached(*why)),
            false => not_reached(*why).to_owned(),
        }),
    }
}
