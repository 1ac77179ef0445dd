//! A figure over the hours of a night: a headline, panels one above the other, the hours by the clock, the departure,
//! and strips under them that say when something was on.
//!
//! Names stand beside the ends of their lines, pushed apart where they would touch, so no legend covers data.

use super::axis::hour_ticks;
use super::names::{LEADER, lines};
use super::numbers::written;
use super::panel::{Panel, Place, Strip};
use super::view::{Chart, ChartView};
use crate::picture::draw::colour;
use crate::picture::draw::{Anchor, Canvas, TextStyle, drawn};
use crate::picture::text::{Heading, LINE, NAME};
use crate::trace::Trace;

/// What is left free at the right edge.
pub const MARGIN: f64 = 12.0;
/// From the headings to the first panel: room for the departure, and for the unit or, under it, a heading.
const ABOVE: f64 = 34.0;
/// Between panels: room for a heading.
const BETWEEN: f64 = 32.0;
const HOURS_HIGH: f64 = 30.0;
const DAYS_HIGH: f64 = 16.0;
const STRIP_HIGH: f64 = 22.0;
const BOTTOM: f64 = 12.0;
/// Hours by which a day has passed, so that a time of day alone does not say when.
const DAY_S: f64 = 86_400.0;

/// What a figure shows.
#[derive(Debug, Clone)]
pub struct Figure<'a> {
    /// Titles, clock and look.
    pub view: ChartView<'a>,
    /// What the chart finds, where the view has no headline.
    pub found: String,
    /// What is shown, after the titles.
    pub what: String,
    /// Times that matter, seconds after the beginning, and what they are.
    pub marks: Vec<(f64, String)>,
    /// When the record ends.
    pub end_s: f64,
    /// The panels, from above.
    pub panels: Vec<Panel>,
    /// The strips under them.
    pub strips: Vec<Strip>,
}

impl<'a> Figure<'a> {
    /// A figure over the hours of this trace, its departure marked.
    pub fn of(
        trace: &Trace,
        view: &ChartView<'a>,
        (found, what): (String, &str),
        panels: Vec<Panel>,
        strips: Vec<Strip>,
    ) -> Self {
        Self {
            view: *view,
            found,
            what: what.to_owned(),
            marks: vec![(trace.departure_s, "departure".to_owned())],
            end_s: trace.times_s.last().copied().unwrap_or(0.0),
            panels,
            strips,
        }
    }

    /// The picture, with its numbers.
    pub fn chart(mut self) -> Chart {
        let csv = written(self.view.clock, &self.panels, &self.strips);
        let size = self.view.look.size;
        let headline = self.view.headline(std::mem::take(&mut self.found));
        let note = self.view.note(&self.what);
        let width = size.width() - self.view.left() - MARGIN;
        let heading = Heading::of(&headline, &note, size, width);
        if let Some(high) = size.height() {
            self.panels.truncate(1);
            self.strips.clear();
            let free = high - self.height(&heading);
            for panel in &mut self.panels {
                panel.leave(size.most_names());
                panel.high += free;
            }
        }
        let title = format!("{headline}. {note}");
        let high = self.height(&heading);
        Chart {
            picture: drawn(self.view.look, high, title, |canvas| {
                for w in heading.words(self.view.left()) {
                    canvas.words(&w.text, w.at, w.anchor, w.style);
                }
                self.paint(canvas, heading.high());
            }),
            csv,
        }
    }

    fn long(&self) -> bool {
        self.end_s > DAY_S
    }

    fn height(&self, heading: &Heading) -> f64 {
        let panels: f64 = self.panels.iter().map(|p| p.high).sum();
        let between = BETWEEN * (self.panels.len().max(1) - 1) as f64;
        let days = if self.long() { DAYS_HIGH } else { 0.0 };
        let strips: f64 = self.strips.iter().map(|s| self.strip_high(s)).sum();
        heading.high() + self.above() + panels + between + HOURS_HIGH + days + strips + BOTTOM
    }

    fn above(&self) -> f64 {
        let headed = self.panels.first().is_some_and(|p| !p.heading.is_empty());
        ABOVE + if headed { LINE } else { 0.0 }
    }

    fn strip_high(&self, strip: &Strip) -> f64 {
        let lines = lines(&strip.name, self.view.widest_name()).len();
        STRIP_HIGH + LINE * (lines - 1) as f64
    }

    fn paint(&self, canvas: &Canvas, top: f64) {
        let size = self.view.look.size;
        let edge = size.width() - MARGIN;
        let end_s = self.end_s.max(1.0);
        let hours = hour_ticks(self.view.clock, end_s, self.view.hours());
        let mut top = top + self.above();
        let mut lowest = Place {
            left: self.view.left(),
            right: edge - self.names_width() - LEADER,
            top,
            floor: top,
            end_s,
            size,
        };
        for (k, panel) in self.panels.iter().enumerate() {
            let place = Place {
                top,
                floor: top + panel.high,
                ..lowest
            };
            panel.paint(canvas, &place, &hours, self.view.widest_name());
            self.marks(canvas, &place, k == 0);
            top = place.floor + BETWEEN;
            lowest = place;
        }
        self.hours(canvas, &lowest, &hours);
        self.strips(canvas, &lowest)
    }

    fn hours(&self, canvas: &Canvas, place: &Place, hours: &[f64]) {
        let small = TextStyle::plain(NAME, colour::MUTED);
        let begin = self.view.clock.begin_hour();
        for seconds in hours {
            let told = self.view.clock.to_text(*seconds);
            let at = (place.x(*seconds), place.floor + 16.0);
            if self.long() && told == "00:00" {
                let day = ((begin * 3600.0 + seconds) / DAY_S).round() + 1.0;
                let at = (at.0, at.1 + DAYS_HIGH);
                canvas.words(&format!("day {day}"), at, Anchor::Middle, small);
            }
            canvas.words(&told, at, Anchor::Middle, small);
        }
    }

    fn strips(&self, canvas: &Canvas, place: &Place) {
        let small = TextStyle::plain(NAME, colour::TEXT);
        let days = if self.long() { DAYS_HIGH } else { 0.0 };
        let mut top = place.floor + HOURS_HIGH + days;
        for strip in &self.strips {
            let (begin, foot) = (top + 4.0, top + STRIP_HIGH - 5.0);
            canvas.bar((place.left, begin), (place.right, foot), colour::GRID);
            for (from, to) in &strip.spans {
                let (from, to) = (from.max(0.0), to.min(place.end_s));
                if to > from {
                    canvas.bar((place.x(from), begin), (place.x(to), foot), strip.colour);
                }
            }
            let mut y = (begin + foot) / 2.0;
            for line in lines(&strip.name, self.view.widest_name()) {
                canvas.words(&line, (place.right + LEADER, y), Anchor::Start, small);
                y += LINE;
            }
            top += self.strip_high(strip);
        }
    }

    /// The times that matter, named over the first panel.
    fn marks(&self, canvas: &Canvas, place: &Place, named: bool) {
        // Clear of the unit at the left.
        let mut free = place.left + 8.0;
        for (seconds, name) in &self.marks {
            let x = place.x(*seconds);
            if !(place.left..=place.right + 0.5).contains(&x) {
                continue;
            }
            let rise = if named { 7.0 } else { 0.0 };
            let line = [(x, place.top - rise), (x, place.floor)];
            canvas.line(&line, colour::MARK, place.size.line(1.3), &[]);
            if named {
                let words = format!("{name} {}", self.view.clock.dated(*seconds));
                let style = TextStyle::plain(NAME, colour::MARK);
                let half = style.width(&words) / 2.0;
                let edge = self.view.look.size.width() - MARGIN;
                let centre = x.max(free + half).min(edge - half);
                let at = (centre, place.top - self.above() + 17.0);
                canvas.words(&words, at, Anchor::Middle, style);
                free = centre + half + 12.0;
            }
        }
    }

    /// The room names need at the right edge.
    fn names_width(&self) -> f64 {
        let (small, most) = (
            TextStyle::plain(NAME, colour::TEXT),
            self.view.widest_name(),
        );
        let names = self.panels.iter().flat_map(Panel::names);
        let names = names.chain(self.strips.iter().map(|s| s.name.as_str()));
        let lines = names.flat_map(|name| lines(name, most));
        let widest = lines.map(|line| small.width(&line)).fold(0.0, f64::max);
        // A little more, for a reader whose own sans-serif runs wider than ours.
        (widest * 1.04).min(most)
    }
}
