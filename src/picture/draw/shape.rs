//! A picture as plain data: lines, areas, discs and words on a sheet, each with its colour.
//!
//! Lengths are pixels of the size a picture is shown at, from its upper left corner.

use super::colour::Colour;
use super::font::TextStyle;
use super::look::Size;

/// A point of a picture.
pub type Point = (f64, f64);

/// A picture. Later shapes lie over earlier ones.
#[derive(Debug, Clone, PartialEq)]
pub struct Picture {
    /// Width and height.
    pub size: Point,
    /// The colour under all shapes.
    pub background: Colour,
    /// Its title, which readers hear in its place.
    pub title: String,
    /// What it shows, if the title does not say it.
    pub description: String,
    /// What is drawn.
    pub shapes: Vec<Shape>,
}

/// One thing of a picture.
#[derive(Debug, Clone, PartialEq)]
pub enum Shape {
    /// A line through these points.
    Line(Vec<Point>, Stroke),
    /// A polygon or a disc.
    Area(Area),
    /// Words.
    Words(Words),
}

/// How a line or an edge looks.
#[derive(Debug, Clone, PartialEq)]
pub struct Stroke {
    /// Its colour.
    pub colour: Colour,
    /// Its width.
    pub width: f64,
    /// Lengths of dashes and of the gaps after them, by turns; solid if there are none.
    pub dashes: Vec<f64>,
}

/// A polygon or a disc, filled, edged or both.
#[derive(Debug, Clone, PartialEq)]
pub struct Area {
    /// Its outline.
    pub outline: Outline,
    /// The colour inside.
    pub fill: Option<Colour>,
    /// How much that colour covers what lies under it, 0 to 1.
    pub opacity: f64,
    /// Its edge.
    pub edge: Option<Stroke>,
    /// The name that a pointer over it shows; none if empty.
    pub name: String,
}

/// The outline of an area.
#[derive(Debug, Clone, PartialEq)]
pub enum Outline {
    /// Straight edges from corner to corner, closed.
    Polygon(Vec<Point>),
    /// A circle: its centre and its radius.
    Disc(Point, f64),
}

/// Words in one line.
#[derive(Debug, Clone, PartialEq)]
pub struct Words {
    /// What they say.
    pub text: String,
    /// Where they stand: at the middle of the height of their capitals.
    pub at: Point,
    /// How they stand to that point.
    pub anchor: Anchor,
    /// How they look.
    pub style: TextStyle,
    /// The colour of an edge under the letters.
    pub halo: Option<Colour>,
}

/// The width of an edge under letters: it closes the gap between two words, so that no line shows through.
pub const HALO: f64 = 5.0;

/// Where words stand from their point.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Anchor {
    /// To its right.
    Start,
    /// Across it.
    Middle,
    /// To its left.
    End,
}

impl Picture {
    /// The same picture in pixels, where it was in units of a size.
    pub fn sized(mut self, size: Size) -> Self {
        let zoom = size.zoom();
        let long = |length: &mut f64| *length *= zoom;
        let place = |p: &mut Point| *p = (p.0 * zoom, p.1 * zoom);
        let widen = |stroke: &mut Stroke| {
            long(&mut stroke.width);
            stroke.dashes.iter_mut().for_each(long);
        };
        self.size = ((zoom * self.size.0).round(), (zoom * self.size.1).round());
        for shape in &mut self.shapes {
            match shape {
                Shape::Line(points, stroke) => {
                    points.iter_mut().for_each(place);
                    widen(stroke);
                }
                Shape::Area(area) => {
                    area.outline = area.outline.placed(zoom, (0.0, 0.0));
                    area.edge.iter_mut().for_each(widen);
                }
                Shape::Words(words) => {
                    place(&mut words.at);
                    long(&mut words.style.size);
                }
            }
        }
        self
    }
}

impl Stroke {
    /// A solid stroke.
    pub fn solid(colour: Colour, width: f64) -> Self {
        Self {
            colour,
            width,
            dashes: Vec::new(),
        }
    }
}

impl Area {
    /// An area without an edge.
    pub fn filled(outline: Outline, fill: Colour) -> Self {
        Self {
            outline,
            fill: Some(fill),
            opacity: 1.0,
            edge: None,
            name: String::new(),
        }
    }
    /// An area without colour inside.
    pub fn edged(outline: Outline, colour: Colour, width: f64) -> Self {
        Self {
            outline,
            fill: None,
            opacity: 1.0,
            edge: Some(Stroke::solid(colour, width)),
            name: String::new(),
        }
    }
}

impl Words {
    /// Words without an edge.
    pub fn new(text: impl Into<String>, at: Point, anchor: Anchor, style: TextStyle) -> Self {
        Self {
            text: text.into(),
            at,
            anchor,
            style,
            halo: None,
        }
    }
    /// Where their baseline begins: capitals and figures are 0.73 of the size high.
    pub fn baseline(&self) -> Point {
        let width = self.style.width(&self.text);
        let left = match self.anchor {
            Anchor::Start => self.at.0,
            Anchor::Middle => self.at.0 - width / 2.0,
            Anchor::End => self.at.0 - width,
        };
        (left, self.baseline_y())
    }
    /// The height of their baseline.
    pub fn baseline_y(&self) -> f64 {
        self.at.1 + 0.36 * self.style.size
    }
}

impl Outline {
    /// A rectangle between two opposite corners.
    pub fn rectangle(a: Point, b: Point) -> Self {
        Self::Polygon(vec![a, (b.0, a.1), b, (a.0, b.1)])
    }
    /// The same at another place and `zoom` times as large.
    pub fn placed(&self, zoom: f64, (right, down): Point) -> Self {
        let place = |p: &Point| (right + zoom * p.0, down + zoom * p.1);
        match self {
            Self::Polygon(corners) => Self::Polygon(corners.iter().map(place).collect()),
            Self::Disc(centre, r) => Self::Disc(place(centre), zoom * r),
        }
    }
    /// Whether a point lies in it.
    pub fn holds(&self, (x, y): Point) -> bool {
        match self {
            Self::Disc((cx, cy), r) => (x - cx).hypot(y - cy) <= *r,
            Self::Polygon(corners) => {
                // An odd number of edges to the right of it.
                let next = corners.iter().cycle().skip(1);
                let crossed = corners.iter().zip(next).filter(|(a, b)| {
                    let along = (y - a.1) / (b.1 - a.1);
                    (a.1 > y) != (b.1 > y) && x < a.0 + along * (b.0 - a.0)
                });
                crossed.count() % 2 == 1
            }
        }
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
