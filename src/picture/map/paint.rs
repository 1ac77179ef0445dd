//! Paints a drawing at a moment: shapes in the colours of their temperatures, and what marks them.

use super::drawing::{Drawing, Kind, LineKind};
use super::jets::{BADGE, Jet};
use super::labels::Label;
use super::moment::Moment;
use super::scale::{edge_on, text_on};
use crate::picture::draw::colour::{BLACK, COLDEST, Colour, HEATER, TEXT, Theme, WHITE};
use crate::picture::draw::{Anchor, Area, Outline, Point, Shape, Stroke, TextStyle, Words};

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
    (jets, labels): (&[Jet], &[Label]),
    theme: Theme,
) -> Vec<Shape> {
    let mut shapes = coldest(drawing, moment);
    let beside = labels.iter().filter(|l| l.shape.is_none());
    for (callout, _) in drawing.callouts.iter().zip(beside) {
        let under = callout.over.map(|k| text_on(colours[k]));
        let colour = under.unwrap_or(theme.shown(TEXT));
        let line = callout.line.to_vec();
        shapes.push(Shape::Line(line, Stroke::solid(colour, 1.0)));
    }
    for jet in jets {
        heater(&mut shapes, jet, moment.on.get(jet.heater) == Some(&true));
    }
    shapes.extend(wet(drawing, moment, labels).into_iter().map(drop_at));
    for label in labels {
        let under = label.over.map(|subject| colours[subject]);
        shapes.extend(label.words.iter().map(|w| match under {
            // With an edge of the colour under it, where an arrow or an edge runs through.
            Some(under) => {
                let mut w = w.clone();
                w.style.colour = text_on(under);
                w.halo = Some(under);
                Shape::Words(w)
            }
            None => words(w, theme),
        }));
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
fn around_coldest(outline: &Outline) -> [Shape; 2] {
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

/// Where drops are drawn: once a part in each view, beside its name if it has one.
fn wet(drawing: &Drawing, moment: &Moment, labels: &[Label]) -> Vec<Point> {
    let mut seen = Vec::new();
    let mut drops = Vec::new();
    for (k, shape) in drawing.shapes.iter().enumerate() {
        let key = (shape.view, shape.subject);
        if !moment.is_wet(drawing, shape.subject) || seen.contains(&key) {
            continue;
        }
        seen.push(key);
        let (from, to) = shape.outline.bounds();
        let (wide, high) = (to.0 - from.0, to.1 - from.1);
        let middle = (from.1 + to.1) / 2.0;
        let ring = matches!(&shape.outline, Outline::Polygon(corners) if corners.len() > 8);
        let label = labels
            .iter()
            .find(|l| l.shape == Some(k))
            .map(Label::bounds);
        let Some((begin, end)) = label else {
            drops.push(match ring {
                true => shape.outline.middle(),
                false if wide > high => (from.0 + 6.0, middle),
                false => (from.0 + (wide / 2.0).min(7.0), from.1 + 8.0),
            });
            continue;
        };
        // Beside its name, or else in a corner or over or under the name.
        let (across, along) = ((begin.0 + end.0) / 2.0, (begin.1 + end.1) / 2.0);
        let places = [
            (begin.0 - 6.0, along),
            (end.0 + 6.0, along),
            (from.0 + 7.0, from.1 + 9.0),
            (to.0 - 7.0, from.1 + 9.0),
            (across, begin.1 - 7.0),
            (across, end.1 + 8.0),
        ];
        let clear = |at: &&Point| {
            let corners = [(-4.0, -6.0), (4.0, -6.0), (-4.0, 5.0), (4.0, 5.0)];
            let mut corners = corners.iter().map(|c| (at.0 + c.0, at.1 + c.1));
            let apart = at.0 + 4.0 <= begin.0
                || at.0 - 4.0 >= end.0
                || at.1 + 5.0 <= begin.1
                || at.1 - 6.0 >= end.1;
            apart && corners.all(|corner| shape.outline.holds(corner))
        };
        // None is left out: the last resort is the corner itself.
        let corner = (from.0 + 2.0, from.1 + 3.0);
        drops.push(*places.iter().find(clear).unwrap_or(&corner));
    }
    drops
}

/// A drop of water.
fn drop_at((x, y): Point) -> Shape {
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
        ..TextStyle::bold(13.0)
    };
    let number = Words::new((heater + 1).to_string(), at, Anchor::Middle, style);
    [Shape::Area(disc), Shape::Words(number)]
}
