//! The panel beside the views: the moment, the coldest part, the scale of colours, the marks, the heaters.

use super::drawing::{Anchor, Drawing, Point, Words};
use super::moment::Moment;
use super::scale::{Scale, hex};
use super::sheet::PANEL;
use super::svg::{badge, drop_at, short, words};
use crate::night::Night;
use crate::quantity::{Temperature, Units};
use crate::report::format::{finely, size, temperature};
use std::fmt::Write;

/// Letters of 13 pixels that a line of the panel holds.
const LETTERS: usize = 47;
/// Heaters that are named; the rest are counted.
const HEATERS: usize = 5;
/// Pieces the bar of the scale is drawn in.
const PIECES: usize = 96;
/// Ticks of the scale stand at least so far apart, as a share of its bar.
const APART: f64 = 0.085;

/// With a true minus before a number, as the drawing has it.
fn minus(text: &str) -> String {
    text.replace(" -", " \u{2212}")
}

/// What a panel tells that is the same at every moment.
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
        Words {
            text,
            at: self.at(0.0, down),
            anchor: Anchor::Start,
            size,
            bold,
            quiet: false,
        }
    }
    /// Words of the scale.
    fn bar_words(&self) -> Vec<Words> {
        let threshold = Temperature::degC(self.scale.threshold_c).told(self.units);
        let middle = |text: String, right: f64, down: f64| Words {
            anchor: Anchor::Middle,
            at: self.at(right, down),
            ..self.line(text, 0.0, 13.0, false)
        };
        let mut all = vec![middle(format!("{threshold} asked"), PANEL / 2.0, 178.0)];
        for (celsius, told) in self.scale.ticks(self.units, APART) {
            // The outermost stay on the sheet.
            let right = (self.scale.place(celsius) * PANEL).clamp(12.0, PANEL - 12.0);
            all.push(middle(told, right, 222.0));
        }
        all
    }
    /// Words of the scale and the marks.
    fn key(&self) -> Vec<Words> {
        let mut all = self.bar_words();
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
                true => format!("{} under what is asked", size(gap, units)),
                false => format!("{} over what is asked", size(gap, units)),
            };
            let at = finely(coldest.temp_c, units);
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
            0 => format!("all {of} engine parts are as warm as asked"),
            n => format!("engine parts colder than asked: {n} of {of}"),
        };
        all.push(self.line(counted, down, 13.0, false));
        let hangar = minus(&format!(
            "hangar air {}",
            temperature(moment.hangar_c, units)
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
    /// All words of the panel, for whoever wants to know where they stand.
    pub fn all_words(&self, moment: &Moment) -> Vec<Words> {
        let mut all = self.key();
        all.extend(self.words(moment));
        all
    }
    /// The scale of colours, without its words.
    fn bar(&self) -> String {
        let mut svg = String::new();
        let (left, top) = self.at(0.0, 190.0);
        let wide = PANEL / PIECES as f64;
        for k in 0..PIECES {
            let share = (k as f64 + 0.5) / PIECES as f64;
            let colour = hex(self.scale.colour(self.celsius(share)));
            let (x, w) = (short(left + wide * k as f64), short(wide + 1.2));
            let _ = write!(
                svg,
                "<rect x=\"{x}\" y=\"{}\" width=\"{w}\" height=\"20\" fill=\"{colour}\"/>",
                short(top)
            );
        }
        let frame = (
            short(left),
            short(top),
            short(PANEL),
            short(left + PANEL / 2.0),
        );
        let _ = write!(
            svg,
            "<rect class=\"e\" x=\"{}\" y=\"{}\" width=\"{}\" height=\"20\"/>",
            frame.0, frame.1, frame.2
        );
        let _ = write!(
            svg,
            "<path class=\"k\" d=\"M{} {}v28\"/>",
            frame.3,
            short(top - 4.0)
        );
        svg
    }
    /// The scale with its words, put somewhere else on the sheet: this is its upper left corner.
    pub fn bar_at(&self, (left, top): Point) -> String {
        let (x, y) = self.at(0.0, 172.0);
        let (x, y) = (short(left - x), short(top - y));
        let mut svg = format!("<g transform=\"translate({x} {y})\">");
        svg += &self.bar();
        for w in self.bar_words() {
            words(&mut svg, &w, None);
        }
        svg + "</g>"
    }
    /// What is the same at every moment.
    pub fn still(&self) -> String {
        let mut svg = self.bar();
        let (x, y) = self.at(2.0, 262.0);
        for class in ["c", "k"] {
            let _ = write!(
                svg,
                "<rect class=\"{class}\" x=\"{}\" y=\"{}\" width=\"18\" height=\"15\"/>",
                short(x),
                short(y)
            );
        }
        drop_at(&mut svg, self.at(11.0, 290.0));
        for w in self.key() {
            words(&mut svg, &w, None);
        }
        svg
    }
    /// What is different at each moment.
    pub fn moving(&self, moment: &Moment) -> String {
        let mut svg = String::new();
        for (k, (_, on)) in self.heaters(moment).into_iter().enumerate() {
            if let Some(on) = on {
                let at = self.at(11.0, 318.0 + 20.0 * k as f64);
                badge(&mut svg, at, k, on);
            }
        }
        for w in self.words(moment) {
            words(&mut svg, &w, None);
        }
        svg
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
