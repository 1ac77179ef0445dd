//! Draws one view: looks up what a shape shows, and puts it on the sheet if the trace knows it.

use super::drawing::{Drawing, Line, LineKind, Room, Shape, Stands};
use super::measures::Scale;
use crate::picture::draw::{Outline, Point};
use crate::trace::ColumnInfo;

/// A pen over one view of a drawing.
pub struct Pen<'a> {
    /// What is drawn on.
    pub drawing: &'a mut Drawing,
    /// What the trace knows.
    pub legend: &'a ColumnInfo,
    /// The view that is drawn.
    pub view: usize,
    /// Metres to pixels.
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
    pub fn round(&mut self, name: &str, centre: Point, radius: f64, at: Option<Point>) {
        let subject = self.drawing.metal(self.legend, name, (0, 1));
        let outline = Outline::Disc(
            self.scale.at(centre.0, centre.1),
            radius * self.scale.per_metre,
        );
        self.shape(subject, outline, at);
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
    /// Names parts or pockets of this view, each by a letter on a shape of it.
    pub fn tags(&mut self, names: &[(&str, &str)]) {
        for (name, words) in names {
            self.drawing.tag(self.view, name, words);
        }
    }
    /// Names a part by a letter beside it, over a pocket or the background, with a line from there to the part.
    pub fn tag_beside(
        &mut self,
        name: &str,
        words: &str,
        over: Option<&str>,
        at: Point,
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
            let stands = Stands::Beside(at, behind.flatten(), to);
            self.drawing.push_tag(self.view, subject, words, stands);
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
                reading: at.map(|p| self.scale.at(p.0, p.1)),
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
