//! What the page of one night says.

use super::data::{Frame, Page, Row};
use super::{budget, card, chart, fill, rests, steps};
use crate::night::Night;
use crate::picture::chart::{Show, of_night};
use crate::picture::draw::DrawError;
use crate::picture::map::Map;
use crate::quantity::Units;
use crate::report::format::{LOST, LOST_MEANS, difference, finely, reach, temperature};
use crate::report::provenance::Provenance;
use crate::report::warning::sentence;
use crate::report::{inputs, verdict};

/// The page of a night; `engine` is the name of the engine's file.
///
/// *Errors*: the drawing or the template failed, which is a fault of the program.
pub fn html(night: &Night, engine: &str, from: &Provenance) -> Result<String, DrawError> {
    fill::filled("night.html", &page(night, engine, from)?)
}

fn page(night: &Night, engine: &str, from: &Provenance) -> Result<Page, DrawError> {
    let scenario = night.scenario.scenario();
    let (f, units) = (&night.findings, scenario.units);
    let map = Map::of(night);
    let chart = chart::both(night, "Temperatures through the night", |view| {
        of_night(Show::Temperature, &night.trace, view)
    });
    let groups = groups(night, units);
    let (still, steps) = steps::steps(night, &map);
    Ok(Page {
        title: scenario.title.clone(),
        ready: f.ready.ready_at_departure,
        verdict: verdict::sentence(night),
        more: verdict::small_margin(f, units).into_iter().collect(),
        dangers: verdict::harm(f).into_iter().map(str::to_owned).collect(),
        warnings: f.warnings.iter().map(|w| sentence(w, units)).collect(),
        setting: inputs::setting(night),
        asked: inputs::lines(night, engine),
        threshold: finely(scenario.question.threshold.celsius(), units),
        lost: lost(&groups).then_some(LOST_MEANS),
        groups,
        numbers: numbers(night, units),
        parts: parts(night, units),
        chart,
        boxes: boxes(&map),
        still,
        steps,
        budget: budget::budget(night, None),
        card: card::card(night),
        rests: rests::rests(night, from),
    })
}

/// Whether some group was warm enough and did not stay so.
fn lost(groups: &[Row]) -> bool {
    groups.iter().any(|row| row.cells.iter().any(|c| c == LOST))
}

fn boxes(map: &Map) -> Vec<Frame> {
    let boxes = map.boxes().into_iter().map(|(title, (from, to))| {
        let (left, top) = (from.0.round() as i32, from.1.round() as i32);
        let size = (to.0.round() as i32 - left, to.1.round() as i32 - top);
        Frame {
            view: format!("{left} {top} {} {}", size.0, size.1),
            size,
            title,
        }
    });
    boxes.collect()
}

fn groups(night: &Night, units: Units) -> Vec<Row> {
    let f = &night.findings;
    let groups = f.groups_c.iter().map(|group| {
        let warm = f.threshold.readings.iter().find(|r| r.key == group.key);
        let warm = warm.map_or(String::new(), |r| reach(&r.reach));
        Row::of(&group.label, [temperature(group.temp_c, units), warm])
    });
    let coldest = f.coldest.iter().map(|c| Row {
        strong: true,
        ..Row::of(
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
        rows.push(Row::of("oil at departure", [told]));
    }
    if let Some(water) = &f.condensation {
        rows.push(Row::of(
            "water on the upper walls inside",
            [format!("{:.1} g", water.upper_g)],
        ));
        rows.push(Row::of(
            "some inner wall gathers water",
            [format!("{:.1} h", water.hours)],
        ));
    }
    let cost = f
        .energy
        .cost
        .map_or(String::new(), |c| format!(", {c:.2} {}", f.energy.currency));
    rows.push(Row::of(
        "energy",
        [format!("{:.1} kWh{cost}", f.energy.kwh)],
    ));
    let circuit = &f.circuit;
    let load = format!(
        "{:.1} A on a breaker of {:.0} A",
        circuit.peak_current_a, circuit.breaker_a
    );
    rows.push(Row::of("heaters together at most", [load]));
    rows
}

fn parts(night: &Night, units: Units) -> Vec<Row> {
    let parts = night.findings.parts.iter().map(|p| {
        let margin = difference(p.margin_k, units);
        Row::of(
            &p.label,
            [temperature(p.temp_c, units), reach(&p.reached), margin],
        )
    });
    parts.collect()
}
