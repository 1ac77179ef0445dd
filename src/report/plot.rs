//! One plot over the hours of a night: frame, ticks, lines with their names at the right edge, heaters below.
//!
//! Names stand beside the ends of their lines, pushed apart where they would touch, so no legend covers data.

use super::axis::{hour_ticks, round_range, tick_label};
use super::canvas::{Canvas, DrawError, Ink, Lettering, Stand, ink, sheet};
use super::clip::Frame;
use super::names::{self, LEADER, NAME, NAME_WIDEST, Name, fitted};
use crate::quantity::{Temperature, Units};
use crate::scenario::clock::NightClock;

const WIDTH: f64 = 960.0;
const HEIGHT: f64 = 540.0;
const LEFT: f64 = 58.0;
const TOP: f64 = 84.0;
const HOURS_HIGH: f64 = 28.0;
const STRIP_HIGH: f64 = 20.0;
const BOTTOM: f64 = 14.0;
/// Dashes of the threshold.
const LIMIT: (f64, f64) = (7.0, 4.0);

/// One line of a plot.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// Its name; none is written for a line that goes with another.
    pub name: String,
    /// Seconds after the beginning, and °C.
    pub points: Vec<(f64, f64)>,
    /// Its ink.
    pub ink: Ink,
    /// Its thickness in pixels.
    pub width: f64,
    /// Length of its dashes and of the space between them, if it is dashed.
    pub dashes: Option<(f64, f64)>,
}

/// When something was on, drawn as a strip under the plot.
#[derive(Debug, Clone, PartialEq)]
pub struct Strip {
    /// Its name.
    pub name: String,
    /// Spans of seconds after the beginning.
    pub spans: Vec<(f64, f64)>,
}

/// What a plot shows.
#[derive(Debug, Clone, PartialEq)]
pub struct Plot<'a> {
    /// Its heading.
    pub title: &'a str,
    /// A second, smaller heading.
    pub subtitle: &'a str,
    /// The local clock.
    pub clock: &'a NightClock,
    /// The degrees a reader thinks in.
    pub units: Units,
    /// The temperature that is asked for.
    pub threshold: Temperature,
    /// When the aeroplane leaves, seconds after the beginning.
    pub departure_s: f64,
    /// When the record ends.
    pub end_s: f64,
    /// A vertical range in °C in place of the one that holds every line; lines are cut at it.
    pub range: Option<(f64, f64)>,
    /// The lines.
    pub lines: Vec<Line>,
    /// The strips under it.
    pub strips: Vec<Strip>,
}

/// Where the plot lies on its sheet.
struct Layout {
    frame: Frame,
    right: f64,
    floor: f64,
}

impl Layout {
    fn x(&self, seconds: f64) -> f64 {
        let (from, to) = self.frame.x;
        LEFT + (seconds - from) / (to - from) * (self.right - LEFT)
    }
    fn y(&self, degrees: f64) -> f64 {
        let (from, to) = self.frame.y;
        self.floor - (degrees - from) / (to - from) * (self.floor - TOP)
    }
    fn on_sheet(&self, line: &[(f64, f64)]) -> Vec<(f64, f64)> {
        line.iter().map(|p| (self.x(p.0), self.y(p.1))).collect()
    }
}

impl Plot<'_> {
    /// The plot as SVG.
    ///
    /// *Errors*: the drawing failed, which is a fault of the program.
    pub fn svg(&self) -> Result<String, DrawError> {
        let told = format!("{}. {}", self.title, self.subtitle);
        sheet((WIDTH as u32, HEIGHT as u32), &told, |canvas| {
            self.paint(canvas)
        })
    }

    fn paint(&self, canvas: &Canvas) -> Result<(), DrawError> {
        let degrees = |celsius: f64| self.units.temperature(celsius);
        let threshold = degrees(self.threshold.celsius());
        let ((low, high), ticks) = match self.range {
            Some((low, high)) => round_range([degrees(low), degrees(high)].into_iter()),
            None => round_range(
                self.lines
                    .iter()
                    .flat_map(|l| l.points.iter().map(|p| degrees(p.1)))
                    .chain([threshold]),
            ),
        };
        let frame = match self.range {
            Some((low, high)) => (degrees(low), degrees(high)),
            None => (low, high),
        };
        let layout = Layout {
            frame: Frame {
                x: (0.0, self.end_s.max(1.0)),
                y: frame,
            },
            right: WIDTH - self.names_width(canvas)? - LEADER - 12.0,
            floor: HEIGHT - BOTTOM - HOURS_HIGH - STRIP_HIGH * self.strips.len() as f64,
        };
        self.headings(canvas)?;
        self.grid(canvas, &layout, &ticks)?;
        self.strips(canvas, &layout)?;
        self.departure(canvas, &layout)?;
        let mut names = Vec::new();
        let limit = [(0.0, threshold), (layout.frame.x.1, threshold)];
        for piece in layout.frame.pieces(&limit) {
            let piece = layout.on_sheet(&piece);
            canvas.line(&piece, ink::MARK, 1.3, Some(LIMIT))?;
            names.push(Name {
                y: layout.y(threshold),
                text: self.threshold_name(),
                ink: ink::MARK,
                dashes: Some(LIMIT),
            });
        }
        // Dashed lines lie on solid ones, so that each shows where two run along together.
        let solid = self.lines.iter().filter(|l| l.dashes.is_none());
        let dashed = self.lines.iter().filter(|l| l.dashes.is_some());
        for line in solid.chain(dashed) {
            let points: Vec<_> = line.points.iter().map(|p| (p.0, degrees(p.1))).collect();
            let mut end = None;
            for piece in layout.frame.pieces(&points) {
                let piece = layout.on_sheet(&piece);
                canvas.line(&piece, line.ink, line.width, line.dashes)?;
                end = piece.last().map(|p| p.1);
            }
            if let Some(y) = end.filter(|_| !line.name.is_empty()) {
                names.push(Name {
                    y,
                    text: line.name.clone(),
                    ink: line.ink,
                    dashes: line.dashes,
                });
            }
        }
        names::written(canvas, names, layout.right, (TOP + 4.0, layout.floor - 4.0))
    }

    fn headings(&self, canvas: &Canvas) -> Result<(), DrawError> {
        let big = Lettering::bold(17.0);
        let title = fitted(canvas, self.title, big, WIDTH - LEFT - 12.0)?;
        canvas.words(&title, (LEFT, 24.0), Stand::Right, big)?;
        let small = Lettering::plain(12.0, ink::QUIET);
        let subtitle = fitted(canvas, self.subtitle, small, WIDTH - LEFT - 12.0)?;
        canvas.words(&subtitle, (LEFT, 46.0), Stand::Right, small)?;
        canvas.words(
            self.units.symbol(),
            (LEFT - 8.0, TOP - 16.0),
            Stand::Left,
            small,
        )
    }

    fn grid(&self, canvas: &Canvas, layout: &Layout, ticks: &[f64]) -> Result<(), DrawError> {
        let small = Lettering::plain(12.0, ink::QUIET);
        for tick in ticks {
            let y = layout.y(*tick);
            if !(TOP - 0.5..=layout.floor + 0.5).contains(&y) {
                continue;
            }
            canvas.line(&[(LEFT, y), (layout.right, y)], ink::GRID, 1.0, None)?;
            canvas.words(&tick_label(*tick), (LEFT - 8.0, y), Stand::Left, small)?;
        }
        for seconds in hour_ticks(self.clock, layout.frame.x.1) {
            let x = layout.x(seconds);
            canvas.line(&[(x, TOP), (x, layout.floor)], ink::GRID, 1.0, None)?;
            let at = (x, layout.floor + 15.0);
            canvas.words(&self.clock.told(seconds), at, Stand::Middle, small)?;
        }
        canvas.outline((LEFT, TOP), (layout.right, layout.floor), ink::FRAME)
    }

    fn strips(&self, canvas: &Canvas, layout: &Layout) -> Result<(), DrawError> {
        let small = Lettering::plain(NAME, ink::TEXT);
        for (k, strip) in self.strips.iter().enumerate() {
            let top = layout.floor + HOURS_HIGH + STRIP_HIGH * k as f64;
            let (top, foot) = (top + 4.0, top + STRIP_HIGH - 4.0);
            canvas.bar((LEFT, top), (layout.right, foot), ink::GRID)?;
            for (from, to) in &strip.spans {
                let (from, to) = (from.max(0.0), to.min(layout.frame.x.1));
                if to > from {
                    canvas.bar((layout.x(from), top), (layout.x(to), foot), ink::HEAT)?;
                }
            }
            let name = fitted(canvas, &strip.name, small, NAME_WIDEST)?;
            let at = (layout.right + LEADER, (top + foot) / 2.0);
            canvas.words(&name, at, Stand::Right, small)?;
        }
        Ok(())
    }

    fn departure(&self, canvas: &Canvas, layout: &Layout) -> Result<(), DrawError> {
        let x = layout.x(self.departure_s);
        if !(LEFT..=layout.right + 0.5).contains(&x) {
            return Ok(());
        }
        canvas.line(&[(x, TOP - 8.0), (x, layout.floor)], ink::MARK, 1.3, None)?;
        let words = format!("departure {}", self.clock.told(self.departure_s));
        let lettering = Lettering::plain(NAME, ink::MARK);
        let half = canvas.width_of(&words, lettering)? / 2.0;
        let centre = x.clamp(LEFT + half, WIDTH - 12.0 - half);
        canvas.words(&words, (centre, TOP - 16.0), Stand::Middle, lettering)
    }

    fn threshold_name(&self) -> String {
        let degrees = self.units.temperature(self.threshold.celsius());
        // To a tenth: 40 °F is 4.4 °C.
        let told = tick_label((degrees * 10.0).round() / 10.0);
        format!("threshold {told} {}", self.units.symbol())
    }

    /// The room names need at the right edge.
    fn names_width(&self, canvas: &Canvas) -> Result<f64, DrawError> {
        let small = Lettering::plain(NAME, ink::TEXT);
        let threshold = self.threshold_name();
        let names = self.lines.iter().map(|l| &l.name);
        let names = names
            .chain(self.strips.iter().map(|s| &s.name))
            .chain([&threshold]);
        let mut widest: f64 = 0.0;
        for name in names {
            widest = widest.max(canvas.width_of(name, small)?);
        }
        // A little more, for a reader whose own sans-serif runs wider than ours.
        Ok((widest * 1.06).min(NAME_WIDEST))
    }
}
