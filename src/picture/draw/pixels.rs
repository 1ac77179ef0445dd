//! A picture as pixels, and as PNG: lines and areas painted by tiny-skia, letters by the outlines of the bundled font,
//! so that it is the same on every machine.

use super::colour::Colour;
use super::font::letters;
use super::shape::{HALO, Outline, Picture, Point, Shape, Stroke, Words};
use ab_glyph::OutlineCurve;
use tiny_skia::{
    Color, FillRule, LineJoin, Paint, Path, PathBuilder, Pixmap, StrokeDash, Transform,
};

/// A picture that could not be drawn; a fault of the program.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("the picture could not be drawn: {0}")]
pub struct DrawError(String);

impl DrawError {
    /// The error of this cause.
    pub(super) fn of(cause: impl std::fmt::Display) -> Self {
        Self(cause.to_string())
    }
}

/// The PNG of a picture, `scale` times its size.
///
/// *Errors*: it would have no or too many pixels.
pub fn png(picture: &Picture, scale: f64) -> Result<Vec<u8>, DrawError> {
    painted(picture, scale)?.encode_png().map_err(DrawError::of)
}

/// The pixels of a picture, `scale` times its size.
///
/// *Errors*: it would have no or too many pixels.
pub fn painted(picture: &Picture, scale: f64) -> Result<Pixmap, DrawError> {
    let side = |length: f64| (length * scale).round() as u32;
    let mut brush = Brush {
        sheet: Pixmap::new(side(picture.size.0), side(picture.size.1))
            .ok_or_else(|| DrawError::of("a picture of that size cannot be held"))?,
        zoom: Transform::from_scale(scale as f32, scale as f32),
    };
    let Colour(r, g, b) = picture.background;
    brush.sheet.fill(Color::from_rgba8(r, g, b, 255));
    for shape in &picture.shapes {
        match shape {
            Shape::Line(points, stroke) => brush.stroke(polygon(points, false), stroke),
            Shape::Area(area) => {
                let path = match &area.outline {
                    Outline::Polygon(corners) => polygon(corners, true),
                    Outline::Disc((x, y), r) => {
                        PathBuilder::from_circle(*x as f32, *y as f32, *r as f32)
                    }
                };
                if let Some(fill) = area.fill {
                    brush.fill(path.clone(), fill, area.opacity);
                }
                if let Some(edge) = &area.edge {
                    brush.stroke(path, edge);
                }
            }
            Shape::Words(words) => {
                let path = lettering(words);
                if let Some(halo) = words.halo {
                    brush.stroke(path.clone(), &Stroke::solid(halo, HALO));
                }
                brush.fill(path, words.style.colour, 1.0);
            }
        }
    }
    Ok(brush.sheet)
}

/// What is painted on, and how much larger.
struct Brush {
    sheet: Pixmap,
    zoom: Transform,
}

impl Brush {
    /// Fills a path; one without a point is nothing to fill.
    fn fill(&mut self, path: Option<Path>, colour: Colour, opacity: f64) {
        if let Some(path) = path {
            let paint = paint(colour, opacity);
            self.sheet
                .fill_path(&path, &paint, FillRule::Winding, self.zoom, None);
        }
    }
    fn stroke(&mut self, path: Option<Path>, stroke: &Stroke) {
        let lengths = stroke.dashes.iter().map(|d| *d as f32).collect();
        let look = tiny_skia::Stroke {
            width: stroke.width as f32,
            line_join: LineJoin::Round,
            dash: StrokeDash::new(lengths, 0.0),
            ..tiny_skia::Stroke::default()
        };
        if let Some(path) = path {
            self.sheet
                .stroke_path(&path, &paint(stroke.colour, 1.0), &look, self.zoom, None);
        }
    }
}

fn paint(Colour(r, g, b): Colour, opacity: f64) -> Paint<'static> {
    let mut paint = Paint::default();
    paint.set_color_rgba8(r, g, b, (255.0 * opacity).round() as u8);
    paint
}

fn polygon(points: &[Point], closed: bool) -> Option<Path> {
    let mut path = PathBuilder::new();
    for (k, (x, y)) in points.iter().enumerate() {
        match k {
            0 => path.move_to(*x as f32, *y as f32),
            _ => path.line_to(*x as f32, *y as f32),
        }
    }
    if closed {
        path.close();
    }
    path.finish()
}

/// The outlines of all letters of words.
fn lettering(words: &Words) -> Option<Path> {
    let mut path = PathBuilder::new();
    let (left, foot) = words.baseline();
    for letter in letters(&words.text, left, words.style) {
        let at = |p: ab_glyph::Point| {
            let (x, y) = (f64::from(p.x), f64::from(p.y));
            (
                (letter.left + letter.scale * x) as f32,
                (foot - letter.scale * y) as f32,
            )
        };
        let mut here = None;
        for curve in letter.curves {
            let (from, to) = match curve {
                OutlineCurve::Line(a, b) => (a, b),
                OutlineCurve::Quad(a, _, b) | OutlineCurve::Cubic(a, _, _, b) => (a, b),
            };
            if here != Some(from) {
                path.close();
                let (x, y) = at(from);
                path.move_to(x, y);
            }
            here = Some(to);
            let (x, y) = at(to);
            match curve {
                OutlineCurve::Line(..) => path.line_to(x, y),
                OutlineCurve::Quad(_, c, _) => path.quad_to(at(c).0, at(c).1, x, y),
                OutlineCurve::Cubic(_, c, d, _) => {
                    path.cubic_to(at(c).0, at(c).1, at(d).0, at(d).1, x, y);
                }
            }
        }
    }
    path.close();
    path.finish()
}

#[cfg(test)]
mod tests {
    use super::super::colour::{BACKGROUND, TEXT};
    use super::super::font::TextStyle;
    use super::super::shape::Anchor;
    use super::*;

    fn picture(text: &str) -> Picture {
        let words = Words::new(
            text,
            (10.0, 25.0),
            Anchor::Start,
            TextStyle::plain(12.0, TEXT),
        );
        Picture {
            size: (100.0, 50.0),
            background: BACKGROUND,
            title: String::new(),
            description: String::new(),
            shapes: vec![Shape::Words(words)],
        }
    }

    /// Columns and rows of the dark pixels.
    fn dark(sheet: &Pixmap) -> Vec<(usize, usize)> {
        let wide = sheet.width() as usize;
        let pixels = sheet.pixels().iter().enumerate();
        pixels
            .filter(|(_, p)| p.red() < 128)
            .map(|(k, _)| (k % wide, k / wide))
            .collect()
    }

    #[test]
    fn a_png_has_its_size_and_its_words() {
        let png = png(&picture("oil −5 °C"), 2.0).unwrap();
        let sheet = Pixmap::decode_png(&png).unwrap();
        assert_eq!((sheet.width(), sheet.height()), (200, 100));
        assert!(dark(&sheet).len() > 100);
        assert!(dark(&painted(&picture(" "), 2.0).unwrap()).is_empty());
    }

    /// The capital H of DejaVu Sans is 0.729 em high (1493 of 2048 units), its stems 0.098 em from its sides.
    #[test]
    fn letters_are_as_high_as_the_font_says_and_stand_about_their_middle() {
        let (size, zoom) = (12.0, 10.0);
        let found = dark(&painted(&picture("H"), zoom).unwrap());
        let rows = found.iter().map(|p| p.1);
        let (top, foot) = (rows.clone().min().unwrap(), rows.max().unwrap() + 1);
        assert!(((foot - top) as f64 / zoom - 0.729 * size).abs() < 0.11);
        assert!(((foot + top) as f64 / 2.0 / zoom - 25.0).abs() < 0.1);
        let left = found.iter().map(|p| p.0).min().unwrap();
        assert!((left as f64 / zoom - (10.0 + 0.098 * size)).abs() < 0.11);
    }

    #[test]
    fn a_picture_without_a_pixel_is_refused() {
        assert!(png(&picture(""), 0.001).is_err());
    }
}
