//! Cylinders in a ring, where the model itself says so: an explicit engine whose cylinders, put round the crankcase
//! in their order with the first on top, meet the higher air above and the lower air below.

use super::drawing::{Drawing, Reading, Room};
use crate::night::Night;
use crate::picture::draw::{Outline, Point};
use crate::scenario::body::Body;
use crate::scenario::joint::Contact;
use std::collections::BTreeSet;
use std::f64::consts::TAU;

/// Fewest cylinders of a ring.
const FEWEST: usize = 3;
/// Radii: crankshaft, case, and outward to the outside of the cowl.
const CRANK: f64 = 34.0;
const CASE: f64 = 72.0;
const HEADS: f64 = 158.0;
const AIR: f64 = 192.0;
/// That of the whole ring, at most.
pub const RADIUS: f64 = 202.0;

/// Draws the ring, its upper left corner and its width given, and gives the parts in it; none if the cylinders of the
/// model do not stand in one.
pub fn draw(
    drawing: &mut Drawing,
    night: &Night,
    body: &Body,
    (corner, wide): (Point, f64),
) -> Option<BTreeSet<String>> {
    let n = body.cylinders.len();
    let pockets: Option<Vec<&str>> = body
        .cylinders
        .iter()
        .map(|c| pocket_of(body, &c.parts))
        .collect();
    let pockets = pockets.filter(|_| n >= FEWEST)?;
    if !stands_in_a_ring(body, &pockets) {
        return None;
    }
    let legend = &night.trace.legend;
    let far = (corner.0 + wide, corner.1 + wide);
    let view = drawing.view("Round the case, cylinder one on top", corner, far);
    let zoom = wide / (2.0 * RADIUS);
    let centre = (corner.0 + wide / 2.0, corner.1 + wide / 2.0);
    let mut parts = BTreeSet::new();
    let part = TAU / n as f64;
    for (i, cylinder) in body.cylinders.iter().enumerate() {
        let turn = part * i as f64;
        let mut put = |drawing: &mut Drawing,
                       name: &str,
                       (from, to): (f64, f64),
                       half: f64,
                       told: Option<Point>| {
            let subject = drawing.metal(legend, name, (0, 1));
            let Some(subject) = subject else { return };
            parts.insert(name.to_owned());
            let reading = told.map(|at| {
                let label = &drawing.subjects[subject].label;
                let name = label.rsplit(' ').next().unwrap_or_default().to_owned();
                Reading { name, at }
            });
            let outline = sector(centre, turn, half, (zoom * from, zoom * to));
            drawing.put(subject, outline, reading, view);
        };
        if let Some(subject) = drawing.air(legend, pockets[i]) {
            let outline = sector(centre, turn, part / 2.0, (zoom * CRANK, zoom * AIR));
            drawing.put(subject, outline, None, view);
        }
        let skin = body
            .parts
            .iter()
            .find(|p| matches!(&p.role, crate::scenario::part::Role::skin(s) if s == pockets[i]));
        if let Some(skin) = skin {
            put(drawing, &skin.name, (AIR, RADIUS), part / 2.0, None);
        }
        let pieces = outward(body, &cylinder.parts);
        let long = (HEADS - CASE) / pieces.len() as f64;
        let anchor = anchor(body, &cylinder.parts);
        if let Some(case) = &anchor {
            put(drawing, case, (CRANK, CASE), part / 2.0, None);
        }
        for (k, piece) in pieces.iter().enumerate() {
            let from = CASE + long * k as f64;
            let told =
                (k + 1 == pieces.len()).then(|| around(centre, turn, zoom * (from + long / 2.0)));
            // As wide as the ring lets it, less at its foot.
            let half = (0.36 * part * (0.75 + 0.25 * k as f64)).min(0.42 * part);
            put(drawing, piece, (from, from + long), half, told);
        }
        if let Some(inside) = inside(body, &cylinder.parts) {
            let half = 0.15 * part;
            put(
                drawing,
                &inside,
                (CASE + 6.0, CASE + 0.75 * long),
                half,
                None,
            );
        }
    }
    middle(drawing, night, body, (centre, view, zoom), &mut parts);
    rooms(drawing, night, &pockets, (centre, view, zoom));
    Some(parts)
}

/// The crankshaft in the middle: what the most of the pieces inside the cylinders are joined to, outside them.
fn middle(
    drawing: &mut Drawing,
    night: &Night,
    body: &Body,
    (centre, view, zoom): (Point, usize, f64),
    parts: &mut BTreeSet<String>,
) {
    let inner: Vec<String> = body
        .cylinders
        .iter()
        .filter_map(|c| inside(body, &c.parts))
        .collect();
    let count = |name: &str| {
        let met = inner.iter().filter(|i| joined(body, i, name) > 0.0);
        met.count()
    };
    let outside = body.parts.iter().filter(|p| !parts.contains(&p.name));
    let best = outside.max_by_key(|p| count(&p.name));
    let Some(crank) = best.filter(|p| count(&p.name) > 0) else {
        return;
    };
    if let Some(subject) = drawing.metal(&night.trace.legend, &crank.name, (0, 1)) {
        parts.insert(crank.name.clone());
        let first = crank.label.split([' ', ',']).next().unwrap_or_default();
        let name = first.strip_suffix("shaft").unwrap_or(first).to_owned();
        let reading = Some(Reading { name, at: centre });
        drawing.put(subject, Outline::Disc(centre, zoom * CRANK), reading, view);
    }
}

/// A spot for each pocket: between two heads, near the middle of its sectors.
fn rooms(
    drawing: &mut Drawing,
    night: &Night,
    pockets: &[&str],
    (centre, view, zoom): (Point, usize, f64),
) {
    let part = TAU / pockets.len() as f64;
    let mut seen = BTreeSet::new();
    for pocket in pockets {
        if !seen.insert(*pocket) {
            continue;
        }
        let turns = pockets.iter().enumerate().filter(|(_, p)| *p == pocket);
        let (mut right, mut up) = (0.0, 0.0);
        for (i, _) in turns {
            right += (part * i as f64).sin();
            up += (part * i as f64).cos();
        }
        // In the gap beside the cylinder that is nearest to the middle direction.
        let turn = ((right.atan2(up) / part).round() + 0.5) * part;
        let spot = around(centre, turn, zoom * (HEADS + AIR) / 2.0);
        let Some(subject) = drawing.air(&night.trace.legend, pocket) else {
            continue;
        };
        drawing.rooms.push(Room {
            subject,
            view,
            spot,
        });
        let reading = drawing.reading(subject, spot);
        if let Some(shape) = drawing.shapes.iter_mut().find(|s| s.subject == subject) {
            shape.reading = Some(reading);
        }
    }
}

/// The pocket that the parts of a cylinder meet with the most area.
fn pocket_of<'a>(body: &'a Body, parts: &[String]) -> Option<&'a str> {
    let area = |pocket: &str| -> f64 {
        let faces = body.surfaces.iter();
        let met = faces.filter(|f| f.meets == pocket && parts.contains(&f.part));
        met.map(|f| f.area.si()).sum()
    };
    let names = body.air_volumes.iter().map(|p| p.name.as_str());
    names
        .max_by(|a, b| area(a).total_cmp(&area(b)))
        .filter(|p| area(p) > 0.0)
}

/// Whether every cylinder in higher air would stand above every cylinder in lower air, and there are both.
fn stands_in_a_ring(body: &Body, pockets: &[&str]) -> bool {
    let height = |pocket: &str| {
        let found = body.air_volumes.iter().find(|p| p.name == pocket);
        found.map_or(0.0, |p| p.mid_height.si())
    };
    let part = TAU / pockets.len() as f64;
    let stands: Vec<(f64, f64)> = pockets
        .iter()
        .enumerate()
        .map(|(i, p)| (height(p), (part * i as f64).cos()))
        .collect();
    let differ = stands.iter().any(|s| s.0 != stands[0].0);
    let ordered = stands
        .iter()
        .all(|a| stands.iter().all(|b| a.0 <= b.0 || a.1 > b.1));
    differ && ordered
}

/// What two parts conduct between them, W/K; a perfect joint counts as endless.
pub(super) fn joined(body: &Body, one: &str, other: &str) -> f64 {
    let joints = body.joints.iter().filter(|j| {
        let (a, b) = (j.from.0.as_str(), j.to.0.as_str());
        (a, b) == (one, other) || (b, a) == (one, other)
    });
    let conducts = joints.map(|j| match j.contact {
        Contact::total(g) => g.si(),
        Contact::perfect => f64::INFINITY,
        Contact::oil_floor => 1.0,
    });
    conducts.sum()
}

/// The part outside a cylinder that it is joined to the best.
fn anchor(body: &Body, parts: &[String]) -> Option<String> {
    let to = |name: &str| -> f64 { parts.iter().map(|p| joined(body, p, name)).sum() };
    let outside = body.parts.iter().filter(|p| !parts.contains(&p.name));
    outside
        .max_by(|a, b| to(&a.name).total_cmp(&to(&b.name)))
        .filter(|p| to(&p.name) > 0.0)
        .map(|p| p.name.clone())
}

/// The parts of a cylinder from the case outward: those joined to the case first.
fn outward(body: &Body, parts: &[String]) -> Vec<String> {
    let anchor = anchor(body, parts).unwrap_or_default();
    let mut ordered: Vec<String> = parts.to_vec();
    ordered.sort_by(|a, b| joined(body, b, &anchor).total_cmp(&joined(body, a, &anchor)));
    ordered
}

/// A part outside the list that is joined to this cylinder and to no other: a piston.
fn inside(body: &Body, parts: &[String]) -> Option<String> {
    let met =
        |name: &str, cylinder: &[String]| cylinder.iter().any(|p| joined(body, p, name) > 0.0);
    let found = body.parts.iter().find(|p| {
        let cylinders = body.cylinders.iter();
        !parts.contains(&p.name)
            && met(&p.name, parts)
            && cylinders.filter(|c| met(&p.name, &c.parts)).count() == 1
    });
    found.map(|p| p.name.clone())
}

/// A point at a turn, clockwise from the top, and a distance.
fn around((x, y): Point, turn: f64, distance: f64) -> Point {
    (x + distance * turn.sin(), y - distance * turn.cos())
}

/// A piece of a ring about a turn, in short straight edges.
fn sector(centre: Point, turn: f64, half: f64, (from, to): (f64, f64)) -> Outline {
    let steps = 6;
    let angle = |k: usize| turn - half + 2.0 * half * k as f64 / steps as f64;
    let outer = (0..=steps).map(|k| around(centre, angle(k), to));
    let inner = (0..=steps).rev().map(|k| around(centre, angle(k), from));
    Outline::Polygon(outer.chain(inner).collect())
}
