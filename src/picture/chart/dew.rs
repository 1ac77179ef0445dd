//! The moisture inside by the hours: how far each group of walls stands above the dew point, and the water on them.

use super::figure::Figure;
use super::line::{Line, PLAIN, look, points};
use super::numbers::slug;
use super::panel::{Limit, Panel};
use super::stack::Stack;
use super::temperature::{condensing, counted, heaters};
use super::view::{Chart, ChartView, Unit};
use crate::findings::DewMarginSeries;
use crate::picture::draw::{Size, colour};
use crate::trace::Trace;

/// How high its panels are, in pixels.
const HIGH: f64 = 190.0;

/// The chart.
pub fn dew(trace: &Trace, view: &ChartView) -> Chart {
    let Some(course) = DewMarginSeries::of(trace) else {
        let found = "No condensation computed: this engine has no air inside".to_owned();
        let what = "dew point and water on the inner walls";
        return Figure::of(trace, view, (found, what), vec![], heaters(trace)).chart();
    };
    let line = |k: usize, what: &str, name: &str, values: Vec<f64>| Line {
        key: format!("{}_{what}", slug(name)),
        name: name.to_owned(),
        points: points(trace, values),
        ribbon: None,
        colour: look(k).0,
        width: PLAIN,
        dashes: look(k).1,
    };
    let panel = |unit: Unit, heading: &str, lines: Vec<Line>, limits: Vec<Limit>| Panel {
        unit,
        heading: heading.to_owned(),
        high: HIGH,
        range: None,
        lines,
        stack: Stack::default(),
        limits,
    };
    let groups = || course.groups.iter().enumerate();
    let margins = groups().map(|(k, g)| {
        let told = g.margin_k.iter().map(|kelvin| view.units.step(*kelvin));
        line(k, "above_dew_point", g.label(), told.collect())
    });
    let mut water: Vec<Line> = groups()
        .map(|(k, g)| line(k, "water", g.label(), g.grams.clone()))
        .collect();
    if let Some(oil) = &course.oil_water_g {
        water.push(Line {
            colour: colour::MUTED,
            ..line(0, "water", "in the oil", oil.clone())
        });
    }
    let zero = Limit {
        value: 0.0,
        name: "dew point inside".to_owned(),
    };
    let panels = vec![
        panel(
            Unit::step(view.units),
            match view.look.size {
                Size::Phone => "Coldest wall above dew point",
                _ => "Coldest wall of each group above the dew point of the air inside",
            },
            margins.collect(),
            vec![zero],
        ),
        panel(
            Unit::GRAMS,
            "Water on the walls and in the oil",
            water,
            vec![],
        ),
    ];
    let mut strips = heaters(trace);
    let wet = condensing(&course);
    let found = match wet.spans.first() {
        Some((from, _)) => format!(
            "Water condenses inside the engine from {}",
            view.clock.dated(*from)
        ),
        None => "No water condenses inside the engine".to_owned(),
    };
    strips.push(wet);
    let what = format!("inner walls and dew point; {}", counted());
    Figure::of(trace, view, (found, &what), panels, strips).chart()
}
