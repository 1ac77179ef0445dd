//! Fills the page's template.

use super::data::{Drawn, Frame, Page, Row};
use super::{budget, card, steps};
use crate::findings::dangers;
use crate::night::Night;
use crate::quantity::Units;
use crate::report::canvas::DrawError;
use crate::report::cautions::{CAUTIONS, TRUST};
use crate::report::chart::{ChartView, Show, of_night};
use crate::report::comparison_text::setting;
use crate::report::ink::Paper;
use crate::report::map::{Map, STYLE};
use crate::report::phrase::{difference, finely, reach, temperature};
use crate::report::provenance::Provenance;
use crate::report::{asked, night_text};
use crate::scenario::engine::Engine;
use crate::scenario::unknowns::{Basis, Unknowns};
use minijinja::value::{Serde, Value};
use minijinja::{AutoEscape, Environment, context};

/// The template; what is put into it is escaped, but for pictures that we drew.
const TEMPLATE: &str = include_str!("page.html");
/// Uncertain numbers of the night that are told one by one.
const UNKNOWNS: usize = 6;

/// The page of a night; `engine` is what its file is called.
///
/// *Errors*: the drawing or the template failed, which is a fault of the program.
pub fn html(night: &Night, engine: &str, from: &Provenance) -> Result<String, DrawError> {
    let page = page(night, engine, from)?;
    let mut room = Environment::new();
    room.set_auto_escape_callback(|_| AutoEscape::Html);
    let template = room.template_from_str(TEMPLATE).map_err(DrawError::of)?;
    template
        .render(context! { page => Value::from(Serde(&page)) })
        .map_err(DrawError::of)
}

fn page(night: &Night, engine: &str, from: &Provenance) -> Result<Page, DrawError> {
    let scenario = night.scenario.scenario();
    let (f, units) = (&night.findings, scenario.units);
    let map = Map::of(night);
    let view = ChartView {
        title: "Temperatures through the night",
        // The chart says what its lines are.
        subtitle: "",
        clock: night.scenario.clock(),
        units,
        threshold: scenario.question.threshold,
        // A page is printed.
        paper: Paper::Light,
    };
    let chart = of_night(Show::Temperature, &night.trace, &view)?.svg;
    Ok(Page {
        title: scenario.title.clone(),
        ready: f.ready.ready_at_departure,
        verdict: night_text::verdict(f, units),
        dangers: dangers(&f.warnings)
            .into_iter()
            .map(str::to_owned)
            .collect(),
        warnings: f.warnings.iter().map(|w| w.told(units)).collect(),
        setting: setting(night),
        asked: asked::told(night, engine, u16::MAX)
            .lines()
            .map(str::to_owned)
            .collect(),
        threshold: finely(scenario.question.threshold.celsius(), units),
        groups: groups(night, units),
        numbers: numbers(night, units),
        parts: parts(night, units),
        chart,
        map: drawn(&map),
        steps: steps::steps(night, &map),
        budget: budget::rows(night),
        card: card::card(night),
        trust: TRUST.to_owned(),
        notes: from
            .notes
            .iter()
            .chain(&from.hard_to_believe)
            .cloned()
            .collect(),
        unknowns: unknowns(night),
        cautions: CAUTIONS.iter().map(|c| (*c).to_owned()).collect(),
        version: from.version.to_owned(),
        command: from.typed(),
        inputs: from
            .inputs
            .iter()
            .map(|i| row(&i.name, [i.sha256.clone()]))
            .collect(),
    })
}

fn row<const N: usize>(name: &str, cells: [String; N]) -> Row {
    Row {
        name: name.to_owned(),
        cells: cells.to_vec(),
        strong: false,
    }
}

fn drawn(map: &Map) -> Drawn {
    let boxes = map.boxes().into_iter().map(|(title, (from, to))| {
        let (left, top) = (from.0.round() as i32, from.1.round() as i32);
        let size = (to.0.round() as i32 - left, to.1.round() as i32 - top);
        Frame {
            view: format!("{left} {top} {} {}", size.0, size.1),
            size,
            title,
        }
    });
    Drawn {
        style: STYLE.to_owned(),
        still: map.still(),
        boxes: boxes.collect(),
    }
}

fn groups(night: &Night, units: Units) -> Vec<Row> {
    let f = &night.findings;
    let groups = f.groups_c.iter().map(|group| {
        let warm = f.threshold.readings.iter().find(|r| r.key == group.key);
        let warm = warm.map_or(String::new(), |r| reach(&r.reach));
        row(&group.label, [temperature(group.temp_c, units), warm])
    });
    let coldest = f.coldest.iter().map(|c| Row {
        strong: true,
        ..row(
            &format!("coldest: {}", c.label),
            [finely(c.temp_c, units), reach(&f.threshold.all_parts)],
        )
    });
    groups.chain(coldest).collect()
}

fn numbers(night: &Night, units: Units) -> Vec<Row> {
    let f = &night.findings;
    let mut rows = Vec::new();
    if let Some(oil) = &f.oil {
        let told = format!(
            "{}, {:.0} mm²/s",
            temperature(oil.temp_c, units),
            oil.viscosity_mm2_s
        );
        rows.push(row("oil at departure", [told]));
    }
    if let Some(water) = &f.condensation {
        rows.push(row(
            "water on the upper walls inside",
            [format!("{:.1} g", water.upper_g)],
        ));
        rows.push(row(
            "some inner wall gathers water",
            [format!("{:.1} h", water.hours)],
        ));
    }
    let cost = f
        .energy
        .cost
        .map_or(String::new(), |c| format!(", {c:.2} {}", f.energy.currency));
    rows.push(row("energy", [format!("{:.1} kWh{cost}", f.energy.kwh)]));
    let circuit = &f.circuit;
    let load = format!(
        "{:.1} A on a breaker of {:.0} A",
        circuit.peak_current_a, circuit.breaker_a
    );
    rows.push(row("heaters together at most", [load]));
    rows
}

fn parts(night: &Night, units: Units) -> Vec<Row> {
    let parts = night.findings.parts.iter().map(|p| {
        let margin = difference(p.margin_k, units);
        row(
            &p.label,
            [temperature(p.temp_c, units), reach(&p.reached), margin],
        )
    });
    parts.collect()
}

/// What is uncertain: the night's own numbers one by one, those of the engine counted.
fn unknowns(night: &Night) -> Vec<String> {
    let scenario = night.scenario.scenario();
    let basis = |b: Basis| match b {
        Basis::measured => "measured",
        Basis::published => "published",
        Basis::estimated => "estimated",
        Basis::adjusted_to_practice_readings => "adjusted to practice readings",
    };
    let of: &Unknowns = &scenario.unknowns;
    let mut told: Vec<String> = of
        .iter()
        .take(UNKNOWNS)
        .map(|(key, u)| {
            let unit = u.unit.as_deref().map_or(String::new(), |u| format!(" {u}"));
            format!(
                "{key}: {} to {}{unit}, {} ({})",
                u.low,
                u.high,
                basis(u.basis),
                u.source
            )
        })
        .collect();
    if of.len() > UNKNOWNS {
        told.push(format!("{} more numbers of the night", of.len() - UNKNOWNS));
    }
    let engine = match &scenario.engine {
        Engine::opposed(layout) => layout.unknowns.len(),
        Engine::body(body) => body.unknowns.len(),
    };
    if engine > 0 {
        told.push(format!(
            "{engine} numbers of the engine are uncertain; `coldsoak spread` says which of them matter most on such a night"
        ));
    }
    told
}
