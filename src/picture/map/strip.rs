//! A night as a strip of small pictures, one after the other: what warms first, and what last.

use super::drawing::{self, Drawing};
use super::engine_map::Map;
use super::paint::{engine, words};
use super::sheet::{self, MARGIN, PANEL, WIDTH};
use crate::picture::draw::colour::{BACKGROUND, MUTED, Theme};
use crate::picture::draw::{Anchor, Area, Picture, Point, Shape, Stroke, TextStyle, Words};
use crate::quantity::Temperature;

/// Most pictures of a strip.
pub const MOST: usize = 96;
/// Pictures side by side, and the white between them.
const COLUMNS: usize = 6;
const GAP: f64 = 14.0;
/// Room for the words over each.
const WORDS: f64 = 40.0;
/// Height of the heading, and of the scale at the foot.
const HEAD: f64 = 44.0;
const FOOT: f64 = 74.0;

/// The strip of these seconds after the beginning.
pub fn strip(map: &Map, times_s: &[f64], theme: Theme) -> Picture {
    let title = &map.night.scenario.scenario().title;
    let clock = map.night.scenario.clock();
    let drawing = few(&map.drawing);
    let first = &map.drawing.views[0];
    let last = &map.drawing.views[drawing.views.len() - 1];
    let (from, to) = (first.from, (first.to.0.max(last.to.0), last.to.1));
    let wide = (WIDTH - 2.0 * MARGIN - GAP * (COLUMNS - 1) as f64) / COLUMNS as f64;
    let zoom = wide / (to.0 - from.0);
    let high = WORDS + zoom * (to.1 - from.1) + GAP;
    let rows = times_s.len().div_ceil(COLUMNS);
    let size = (WIDTH, HEAD + rows as f64 * high + FOOT);
    let mut shapes = vec![words(&sheet::heading(title), theme)];
    for (k, time_s) in times_s.iter().enumerate() {
        let moment = map.moment(*time_s);
        let colours = map.colours(&moment);
        let x = MARGIN + (wide + GAP) * (k % COLUMNS) as f64;
        let y = HEAD + high * (k / COLUMNS) as f64;
        let mut write = |text: String, down: f64, style: TextStyle| {
            let text = Words::new(text, (x, y + down), Anchor::Start, style);
            shapes.push(words(&text, theme));
        };
        write(clock.dated(*time_s), 8.0, TextStyle::bold(12.0));
        if let Some(coldest) = &moment.coldest {
            let told = format!(
                "coldest {}",
                Temperature::degC(coldest.temp_c).told(map.units())
            );
            let told = told.replace(" -", " \u{2212}");
            write(told, 24.0, TextStyle::plain(12.0, MUTED));
        }
        let corner = (x - zoom * from.0, y + WORDS - zoom * from.1);
        let engine = engine(&drawing, &colours, theme).into_iter();
        shapes.extend(engine.map(|shape| small(shape, zoom, corner)));
    }
    let (left, top) = ((WIDTH - PANEL) / 2.0, size.1 - FOOT + 10.0);
    shapes.extend(map.panel().bar((left, top), theme));
    Picture {
        size,
        background: theme.shown(BACKGROUND),
        title: title.clone(),
        description: format!(
            "{} pictures of the engine through the night.",
            times_s.len()
        ),
        shapes,
    }
}

/// An area as it is drawn in a small picture; lines and words are not.
fn small(shape: Shape, zoom: f64, corner: Point) -> Shape {
    match shape {
        Shape::Area(area) => Shape::Area(Area {
            outline: area.outline.placed(zoom, corner),
            edge: area.edge.map(|edge| Stroke {
                width: zoom * edge.width,
                ..edge
            }),
            ..area
        }),
        other => other,
    }
}

/// The first view, and the second under it where places in both are places in the engine; no words.
fn few(drawing: &Drawing) -> Drawing {
    let views: Vec<_> = drawing
        .views
        .iter()
        .take(2)
        .filter(|v| v.scenic)
        .cloned()
        .collect();
    let kept = views.len().max(1);
    let shapes: Vec<drawing::Shape> = drawing
        .shapes
        .iter()
        .filter(|s| s.view < kept)
        .cloned()
        .collect();
    Drawing {
        size: drawing.size,
        subjects: drawing.subjects.clone(),
        views: drawing.views[..kept].to_vec(),
        shapes,
        ..Drawing::default()
    }
}
