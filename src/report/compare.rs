//! Choices through one night: which to use, the ranking, how certain it is.

use super::columns::{Show, Table};
use super::format::{LOST_MEANS, difference, finely, reach, temperature};
use super::model::{Block, Fact, Report, Section};
use super::provenance::Provenance;
use super::recommend::{advice, near_tie};
use super::warning::sentence;
use super::{cautions, circuit, heat, inputs, night, uncertainty};
use crate::findings::{Findings, RANKING_KEY, Unmet, hazards};
use crate::night::Night;
use crate::quantity::Units;
use crate::study::compare::Comparison;
use serde_json::Value;

/// The report of a comparison of this title.
pub fn report(title: &str, comparison: &Comparison, from: &Provenance) -> Report {
    let nights = &comparison.nights;
    let units = nights.first().map_or(Units::default(), units);
    let words = |units| advice(nights, units).join(" ");
    let choices = nights.iter();
    let choices: Value = choices
        .map(|(name, night)| night::choice(name, &night.findings))
        .collect();
    let mut report = Report::of_scenario("compare", title, from)
        .with(Section::new("").block(Block::Say(Fact::new(
            "recommendation",
            "",
            words(Units::Celsius),
            words(units),
        ))))
        .with(Section::json([
            Fact::json("ranking_key", RANKING_KEY),
            Fact::json("choices", choices),
        ]));
    if let Some((_, first)) = nights.first() {
        report = report
            .with(Section::new("").facts(setting(title, first)))
            .with(Section::new("").block(ranking(nights, units)))
            .with(Section::new("").say([reading(first)]).say(marks(nights)));
    }
    report = report.with(match &comparison.paired {
        Some(paired) => uncertainty::section(paired, units),
        None => Section::json([Fact::json("uncertainty", Value::Null)]),
    });
    if let Some((name, night)) = comparison.recommended() {
        report = report.with(of_chosen(name, &night.findings));
    }
    let warnings = nights.iter().flat_map(|(name, night)| {
        let each = night.findings.warnings.iter();
        each.map(move |w| format!("{name}: {}", sentence(w, units)))
    });
    report
        .with(Section::new("Warnings").list("", warnings))
        .with(cautions::section())
}

fn units((_, night): &(String, Night)) -> Units {
    night.scenario.scenario().units
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

/// Where the heat of the choice that is recommended goes, and what it asks of the circuit.
fn of_chosen(name: &str, f: &Findings) -> Section {
    let heat = heat::shares(f).map(|shares| Fact::text("Heat", format!("last hour: {shares}")));
    // Programs read these in the choice itself.
    let circuit = circuit::facts(&f.circuit).into_iter();
    let circuit = circuit.map(|fact| Fact::text(fact.label, fact.cell.text));
    Section::new(format!("With \"{name}\"")).facts(heat.into_iter().chain(circuit))
}

/// The choices, a row each, the best first.
pub fn ranking(nights: &[(String, Night)], units: Units) -> Table {
    let ranked: Vec<(usize, &str, &Findings)> = nights
        .iter()
        .enumerate()
        .map(|(k, (name, night))| (k + 1, name.as_str(), &night.findings))
        .collect();
    ranking_of(&ranked, units)
}

fn ranking_of(ranked: &[(usize, &str, &Findings)], units: Units) -> Table {
    let first = ranked.first().map(|r| r.2);
    let minimum = first.map_or(String::new(), |f| {
        temperature(f.threshold.threshold_c, units)
    });
    let currency = ranked.iter().find(|r| r.2.energy.cost.is_some());
    let currency = currency.map(|r| r.2.energy.currency.clone());
    let table = Table::of("", ranked)
        .number("", "#", |r| r.0.to_string())
        .words("", "Choice", |r| r.1)
        .words("", "Ready", |r| is_ready(r.2))
        .number("", "Margin", |r| {
            let margin = r.2.ready.margin_k;
            margin.map_or("-".to_owned(), |m| difference(m, units))
        })
        .number("", format!("To {minimum}"), |r| {
            reach(&r.2.threshold.all_parts)
        })
        .number("", "Wet", |r| {
            let water = r.2.condensation.as_ref();
            water.map_or("-".to_owned(), |c| format!("{:.1} h", c.hours))
        })
        .words("", COLDEST, |r| {
            r.2.coldest.as_ref().map_or("-", |c| c.label.as_str())
        })
        .number("", "kWh", |r| format!("{:.1}", r.2.energy.kwh))
        .number("", "at", |r| coldest_at(r.2, units))
        .shown(Show::Wide)
        .number("", "Water", |r| {
            let water = r.2.condensation.as_ref();
            water.map_or("-".to_owned(), |c| format!("{:.1} g", c.upper_g))
        })
        .shown(Show::Wide)
        .number("", "Oil", |r| {
            let oil = r.2.oil.as_ref();
            oil.map_or("-".to_owned(), |o| temperature(o.temp_c, units))
        })
        .shown(Show::Wide)
        .number("", "mm²/s", |r| {
            let flag = |flagged| if flagged { "*" } else { "" };
            let oil = r.2.oil.as_ref();
            oil.map_or("-".to_owned(), |o| {
                format!("{:.0}{}", o.viscosity_mm2_s, flag(o.flagged))
            })
        })
        .shown(Show::Wide)
        .number("", "Peak A", |r| {
            format!("{:.1}", r.2.circuit.peak_current_a)
        })
        .shown(Show::Wide);
    match currency {
        None => table.table(),
        Some(currency) => {
            let cost = |f: &Findings| f.energy.cost.map_or("-".to_owned(), |c| format!("{c:.2}"));
            table
                .number("", currency, |r| cost(r.2))
                .shown(Show::Wide)
                .table()
        }
    }
}

/// The head of the column that holds names of parts.
pub const COLDEST: &str = "Coldest part";

fn is_ready(f: &Findings) -> &'static str {
    match f.ready.ready_at_departure {
        true if hazards(&f.warnings).is_empty() => "yes",
        true => "do not use",
        false if only_wet(f) => "wet",
        false => "no",
    }
}

/// Whether water is all that keeps an engine from being ready.
fn only_wet(f: &Findings) -> bool {
    let wet = |u: &Unmet| matches!(u, Unmet::Wet { .. });
    !f.ready.unmet.is_empty() && f.ready.unmet.iter().all(wet)
}

fn coldest_at(f: &Findings, units: Units) -> String {
    f.coldest.as_ref().map_or(String::new(), |c| {
        let near = f.ready.margin_k.is_some_and(|m| units.step(m).abs() < 0.95);
        match near {
            true => finely(c.temp_c, units),
            false => temperature(c.temp_c, units),
        }
    })
}

/// How the table of choices is to be read; of any night of it.
pub fn reading(night: &Night) -> String {
    let scenario = night.scenario.scenario();
    let minimum = temperature(scenario.criteria.min_temperature.celsius(), scenario.units);
    format!(
        "Margin: coldest part minus {minimum} at departure. To {minimum}: from the first switch-on until every part \
stays there. Wet: hours in which some inner wall gathers water. Ranked by: {RANKING_KEY}."
    )
}

/// What the marks in the table mean, those that are in it; and why a choice comes before one with a larger margin.
pub fn marks(nights: &[(String, Night)]) -> Vec<String> {
    let any = |mark: &dyn Fn(&Findings) -> bool| nights.iter().any(|n| mark(&n.1.findings));
    let marks = [
        (
            any(&|f| f.ready.ready_at_departure && !hazards(&f.warnings).is_empty()),
            "do not use: warm, but something gets too hot or the circuit is overloaded; see the warnings.",
        ),
        (
            any(&only_wet),
            "wet: warm, but not ready: more water on the upper inner walls than the limit.",
        ),
        (any(&|f| f.threshold.all_parts.lost()), LOST_MEANS),
        (
            any(&|f| f.oil.as_ref().is_some_and(|o| o.flagged)),
            "* near or below the pour point: the viscosity is extrapolated.",
        ),
    ];
    let marks = marks.into_iter().filter(|(any, _)| *any);
    let marks = marks.map(|(_, mark)| mark.to_owned());
    marks
        .chain(nights.windows(2).filter_map(near_tie))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawn_night;
    use crate::quantity::Temperature;

    fn drawn(ranked: &[(usize, &str, &Findings)], units: Units, width: u16) -> String {
        let table = ranking_of(ranked, units);
        Report::new("", "", None)
            .with(Section::new("").block(table))
            .text(width)
    }

    #[test]
    fn a_ranking_has_a_row_a_choice_and_a_never_is_a_never() {
        // Worked by hand from the made-up lines: the oil ends at -0.42 °C; it passes -5 °C 3.12 h after the heater
        // came on, when the hangar is at -11.2 °C; 250 W for 8 h at 120 V.
        let cool = drawn_night::findings(Temperature::degC(-5.0));
        let warm = drawn_night::findings(Temperature::degF(40.0));
        let ranked = [
            (1, "top, blowing right", &cool),
            (2, "the same with a higher minimum", &warm),
        ];
        let text = drawn(&ranked, Units::Fahrenheit, 110);
        let rows: Vec<Vec<&str>> = text
            .lines()
            .filter(|line| line.starts_with(['1', '2']))
            .map(|line| {
                line.split("  ")
                    .map(str::trim)
                    .filter(|c| !c.is_empty())
                    .collect()
            })
            .collect();
        assert_eq!(
            rows[0],
            [
                "1",
                "top, blowing right",
                "yes",
                "+8 °F",
                "3.1 h",
                "-",
                "oil",
                "2.0",
                "31 °F",
                "-",
                "31 °F",
                "5384",
                "2.1",
                "0.40"
            ],
            "{text}"
        );
        assert_eq!(rows[1][2..5], ["no", "-9 °F", "never"], "{text}");
    }

    #[test]
    fn a_ranking_is_no_wider_than_its_terminal() {
        let findings = drawn_night::findings(Temperature::degC(-5.0));
        let name = "a choice with a name that goes on for longer than anybody would care to read in a table";
        for width in [60, 80, 100, 120] {
            let text = drawn(&[(1, name, &findings)], Units::Celsius, width);
            let widest = text.lines().map(|l| l.chars().count()).max();
            assert!(widest <= Some(usize::from(width)), "{width}: {text}");
            // Numbers stay whole.
            for whole in ["3.1 h", "2.0", "oil"] {
                assert!(text.contains(whole), "{width}: {whole} in\n{text}");
            }
            assert_eq!(text.contains("5384"), width >= 110, "{width}: {text}");
        }
    }
}
