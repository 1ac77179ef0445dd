//! Paints a drawing at a moment: shapes in the colours of their temperatures, and what marks them.

use super::drawing::{Drawing, Kind, LineKind, Stands};
use super::jets::{BADGE, Jet};
use super::moment::Moment;
use super::scale::{edge_on, text_on};
use super::written::readings;
use crate::picture::draw::colour::{BLACK, COLDEST, Colour, HEATER, TEXT, Theme, WHITE};
use crate::picture::draw::{Anchor, Area, Outline, Point, Shape, Stroke, TextStyle, Words};
use crate::quantity::Units;

/// Half the outline of a drop from its tip, as seen from where it is put; the other half is its mirror image.
const DROP: [Point; 6] = [
    (1.6, -3.7),
    (2.8, -1.9),
    (3.5, -0.3),
    (3.8, 1.2),
    (3.3, 3.1),
    (1.9, 4.5),
];
const TIP: Point = (0.0, -6.0);
const FOOT: Point = (0.0, 5.0);

/// The engine: lines and shapes.
pub fn engine(drawing: &Drawing, colours: &[Colour], theme: Theme) -> Vec<Shape> {
    let text = theme.shown(TEXT);
    let lines = |kind: LineKind, stroke: Stroke| {
        let lines = drawing.lines.iter().filter(move |l| l.kind == kind);
        lines.map(move |l| Shape::Line(l.points.clone(), stroke.clone()))
    };
    let dashes = vec![14.0, 3.0, 3.0, 3.0];
    // Axes lie under the metal, so that no number is struck through.
    let axes = lines(
        LineKind::Axis,
        Stroke {
            colour: text,
            width: 0.8,
            dashes,
        },
    );
    let areas = drawing.shapes.iter().map(|shape| {
        let (subject, colour) = (&drawing.subjects[shape.subject], colours[shape.subject]);
        let width = match subject.kind {
            _ if shape.bare => None,
            Kind::Engine => Some(1.0),
            Kind::Structure => Some(0.5),
            Kind::Air => None,
        };
        Shape::Area(Area {
            outline: shape.outline.clone(),
            fill: Some(colour),
            opacity: 1.0,
            edge: width.map(|width| Stroke::solid(edge_on(colour), width)),
            name: subject.label.clone(),
        })
    });
    let edges = lines(LineKind::Edge, Stroke::solid(text, 1.0));
    axes.chain(areas).chain(edges).collect()
}

/// What marks it: the coldest part, names beside their shapes, heaters, wet walls, temperatures.
pub fn marks(
    drawing: &Drawing,
    moment: &Moment,
    colours: &[Colour],
    jets: &[Jet],
    (units, theme): (Units, Theme),
) -> Vec<Shape> {
    let mut shapes = coldest(drawing, moment);
    for tag in &drawing.tags {
        if let Stands::Beside(at, over, to) = tag.stands {
            let colour = over.map_or(theme.shown(TEXT), |k| text_on(colours[k]));
            shapes.push(leader(at, to, colour));
        }
    }
    for jet in jets {
        heater(&mut shapes, jet, moment.on.get(jet.heater) == Some(&true));
    }
    shapes.extend(wet(drawing, moment).into_iter().map(drop_at));
    for (mut w, subject) in readings(drawing, moment, units) {
        match subject.map(|subject| colours[subject]) {
            // With an edge of the colour under it, where an arrow or an edge runs through.
            Some(under) => {
                w.style.colour = text_on(under);
                w.halo = Some(under);
                shapes.push(Shape::Words(w));
            }
            None => shapes.push(words(&w, theme)),
        }
    }
    shapes
}

/// Words in the colour of the theme.
pub fn words(words: &Words, theme: Theme) -> Shape {
    let mut words = words.clone();
    words.style.colour = theme.shown(words.style.colour);
    Shape::Words(words)
}

/// An edge around the coldest part, white under its own colour.
pub fn around_coldest(outline: &Outline) -> [Shape; 2] {
    [(WHITE, 6.0), (COLDEST, 3.0)]
        .map(|(colour, width)| Shape::Area(Area::edged(outline.clone(), colour, width)))
}

fn coldest(drawing: &Drawing, moment: &Moment) -> Vec<Shape> {
    let Some(coldest) = &moment.coldest else {
        return Vec::new();
    };
    // The whole of the oil, not the layer: its edge would run through the number.
    let shapes = drawing.shapes.iter().filter(|shape| {
        let cells = &drawing.subjects[shape.subject].cells;
        cells.contains(&coldest.part) && !shape.bare
    });
    let edges: Vec<_> = shapes.map(|shape| around_coldest(&shape.outline)).collect();
    let under = edges.iter().map(|pair| pair[0].clone());
    under
        .chain(edges.iter().map(|pair| pair[1].clone()))
        .collect()
}

/// A line from a letter to what it names, in the colour of the letter.
fn leader(at: Point, to: Point, colour: Colour) -> Shape {
    let long = (to.0 - at.0).hypot(to.1 - at.1).max(1e-9);
    let begin = |p: f64, q: f64| p + (q - p) * (7.0 / long).min(1.0);
    let from = (begin(at.0, to.0), begin(at.1, to.1));
    Shape::Line(vec![from, to], Stroke::solid(colour, 1.0))
}

/// Where drops are drawn: once a part in each view, beside its reading if it has one.
fn wet(drawing: &Drawing, moment: &Moment) -> Vec<Point> {
    let mut seen = Vec::new();
    let mut drops = Vec::new();
    for shape in &drawing.shapes {
        let key = (shape.view, shape.subject);
        if !moment.is_wet(drawing, shape.subject) || seen.contains(&key) {
            continue;
        }
        seen.push(key);
        let (from, to) = shape.outline.bounds();
        let (wide, high) = (to.0 - from.0, to.1 - from.1);
        let ring = matches!(&shape.outline, Outline::Polygon(corners) if corners.len() > 8);
        drops.push(match shape.reading {
            Some(at) if wide > 46.0 => (at.0 - 22.0, at.1),
            Some(_) => (from.0 + 6.0, from.1 + 8.0),
            None if ring => shape.outline.middle(),
            None if wide > high => (from.0 + 6.0, (from.1 + to.1) / 2.0),
            None => (from.0 + (wide / 2.0).min(7.0), from.1 + 8.0),
        });
    }
    drops
}

/// A drop of water.
pub fn drop_at((x, y): Point) -> Shape {
    let left = DROP.iter().rev().map(|p| (-p.0, p.1));
    let corners = [TIP].into_iter().chain(DROP).chain([FOOT]).chain(left);
    let corners = corners.map(|p| (x + p.0, y + p.1)).collect();
    Shape::Area(Area {
        edge: Some(Stroke::solid(BLACK, 1.0)),
        ..Area::filled(Outline::Polygon(corners), WHITE)
    })
}

fn heater(shapes: &mut Vec<Shape>, jet: &Jet, on: bool) {
    if let Some(to) = jet.arrow {
        let mut line = |colour: Colour, width: f64, dashes: &[f64]| {
            let stroke = Stroke {
                dashes: dashes.to_vec(),
                ..Stroke::solid(colour, width)
            };
            shapes.push(Shape::Line(vec![jet.badge, to], stroke));
        };
        if on {
            line(WHITE, 6.0, &[]);
            line(HEATER, 2.6, &[]);
            let way = (to.0 - jet.badge.0, to.1 - jet.badge.1);
            let long = way.0.hypot(way.1).max(1e-9);
            let (x, y) = (way.0 / long, way.1 / long);
            let head = vec![
                (to.0 + 9.0 * x, to.1 + 9.0 * y),
                (to.0 - 6.0 * y - 3.0 * x, to.1 + 6.0 * x - 3.0 * y),
                (to.0 + 6.0 * y - 3.0 * x, to.1 - 6.0 * x - 3.0 * y),
            ];
            shapes.push(Shape::Area(Area {
                edge: Some(Stroke::solid(WHITE, 1.0)),
                ..Area::filled(Outline::Polygon(head), HEATER)
            }));
        } else {
            line(HEATER, 1.4, &[3.0, 4.0]);
        }
    }
    shapes.extend(badge(jet.badge, jet.heater, on));
}

/// A heater's number: white on dark while it is on, dark on white while it is off.
pub fn badge(at: Point, heater: usize, on: bool) -> [Shape; 2] {
    let (fill, colour) = if on { (HEATER, WHITE) } else { (WHITE, HEATER) };
    let disc = Area {
        edge: Some(Stroke::solid(colour, 1.5)),
        ..Area::filled(Outline::Disc(at, BADGE), fill)
    };
    let style = TextStyle {
        colour,
        ..TextStyle::bold(12.0)
    };
    let number = Words::new((heater + 1).to_string(), at, Anchor::Middle, style);
    [Shape::Area(disc), Shape::Words(number)]
}
