//! A night as a strip of small pictures, one after the other: what warms first, and what last.

use super::drawing::{self, Drawing};
use super::engine_map::Map;
use super::paint::{engine, words};
use super::sheet::MARGIN;
use crate::picture::draw::colour::{BACKGROUND, MUTED};
use crate::picture::draw::{Anchor, Area, Picture, Point, Shape, Size, Stroke, TextStyle, Words};
use crate::picture::text::NAME;

/// Most pictures of a strip.
pub const MOST: usize = 96;
/// Between two pictures.
const GAP: f64 = 14.0;
/// Room for the words over each.
const WORDS: f64 = 40.0;
/// Height of the scale at the foot.
const FOOT: f64 = 74.0;

/// The strip of these seconds after the beginning.
pub fn strip(map: &Map, times_s: &[f64]) -> Picture {
    let (theme, size) = (map.look.theme, map.look.size);
    let clock = map.night.scenario.clock();
    let drawing = few(&map.drawing);
    let first = &drawing.views[0];
    let last = &drawing.views[drawing.views.len() - 1];
    let (from, to) = (first.from, (first.to.0.max(last.to.0), last.to.1));
    let heading = map.heading(
        &map.moment(map.night.trace.departure_s),
        ", the engine through the night",
    );
    let (room, head) = (size.width() - 2.0 * MARGIN, heading.high() + 8.0);
    let wide = |columns: usize| (room - GAP * (columns - 1) as f64) / columns as f64;
    let high = |columns: usize| WORDS + wide(columns) / (to.0 - from.0) * (to.1 - from.1) + GAP;
    let foot = |columns: usize| {
        let rows = times_s.len().div_ceil(columns);
        head + rows as f64 * high(columns) + FOOT
    };
    let fits = |columns: &usize| size.height().is_none_or(|high| foot(*columns) <= high);
    let fewest = match size {
        Size::Page => 6,
        Size::Phone => 3,
        Size::Projector => 1,
    };
    let columns = (fewest..=MOST).find(fits).unwrap_or(MOST);
    let (wide, high) = (wide(columns), high(columns));
    let zoom = wide / (to.0 - from.0);
    let mut shapes: Vec<Shape> = heading
        .words(MARGIN)
        .iter()
        .map(|w| words(w, theme))
        .collect();
    for (k, time_s) in times_s.iter().enumerate() {
        let moment = map.moment(*time_s);
        let colours = map.colours(&moment);
        let x = MARGIN + (wide + GAP) * (k % columns) as f64;
        let y = head + high * (k / columns) as f64;
        let mut write = |text: String, down: f64, style: TextStyle| {
            let text = Words::new(text, (x, y + down), Anchor::Start, style);
            if text.style.width(&text.text) <= wide + GAP {
                shapes.push(words(&text, theme));
            }
        };
        write(clock.dated(*time_s), 8.0, TextStyle::bold(NAME));
        if let Some(coldest) = &moment.coldest {
            let told = map.units().temperature_text(coldest.temp_c);
            let told = format!("coldest {}", told.replace('-', "\u{2212}"));
            write(told, 25.0, TextStyle::plain(NAME, MUTED));
        }
        let corner = (x - zoom * from.0, y + WORDS - zoom * from.1);
        let engine = engine(&drawing, &colours, theme).into_iter();
        shapes.extend(engine.map(|shape| small(shape, zoom, corner)));
    }
    let sheet = (size.width(), size.height().unwrap_or(foot(columns)));
    let panel = map.panel();
    let left = (sheet.0 - panel.wide) / 2.0;
    shapes.extend(panel.bar((left, sheet.1 - FOOT + 10.0), theme));
    let picture = Picture {
        size: sheet,
        background: theme.shown(BACKGROUND),
        title: map.night.scenario.scenario().title.clone(),
        description: format!(
            "{} pictures of the engine through the night.",
            times_s.len()
        ),
        shapes,
    };
    picture.sized(size)
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
