//! The panel beside the views: the moment, the coldest part, the scale of colours, the marks, the heaters.

use super::drawing::Drawing;
use super::moment::Moment;
use super::paint::{around_coldest, badge, drop_at, words};
use super::scale::Scale;
use super::sheet::PANEL;
use crate::night::Night;
use crate::picture::draw::colour::{COLDEST, TEXT, Theme};
use crate::picture::draw::{Anchor, Area, Outline, Point, Shape, Stroke, TextStyle, Words};
use crate::quantity::{Temperature, Units};

/// Letters of 13 pixels that a line of the panel holds.
const LETTERS: usize = 47;
/// Heaters that are named; the rest are counted.
const HEATERS: usize = 5;
/// From the upper edge of the panel to its scale.
const BAR: f64 = 172.0;
/// Pieces the bar of the scale is drawn in.
const PIECES: usize = 96;
/// Ticks of the scale stand at least so far apart, as a share of its bar.
const APART: f64 = 0.085;

/// With a true minus before a number, as the drawing has it.
fn minus(text: &str) -> String {
    text.replace(" -", " \u{2212}")
}

/// What a panel shows that is the same at every moment.
pub struct Panel<'a> {
    /// Its drawing.
    pub drawing: &'a Drawing,
    /// Its night.
    pub night: &'a Night,
    /// Its colours.
    pub scale: Scale,
    /// The reader's degrees.
    pub units: Units,
}

impl Panel<'_> {
    fn at(&self, right: f64, down: f64) -> Point {
        (self.drawing.panel.0 + right, self.drawing.panel.1 + down)
    }
    fn line(&self, text: String, down: f64, size: f64, bold: bool) -> Words {
        let style = TextStyle {
            bold,
            ..TextStyle::plain(size, TEXT)
        };
        Words::new(text, self.at(0.0, down), Anchor::Start, style)
    }
    /// Words of the scale, its upper left corner here.
    fn bar_words(&self, (left, top): Point) -> Vec<Words> {
        let threshold = Temperature::degC(self.scale.threshold_c).told(self.units);
        let middle = |text: String, right: f64, down: f64| Words {
            anchor: Anchor::Middle,
            at: (left + right, top + down),
            ..self.line(text, 0.0, 13.0, false)
        };
        let mut all = vec![middle(format!("{threshold} minimum"), PANEL / 2.0, 6.0)];
        for (celsius, told) in self.scale.ticks(self.units, APART) {
            // The outermost stay on the sheet.
            let right = (self.scale.place(celsius) * PANEL).clamp(12.0, PANEL - 12.0);
            all.push(middle(told, right, 50.0));
        }
        all
    }
    /// Words of the marks.
    fn key(&self) -> Vec<Words> {
        let mut all = Vec::new();
        let letters = match self.drawing.tags.is_empty() {
            true => "\"air\" is the air there.",
            false => "letters: the key under a view.",
        };
        let unit = format!("Numbers are {}; {letters}", self.units.symbol());
        all.push(self.line(unit, 246.0, 13.0, false));
        for (text, down) in [
            ("coldest engine part", 270.0),
            ("water or frost on its inner wall", 292.0),
        ] {
            let mut w = self.line(text.to_owned(), down, 13.0, false);
            w.at.0 += 30.0;
            all.push(w);
        }
        all
    }
    /// Words of the moment.
    pub fn words(&self, moment: &Moment) -> Vec<Words> {
        let units = self.units;
        let clock = self.night.scenario.clock();
        let mut all = vec![self.line(clock.told(moment.time_s), 16.0, 30.0, true)];
        let hours = (self.night.trace.departure_s - moment.time_s) / 3600.0;
        let when = match hours {
            h if h.abs() < 0.01 => "departure".to_owned(),
            h if h > 0.0 => format!("{h:.1} h before departure"),
            h => format!("{:.1} h after departure", -h),
        };
        // The day, where a night has more than one: `day 2, 06:30`.
        let dated = clock.dated(moment.time_s);
        let when = match dated.split_once(", ") {
            Some((day, _)) => format!("{day}, {when}"),
            None => when,
        };
        let mut beside = self.line(when, 16.0, 14.0, false);
        beside.at.0 += 120.0;
        all.push(beside);
        let mut down = 52.0;
        if let Some(coldest) = &moment.coldest {
            let gap = coldest.temp_c - self.scale.threshold_c;
            let stands = match gap < 0.0 {
                true => format!("{} below the minimum", units.size(gap)),
                false => format!("{} above the minimum", units.size(gap)),
            };
            let at = Temperature::degC(coldest.temp_c).told(units);
            // The number and its unit stay on one line.
            let told = minus(&format!("Coldest: {}, {at}", coldest.label));
            let told = told.replace(" °", "\u{a0}°");
            for line in textwrap::wrap(&told, LETTERS - 4).into_iter().take(2) {
                all.push(self.line(line.into_owned(), down, 13.0, true));
                down += 18.0;
            }
            all.push(self.line(stands, down, 13.0, false));
            down += 18.0;
        }
        let (under, of) = moment.under;
        let counted = match under {
            0 => format!("all {of} engine parts are at the minimum or above"),
            n => format!("engine parts below the minimum: {n} of {of}"),
        };
        all.push(self.line(counted, down, 13.0, false));
        let hangar = minus(&format!(
            "hangar air {}",
            units.temperature_text(moment.hangar_c)
        ));
        all.push(self.line(hangar, down + 18.0, 13.0, false));
        for (k, (text, _)) in self.heaters(moment).into_iter().enumerate() {
            let mut w = self.line(text, 318.0 + 20.0 * k as f64, 13.0, false);
            w.at.0 += 30.0;
            all.push(w);
        }
        all
    }
    /// Lines of heaters, in their order: its words, and whether it is on; none of a line that is no heater.
    fn heaters(&self, moment: &Moment) -> Vec<(String, Option<bool>)> {
        let heaters = &self.night.scenario.scenario().heaters;
        if heaters.is_empty() {
            return vec![("no heater".to_owned(), None)];
        }
        let mut lines: Vec<_> = heaters
            .iter()
            .enumerate()
            .take(HEATERS)
            .map(|(k, heater)| {
                let on = moment.on.get(k) == Some(&true);
                let state = if on { "on" } else { "off" };
                let room = LETTERS - 12;
                let name: String = heater.name.chars().take(room).collect();
                (format!("{name}: {state}"), Some(on))
            })
            .collect();
        if heaters.len() > HEATERS {
            let more = format!("and {} more", heaters.len() - HEATERS);
            lines.push((more, None));
        }
        lines
    }
    /// The scale of colours with its words, its upper left corner here.
    pub fn bar(&self, corner: Point, theme: Theme) -> Vec<Shape> {
        let (left, top) = (corner.0, corner.1 + 18.0);
        let rectangle =
            |left: f64, wide: f64| Outline::rectangle((left, top), (left + wide, top + 20.0));
        let wide = PANEL / PIECES as f64;
        let pieces = (0..PIECES).map(|k| {
            let colour = self
                .scale
                .colour(self.celsius((k as f64 + 0.5) / PIECES as f64));
            Area::filled(rectangle(left + wide * k as f64, wide + 1.2), colour)
        });
        let frame = Area::edged(rectangle(left, PANEL), theme.shown(TEXT), 1.0);
        let mut shapes: Vec<Shape> = pieces.chain([frame]).map(Shape::Area).collect();
        let middle = left + PANEL / 2.0;
        let threshold = vec![(middle, top - 4.0), (middle, top + 24.0)];
        shapes.push(Shape::Line(threshold, Stroke::solid(COLDEST, 3.0)));
        shapes.extend(self.bar_words(corner).iter().map(|w| words(w, theme)));
        shapes
    }
    /// What is the same at every moment.
    pub fn still(&self, theme: Theme) -> Vec<Shape> {
        let mut shapes = self.bar(self.at(0.0, BAR), theme);
        let (x, y) = self.at(2.0, 262.0);
        shapes.extend(around_coldest(&Outline::rectangle(
            (x, y),
            (x + 18.0, y + 15.0),
        )));
        shapes.push(drop_at(self.at(11.0, 290.0)));
        shapes.extend(self.key().iter().map(|w| words(w, theme)));
        shapes
    }
    /// What is different at each moment.
    pub fn moving(&self, moment: &Moment, theme: Theme) -> Vec<Shape> {
        let mut shapes = Vec::new();
        for (k, (_, on)) in self.heaters(moment).into_iter().enumerate() {
            if let Some(on) = on {
                shapes.extend(badge(self.at(11.0, 318.0 + 20.0 * k as f64), k, on));
            }
        }
        shapes.extend(self.words(moment).iter().map(|w| words(w, theme)));
        shapes
    }
    /// The temperature at a share of the bar.
    fn celsius(&self, share: f64) -> f64 {
        let s = &self.scale;
        match share < 0.5 {
            true => s.low_c + (s.threshold_c - s.low_c) * share * 2.0,
            false => s.threshold_c + (s.high_c - s.threshold_c) * (share - 0.5) * 2.0,
        }
    }
}
