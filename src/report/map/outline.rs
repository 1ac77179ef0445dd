//! Outlines of shapes on the sheet, in pixels from its upper left corner.

/// A point on the sheet.
pub type Point = (f64, f64);

/// The outline of a shape.
#[derive(Debug, Clone, PartialEq)]
pub enum Outline {
    /// Straight edges from corner to corner, closed.
    Polygon(Vec<Point>),
    /// A circle.
    Disc(Point, f64),
}

impl Outline {
    /// A rectangle between two opposite corners.
    pub fn rectangle(a: Point, b: Point) -> Self {
        Self::Polygon(vec![a, (b.0, a.1), b, (a.0, b.1)])
    }
    /// The middle of its bounds.
    pub fn middle(&self) -> Point {
        let (from, to) = self.bounds();
        ((from.0 + to.0) / 2.0, (from.1 + to.1) / 2.0)
    }
    /// Its upper left and lower right corner.
    pub fn bounds(&self) -> (Point, Point) {
        match self {
            Self::Disc((x, y), r) => ((x - r, y - r), (x + r, y + r)),
            Self::Polygon(points) => points.iter().fold(
                ((f64::MAX, f64::MAX), (f64::MIN, f64::MIN)),
                |(from, to), p| {
                    (
                        (from.0.min(p.0), from.1.min(p.1)),
                        (to.0.max(p.0), to.1.max(p.1)),
                    )
                },
            ),
        }
    }
}
