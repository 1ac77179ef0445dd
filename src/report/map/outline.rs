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
    /// Whether a point lies in it.
    pub fn holds(&self, (x, y): Point) -> bool {
        match self {
            Self::Disc(centre, r) => (x - centre.0).hypot(y - centre.1) <= *r,
            // A ray to the right crosses the edges an odd number of times.
            Self::Polygon(corners) => {
                let before = corners.iter().cycle().skip(corners.len().saturating_sub(1));
                let crossed = corners.iter().zip(before).filter(|(a, b)| {
                    let between = (a.1 > y) != (b.1 > y);
                    between && x < a.0 + (y - a.1) / (b.1 - a.1) * (b.0 - a.0)
                });
                crossed.count() % 2 == 1
            }
        }
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_point_is_inside_or_outside_whatever_the_corners() {
        let hollow = [(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (2.0, 1.0), (0.0, 4.0)];
        let hollow = Outline::Polygon(hollow.to_vec());
        assert!(hollow.holds((0.5, 1.0)) && hollow.holds((3.5, 1.0)));
        assert!(
            !hollow.holds((2.0, 2.0)) && !hollow.holds((5.0, 1.0)) && !hollow.holds((-1.0, 0.5))
        );
        let disc = Outline::Disc((1.0, 1.0), 1.0);
        assert!(disc.holds((1.5, 1.5)) && !disc.holds((1.8, 1.8)));
    }
}
