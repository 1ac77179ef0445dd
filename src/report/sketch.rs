//! Temperatures by the hours as a small chart of text, for a terminal: dots of Braille patterns, marks on the lines, names
//! at the right. No colour tells anything.

use super::chart::coldest;
use crate::night::Night;
use crate::quantity::Units;
use crate::scenario::clock::NightClock;
use crate::trace::Trace;

/// The fewest rows; each holds four dots.
const ROWS: usize = 12;
/// Characters from one mark of a line to its next.
const MARKS_APART: usize = 24;
/// Room for the figures at the left.
const LEFT: usize = 7;
/// The most columns of dots, in characters.
const WIDEST: usize = 84;
/// The fewest columns that show anything.
const NARROWEST: usize = 24;
/// The most hours told along the clock.
const HOURS: f64 = 8.5;
/// Room for an hour on the clock and a space.
const HOUR: usize = 6;

/// A line.
struct Trail {
    mark: char,
    name: String,
    /// Seconds after the beginning and degrees of the reader.
    points: Vec<(f64, f64)>,
}

/// A row of characters that says when a heater was on.
struct Band {
    name: String,
    spans: Vec<(f64, f64)>,
}

/// What is drawn.
struct Sketch<'a> {
    trails: Vec<Trail>,
    bands: Vec<Band>,
    threshold: f64,
    clock: &'a NightClock,
    end_s: f64,
    units: Units,
}

/// One night: its coldest part, its oil, the hangar, the threshold, the heaters. Empty if the lines are too narrow.
pub fn night(night: &Night, width: u16) -> String {
    let (trace, units) = (&night.trace, night.scenario.scenario().units);
    let mut trails = vec![trail('c', "coldest part", coldest(trace), units)];
    if let Some(oil) = &trace.legend.oil {
        let mean = |k: usize| {
            let sum: f64 = oil.layers.iter().map(|c| trace.sample(k)[*c]).sum();
            (trace.times_s[k], sum / oil.layers.len() as f64)
        };
        let points = (0..trace.len()).map(mean).collect();
        trails.push(trail('o', "oil", points, units));
    }
    let hangar = trace.column(trace.legend.hangar);
    let points = trace.times_s.iter().copied().zip(hangar).collect();
    trails.push(trail('h', "hangar air", points, units));
    let heaters = trace.legend.heaters.iter().enumerate();
    let bands = heaters.map(|(k, heater)| Band {
        name: heater.name.clone(),
        spans: trace.on_spans(k),
    });
    sketch(night, trace, trails, bands.collect(), width)
}

/// Several nights: the coldest part of each choice, marked with its rank. Empty if the lines are too narrow.
pub fn comparison(nights: &[(String, Night)], width: u16) -> String {
    let Some((_, first)) = nights.first() else {
        return String::new();
    };
    let units = first.scenario.scenario().units;
    let trails = nights.iter().enumerate().map(|(k, (name, night))| {
        let mark = char::from_digit(k as u32 + 1, 36).unwrap_or('+');
        trail(mark, name, coldest(&night.trace), units)
    });
    sketch(first, &first.trace, trails.collect(), vec![], width)
}

fn trail(mark: char, name: &str, points: Vec<(f64, f64)>, units: Units) -> Trail {
    let degrees = |(t, celsius): (f64, f64)| (t, units.temperature(celsius));
    Trail {
        mark,
        name: name.to_owned(),
        points: points.into_iter().map(degrees).collect(),
    }
}

fn sketch(
    night: &Night,
    trace: &Trace,
    trails: Vec<Trail>,
    bands: Vec<Band>,
    width: u16,
) -> String {
    let question = &night.scenario.scenario().question;
    let units = night.scenario.scenario().units;
    Sketch {
        trails,
        bands,
        threshold: units.temperature(question.threshold.celsius()),
        clock: night.scenario.clock(),
        end_s: trace.times_s.last().copied().unwrap_or(0.0),
        units,
    }
    .told(usize::from(width))
}

impl Sketch<'_> {
    fn told(&self, width: usize) -> String {
        let names = self.trails.iter().map(|t| t.name.chars().count() + 2);
        let bands = self.bands.iter().map(|b| b.name.chars().count());
        let widest = names.chain(bands).max().unwrap_or(0).max(9).min(width / 3);
        let columns = width.saturating_sub(LEFT + widest + 4).min(WIDEST);
        if columns < NARROWEST || self.end_s <= 0.0 {
            return String::new();
        }
        let rows = ROWS.max(self.trails.len() + 2);
        let values = self
            .trails
            .iter()
            .flat_map(|t| t.points.iter().map(|p| p.1));
        let values = values.chain([self.threshold]).filter(|v| v.is_finite());
        let (low, high) = values.fold((f64::MAX, f64::MIN), |(l, h), v| (l.min(v), h.max(v)));
        let (low, high) = (low - 1.0, high + 1.0);
        let dots = (rows * 4) as f64;
        // The dot a value stands at, from above.
        let dot = |v: f64| (((high - v) / (high - low) * dots) as usize).min(rows * 4 - 1);
        let mut cells = vec![vec![0u8; columns]; rows];
        let mut marks = vec![vec![None; columns]; rows];
        for (k, trail) in self.trails.iter().enumerate() {
            let mut before = None;
            for x in 0..columns * 2 {
                let Some(value) = trail.at((x as f64 + 0.5) / (columns * 2) as f64 * self.end_s)
                else {
                    before = None;
                    continue;
                };
                let here = dot(value);
                let from = before.unwrap_or(here);
                for y in from.min(here)..=from.max(here) {
                    cells[y / 4][x / 2] |= braille(x % 2, y % 4);
                }
                let due = x % 2 == 1 && (x / 2 + k * 5) % MARKS_APART == MARKS_APART / 2;
                if due {
                    marks[here / 4][x / 2] = Some(trail.mark);
                }
                before = Some(here);
            }
        }
        let limit = dot(self.threshold) / 4;
        let names = self.names(rows, &|v| dot(v) / 4, limit);
        let mut text = String::new();
        for row in 0..rows {
            let figure = high - (row as f64 + 0.5) / rows as f64 * (high - low);
            let figure = match row {
                _ if row == limit => format!("{:.0} {}", self.threshold, self.units.symbol()),
                _ if row % 3 == limit % 3 => format!("{figure:.0}"),
                _ => String::new(),
            };
            let line: String = (0..columns)
                .map(|x| match (marks[row][x], cells[row][x]) {
                    (Some(mark), _) => mark,
                    (None, 0) if row == limit => '┄',
                    (None, 0) => ' ',
                    (None, dots) => char::from_u32(0x2800 + u32::from(dots)).unwrap_or(' '),
                })
                .collect();
            let name: String = names[row].chars().take(widest + 2).collect();
            text += format!("{figure:>LEFT$} │{line}│ {name}").trim_end();
            text.push('\n');
        }
        text += &self.hours(columns);
        for band in &self.bands {
            let on = |x: usize| {
                let at = (x as f64 + 0.5) / columns as f64 * self.end_s;
                band.spans.iter().any(|s| s.0 <= at && at < s.1)
            };
            let line: String = (0..columns)
                .map(|x| if on(x) { '━' } else { '·' })
                .collect();
            let name: String = band.name.chars().take(widest + 2).collect();
            text += &format!("{:>LEFT$}  {line}  {name}\n", "on");
        }
        text
    }

    /// Names at the rows where their lines end, pushed down where they would meet, and up at the foot.
    fn names(&self, rows: usize, row: &dyn Fn(f64) -> usize, limit: usize) -> Vec<String> {
        let ends = self.trails.iter().filter_map(|t| {
            let (_, value) = t.points.iter().rev().find(|p| p.1.is_finite())?;
            Some((*value, format!("{} {}", t.mark, t.name)))
        });
        let mut ends: Vec<(f64, String)> = ends.collect();
        ends.sort_by(|a, b| b.0.total_cmp(&a.0));
        let mut places: Vec<usize> = Vec::new();
        for (value, _) in &ends {
            let least = places.last().map_or(0, |p| p + 1);
            places.push(row(*value).max(least));
        }
        let mut most = rows - 1;
        for place in places.iter_mut().rev() {
            *place = (*place).min(most);
            most = place.saturating_sub(1);
        }
        let mut names = vec![String::new(); rows];
        for (place, (_, name)) in places.into_iter().zip(ends) {
            names[place] = name;
        }
        if names[limit].is_empty() {
            names[limit] = "threshold".to_owned();
        }
        names
    }

    /// The clock under it.
    fn hours(&self, columns: usize) -> String {
        let mut line = vec![' '; LEFT + 2 + columns + HOUR];
        let mut free = 0;
        for seconds in super::axis::hour_ticks(self.clock, self.end_s, HOURS) {
            let at = LEFT + 2 + (seconds / self.end_s * columns as f64) as usize;
            if at < free {
                continue;
            }
            for (k, c) in self.clock.told(seconds).chars().enumerate() {
                if let Some(place) = line.get_mut(at + k) {
                    *place = c;
                }
            }
            free = at + HOUR;
        }
        let line: String = line.into_iter().collect();
        format!("{}\n", line.trim_end())
    }
}

impl Trail {
    /// Its value at a time, by straight lines; none outside its points or where it has none.
    fn at(&self, seconds: f64) -> Option<f64> {
        let after = self.points.partition_point(|p| p.0 <= seconds);
        let (a, b) = (
            self.points.get(after.checked_sub(1)?)?,
            self.points.get(after),
        );
        let value = match b {
            Some(b) => a.1 + (seconds - a.0) / (b.0 - a.0) * (b.1 - a.1),
            None if seconds - a.0 < 1.0 => a.1,
            None => return None,
        };
        value.is_finite().then_some(value)
    }
}

/// The bit of a dot in a Braille pattern: The Unicode Standard 15.0, block 2800-28FF.
fn braille(x: usize, y: usize) -> u8 {
    [[0x01, 0x02, 0x04, 0x40], [0x08, 0x10, 0x20, 0x80]][x][y]
}

#[cfg(test)]
mod tests {
    use super::super::synthetic;
    use super::*;

    fn told(width: usize) -> String {
        let (trace, clock) = (synthetic::trace(), synthetic::clock());
        let units = Units::Fahrenheit;
        let flat = vec![(0.0, -20.0), (45_000.0, -20.0)];
        Sketch {
            trails: vec![
                trail('c', "coldest part", coldest(&trace), units),
                trail('h', "hangar air", flat, units),
            ],
            bands: vec![Band {
                name: "top heater".to_owned(),
                spans: trace.on_spans(0),
            }],
            threshold: 40.0,
            clock: &clock,
            end_s: 45_000.0,
            units,
        }
        .told(width)
    }

    #[test]
    fn every_line_fits_its_width_and_every_name_is_told() {
        for width in [60, 80, 118, 200] {
            let text = told(width);
            for line in text.lines() {
                assert!(line.chars().count() <= width, "{width}: {line}");
            }
            for name in ["c coldest", "h hangar", "40 °F", "20:00", "━"] {
                assert!(text.contains(name), "{width}: {name} in\n{text}");
            }
        }
        assert_eq!(told(30), "");
    }

    #[test]
    fn a_flat_line_lies_in_one_row_and_the_heater_is_on_where_it_was() {
        let text = told(118);
        let flat: Vec<&str> = text.lines().filter(|l| l.contains("hangar air")).collect();
        assert_eq!(flat.len(), 1);
        let dots = flat[0]
            .chars()
            .filter(|c| ('\u{2801}'..='\u{28ff}').contains(c));
        assert!(dots.count() > 70, "{}", flat[0]);
        let band = text.lines().find(|l| l.contains("top heater")).unwrap();
        let (on, off) = (band.matches('━').count(), band.matches('·').count());
        // On for 8 of 12.5 hours.
        let share = on as f64 / (on + off) as f64;
        assert!((share - 8.0 / 12.5).abs() < 0.03, "{share}");
    }
}
