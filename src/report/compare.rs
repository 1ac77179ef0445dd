//! Choices through one night: which to use, with its chance; the ranking; what would help.

use super::chance::{self, hours, percent, unsigned};
use super::columns::{Cell, Show, Table};
use super::format::{LOST_MEANS, difference, reach, temperature};
use super::model::{Block, Fact, Report, Section};
use super::provenance::Provenance;
use super::recommend::answer;
use super::warning::in_short;
use super::{cautions, change, circuit, heat, inputs, night, verdict};
use crate::findings::{Findings, RANKING_KEY, forbidding};
use crate::night::Night;
use crate::quantity::Units;
use crate::study::compare::{BestStart, Chances, ChoiceChance, Comparison};
use crate::study::improve::Improvement;
use crate::study::paired::Verdict;
use crate::study::quantile::Band;
use crate::study::rank::{Group, RANKED_BY};
use serde_json::{Value, json};

/// The head of the column that holds names of parts.
pub const COLDEST: &str = "Coldest part";

/// A choice as it is listed.
struct Listed<'c> {
    number: usize,
    name: &'c str,
    night: &'c Night,
    chance: Option<&'c ChoiceChance>,
}

impl Listed<'_> {
    fn findings(&self) -> &Findings {
        &self.night.findings
    }

    /// Its place: `2=` if it shares it.
    fn place(&self) -> String {
        match self.chance {
            Some(choice) if choice.place.shared => format!("{}=", choice.place.place),
            Some(choice) => choice.place.place.to_string(),
            None => self.number.to_string(),
        }
    }
}

/// The report of a comparison of this title.
pub fn report(title: &str, comparison: &Comparison, from: &Provenance) -> Report {
    let listed = listed(comparison);
    let units = listed.first().map_or(Units::default(), |c| units(c.night));
    let chances = comparison.chances.as_ref();
    let words = |units| answer(comparison, units).join(" ");
    let choices: Value = listed.iter().map(of_choice).collect();
    let uncertainty = chances.zip(listed.first());
    let uncertainty = uncertainty.map(|(chances, first)| for_programs(chances, first.night));
    let ranked_by = chances.map_or(RANKING_KEY, |_| RANKED_BY);
    let mut report = Report::of_scenario("compare", title, from)
        .with(Section::new("").block(Block::Say(Fact::new(
            "recommendation",
            "",
            words(Units::Celsius),
            words(units),
        ))))
        .with(Section::json([
            Fact::json("ranking_key", ranked_by),
            Fact::json("reached", comparison.is_reached()),
            Fact::json("choices", choices),
            Fact::json("uncertainty", uncertainty),
        ]));
    if let Some(first) = listed.first() {
        report = report
            .with(Section::new("").block(ranking(&listed, chances, units)))
            .with(
                Section::new("")
                    .say(reading(first.night, chances))
                    .say(marks(&listed)),
            );
    }
    if let Some(chances) = chances {
        report = report
            .with(own_starts(&listed, chances))
            .with(improved(&listed, chances));
    }
    if let Some(first) = listed.first() {
        report = report.with(Section::wide("The night").facts(setting(title, first.night)));
    }
    if let Some((name, night)) = comparison.recommended() {
        report = report.with(of_chosen(name, &night.findings));
    }
    report
        .with(Section::new("Cautions of these choices").list("", warnings(&listed, units)))
        .with(cautions::section())
}

fn listed(comparison: &Comparison) -> Vec<Listed<'_>> {
    let chances = comparison.chances.as_ref();
    let nights = comparison.nights.iter().enumerate();
    nights
        .map(|(k, (name, night))| Listed {
            number: k + 1,
            name,
            night,
            chance: chances.and_then(|c| c.choices.get(k)),
        })
        .collect()
}

fn units(night: &Night) -> Units {
    night.scenario.scenario().units
}

/// One choice for programs: the nominal night, its place, its chance, its own best start.
fn of_choice(choice: &Listed) -> Value {
    let mut value = night::choice(choice.name, choice.findings());
    if let (Some(object), Some(chance)) = (value.as_object_mut(), choice.chance) {
        let group = match chance.group {
            Group::Reached => "reached",
            Group::NotReached => "not_reached",
            Group::Hazard => "do_not_use",
        };
        let start = chance.best.result().map(|start| {
            json!({
                "minutes_before_departure": start.minutes,
                "clock": clock(choice.night, start.minutes),
                "reached": start.reached,
                "ready": chance::json(Some(&start.chance)),
                "energy_kwh": mean_kwh(chance),
            })
        });
        object.insert("rank".to_owned(), chance.place.place.into());
        object.insert("rank_shared".to_owned(), chance.place.shared.into());
        object.insert("group".to_owned(), group.into());
        object.insert(
            "ready".to_owned(),
            chance::json(chance.bands.ready.as_ref()),
        );
        object.insert("best_start".to_owned(), start.into());
    }
    value
}

/// The simulated nights for programs.
fn for_programs(chances: &Chances, first: &Night) -> Value {
    let pair = |v: &Verdict| {
        json!({
            "first": v.first,
            "second": v.second,
            "wins": v.ahead,
            "losses": v.behind,
            "nights": v.nights,
        })
    };
    let improved = chances.improvements.iter().map(|i| improvement(i, first));
    json!({
        "nights": chances.count.nights,
        "seed": chances.count.seed,
        "target": chances.target,
        "choices": chances.choices.iter().map(|c| chance::bands(&c.bands)).collect::<Value>(),
        "pairs": chances.pairs.iter().map(pair).collect::<Value>(),
        "improvements": improved.collect::<Value>(),
    })
}

/// A change that raises the chance, for programs: what it sets.
pub fn improvement(improved: &Improvement, night: &Night) -> Value {
    let (scenario, clock) = (night.scenario.scenario(), night.scenario.clock());
    let each = improved.changes.iter();
    let words = each.map(|c| change::words(c, scenario, clock, Units::Celsius));
    json!({
        "changes": words.collect::<Vec<_>>(),
        "set": improved.set(scenario),
        "ready": chance::json(Some(&improved.chance)),
        "energy_kwh": improved.kwh,
    })
}

/// The night that all choices share.
pub fn setting(title: &str, night: &Night) -> Vec<Fact> {
    let water_g = night.scenario.scenario().initial.water_in_oil.si() * 1e3;
    vec![
        Fact::text("Night", title),
        Fact::text("Time", inputs::hours(night)),
        Fact::text("Hangar", inputs::hangar(night)),
        Fact::text("Engine", format!("{water_g:.0} g of water in the oil")),
    ]
}

/// Where the heat of the choice that is recommended goes, and what it takes of the circuit.
fn of_chosen(name: &str, f: &Findings) -> Section {
    let heat = heat::shares(f).map(|shares| Fact::text("Heat", format!("last hour: {shares}")));
    // Programs read these in the choice itself.
    let circuit = circuit::facts(&f.circuit).into_iter();
    let circuit = circuit.map(|fact| Fact::text(fact.label, fact.cell.text));
    Section::wide(format!("With \"{name}\"")).facts(heat.into_iter().chain(circuit))
}

/// The choices, a row each, the best first. With simulated nights the figures are medians.
fn ranking(listed: &[Listed], chances: Option<&Chances>, units: Units) -> Table {
    let minimum = listed.first().map_or(String::new(), |c| {
        temperature(c.findings().threshold.threshold_c, units)
    });
    let target = chances.map_or(1.0, |c| c.target);
    let f = |c: &Listed| c.findings().clone();
    let median = |c: &Listed, band: &dyn Fn(&ChoiceChance) -> Option<Band>| {
        c.chance.and_then(band).map(|band| band.p50)
    };
    let in_hours = |hours: String| match hours.parse::<f64>() {
        Ok(_) => format!("{hours} h"),
        Err(_) => hours,
    };
    let range = |band: Option<Band>, text: &dyn Fn(f64) -> String| {
        band.map_or(String::new(), |b| {
            format!("{} to {}", text(b.p10), text(b.p90))
        })
    };
    let step = |k: f64| unsigned(format!("{:+.0}", units.step(k)));
    let table = Table::of("", listed)
        .number("", "#", Listed::place)
        .words("", "Choice", |c| c.name)
        .words("", "Ready", |c| {
            match (c.chance, forbidding(&c.findings().warnings)) {
                (Some(choice), _) if choice.group == Group::Hazard => "do not use".to_owned(),
                (Some(choice), _) => match &choice.bands.ready {
                    Some(share) => percent(share, target),
                    None => "-".to_owned(),
                },
                (None, harm) if !harm.is_empty() => "do not use".to_owned(),
                (None, _) => match c.findings().ready.ready_at_departure {
                    true => "yes".to_owned(),
                    false => "no".to_owned(),
                },
            }
        })
        .number("", "Margin", |c| {
            match (c.chance, c.findings().ready.margin_k) {
                (Some(choice), _) => choice
                    .bands
                    .margin_k
                    .map_or("-".to_owned(), |b| step(b.p50)),
                (None, margin) => margin.map_or("-".to_owned(), |m| difference(m, units)),
            }
        })
        .number("", format!("To {minimum}"), |c| match c.chance {
            Some(choice) => {
                let median = choice.bands.warm_h.map(|b| hours(b.p50));
                median.map_or("-".to_owned(), in_hours)
            }
            None => reach(&c.findings().threshold.all_parts),
        })
        .number("", "Wet", |c| {
            let nominal = || f(c).condensation.map(|water| water.hours);
            let wet = match c.chance {
                Some(_) => median(c, &|choice| choice.bands.condensation_h),
                None => nominal(),
            };
            wet.map_or("-".to_owned(), |h| format!("{h:.0} h"))
        })
        .words("", COLDEST, |c| match c.chance {
            Some(choice) => choice
                .bands
                .coldest
                .first()
                .map_or("-".to_owned(), |c| c.0.clone()),
            None => f(c).coldest.map_or("-".to_owned(), |c| c.label),
        })
        .number("", "kWh", |c| {
            let kwh = median(c, &|choice| choice.bands.kwh);
            format!("{:.1}", kwh.unwrap_or(c.findings().energy.kwh))
        })
        .words("", "Margin, 10 to 90 %", |c| {
            range(c.chance.and_then(|c| c.bands.margin_k), &step)
        })
        .shown(Show::Wide)
        .number("", "Nominal", |c| {
            c.findings()
                .ready
                .margin_k
                .map_or("-".to_owned(), |m| difference(m, units))
        })
        .shown(Show::Wide)
        .number("", "Oil, mm²/s", |c| {
            let oil = f(c).oil;
            oil.map_or("-".to_owned(), |o| format!("{:.0}", o.viscosity_mm2_s))
        })
        .shown(Show::Wide)
        .number("", "Peak A", |c| {
            format!("{:.1}", c.findings().circuit.peak_current_a)
        })
        .shown(Show::Wide);
    let currency = listed.iter().find(|c| c.findings().energy.cost.is_some());
    match currency.map(|c| c.findings().energy.currency.clone()) {
        None => table.table(),
        Some(currency) => table
            .number("", currency, |c| {
                let cost = c.findings().energy.cost;
                cost.map_or("-".to_owned(), |c| format!("{c:.2}"))
            })
            .shown(Show::Wide)
            .table(),
    }
}

/// How the table of choices is to be read.
fn reading(night: &Night, chances: Option<&Chances>) -> Vec<String> {
    let scenario = night.scenario.scenario();
    let minimum = temperature(scenario.criteria.min_temperature.celsius(), scenario.units);
    let leave = leave(night);
    let mut text = format!(
        "Margin: coldest part minus {minimum} at {leave}. Wet: hours in which some inner wall gathers water."
    );
    let Some(chances) = chances else {
        return vec![format!("{text} Ranked by: {RANKING_KEY}.")];
    };
    text += " Medians at the hours of the file; ranges with --wide.";
    let failed = chances.choices.iter().map(|c| &c.bands);
    let failed = failed.filter(|b| b.nights < chances.count.nights as usize);
    let failed = failed.map(|b| format!(" Of \"{}\" only {} could be computed.", b.name, b.nights));
    text += &failed.collect::<String>();
    let least = chances.pairs.iter().map(|pair| pair.ahead).min();
    let against = least.map(|least| {
        format!(
            "Against each other choice, number 1 is warm first in at least {least} of {} nights.",
            chances.count.nights
        )
    });
    std::iter::once(text).chain(against).collect()
}

/// What the marks in the table mean, those that are in it.
fn marks(listed: &[Listed]) -> Vec<String> {
    let any = |mark: &dyn Fn(&Listed) -> bool| listed.iter().any(mark);
    let shared = any(&|c| c.chance.is_some_and(|c| c.place.shared));
    let lost = any(&|c| c.chance.is_none() && c.findings().threshold.all_parts.lost());
    let marks = [
        (
            shared,
            "=: no difference from the first with that place that the nights show.",
        ),
        (lost, LOST_MEANS),
    ];
    let marks = marks.into_iter().filter(|(any, _)| *any);
    marks.map(|(_, mark)| mark.to_owned()).collect()
}

/// The choices at their own best start.
fn own_starts(listed: &[Listed], chances: &Chances) -> Section {
    let searched: Vec<(&Listed, &ChoiceChance)> = listed
        .iter()
        .filter_map(|c| Some((c, c.chance?)))
        .filter(|(_, chance)| chance.best.result().is_some())
        .collect();
    let target = percent_required(chances.target);
    let table = Table::of("", &searched)
        .number("", "#", |(c, _)| c.place())
        .words("", "Own best start", |(c, choice)| {
            match choice.best.result() {
                Some(start) if start.minutes == 0 => "none needed".to_owned(),
                Some(start) if start.reached => clock(c.night, start.minutes),
                Some(start) => format!(
                    "none reaches {target}; best from {}",
                    clock(c.night, start.minutes)
                ),
                None => String::new(),
            }
        })
        .number("", "Ready", |(_, choice)| {
            let start = choice.best.result();
            start.map_or(String::new(), |s| percent(&s.chance, chances.target))
        })
        .number("", "kWh", |(_, choice)| {
            mean_kwh(choice).map_or(String::new(), |kwh| format!("{kwh:.1}"))
        })
        .table();
    let fixed = listed.iter().filter(|c| {
        c.chance
            .is_some_and(|choice| choice.best == BestStart::Fixed && choice.group != Group::Hazard)
    });
    let fixed: Vec<String> = fixed.map(Listed::place).collect();
    let fixed = (!fixed.is_empty())
        .then(|| format!("Hours as in the file, not moved: {}.", fixed.join(", ")));
    match searched.is_empty() {
        true => Section::new(""),
        false => Section::new("").block(table).say(fixed),
    }
}

/// Mean energy at the own best start, kWh.
fn mean_kwh(choice: &ChoiceChance) -> Option<f64> {
    let nights: Vec<f64> = choice
        .best
        .result()?
        .outcomes
        .iter()
        .flatten()
        .map(|o| o.kwh)
        .collect();
    (!nights.is_empty()).then(|| nights.iter().sum::<f64>() / nights.len() as f64)
}

/// What would raise the chance of the first choice.
fn improved(listed: &[Listed], chances: &Chances) -> Section {
    let Some(first) = listed.first().filter(|_| !chances.improvements.is_empty()) else {
        return Section::new("");
    };
    let rows = improvements(&chances.improvements, first.night, chances.target);
    Section::new("").block(rows)
}

/// Changes with the chance that each gives, a row each.
pub fn improvements(all: &[Improvement], night: &Night, target: f64) -> Table {
    let (scenario, clock) = (night.scenario.scenario(), night.scenario.clock());
    Table::of("", all)
        .words("", "What would raise the chance", |improved| {
            let each = improved.changes.iter();
            let words = each.map(|c| change::words(c, scenario, clock, scenario.units));
            let words = words.collect::<Vec<_>>().join("; ");
            Cell::from(capital(&words))
        })
        .number("", "Ready", |improved| percent(&improved.chance, target))
        .number("", "kWh", |improved| format!("{:.1}", improved.kwh))
        .table()
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    let first = letters.next().map(|c| c.to_uppercase().collect::<String>());
    first.unwrap_or_default() + letters.as_str()
}

/// The warnings of all choices, each once, with the places of the choices it is of: `2, 5: ...`.
fn warnings(listed: &[Listed], units: Units) -> Vec<String> {
    let mut all: Vec<(String, Vec<usize>)> = Vec::new();
    for choice in listed {
        let harm = verdict::do_not_use(choice.findings());
        let warnings = choice
            .findings()
            .warnings
            .iter()
            .map(|w| in_short(w, units));
        let water = too_wet(choice);
        for text in harm.into_iter().chain(water).chain(warnings) {
            match all.iter_mut().find(|(known, _)| *known == text) {
                Some((_, places)) => places.push(choice.number),
                None => all.push((text, vec![choice.number])),
            }
        }
    }
    let line = |(text, places): (String, Vec<usize>)| format!("{}: {text}", spans(&places));
    all.into_iter().map(line).collect()
}

/// That there is more water on the upper inner walls than the limit.
fn too_wet(choice: &Listed) -> Option<String> {
    let nominal = choice.findings().condensation.as_ref().map(|c| c.upper_g);
    let bands = choice.chance.map(|c| c.bands.upper_g.map(|b| b.p50));
    let upper_g = bands.unwrap_or(nominal)?;
    let limit_g = 1e3 * choice.night.scenario.scenario().criteria.water_limit.si();
    (upper_g >= limit_g).then(|| {
        let (upper, limit) = verdict::water(upper_g, limit_g);
        format!("{upper} g of water on the upper inner walls; the limit is {limit} g.")
    })
}

/// Rising numbers: `2 to 5, 7`.
fn spans(numbers: &[usize]) -> String {
    let runs = numbers.chunk_by(|a, b| a + 1 == *b);
    let span = |run: &[usize]| match run {
        [one] => one.to_string(),
        [a, b] => format!("{a}, {b}"),
        [first, .., last] => format!("{first} to {last}"),
        [] => String::new(),
    };
    runs.map(span).collect::<Vec<_>>().join(", ")
}

/// The clock time so many minutes before departure.
pub fn clock(night: &Night, minutes: usize) -> String {
    let clock = night.scenario.clock();
    clock.dated(clock.night_s() - 60.0 * minutes as f64)
}

/// The departure.
pub fn leave(night: &Night) -> String {
    clock(night, 0)
}

/// A required chance: `95 %`.
pub fn percent_required(target: f64) -> String {
    let percent = 100.0 * target;
    match percent.fract() == 0.0 {
        true => format!("{percent:.0} %"),
        false => format!("{percent} %"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_in_a_row_are_spans() {
        assert_eq!(spans(&[2, 3, 4, 5, 7]), "2 to 5, 7");
        assert_eq!(spans(&[1, 2, 6]), "1, 2, 6");
    }

    #[test]
    fn a_required_chance_keeps_its_digits() {
        assert_eq!(percent_required(0.95), "95 %");
        assert_eq!(percent_required(0.995), "99.5 %");
    }
}
