//! One panel of a figure: its own vertical axis, lines or a pile of layers, limits, names at the right edge.

use super::axis::{round_range, tick_label};
use super::clip::Frame;
use super::line::{Line, RIBBON};
use super::names::{self, Name, Sample};
use super::stack::Stack;
use super::thin::thinned;
use super::view::Unit;
use crate::picture::draw::colour::{self, Colour};
use crate::picture::draw::{Anchor, Canvas, Size, TextStyle};
use crate::picture::text::NAME;

/// Dashes of a limit.
const LIMIT: &[f64] = &[7.0, 4.0];
/// Lines keep four points for each column this wide, in pixels.
const COLUMN: f64 = 1.0;
/// The least room for the name of a tick.
const TICK_ROOM: f64 = 16.0;

/// A value that matters, drawn as a dashed line across.
#[derive(Debug, Clone, PartialEq)]
pub struct Limit {
    /// The value.
    pub value: f64,
    /// Its name; none is written if it is empty.
    pub name: String,
}

/// What a panel shows.
#[derive(Debug, Clone, PartialEq)]
pub struct Panel {
    /// What its axis counts in.
    pub unit: Unit,
    /// What it shows, above it; the unit alone if it is empty.
    pub heading: String,
    /// How high it is, in pixels.
    pub high: f64,
    /// A vertical range in place of the one that holds everything; lines are cut at it.
    pub range: Option<(f64, f64)>,
    /// Its lines.
    pub lines: Vec<Line>,
    /// Its pile of layers.
    pub stack: Stack,
    /// Its limits.
    pub limits: Vec<Limit>,
}

/// When something was on, drawn as a strip under the panels.
#[derive(Debug, Clone, PartialEq)]
pub struct Strip {
    /// Its name in machine output.
    pub key: String,
    /// Its name.
    pub name: String,
    /// Spans of seconds after the beginning.
    pub spans: Vec<(f64, f64)>,
    /// Its colour.
    pub colour: Colour,
}

/// Where a panel lies on its sheet, and the hours it spans.
#[derive(Debug, Clone, Copy)]
pub struct Place {
    /// Its left edge.
    pub left: f64,
    /// Its right edge.
    pub right: f64,
    /// Its upper edge.
    pub top: f64,
    /// Its lower edge.
    pub floor: f64,
    /// When the record ends, seconds after the beginning.
    pub end_s: f64,
    /// What the picture is made for.
    pub size: Size,
}

impl Place {
    /// Where a time stands.
    pub fn x(&self, seconds: f64) -> f64 {
        self.left + seconds / self.end_s * (self.right - self.left)
    }
}

impl Panel {
    /// Everything that needs a name at the right edge.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        let lines = self.lines.iter().map(|l| l.name.as_str());
        let layers = self.stack.layers.iter().chain(&self.stack.over);
        let layers = layers.map(|l| l.name.as_str());
        let limits = self.limits.iter().map(|l| l.name.as_str());
        lines.chain(layers).chain(limits)
    }

    /// The range of its axis and its ticks.
    fn axis(&self) -> ((f64, f64), Vec<f64>) {
        let most = (self.high / (2.2 * TICK_ROOM)).clamp(2.0, 8.0);
        if let Some((low, high)) = self.range {
            return ((low, high), round_range([low, high].into_iter(), most).1);
        }
        let values = self.lines.iter().flat_map(|l| {
            let ribbon = l.ribbon.iter().flat_map(|r| &r.points);
            let edges = ribbon.flat_map(|p| [p.1, p.2]);
            l.points.iter().map(|p| p.1).chain(edges)
        });
        let (low, high) = self.stack.range();
        let piled = if self.stack.layers.is_empty() {
            vec![]
        } else {
            vec![low, high]
        };
        let limits = self.limits.iter().map(|l| l.value);
        round_range(values.chain(piled).chain(limits), most)
    }

    /// Leaves only so many names: limits, then the thickest lines and the largest layers. A line goes with its name.
    pub fn leave(&mut self, most: usize) {
        let most = most.saturating_sub(self.limits.len() + usize::from(self.stack.over.is_some()));
        let mut thick: Vec<f64> = self.lines.iter().map(|l| l.width).collect();
        thick.sort_by(|a, b| b.total_cmp(a));
        let least = thick.get(most).map_or(0.0, |next| *next);
        let mut left = most;
        self.lines.retain(|line| {
            let stays = line.width > least || left > 0 && line.width >= least;
            left = left.saturating_sub(usize::from(stays));
            stays
        });
        self.lines.truncate(most);
        let size = |values: &[f64]| values.iter().map(|v| v.abs()).sum::<f64>();
        let mut layers: Vec<_> = self.stack.layers.iter_mut().collect();
        layers.sort_by(|a, b| size(&b.values).total_cmp(&size(&a.values)));
        for layer in layers.into_iter().skip(most) {
            layer.name.clear();
        }
    }

    /// Draws it, its names so wide at most; the hours are drawn by the figure.
    pub fn paint(&self, canvas: &Canvas, place: &Place, hours: &[f64], widest: f64) {
        let ((low, high), ticks) = self.axis();
        let y = |value: f64| place.floor - (value - low) / (high - low) * (place.floor - place.top);
        let x = |seconds: f64| place.x(seconds);
        self.grid(canvas, place, &ticks, &y, hours);
        self.stack.paint(canvas, &x, &y);
        let frame = Frame {
            x: (0.0, place.end_s),
            y: (low, high),
        };
        let on_sheet = |line: &[(f64, f64)]| -> Vec<(f64, f64)> {
            line.iter().map(|p| (x(p.0), y(p.1))).collect()
        };
        let ribbons = self.lines.iter().filter(|l| l.ribbon.is_some());
        for (line, ribbon) in ribbons.flat_map(|l| l.ribbon.iter().map(move |r| (l, r))) {
            let inside = |value: f64| y(value.clamp(low, high));
            let upper = ribbon.points.iter().map(|p| (x(p.0), inside(p.2)));
            let lower = ribbon.points.iter().rev().map(|p| (x(p.0), inside(p.1)));
            let corners: Vec<_> = upper.chain(lower).collect();
            canvas.area(&corners, line.colour, RIBBON);
        }
        let mut named = Vec::new();
        for limit in &self.limits {
            let across = [(0.0, limit.value), (place.end_s, limit.value)];
            for piece in frame.pieces(&across) {
                let width = place.size.line(1.3);
                canvas.line(&on_sheet(&piece), colour::MARK, width, LIMIT);
                named.push(name(y(limit.value), &limit.name, colour::MARK, LIMIT));
            }
        }
        for (layer, piled) in self.stack.layers.iter().zip(self.stack.piled()) {
            named.push(Name {
                sample: Sample::Block(12.0, layer.opacity),
                ..name(y(piled.end()), &layer.name, layer.colour, &[])
            });
        }
        if let Some(over) = &self.stack.over {
            let end = over.values.last().copied().unwrap_or(0.0);
            named.push(Name {
                sample: Sample::Block(2.5, 1.0),
                ..name(y(end), &over.name, over.colour, &[])
            });
        }
        // Thick lines lie on thin ones, and dashed lines on solid ones, so that each shows where two run together.
        let mut lines: Vec<&Line> = self.lines.iter().collect();
        lines.sort_by(|a, b| {
            let dashed = |line: &Line| !line.dashes.is_empty();
            a.width.total_cmp(&b.width).then(dashed(a).cmp(&dashed(b)))
        });
        for line in lines {
            let mut end = None;
            for piece in frame.pieces(&line.points) {
                let piece = thinned(&on_sheet(&piece), COLUMN);
                let width = place.size.line(line.width);
                canvas.line(&piece, line.colour, width, line.dashes);
                end = piece.last().map(|p| p.1);
            }
            if let Some(y) = end {
                named.push(name(y, &line.name, line.colour, line.dashes));
            }
        }
        named.retain(|n| !n.text.is_empty());
        let bounds = (place.top + 4.0, place.floor - 4.0);
        names::write(canvas, named, place.right, bounds, widest)
    }

    fn grid(
        &self,
        canvas: &Canvas,
        place: &Place,
        ticks: &[f64],
        y: &dyn Fn(f64) -> f64,
        hours: &[f64],
    ) {
        let small = TextStyle::plain(NAME, colour::MUTED);
        for tick in ticks {
            let y = y(*tick);
            if !(place.top - 0.5..=place.floor + 0.5).contains(&y) {
                continue;
            }
            canvas.line(&[(place.left, y), (place.right, y)], colour::GRID, 1.0, &[]);
            let at = (place.left - 8.0, y);
            canvas.words(&tick_label(*tick), at, Anchor::End, small);
        }
        for seconds in hours {
            let x = place.x(*seconds);
            canvas.line(&[(x, place.top), (x, place.floor)], colour::GRID, 1.0, &[]);
        }
        let (corner, far) = ((place.left, place.top), (place.right, place.floor));
        canvas.outline(corner, far, colour::FRAME);
        let above = place.top - 17.0;
        let (words, at, stand) = match self.heading.as_str() {
            "" => (self.unit.symbol.to_owned(), place.left - 8.0, Anchor::End),
            what => (
                format!("{what}, {}", self.unit.symbol),
                place.left,
                Anchor::Start,
            ),
        };
        canvas.words(&words, (at, above), stand, small)
    }
}

fn name(y: f64, text: &str, colour: Colour, dashes: &'static [f64]) -> Name {
    Name {
        y,
        text: text.to_owned(),
        colour,
        dashes,
        sample: Sample::Leader,
    }
}
