//! The answer: when to switch on, in the first line, and all that it rests on.

use super::words::Words;
use super::{json, never, plan};
use crate::report::compare::setting;
use crate::report::model::{Fact, Report, Section};
use crate::report::provenance::Provenance;
use crate::report::{cautions, circuit, warning};
use crate::scenario::document::Scenario;
use crate::study::when::{Planned, SCAN_MIN, Verdict, When, grid_step};

/// The report of an answer for a scenario.
pub fn report(when: &When, scenario: &Scenario, from: &Provenance) -> Report {
    let words = Words::of(when, scenario);
    let night = when.night();
    let answer = match &when.verdict {
        Verdict::Planned(planned) => switch_on(&words, planned),
        Verdict::Never(_) => none(&words),
    };
    let mut report = Report::of_scenario("when", &scenario.title, from)
        .with(Section::new("").say([answer]))
        .with(Section::json(json::facts(&words)))
        .with(Section::new("").facts(setting(&scenario.title, night)));
    let sections = match &when.verdict {
        Verdict::Planned(planned) => plan::sections(&words, planned),
        Verdict::Never(found) => never::sections(&words, found),
    };
    report.sections.extend(sections);
    let unsolved = when.unsolved.iter().map(|failed| {
        let change = words.change(&failed.change);
        format!(
            "Not known: {change}. That night could not be computed: {}.",
            failed.why
        )
    });
    // Programs read the whole circuit.
    let circuit = circuit::facts(&night.findings.circuit).into_iter();
    let circuit = circuit.map(|fact| Fact::text(fact.label, fact.cell.text));
    report
        .with(Section::new("").say(unsolved))
        .with(
            Section::new("Latest start of each heater, the others as in the file")
                .facts(alone(&words)),
        )
        .with(Section::new("Circuit").facts(circuit))
        .with(
            Section::new("Warnings").list("warnings", warning::cells(&night.findings, words.units)),
        )
        .with(cautions::section())
}

/// What to switch on at which time.
fn switch_on(words: &Words, planned: &Planned) -> String {
    let leave = words.departure();
    if planned.needs_no_heat() {
        return format!(
            "No heating is required: ready at {leave} without it, {}.",
            words.above(planned.night.findings.ready.margin_k)
        );
    }
    let (mut on, mut off) = (Vec::new(), Vec::new());
    for (&heater, &minutes) in words.when.switches.heaters.iter().zip(&planned.starts) {
        let name = words.name(heater);
        match minutes {
            0 => off.push(format!(" \"{name}\" is not required.")),
            m => on.push(format!(
                "\"{name}\" at {} ({:.1} h before)",
                words.before(m),
                m as f64 / 60.0
            )),
        }
    }
    format!(
        "Switch on {} at the latest, to be ready at {leave}.{}",
        on.join(" and "),
        off.concat()
    )
}

/// That no time is ready.
fn none(words: &Words) -> String {
    let most = words.when.switches.most;
    let tried = match words.when.switches.heaters.len() {
        2 => format!(
            "No pair of switch-on times, tried every {} minutes,",
            grid_step(most)
        ),
        _ => format!("No switch-on time, tried every {SCAN_MIN} minutes,"),
    };
    format!(
        "{tried} makes the engine ready at {}. Heating all night, from {}, is not enough.",
        words.departure(),
        words.before(most)
    )
}

/// Each heater's latest start while the others keep the hours of the file.
fn alone(words: &Words) -> Vec<Fact> {
    let each = words.when.alone.iter();
    each.map(|alone| {
        let at = match alone.search.found {
            Some(0) => "not required".to_owned(),
            Some(minutes) => words.before(minutes),
            None => "no start is ready".to_owned(),
        };
        Fact::text(words.name(alone.heater), at)
    })
    .collect()
}
