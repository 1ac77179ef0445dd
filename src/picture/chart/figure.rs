//! A figure over the hours of a night: headings, panels one above the other, the hours by the clock, the departure,
//! and strips under them that say when something was on.
//!
//! Names stand beside the ends of their lines, pushed apart where they would touch, so no legend covers data.

use super::axis::hour_ticks;
use super::heading;
use super::names::{LEADER, NAME, fitted};
use super::numbers::written;
use super::panel::{Panel, Place};
use super::strip::Strip;
use super::view::{Chart, ChartView};
use crate::picture::draw::colour;
use crate::picture::draw::{Anchor, Canvas, TextStyle, drawn};

/// What is left free at the right edge.
pub const MARGIN: f64 = 12.0;
/// From the headings to the first panel: room for the departure and the unit.
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
    /// Headings, clock and theme.
    pub view: ChartView<'a>,
    /// What is shown, after the subtitle.
    pub what: String,
    /// When the aeroplane leaves, seconds after the beginning.
    pub departure_s: f64,
    /// When the record ends.
    pub end_s: f64,
    /// The panels, from above.
    pub panels: Vec<Panel>,
    /// The strips under them.
    pub strips: Vec<Strip>,
}

impl Figure<'_> {
    /// The figure as SVG, with its numbers.
    pub fn chart(&self) -> Chart {
        let told = format!("{}. {}", self.view.title, self.view.saying(&self.what));
        let size = (self.view.breadth.width(), self.height());
        Chart {
            picture: drawn(self.view.theme, size, told, |canvas| self.paint(canvas)),
            csv: written(self.view.clock, &self.panels, &self.strips),
        }
    }

    fn long(&self) -> bool {
        self.end_s > DAY_S
    }

    /// High enough for two lines of subtitle; what is not needed is left free.
    fn height(&self) -> f64 {
        let panels: f64 = self.panels.iter().map(|p| p.high).sum();
        let between = BETWEEN * (self.panels.len().max(1) - 1) as f64;
        let days = if self.long() { DAYS_HIGH } else { 0.0 };
        let strips = STRIP_HIGH * self.strips.len() as f64;
        heading::HIGH + ABOVE + panels + between + HOURS_HIGH + days + strips + BOTTOM
    }

    fn paint(&self, canvas: &Canvas) {
        let saying = self.view.saying(&self.what);
        let breadth = self.view.breadth;
        let (left, edge) = (breadth.left(), breadth.width() - MARGIN);
        heading::written(canvas, self.view.title, &saying, left, edge);
        let right = edge - self.names_width() - LEADER;
        let end_s = self.end_s.max(1.0);
        let hours = hour_ticks(self.view.clock, end_s, breadth.hours());
        let mut top = heading::HIGH + ABOVE;
        let mut lowest = Place {
            left,
            right,
            top,
            floor: top,
            end_s,
        };
        for (k, panel) in self.panels.iter().enumerate() {
            let place = Place {
                top,
                floor: top + panel.high,
                ..lowest
            };
            panel.paint(canvas, &place, &hours, breadth.name_widest());
            self.departure(canvas, &place, k == 0);
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
            let told = self.view.clock.told(*seconds);
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
        for (k, strip) in self.strips.iter().enumerate() {
            let top = place.floor + HOURS_HIGH + days + STRIP_HIGH * k as f64;
            let (top, foot) = (top + 4.0, top + STRIP_HIGH - 5.0);
            canvas.bar((place.left, top), (place.right, foot), colour::GRID);
            for (from, to) in &strip.spans {
                let (from, to) = (from.max(0.0), to.min(place.end_s));
                if to > from {
                    canvas.bar((place.x(from), top), (place.x(to), foot), strip.colour);
                }
            }
            let name = fitted(&strip.name, small, self.view.breadth.name_widest());
            let at = (place.right + LEADER, (top + foot) / 2.0);
            canvas.words(&name, at, Anchor::Start, small);
        }
    }

    fn departure(&self, canvas: &Canvas, place: &Place, told: bool) {
        let x = place.x(self.departure_s);
        if !(place.left..=place.right + 0.5).contains(&x) {
            return;
        }
        let rise = if told { 7.0 } else { 0.0 };
        canvas.line(
            &[(x, place.top - rise), (x, place.floor)],
            colour::MARK,
            1.3,
            None,
        );
        if !told {
            return;
        }
        let words = format!("departure {}", self.view.clock.dated(self.departure_s));
        let style = TextStyle::plain(NAME, colour::MARK);
        let half = style.width(&words) / 2.0;
        // Clear of the unit at the left.
        let edge = self.view.breadth.width() - MARGIN;
        let centre = x.clamp(place.left + half + 8.0, edge - half);
        let at = (centre, place.top - 17.0);
        canvas.words(&words, at, Anchor::Middle, style)
    }

    /// The room names need at the right edge.
    fn names_width(&self) -> f64 {
        let small = TextStyle::plain(NAME, colour::TEXT);
        let names = self.panels.iter().flat_map(Panel::names);
        let names = names.chain(self.strips.iter().map(|s| s.name.as_str()));
        let mut widest: f64 = 0.0;
        for name in names {
            widest = widest.max(small.width(name));
        }
        // A little more, for a reader whose own sans-serif runs wider than ours.
        (widest * 1.04).min(self.view.breadth.name_widest())
    }
}
