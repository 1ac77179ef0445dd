//! Lays the drawing of an engine out on a sheet: three views of an opposed one, a ring where cylinders stand round the
//! crankcase, and the parts by the air they meet where nothing is known of where they are.
//!
//! On a page the panel is beside the first view, on a telephone everything is one column, and a projector shows the
//! first view that fits and the panel.

use super::drawing::Drawing;
use super::measures::{Measures, Scale};
use super::pen::Pen;
use super::{above, bands, front, ring, side};
use crate::night::Night;
use crate::picture::draw::{Point, Size};
use crate::scenario::body::Body;
use crate::scenario::engine::{Engine, Layout};
use std::collections::BTreeSet;

/// Left free round everything.
pub const MARGIN: f64 = 16.0;
/// Between two pieces.
const GAP: f64 = 28.0;
/// Room for the title of a view.
const TITLE: f64 = 26.0;

/// Room on a sheet for pieces: where the headings end, and the size and the place of the panel.
#[derive(Debug, Clone, Copy)]
pub struct Room {
    /// What the picture is made for.
    pub size: Size,
    /// The foot of the headings.
    pub top: f64,
    /// The width and the height of the panel.
    pub panel: Point,
}

/// How a view is drawn.
type Draw = fn(&mut Pen, &Measures);

impl Room {
    /// From the left to the right margin.
    fn wide(&self) -> f64 {
        self.size.width() - 2.0 * MARGIN
    }
    /// The width beside the panel, if it stands at the right.
    fn beside(&self) -> f64 {
        self.wide() - self.panel.0 - GAP
    }
    /// The height under the headings and the title of a view, where it is given.
    fn high(&self) -> f64 {
        let high = self.size.height().map(|h| h - self.top - TITLE - MARGIN);
        high.unwrap_or(f64::INFINITY)
    }
    /// The panel at the right of the first view; at the top where all is one column.
    fn panel_at(&self) -> Point {
        match self.size {
            Size::Phone => (MARGIN, self.top),
            _ => (MARGIN + self.wide() - self.panel.0, self.top + TITLE),
        }
    }
    /// Where the first view begins.
    fn first(&self) -> f64 {
        let panel = match self.size {
            Size::Phone => self.panel.1 + GAP,
            _ => 0.0,
        };
        self.top + panel + TITLE
    }
}

/// The drawing of a night's engine.
pub fn drawing(night: &Night, room: &Room) -> Drawing {
    let mut drawing = Drawing {
        panel: room.panel_at(),
        ..Drawing::default()
    };
    let foot = match &night.scenario.scenario().engine {
        Engine::opposed(layout) => three_views(&mut drawing, night, layout, room),
        Engine::body(body) => by_contact(&mut drawing, night, body, room),
    };
    let foot = foot.max(drawing.panel.1 + room.panel.1) + MARGIN;
    drawing.size = (room.size.width(), room.size.height().unwrap_or(foot));
    drawing
}

/// A ring and the other parts, or all parts where no ring is known; gives the lower edge.
fn by_contact(drawing: &mut Drawing, night: &Night, body: &Body, room: &Room) -> f64 {
    let top = room.first();
    let wide = match room.size {
        Size::Phone => room.wide(),
        _ => room.beside(),
    };
    let across = (2.0 * ring::RADIUS).min(wide).min(room.high());
    let ring = ring::draw(drawing, night, body, ((MARGIN, top), across));
    let Some(ring) = ring else {
        let none = BTreeSet::new();
        let place = ((MARGIN, top), (wide, room.high()));
        return bands::draw(drawing, night, body, &none, place);
    };
    let foot = top + across;
    match room.size {
        Size::Projector => foot,
        Size::Phone => {
            let place = ((MARGIN, foot + GAP + TITLE), (wide, f64::INFINITY));
            bands::draw(drawing, night, body, &ring, place)
        }
        Size::Page => {
            drawing.panel = (MARGIN, foot + GAP);
            let left = MARGIN + across + GAP;
            let wide = MARGIN + room.wide() - left;
            let place = ((left, top), (wide, f64::INFINITY));
            bands::draw(drawing, night, body, &ring, place).max(foot + GAP + room.panel.1)
        }
    }
}

fn three_views(drawing: &mut Drawing, night: &Night, layout: &Layout, room: &Room) -> f64 {
    let m = Measures::of(layout);
    let (long, wide) = (m.firewall + 0.06 - m.front, 2.0 * (m.cowl + 0.03));
    let (plan, tall) = (2.0 * (m.cowl + above::SKIN), m.roof + m.floor + 2.0 * 0.05);
    let per_metre = match room.size {
        Size::Page => (room.wide() - GAP) / (long + wide),
        Size::Phone => room.wide() / long.max(wide),
        Size::Projector => (room.beside() / long).min(room.high() / tall),
    };
    let px = |metres: f64| metres * per_metre;
    let mut view = |title: &str, from: Point, size: Point, origin: Point, draw: Draw| {
        let to = (from.0 + px(size.0), from.1 + px(size.1));
        let view = drawing.view(title, from, to);
        let origin = (from.0 + px(origin.0), from.1 + px(origin.1));
        let mut pen = Pen {
            legend: &night.trace.legend,
            view,
            scale: Scale { per_metre, origin },
            drawing,
        };
        draw(&mut pen, &m);
        to.1
    };
    let nose = 0.03 - m.front;
    let roof = m.roof + 0.05;
    let mut from = (MARGIN, room.first());
    let title = "From the left, cut along the crankshaft";
    if room.size == Size::Projector {
        return view(title, from, (long, tall), (nose, roof), side::draw);
    }
    let from_above = "From above, its left below";
    let foot = view(
        from_above,
        from,
        (long, plan),
        (nose, plan / 2.0),
        above::draw,
    );
    from.1 = match room.size {
        Size::Phone => foot,
        _ => foot.max(room.top + TITLE + room.panel.1),
    } + GAP
        + TITLE;
    let foot = view(title, from, (long, tall), (nose, roof), side::draw);
    let from = match room.size {
        Size::Phone => (MARGIN, foot + GAP + TITLE),
        _ => (MARGIN + px(long) + GAP, from.1),
    };
    let title = "From the front, its left on the right";
    view(title, from, (wide, tall), (wide / 2.0, roof), front::draw).max(foot)
}
