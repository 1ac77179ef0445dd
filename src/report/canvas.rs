//! The sheet a chart is drawn on: lines, bars and words in pixels, out comes an SVG text.
//!
//! The drawing library rounds to whole pixels, so everything is drawn four times as large and shown at its size
//! through the view box. Text is measured with the bundled font, which stands in for `sans-serif`.

use super::colour::Theme;
use plotters::backend::SVGBackend;
use plotters::coord::Shift;
use plotters::drawing::{DrawingArea, IntoDrawingArea};
use plotters::element::{PathElement, Polygon, Rectangle};
use plotters::style::text_anchor::{HPos, Pos, VPos};
use plotters::style::{
    Color, FontStyle, IntoFont, IntoTextStyle, ShapeStyle, TextStyle, register_font,
};
use std::sync::OnceLock;

/// How much larger than shown a chart is drawn.
const FINE: f64 = 4.0;

/// Height of a line of the bundled font, from ascender to descender, over its em: 2384/2048 units of its
/// `hhea` table.
const LINE_PER_EM: f64 = 2384.0 / 2048.0;

/// The name by which charts ask for their font.
const FONT: &str = "sans-serif";
/// The regular face of the bundled font.
pub const REGULAR: &[u8] = include_bytes!("../../assets/DejaVuSans-subset.ttf");
/// The bold face of the bundled font.
pub const BOLD: &[u8] = include_bytes!("../../assets/DejaVuSans-Bold-subset.ttf");

/// A chart that could not be drawn; a fault of the program.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("the chart could not be drawn: {0}")]
pub struct DrawError(String);

impl DrawError {
    /// The error of this cause.
    pub(super) fn of(cause: impl std::fmt::Display) -> Self {
        Self(cause.to_string())
    }
}

pub use super::colour::{self, Colour};

/// Where the words stand from the point they are put at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stand {
    /// To its right.
    Right,
    /// Across it.
    Middle,
    /// To its left.
    Left,
}

/// How words look.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lettering {
    /// Height in pixels.
    pub size: f64,
    /// Whether bold.
    pub bold: bool,
    /// Their ink.
    pub ink: Colour,
}

impl Lettering {
    /// Regular words.
    pub const fn plain(size: f64, ink: Colour) -> Self {
        Self {
            size,
            bold: false,
            ink,
        }
    }
    /// Bold words.
    pub const fn bold(size: f64) -> Self {
        Self {
            size,
            bold: true,
            ink: colour::TEXT,
        }
    }
    fn style(self, paper: Theme) -> TextStyle<'static> {
        let face = if self.bold {
            FontStyle::Bold
        } else {
            FontStyle::Normal
        };
        // The backend writes a font size of size/1.24; undo it.
        (FONT, self.size * FINE * 1.24, face)
            .into_font()
            .color(&paper.shown(self.ink))
            .into_text_style(&(1, 1))
    }
}

/// A sheet being drawn on. Coordinates are pixels from the upper left corner.
pub struct Canvas<'s> {
    root: DrawingArea<SVGBackend<'s>, Shift>,
    paper: Theme,
}

/// Draws a picture of this size on this paper; `told` is read out in its place.
///
/// *Errors*: the drawing library or the font failed.
pub fn sheet(
    paper: Theme,
    (width, height): (u32, u32),
    told: &str,
    paint: impl FnOnce(&Canvas) -> Result<(), DrawError>,
) -> Result<String, DrawError> {
    ready_font()?;
    let fine = |pixels: u32| (f64::from(pixels) * FINE) as u32;
    let mut svg = String::new();
    {
        let root =
            SVGBackend::with_string(&mut svg, (fine(width), fine(height))).into_drawing_area();
        root.fill(&paper.shown(colour::BACKGROUND))
            .map_err(DrawError::of)?;
        let canvas = Canvas { root, paper };
        paint(&canvas)?;
        canvas.root.present().map_err(DrawError::of)?;
    }
    let drawn = format!("width=\"{}\" height=\"{}\"", fine(width), fine(height));
    let shown = format!("width=\"{width}\" height=\"{height}\" role=\"img\"");
    let svg = svg.replacen(&drawn, &shown, 1);
    let title = format!(">\n<title>{}</title>", escape(told));
    Ok(svg.replacen('>', &title, 1))
}

impl Canvas<'_> {
    /// A line through these points, `width` thick; with dashes, given their length and the space between.
    pub fn line(
        &self,
        points: &[(f64, f64)],
        ink: Colour,
        width: f64,
        dashes: Option<(f64, f64)>,
    ) -> Result<(), DrawError> {
        let style = stroke(self.paper.shown(ink), width);
        let pieces = match dashes {
            Some((dash, space)) => dashed(points, dash, space),
            None => vec![points.to_vec()],
        };
        for piece in pieces {
            let piece: Vec<_> = piece.into_iter().map(fine).collect();
            self.root
                .draw(&PathElement::new(piece, style))
                .map_err(DrawError::of)?;
        }
        Ok(())
    }
    /// A filled rectangle from one corner to the other.
    pub fn bar(&self, from: (f64, f64), to: (f64, f64), ink: Colour) -> Result<(), DrawError> {
        self.root
            .draw(&Rectangle::new(
                [fine(from), fine(to)],
                self.paper.shown(ink).filled(),
            ))
            .map_err(DrawError::of)
    }
    /// A filled polygon with these corners.
    pub fn area(&self, corners: &[(f64, f64)], ink: Colour) -> Result<(), DrawError> {
        let corners: Vec<_> = corners.iter().copied().map(fine).collect();
        self.root
            .draw(&Polygon::new(corners, self.paper.shown(ink).filled()))
            .map_err(DrawError::of)
    }
    /// The outline of a rectangle.
    pub fn outline(&self, from: (f64, f64), to: (f64, f64), ink: Colour) -> Result<(), DrawError> {
        self.root
            .draw(&Rectangle::new(
                [fine(from), fine(to)],
                stroke(self.paper.shown(ink), 1.0),
            ))
            .map_err(DrawError::of)
    }
    /// Words whose middle line runs through this point.
    pub fn words(
        &self,
        text: &str,
        at: (f64, f64),
        stand: Stand,
        lettering: Lettering,
    ) -> Result<(), DrawError> {
        let across = match stand {
            Stand::Right => HPos::Left,
            Stand::Middle => HPos::Center,
            Stand::Left => HPos::Right,
        };
        let style = lettering
            .style(self.paper)
            .pos(Pos::new(across, VPos::Center));
        self.root
            .draw_text(text, &style, fine(at))
            .map_err(DrawError::of)
    }
    /// How wide these words are, in pixels.
    pub fn width_of(&self, text: &str, lettering: Lettering) -> Result<f64, DrawError> {
        let (width, _) = self
            .root
            .estimate_text_size(text, &lettering.style(self.paper))
            .map_err(DrawError::of)?;
        // Measured with the size as the height of a line, shown with the size over 1.24 as that of an em.
        Ok(f64::from(width) / FINE / 1.24 * LINE_PER_EM)
    }
}

fn fine((x, y): (f64, f64)) -> (i32, i32) {
    ((x * FINE).round() as i32, (y * FINE).round() as i32)
}

fn stroke(ink: Colour, width: f64) -> ShapeStyle {
    ink.stroke_width((width * FINE).round() as u32)
}

/// A line cut into dashes of one length with one space between, measured along it.
fn dashed(points: &[(f64, f64)], dash: f64, space: f64) -> Vec<Vec<(f64, f64)>> {
    let (mut dashes, mut current) = (Vec::new(), Vec::new());
    let (mut drawing, mut left) = (true, dash);
    for pair in points.windows(2) {
        let (mut from, to) = (pair[0], pair[1]);
        if drawing && current.is_empty() {
            current.push(from);
        }
        let mut way = (to.0 - from.0).hypot(to.1 - from.1);
        while way > left {
            let share = left / way;
            from = (
                from.0 + share * (to.0 - from.0),
                from.1 + share * (to.1 - from.1),
            );
            way -= left;
            if drawing {
                current.push(from);
                dashes.push(std::mem::take(&mut current));
            } else {
                current = vec![from];
            }
            drawing = !drawing;
            left = if drawing { dash } else { space };
        }
        left -= way;
        if drawing {
            current.push(to);
        }
    }
    if current.len() > 1 {
        dashes.push(current);
    }
    dashes
}

fn escape(text: &str) -> String {
    text.replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
}

/// Registers the font once.
fn ready_font() -> Result<(), DrawError> {
    static READY: OnceLock<bool> = OnceLock::new();
    let ready = *READY.get_or_init(|| {
        register_font(FONT, FontStyle::Normal, REGULAR).is_ok()
            && register_font(FONT, FontStyle::Bold, BOLD).is_ok()
    });
    if ready {
        Ok(())
    } else {
        Err(DrawError("its font could not be read".to_owned()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sheet_has_its_size_a_fine_view_and_an_escaped_title() {
        let svg = sheet(Theme::Light, (200, 100), "a < b & c", |canvas| {
            canvas.line(&[(10.0, 10.0), (10.25, 20.0)], colour::TEXT, 1.0, None)
        })
        .unwrap();
        assert!(
            svg.starts_with(
                "<svg width=\"200\" height=\"100\" role=\"img\" viewBox=\"0 0 800 400\""
            )
        );
        assert!(svg.contains("<title>a &lt; b &amp; c</title>"));
        assert!(svg.contains("points=\"40,40 41,80 \""), "{svg}");
    }

    #[test]
    fn dashes_keep_their_length_round_corners_and_over_short_steps() {
        let points: Vec<_> = (0..=100).map(|k| (f64::from(k), 0.0)).collect();
        let dashes = dashed(&points, 8.0, 4.0);
        assert_eq!(dashes.len(), 9);
        assert_eq!(dashes[1].first(), Some(&(12.0, 0.0)));
        assert_eq!(dashes[1].last(), Some(&(20.0, 0.0)));
    }

    #[test]
    fn bold_words_are_wider() {
        sheet(Theme::Light, (100, 100), "", |canvas| {
            let plain = canvas.width_of("departure", Lettering::plain(12.0, colour::TEXT))?;
            let bold = canvas.width_of("departure", Lettering::bold(12.0))?;
            assert!(
                bold > plain && plain > 40.0 && plain < 80.0,
                "{plain} {bold}"
            );
            Ok(())
        })
        .unwrap();
    }
}
