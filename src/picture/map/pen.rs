//! Draws one view: looks up what a shape shows, and puts it on the sheet if the trace knows it.

use super::drawing::{Callout, Drawing, Line, LineKind, Reading, Room, Shape};
use super::measures::Scale;
use crate::picture::draw::{Anchor, Outline, Point};
use crate::trace::ColumnInfo;

/// A pen over one view of a drawing.
pub struct Pen<'a> {
    /// What is drawn on.
    pub drawing: &'a mut Drawing,
    /// What the trace knows.
    pub legend: &'a ColumnInfo,
    /// The view that is drawn.
    pub view: usize,
    /// Metres to the sheet.
    pub scale: Scale,
}

impl Pen<'_> {
    /// A part of this outline, in metres; `at` is where its temperature is written.
    pub fn part(&mut self, name: &str, corners: &[Point], at: Option<Point>) {
        self.slice(name, (0, 1), corners, at);
    }
    /// A slice of a part's cells.
    pub fn slice(
        &mut self,
        name: &str,
        slice: (usize, usize),
        corners: &[Point],
        at: Option<Point>,
    ) {
        let subject = self.drawing.metal(self.legend, name, slice);
        let outline = self.polygon(corners);
        self.shape(subject, outline, at);
        if let Some(shape) = self.drawing.shapes.last_mut().filter(|_| slice.1 > 1) {
            shape.bare = true;
        }
    }
    /// A round part, in metres.
    pub fn round(&mut self, name: &str, centre: Point, radius: f64) {
        let subject = self.drawing.metal(self.legend, name, (0, 1));
        let outline = Outline::Disc(
            self.scale.at(centre.0, centre.1),
            radius * self.scale.per_metre,
        );
        self.shape(subject, outline, None);
    }
    /// A rectangular part, its temperature written in its middle if wanted.
    pub fn block(&mut self, name: &str, a: Point, b: Point, told: bool) {
        let middle = ((a.0 + b.0) / 2.0, (a.1 + b.1) / 2.0);
        self.part(name, &rectangle(a, b), told.then_some(middle));
    }
    /// A pocket of air, and the spot where its temperature is written, if it is here.
    pub fn pocket(&mut self, name: &str, corners: &[Point], spot: Point, told: bool) {
        let subject = self.drawing.air(self.legend, name);
        let outline = self.polygon(corners);
        self.shape(subject, outline, told.then_some(spot));
        if let Some(subject) = subject {
            self.drawing.rooms.push(Room {
                subject,
                view: self.view,
                spot: self.scale.at(spot.0, spot.1),
            });
        }
    }
    /// A line.
    pub fn line(&mut self, points: &[Point], kind: LineKind) {
        let points = points.iter().map(|p| self.scale.at(p.0, p.1)).collect();
        self.drawing.lines.push(Line { points, kind });
    }
    /// Writes a part's name and temperature beside it, over a pocket or the background, with a line to the part.
    pub fn beside(
        &mut self,
        name: &str,
        over: Option<&str>,
        (at, anchor): (Point, Anchor),
        to: Point,
    ) {
        let named = |name: &str| {
            let shapes = self.drawing.shapes.iter();
            let mut subjects = shapes.filter(|s| s.view == self.view).map(|s| s.subject);
            subjects.find(|k| self.drawing.subjects[*k].name == name)
        };
        let behind = over.map(named);
        if let (Some(subject), None | Some(Some(_))) = (named(name), behind) {
            let (at, to) = (self.scale.at(at.0, at.1), self.scale.at(to.0, to.1));
            let side = match anchor {
                Anchor::Start => -1.0,
                Anchor::Middle => 0.0,
                Anchor::End => 1.0,
            };
            let down = if to.1 < at.1 { -8.0 } else { 8.0 };
            let from = (
                at.0 + 3.0 * side,
                at.1 + if side == 0.0 { down } else { 0.0 },
            );
            self.drawing.callouts.push(Callout {
                name: short(name).to_owned(),
                subject,
                at,
                anchor,
                over: behind.flatten(),
                line: [from, to],
            });
        }
    }
    fn polygon(&self, corners: &[Point]) -> Outline {
        Outline::Polygon(corners.iter().map(|p| self.scale.at(p.0, p.1)).collect())
    }
    fn shape(&mut self, subject: Option<usize>, outline: Outline, at: Option<Point>) {
        if let Some(subject) = subject {
            self.drawing.shapes.push(Shape {
                subject,
                outline,
                reading: at.map(|p| Reading {
                    name: short(&self.drawing.subjects[subject].name).to_owned(),
                    at: self.scale.at(p.0, p.1),
                }),
                view: self.view,
                bare: false,
            });
        }
    }
}

/// The corners of a rectangle.
pub fn rectangle(a: Point, b: Point) -> [Point; 4] {
    [a, (b.0, a.1), b, (a.0, b.1)]
}

/// What a part of an opposed engine or a pocket is called on its shape.
fn short(name: &str) -> &str {
    const NAMES: [(&str, &str); 19] = [
        ("acc_case", "acc. case"),
        ("baffle", "baffle"),
        ("blade", "blade"),
        ("carb", "carb."),
        ("case", "case"),
        ("cowl", "cowl"),
        ("crank", "crank"),
        ("cyl", "head"),
        ("exhaust", "exhaust"),
        ("filter", "filter"),
        ("firewall", "firewall"),
        ("gen", "gen."),
        ("hub", "hub"),
        ("intake", "intake"),
        ("mags", "mag."),
        ("mount", "mount"),
        ("oil", "oil"),
        ("piston", "piston"),
        ("sump", "sump"),
    ];
    let known = NAMES.iter().find(|(begin, _)| name.starts_with(begin));
    known.map_or("air", |(_, short)| short)
}
