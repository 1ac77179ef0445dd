//! Chooses the drawing of an engine: three views of an opposed one, a ring where cylinders stand round the crankcase,
//! and the parts by the air they meet where nothing is known of where they are.

use super::drawing::Drawing;
use super::measures::{Measures, Scale};
use super::pen::Pen;
use super::{above, bands, front, ring, side, tags};
use crate::night::Night;
use crate::picture::draw::{Anchor, Point, TextStyle, Words};
use crate::scenario::body::Body;
use crate::scenario::engine::{Engine, Layout};
use std::collections::BTreeSet;

/// Width of a sheet.
pub const WIDTH: f64 = 960.0;
/// Width of the panel beside the views.
pub const PANEL: f64 = 380.0;
/// Height of the panel beside the views.
pub const PANEL_HIGH: f64 = 430.0;
/// White round everything.
pub const MARGIN: f64 = 24.0;
/// Room for a heading of a sheet, and for the title of a view.
const HEADING: f64 = 46.0;
const TITLE: f64 = 26.0;

/// The drawing of a night's engine.
pub fn drawing(night: &Night) -> Drawing {
    match &night.scenario.scenario().engine {
        Engine::opposed(layout) => three_views(night, layout),
        Engine::body(body) => by_contact(night, body),
    }
}

/// A ring with the panel beneath and the other parts beside; without a ring, the parts with the panel beside.
fn by_contact(night: &Night, body: &Body) -> Drawing {
    let mut drawing = Drawing::default();
    let top = HEADING + TITLE;
    let ring = ring::draw(&mut drawing, night, body, (MARGIN, top));
    let (panel, left, right, taken) = match ring {
        Some(ring) => {
            let key = tags::key(&mut drawing, 0, (MARGIN, ring.right), ring.foot);
            (
                (MARGIN, ring.foot + key + TITLE),
                ring.right + 1.5 * MARGIN,
                WIDTH - MARGIN,
                ring.parts,
            )
        }
        None => {
            let beside = WIDTH - MARGIN - PANEL;
            let none = BTreeSet::new();
            ((beside, HEADING), MARGIN, beside - MARGIN, none)
        }
    };
    drawing.panel = panel;
    let foot = bands::draw(
        &mut drawing,
        night,
        body,
        &taken,
        ((left, top), right - left),
    );
    drawing.size = (WIDTH, foot.max(panel.1 + PANEL_HIGH) + MARGIN);
    drawing
}

fn three_views(night: &Night, layout: &Layout) -> Drawing {
    let m = Measures::of(layout);
    let skin = above::SKIN;
    let (long, wide) = (m.firewall + 0.06 - m.front, 2.0 * (m.cowl + 0.05));
    let per_metre = ((WIDTH - 3.0 * MARGIN) / (long + wide)).min(470.0);
    let px = |metres: f64| metres * per_metre;
    let mut drawing = Drawing::default();
    let (top, left) = (HEADING + TITLE, MARGIN);
    let high = px(2.0 * (m.cowl + skin));
    let axis = left + px(0.03 - m.front);
    let right = WIDTH - MARGIN - px(wide / 2.0);
    let mut view =
        |title: &str, from: Point, to: Point, origin, draw: &dyn Fn(&mut Pen, &Measures)| {
            let view = drawing.view(title, from, to);
            let legend = &night.trace.legend;
            let scale = Scale { per_metre, origin };
            let mut pen = Pen {
                drawing: &mut drawing,
                legend,
                view,
                scale,
            };
            draw(&mut pen, &m);
            to.1 + tags::key(&mut drawing, view, (from.0, to.0), to.1)
        };
    let to = (left + px(long), top + high);
    let key_foot = view(
        "From above, its left below, cylinders cut open",
        (left, top),
        to,
        (axis, top + high / 2.0),
        &above::draw,
    );
    let second = key_foot.max(HEADING + PANEL_HIGH) + TITLE + 18.0;
    let level = second + px(m.roof + 0.05);
    let foot = level + px(m.floor + 0.05);
    let to = (left + px(long), foot);
    let beside = view(
        "From the left, cut along the crankshaft",
        (left, second),
        to,
        (axis, level),
        &side::draw,
    );
    let from = (right - px(wide / 2.0), second);
    let to = (WIDTH - MARGIN, foot);
    let key_foot = view(
        "From the front, its left on the right",
        from,
        to,
        (right, level),
        &front::draw,
    );
    drawing.panel = (WIDTH - MARGIN - PANEL, HEADING);
    drawing.size = (WIDTH, beside.max(key_foot) + MARGIN);
    drawing
}

/// The heading of a sheet: the night's title, as much of it as there is room for.
pub fn heading(title: &str) -> Words {
    const LETTERS: usize = 86;
    let mut text: String = title.chars().take(LETTERS).collect();
    if title.chars().count() > LETTERS {
        text += "…";
    }
    Words::new(text, (MARGIN, 22.0), Anchor::Start, TextStyle::bold(15.0))
}
