//! The sheet a chart is drawn on: [`Picture`] as the drawing backend of plotters.
//!
//! Plotters rounds to whole pixels, so it is given a sheet forty times as large.

use super::colour::{BACKGROUND, Colour, Theme};
use super::font::TextStyle;
use super::look::Look;
use super::shape::{Anchor, Area, Outline, Picture, Point, Shape, Stroke, Words};
use plotters::coord::Shift;
use plotters::drawing::{DrawingArea, IntoDrawingArea};
use plotters::element::{Drawable, PointCollection, Polygon};
use plotters::style::text_anchor::{HPos, Pos, VPos};
use plotters::style::{Color, FontStyle, IntoFont, IntoTextStyle, RGBColor};
use plotters_backend::{
    BackendColor, BackendCoord, BackendStyle, BackendTextStyle, DrawingBackend, DrawingErrorKind,
};
use std::convert::Infallible;

/// How much larger than shown the sheet of plotters is.
const FINE: f64 = 40.0;
/// From the middle of small letters, where plotters puts words, up to that of capitals, over their size.
const TO_CAPITALS: f64 = 0.09;

/// A chart being drawn. Coordinates are units of its size from the upper left corner.
pub struct Canvas<'p> {
    area: DrawingArea<&'p mut Picture, Shift>,
    theme: Theme,
}

/// Draws a picture so many units high, unless its size says how high; the title is read out in its place.
pub fn drawn(look: Look, high: f64, title: String, paint: impl FnOnce(&Canvas)) -> Picture {
    let Look { theme, size } = look;
    let mut picture = Picture {
        size: (size.width(), size.height().unwrap_or(high)),
        background: theme.shown(BACKGROUND),
        title,
        description: String::new(),
        shapes: Vec::new(),
    };
    let area = (&mut picture).into_drawing_area();
    paint(&Canvas { area, theme });
    picture.sized(size)
}

impl<'p> Canvas<'p> {
    /// A line through these points, `width` thick; dashes and gaps by turns, solid without.
    pub fn line(&self, points: &[Point], colour: Colour, width: f64, dashes: &[f64]) {
        let dashes = dashes.to_vec();
        let colour = self.theme.shown(colour);
        self.draw(&Line(
            fine(points),
            Stroke {
                colour,
                width,
                dashes,
            },
        ));
    }
    /// A filled rectangle from one corner to the other.
    pub fn bar(&self, a: Point, b: Point, colour: Colour) {
        self.area(&[a, (b.0, a.1), b, (a.0, b.1)], colour, 1.0);
    }
    /// A filled polygon with these corners; its colour covers this much of what lies under it.
    pub fn area(&self, corners: &[Point], colour: Colour, opacity: f64) {
        let style = self.colour(colour).mix(opacity).filled();
        self.draw(&Polygon::new(fine(corners), style));
    }
    /// The outline of a rectangle.
    pub fn outline(&self, a: Point, b: Point, colour: Colour) {
        self.line(&[a, (b.0, a.1), b, (a.0, b.1), a], colour, 1.0, &[]);
    }
    /// Words whose middle line runs through this point.
    pub fn words(&self, text: &str, at: Point, anchor: Anchor, style: TextStyle) {
        let across = match anchor {
            Anchor::Start => HPos::Left,
            Anchor::Middle => HPos::Center,
            Anchor::End => HPos::Right,
        };
        let face = if style.bold {
            FontStyle::Bold
        } else {
            FontStyle::Normal
        };
        let style = ("sans-serif", style.size * FINE, face)
            .into_font()
            .color(&self.colour(style.colour))
            .into_text_style(&(1, 1))
            .pos(Pos::new(across, VPos::Center));
        let drawn = self.area.draw_text(text, &style, fine(&[at])[0]);
        drawn.expect("a list takes every shape");
    }

    fn colour(&self, colour: Colour) -> RGBColor {
        let Colour(r, g, b) = self.theme.shown(colour);
        RGBColor(r, g, b)
    }
    fn draw<'a, E>(&self, element: &'a E)
    where
        &'a E: PointCollection<'a, BackendCoord>,
        E: Drawable<&'p mut Picture>,
    {
        let drawn = self.area.draw(element);
        drawn.expect("a list takes every shape");
    }
}

/// A line as an element of plotters, whose own have no dashes.
struct Line(Vec<BackendCoord>, Stroke);

impl<'a> PointCollection<'a, BackendCoord> for &'a Line {
    type Point = &'a BackendCoord;
    type IntoIter = &'a [BackendCoord];
    fn point_iter(self) -> &'a [BackendCoord] {
        &self.0
    }
}

impl Drawable<&mut Picture> for Line {
    fn draw<I: Iterator<Item = BackendCoord>>(
        &self,
        points: I,
        picture: &mut &mut Picture,
        _: (u32, u32),
    ) -> Result<(), DrawingErrorKind<Infallible>> {
        let line = Shape::Line(points.map(shown).collect(), self.1.clone());
        picture.shapes.push(line);
        Ok(())
    }
}

/// Words, polygons and lines; plotters makes what else it draws of these.
impl DrawingBackend for &mut Picture {
    type ErrorType = Infallible;

    fn get_size(&self) -> (u32, u32) {
        ((self.size.0 * FINE) as u32, (self.size.1 * FINE) as u32)
    }
    fn ensure_prepared(&mut self) -> Result<(), DrawingErrorKind<Infallible>> {
        Ok(())
    }
    fn present(&mut self) -> Result<(), DrawingErrorKind<Infallible>> {
        Ok(())
    }
    fn draw_pixel(
        &mut self,
        (x, y): BackendCoord,
        colour: BackendColor,
    ) -> Result<(), DrawingErrorKind<Infallible>> {
        self.fill_polygon([(x, y), (x + 1, y), (x + 1, y + 1), (x, y + 1)], &colour)
    }
    fn draw_line<S: BackendStyle>(
        &mut self,
        from: BackendCoord,
        to: BackendCoord,
        style: &S,
    ) -> Result<(), DrawingErrorKind<Infallible>> {
        let stroke = Stroke::solid(of(style.color()), f64::from(style.stroke_width()) / FINE);
        let line = Shape::Line(vec![shown(from), shown(to)], stroke);
        self.shapes.push(line);
        Ok(())
    }
    fn fill_polygon<S: BackendStyle, I: IntoIterator<Item = BackendCoord>>(
        &mut self,
        corners: I,
        style: &S,
    ) -> Result<(), DrawingErrorKind<Infallible>> {
        let outline = Outline::Polygon(corners.into_iter().map(shown).collect());
        let area = Area {
            opacity: style.color().alpha,
            ..Area::filled(outline, of(style.color()))
        };
        self.shapes.push(Shape::Area(area));
        Ok(())
    }
    fn draw_text<S: BackendTextStyle>(
        &mut self,
        text: &str,
        style: &S,
        at: BackendCoord,
    ) -> Result<(), DrawingErrorKind<Infallible>> {
        let size = style.size() / FINE;
        let (x, y) = shown(at);
        let anchor = match style.anchor().h_pos {
            HPos::Left => Anchor::Start,
            HPos::Center => Anchor::Middle,
            HPos::Right => Anchor::End,
        };
        let bold = matches!(style.style(), FontStyle::Bold);
        let style = TextStyle {
            size,
            bold,
            colour: of(style.color()),
        };
        let words = Words::new(text, (x, y - TO_CAPITALS * size), anchor, style);
        self.shapes.push(Shape::Words(words));
        Ok(())
    }
}

fn of(colour: BackendColor) -> Colour {
    let (r, g, b) = colour.rgb;
    Colour(r, g, b)
}

fn shown((x, y): BackendCoord) -> Point {
    (f64::from(x) / FINE, f64::from(y) / FINE)
}

fn fine(points: &[Point]) -> Vec<BackendCoord> {
    let whole = |length: f64| (length * FINE).round() as i32;
    points.iter().map(|p| (whole(p.0), whole(p.1))).collect()
}

#[cfg(test)]
mod tests {
    use super::super::colour::{SERIES, TEXT};
    use super::super::look::Size;
    use super::*;

    #[test]
    fn what_is_drawn_is_in_the_picture_to_a_fortieth_of_a_pixel() {
        let style = TextStyle::bold(12.0);
        let picture = drawn(
            Look {
                theme: Theme::Dark,
                size: Size::Page,
            },
            100.0,
            "a chart".to_owned(),
            |canvas| {
                canvas.line(&[(10.0, 10.0), (10.3, 20.0)], SERIES[0], 1.3, &[4.0, 2.0]);
                canvas.bar((1.0, 2.0), (3.0, 4.0), Colour(1, 2, 3));
                canvas.words("departure", (50.0, 60.0), Anchor::End, style);
            },
        );
        assert_eq!(picture.size, (880.0, 100.0));
        let colour = Theme::Dark.shown(SERIES[0]);
        let stroke = Stroke {
            colour,
            width: 1.3,
            dashes: vec![4.0, 2.0],
        };
        let bar = Outline::rectangle((1.0, 2.0), (3.0, 4.0));
        let shown = TextStyle {
            colour: Theme::Dark.shown(TEXT),
            ..style
        };
        let words = Words::new(
            "departure",
            (50.0, 60.0 - TO_CAPITALS * 12.0),
            Anchor::End,
            shown,
        );
        let expected = [
            Shape::Line(vec![(10.0, 10.0), (10.3, 20.0)], stroke),
            Shape::Area(Area::filled(bar, Colour(1, 2, 3))),
            Shape::Words(words),
        ];
        assert_eq!(picture.shapes, expected);
    }

    /// Any element of plotters can be drawn: it is made of lines, polygons and words.
    #[test]
    fn an_element_of_plotters_itself_is_drawn() {
        let picture = drawn(Look::default(), 20.0, String::new(), |canvas| {
            let circle =
                plotters::element::Circle::new((400, 400), 80, canvas.colour(TEXT).filled());
            canvas.draw(&circle);
        });
        assert!(!picture.shapes.is_empty());
    }
}
