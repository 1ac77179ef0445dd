//! Choices through one night: which to use, with its chance; the ranking; what would help.

use super::chance::{self, percent, percent_required};
use super::columns::Table;
use super::improvements;
use super::inputs::{clock, setting};
use super::model::{Block, Fact, Report, Section};
use super::provenance::Provenance;
use super::ranking::{Listed, listed, marks, ranked_by, ranking, reading, units};
use super::recommend::answer;
use super::warning::in_short;
use super::{cautions, circuit, heat, night, verdict};
use crate::findings::Findings;
use crate::night::Night;
use crate::quantity::Units;
use crate::study::compare::{BestStart, Chances, ChoiceChance, Comparison};
use crate::study::paired::Verdict;
use crate::study::rank::Group;
use serde_json::{Value, json};

/// The report of a comparison of this title.
pub fn report(title: &str, comparison: &Comparison, from: &Provenance) -> Report {
    let listed = listed(comparison);
    let units = listed.first().map_or(Units::default(), |c| units(c.night));
    let chances = comparison.chances.as_ref();
    let words = |units| answer(comparison, units).join(" ");
    let choices: Value = listed.iter().map(of_choice).collect();
    let uncertainty = chances.zip(listed.first());
    let uncertainty = uncertainty.map(|(chances, first)| for_programs(chances, first.night));
    let mut report = Report::of_scenario("compare", title, from)
        .with(Section::new("").block(Block::Say(Fact::new(
            "recommendation",
            "",
            words(Units::Celsius),
            words(units),
        ))))
        .with(Section::json([
            Fact::json("ranking_key", ranked_by(chances)),
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
    let improved = chances
        .improvements
        .iter()
        .map(|i| improvements::facts(i, first));
    json!({
        "nights": chances.count.nights,
        "seed": chances.count.seed,
        "target": chances.target,
        "choices": chances.choices.iter().map(|c| chance::bands(&c.bands)).collect::<Value>(),
        "pairs": chances.pairs.iter().map(pair).collect::<Value>(),
        "improvements": improved.collect::<Value>(),
    })
}

/// Where the heat of the choice that is recommended goes, and what it takes of the circuit.
fn of_chosen(name: &str, f: &Findings) -> Section {
    let heat = heat::shares(f).map(|shares| Fact::text("Heat", format!("last hour: {shares}")));
    // Programs read these in the choice itself.
    let circuit = circuit::facts(&f.circuit).into_iter();
    let circuit = circuit.map(|fact| Fact::text(fact.label, fact.cell.text));
    Section::wide(format!("With \"{name}\"")).facts(heat.into_iter().chain(circuit))
}

/// The choices at their own best start.
fn own_starts(listed: &[Listed], chances: &Chances) -> Section {
    let searched: Vec<(&Listed, &ChoiceChance)> = listed
        .iter()
        .filter_map(|c| Some((c, c.chance?)))
        .filter(|(_, chance)| chance.best.result().is_some())
        .collect();
    let target = percent_required(chances.target);
    let mut table = Table::of("", &searched).number("", "#", |(c, _)| c.place());
    if searched.iter().any(|(c, _)| c.is_shared()) {
        table = table.words("", "Choice", |(c, _)| c.name);
    }
    let table = table
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
    let fixed: Vec<String> = fixed.map(Listed::whose).collect();
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
    let rows = improvements::table(&chances.improvements, first.night, chances.target);
    Section::new("").block(rows)
}

/// The warnings of all choices, each once, with the choices it is of: `2, 5: ...`.
fn warnings(listed: &[Listed], units: Units) -> Vec<String> {
    let mut all: Vec<(String, Vec<usize>)> = Vec::new();
    for choice in listed {
        let harm = verdict::do_not_use(choice.findings());
        let often = choice
            .chance
            .map_or(Vec::new(), |c| chance::hazards(&c.bands));
        let warnings = choice
            .findings()
            .warnings
            .iter()
            .map(|w| in_short(w, units));
        let water = too_wet(choice);
        for text in harm.into_iter().chain(often).chain(water).chain(warnings) {
            match all.iter_mut().find(|(known, _)| *known == text) {
                Some((_, places)) => places.push(choice.number),
                None => all.push((text, vec![choice.number])),
            }
        }
    }
    let line = |(text, numbers): (String, Vec<usize>)| {
        let (shared, own): (Vec<usize>, Vec<usize>) =
            numbers.into_iter().partition(|n| listed[n - 1].is_shared());
        let named = shared.iter().map(|n| listed[n - 1].whose());
        let whose: Vec<String> = spans(&own).into_iter().chain(named).collect();
        format!("{}: {text}", whose.join(", "))
    };
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

/// Rising numbers: `2 to 5` and `7`.
fn spans(numbers: &[usize]) -> Vec<String> {
    let runs = numbers.chunk_by(|a, b| a + 1 == *b);
    let span = |run: &[usize]| match run {
        [first, _, .., last] if run.len() > 2 => vec![format!("{first} to {last}")],
        few => few.iter().map(usize::to_string).collect(),
    };
    runs.flat_map(span).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_in_a_row_are_spans() {
        assert_eq!(spans(&[2, 3, 4, 5, 7]), ["2 to 5", "7"]);
        assert_eq!(spans(&[1, 2, 6]), ["1", "2", "6"]);
    }
}
