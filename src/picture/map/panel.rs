//! The panel beside the views: the time, how many parts are cold, the scale of colours, the heaters.

use super::moment::Moment;
use super::paint::{badge, words};
use super::scale::Scale;
use crate::night::Night;
use crate::picture::chart::tick_label;
use crate::picture::draw::colour::{COLDEST, MUTED, TEXT, Theme};
use crate::picture::draw::{Anchor, Area, Outline, Point, Shape, Size, Stroke, TextStyle, Words};
use crate::picture::text::{LINE, NAME, wrapped};
use crate::quantity::Units;

/// Heaters that are named; the rest are counted.
const HEATERS: usize = 5;
/// From the upper edge of the panel to its scale, and from there to the heaters.
const BAR: f64 = 86.0;
const ROWS: f64 = 160.0;
/// From one heater to the next: two lines of words.
const ROW: f64 = 2.0 * LINE + 4.0;
/// From the left edge to the words beside a mark.
const INDENT: f64 = 28.0;
/// Pieces the bar of the scale is drawn in.
const PIECES: usize = 120;
/// The height of the bar and of the words over it.
const BAR_HIGH: f64 = 20.0;
const OVER: f64 = 18.0;
/// The least room between the numbers of two ticks.
const APART: f64 = 7.0;

/// What a panel shows.
pub struct Panel<'a> {
    /// Its upper left corner.
    pub at: Point,
    /// Its width.
    pub wide: f64,
    /// Its night.
    pub night: &'a Night,
    /// Its colours.
    pub scale: Scale,
    /// The reader's degrees.
    pub units: Units,
}

/// The width and the height of the panel of a night.
pub fn size(night: &Night, size: Size) -> Point {
    let wide = match size {
        Size::Page => 330.0,
        Size::Phone => size.width() - 2.0 * super::sheet::MARGIN,
        Size::Projector => 290.0,
    };
    let heaters = night
        .scenario
        .scenario()
        .heaters
        .len()
        .clamp(1, HEATERS + 1);
    (wide, ROWS + ROW * heaters as f64)
}

impl Panel<'_> {
    fn line(&self, text: String, (right, down): Point, style: TextStyle) -> Words {
        let at = (self.at.0 + right, self.at.1 + down);
        Words::new(text, at, Anchor::Start, style)
    }
    /// Words of the time.
    fn time(&self, moment: &Moment) -> Vec<Words> {
        let clock = self.night.scenario.clock();
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
        let (under, of) = moment.under;
        let counted = match under {
            0 => format!("All {of} engine parts at the minimum or above"),
            n => format!("{n} of {of} engine parts below the minimum"),
        };
        let hangar = self.units.temperature_text(moment.hangar_c);
        let hangar = format!("Hangar air {}", hangar.replace('-', "\u{2212}"));
        let small = TextStyle::plain(NAME, TEXT);
        vec![
            self.line(
                clock.to_text(moment.time_s),
                (0.0, 14.0),
                TextStyle::bold(26.0),
            ),
            self.line(when, (96.0, 14.0), small),
            self.line(counted, (0.0, 42.0), small),
            self.line(hangar, (0.0, 42.0 + LINE), small),
        ]
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
                (format!("{}: {state}", heater.name), Some(on))
            })
            .collect();
        if heaters.len() > HEATERS {
            let more = format!("and {} more", heaters.len() - HEATERS);
            lines.push((more, None));
        }
        lines
    }
    /// The scale of colours with its ticks, its upper left corner here.
    pub fn bar(&self, (left, top): Point, theme: Theme) -> Vec<Shape> {
        let (top, foot) = (top + OVER, top + OVER + BAR_HIGH);
        let wide = self.wide / PIECES as f64;
        let rectangle = |from: f64, to: f64| Outline::rectangle((from, top), (to, foot));
        let span = self.scale.high_c - self.scale.low_c;
        let pieces = (0..PIECES).map(|k| {
            let celsius = self.scale.low_c + (k as f64 + 0.5) / PIECES as f64 * span;
            let from = left + wide * k as f64;
            Area::filled(
                rectangle(from, from + wide + 0.6),
                self.scale.colour(celsius),
            )
        });
        let frame = Area::edged(rectangle(left, left + self.wide), theme.shown(TEXT), 1.0);
        let mut shapes: Vec<Shape> = pieces.chain([frame]).map(Shape::Area).collect();
        let x = |celsius: f64| left + self.scale.place(celsius) * self.wide;
        let style = TextStyle::plain(NAME, TEXT);
        // The outermost stay over the bar.
        let centred = |text: &str, x: f64| {
            let half = style.width(text) / 2.0;
            (x.clamp(left + half, left + self.wide - half), half)
        };
        let write = |shapes: &mut Vec<Shape>, text: String, y: f64, x: f64| {
            let text = Words::new(text, (x, y), Anchor::Middle, style);
            shapes.push(words(&text, theme));
        };
        let mut free = f64::NEG_INFINITY;
        for (celsius, number) in self.scale.ticks(self.units) {
            let tick = vec![(x(celsius), foot), (x(celsius), foot + 5.0)];
            shapes.push(Shape::Line(tick, Stroke::solid(theme.shown(TEXT), 1.0)));
            let (centre, half) = centred(&number, x(celsius));
            if centre - half >= free {
                write(&mut shapes, number, foot + 14.0, centre);
                free = centre + half + APART;
            }
        }
        let min = x(self.scale.min_c);
        let mark = vec![(min, top - 4.0), (min, foot + 4.0)];
        shapes.push(Shape::Line(mark, Stroke::solid(COLDEST, 3.0)));
        // To a tenth: 40 °F is 4.4 °C.
        let told = (self.units.temperature(self.scale.min_c) * 10.0).round() / 10.0;
        let told = format!("minimum {} {}", tick_label(told), self.units.symbol());
        let (centre, _) = centred(&told, min);
        write(&mut shapes, told, top - 12.0, centre);
        shapes
    }
    /// What is the same at every moment.
    pub fn still(&self, theme: Theme) -> Vec<Shape> {
        self.bar((self.at.0, self.at.1 + BAR), theme)
    }
    /// What is different at each moment.
    pub fn moving(&self, moment: &Moment, theme: Theme) -> Vec<Shape> {
        let time = self.time(moment);
        let mut shapes: Vec<Shape> = time.iter().map(|w| words(w, theme)).collect();
        for (k, (text, on)) in self.heaters(moment).into_iter().enumerate() {
            let down = ROWS + ROW * k as f64;
            let style = TextStyle::plain(NAME, if on.is_some() { TEXT } else { MUTED });
            let left = if on.is_some() { INDENT } else { 0.0 };
            for (k, line) in wrapped(&text, style, self.wide - INDENT, 2)
                .into_iter()
                .enumerate()
            {
                let line = self.line(line, (left, down + LINE * k as f64), style);
                shapes.push(words(&line, theme));
            }
            if let Some(on) = on {
                shapes.extend(badge((self.at.0 + 11.0, self.at.1 + down), k, on));
            }
        }
        shapes
    }
}
