//! When to switch on: the time with its chance, the timer, the thermometer, other times, who leaves later.

use super::chance::{failed, hazards, interval, percent, percent_required};
use super::columns::{Cell, Table};
use super::format::listed;
use super::inputs::{clock, leave, plugged_in, setting, states};
use super::limiting::{Limit, limit};
use super::model::{Block, Fact, Report, Section};
use super::provenance::Provenance;
use super::when_facts::facts;
use super::{cautions, change, circuit, improvements, verdict, warning};
use crate::findings::Findings;
use crate::quantity::Units;
use crate::scenario::document::Scenario;
use crate::study::quantile::Share;
use crate::study::when::When;

/// Columns of the chance against the switch-on time.
const COLUMNS: usize = 7;

/// The finding in a few words, as the headline of its chart.
pub fn headline(when: &When) -> String {
    let (at, leave) = (clock(&when.night, when.found.minutes), leave(&when.night));
    let chance = percent(&when.found.chance, when.options.target);
    match (when.needs_no_heat(), when.is_reached()) {
        (true, _) => format!("Ready at {leave} without heat in {chance} of nights"),
        (_, true) => format!("Switch on at {at}: ready at {leave} in {chance} of nights"),
        (_, false) => {
            format!("No switch-on time is enough; from {at}, ready in {chance} of nights")
        }
    }
}

/// An answer with the night it is of.
struct Answer<'a> {
    when: &'a When,
    scenario: &'a Scenario,
    units: Units,
}

/// The report of an answer for a scenario.
pub fn report(when: &When, scenario: &Scenario, from: &Provenance) -> Report {
    let units = scenario.units;
    let answer = Answer {
        when,
        scenario,
        units,
    };
    let f = &when.night.findings;
    let circuit = circuit::facts(&f.circuit).into_iter();
    let circuit = circuit.map(|fact| Fact::text(fact.label, fact.cell.text));
    Report::of_scenario("when", &scenario.title, from)
        .with(
            Section::new("")
                .block(Block::Say(Fact::new(
                    "reached",
                    "",
                    when.is_reached(),
                    answer.verdict(),
                )))
                .hazard(hazards(&when.bands))
                .say([answer.limiting()])
                .say(failed(&when.bands, when.options.count.nights)),
        )
        .with(Section::json(facts(when, scenario)))
        .with(answer.improvements())
        .with(answer.timer())
        .with(answer.thermometer())
        .with(Section::new("").facts([Fact::text("Circuit", circuit::in_a_line(&f.circuit))]))
        .with(answer.other_times())
        .with(answer.later())
        .with(answer.more())
        .with(Section::wide("The night").facts(setting(&scenario.title, &when.night)))
        .with(Section::wide("Circuit").facts(circuit))
        .with(Section::new("Cautions of this night").list("warnings", warning::cells(f, units)))
        .with(cautions::section())
}

impl Answer<'_> {
    fn at(&self, minutes: usize) -> String {
        clock(&self.when.night, minutes)
    }

    fn chance(&self, share: &Share) -> String {
        percent(share, self.when.options.target)
    }

    /// The time, its chance, or that none is enough.
    fn verdict(&self) -> String {
        let (when, leave) = (self.when, leave(&self.when.night));
        let share = &when.found.chance;
        let (chance, interval) = (self.chance(share), interval(share));
        let required = percent_required(when.options.target);
        let on = self.switch_on();
        if when.is_hazardous() {
            let harm = verdict::harm(&when.night.findings).join("; ");
            let often = hazards(&when.bands).join(" ");
            let why = match harm.is_empty() {
                true => often,
                false => format!("{harm}."),
            };
            return format!(
                "Do not heat like this: {why} Switched on {on}, ready at {leave} in {chance} of {} simulated nights ({interval}).",
                share.of
            );
        }
        if when.needs_no_heat() {
            return format!(
                "No heating is required: {chance} chance of ready at {leave} ({interval})."
            );
        }
        match when.is_reached() {
            true => format!("Switch on {on}: {chance} chance of ready at {leave} ({interval})."),
            false => format!(
                "No switch-on time reaches {required} tonight. Best: {on}, ready at {leave} in {chance} of {} simulated \
nights ({interval}).",
                share.of
            ),
        }
    }

    /// When each heater comes on; one time alone if all do together.
    fn switch_on(&self) -> String {
        let when = self.when;
        let each = when.switches.heaters.iter().zip(&when.starts);
        let needed: Vec<(usize, usize)> = each
            .map(|(h, m)| (*h, *m))
            .filter(|(_, m)| *m > 0)
            .collect();
        match needed[..] {
            [] => "no heater".to_owned(),
            [(_, first), ..] if needed.iter().all(|(_, m)| *m == first) => {
                format!("at {}", self.at(first))
            }
            _ => listed(needed.iter().map(|&(heater, minutes)| {
                format!(
                    "\"{}\" at {}",
                    self.scenario.heaters[heater].name,
                    self.at(minutes)
                )
            })),
        }
    }

    /// The part that is coldest most often, with energy.
    fn limiting(&self) -> String {
        let f = &self.when.night.findings;
        let limit = match limit(self.when, self.scenario) {
            Some(Limit::Part(label)) => format!("Limiting part: {label}. "),
            Some(Limit::Water) => "Limiting: water on the upper inner walls. ".to_owned(),
            Some(Limit::Oil) => "Limiting: the oil, which has a minimum too. ".to_owned(),
            None => String::new(),
        };
        format!("{limit}Energy: {}.", cost(f))
    }

    /// What to do when.
    fn timer(&self) -> Section {
        let night = &self.when.night;
        let mut rows: Vec<(f64, [String; 3])> = Vec::new();
        let clock = night.scenario.clock();
        let leave_s = night.trace.departure_s;
        for heater in &night.scenario.scenario().heaters {
            let power = format!("{:.0} W", heater.power.si());
            let mut text = match states(&heater.name, &power) {
                true => heater.name.clone(),
                false => format!("{}, {power}", heater.name),
            };
            if heater.thermostat.is_some() {
                text += ", then by its thermostat";
            }
            for (on_s, off_s) in plugged_in(heater, night, leave_s) {
                rows.push((on_s, [clock.dated(on_s), "on".to_owned(), text.clone()]));
                if off_s < leave_s {
                    rows.push((off_s, [clock.dated(off_s), "off".to_owned(), text.clone()]));
                }
            }
        }
        rows.sort_by(|a, b| a.0.total_cmp(&b.0));
        if !rows.is_empty() {
            let off = "unplug every heater before anybody touches the propeller".to_owned();
            rows.push((f64::MAX, [leave(night), "off".to_owned(), off]));
        }
        let table = Table::of("", &rows)
            .number("", "Timer", |r| r.1[0].clone())
            .words("", "", |r| r.1[1].clone())
            .words("", "", |r| r.1[2].clone());
        match rows.is_empty() {
            true => Section::new(""),
            false => Section::new("").block(table),
        }
    }

    /// What a thermometer must read, and how often that is wrong.
    fn thermometer(&self) -> Section {
        let Some(t) = &self.when.thermometer else {
            return Section::new("");
        };
        let rule = t.rule(self.units);
        let (clock, units) = (self.when.night.scenario.clock(), self.units);
        let (at, leave) = (clock.dated(t.time_s), leave(&self.when.night));
        let limit = format!(
            "{:.0} {}",
            units.temperature(rule.limit_c) + 0.0,
            units.symbol()
        );
        let rate = units.step(t.rate_k_h);
        let direction = match rate < 0.0 {
            true => "falling",
            false => "rising",
        };
        let target = self.when.options.target;
        Section::new(format!("Thermometer on the {}", t.label)).say([
            format!(
                "{at}: expect {}, {direction} {:.0} {}/h. {limit} or more: leave at {leave}. Below {limit}: do not leave at \
{leave}; read again every 30 min.",
                units.temperature_text(t.temp_c),
                rate.abs(),
                units.step_symbol(),
            ),
            format!(
                "Wrong \"leave\": {} of nights. Wrong \"stay\": {}.",
                percent(&rule.wrong_leave, target),
                percent(&rule.wrong_stay, target)
            ),
        ])
    }

    /// The chance at some of the times, the answer among them.
    fn other_times(&self) -> Section {
        let chosen = self.when.found.minutes;
        let curve = &self.when.curve;
        let past = self.departure_minutes() % 60;
        let full = |minutes: usize| minutes % 60 == past && minutes > 0;
        // Full hours, or where the departure is on no quarter of an hour, whole hours before it.
        let any = curve.iter().any(|(minutes, _)| full(*minutes));
        let shown =
            |minutes: usize| full(minutes) || (!any && minutes.is_multiple_of(60) && minutes > 0);
        let hours: Vec<&(usize, Share)> = curve
            .iter()
            .filter(|(minutes, _)| shown(*minutes))
            .collect();
        let step = hours.len().div_ceil(COLUMNS - 1).max(1);
        let mut shown: Vec<(usize, Share)> = hours.iter().step_by(step).map(|h| **h).collect();
        shown.retain(|(minutes, _)| *minutes != chosen);
        if chosen > 0 {
            shown.push((chosen, self.when.found.chance));
        }
        shown.sort_by_key(|(minutes, _)| std::cmp::Reverse(*minutes));
        if shown.len() < 2 {
            return Section::new("");
        }
        let row = [("Ready", shown)];
        let mut table = Table::of("", &row).words("", "Switch\u{a0}on\u{a0}at", |r| r.0);
        for k in 0..row[0].1.len() {
            let at = self.at(row[0].1[k].0);
            table = table.number("", at, move |r| Cell::from(self.chance(&r.1[k].1)));
        }
        Section::new("").block(table)
    }

    /// Minutes of the departure past the full hour.
    fn departure_minutes(&self) -> usize {
        let text = leave(&self.when.night);
        text.rsplit(':')
            .next()
            .and_then(|m| m.trim().parse().ok())
            .unwrap_or(0)
    }

    /// Who leaves later.
    fn later(&self) -> Section {
        let later = &self.when.later;
        if later.is_empty() {
            return Section::new("");
        }
        let clock = self.when.night.scenario.clock();
        let at = |minutes: usize| clock.dated(clock.night_s() + 60.0 * minutes as f64);
        let unplugged = format!("unplugged at {}", leave(&self.when.night));
        let on: Vec<Share> = later.iter().map(|l| l.on).collect();
        let off: Vec<Share> = later.iter().map(|l| l.unplugged).collect();
        let rows = [("heater stays on".to_owned(), on), (unplugged, off)];
        let mut table =
            Table::of("", &rows).words("", "If\u{a0}you\u{a0}leave\u{a0}at", |r| r.0.clone());
        for (k, l) in later.iter().enumerate() {
            table = table.number("", at(l.minutes), move |r| Cell::from(self.chance(&r.1[k])));
        }
        Section::new("").block(table)
    }

    /// What would raise the chance, if no time is enough.
    fn improvements(&self) -> Section {
        let all = &self.when.improvements;
        match all.is_empty() {
            true => Section::new(""),
            false => {
                let target = self.when.options.target;
                Section::new("").block(improvements::table(all, &self.when.night, target))
            }
        }
    }

    /// Other weather, and the latest start of the nominal night.
    fn more(&self) -> Section {
        let (when, clock) = (self.when, self.when.night.scenario.clock());
        let weather = when.other_weather.iter().map(|(change, share)| {
            let words = change::words(change, self.scenario, clock, self.units);
            Fact::text(format!("If {words}"), self.chance(share))
        });
        let mut facts: Vec<Fact> = weather.collect();
        let nominal = match &when.nominal.starts {
            Some(starts) => {
                let first = starts.iter().copied().max().unwrap_or(0);
                let chance = when
                    .curve
                    .iter()
                    .rev()
                    .find(|(minutes, _)| *minutes >= first);
                let chance = chance.map_or(String::new(), |(_, share)| {
                    format!(", ready in {} of the simulated nights", self.chance(share))
                });
                format!("{}{chance}", self.at(first))
            }
            None => "no start makes the nominal night ready".to_owned(),
        };
        facts.push(Fact::text("Latest start, nominal", nominal));
        Section::wide("Also").facts(facts)
    }
}

/// The energy, and its cost if there is a tariff.
fn cost(f: &Findings) -> String {
    match f.energy.cost {
        Some(cost) => format!("{:.1} kWh, {} {cost:.2}", f.energy.kwh, f.energy.currency),
        None => format!("{:.1} kWh", f.energy.kwh),
    }
}
