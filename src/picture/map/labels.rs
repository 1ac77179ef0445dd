//! What is written on a drawing at a moment: the name and the temperature of a part on its shape, `head 52`, or beside
//! it, with a line to it, where the shape is too small.

use super::drawing::{Drawing, Kind, Reading, Shape};
use super::moment::Moment;
use crate::picture::draw::colour::TEXT;
use crate::picture::draw::{Anchor, Outline, Point, TextStyle, Words};
use crate::picture::text::{NAME, wrapped};
use crate::quantity::Units;

/// From one line of a label to the next.
const LINE: f64 = 14.0;
/// The most lines of one that is broken where it fits.
const LINES: usize = 3;

/// Words over a subject of the drawing, or over the background.
pub struct Label {
    /// Its lines.
    pub words: Vec<Words>,
    /// The subject under it.
    pub over: Option<usize>,
    /// The shape that it names; none where it stands beside it.
    pub shape: Option<usize>,
}

impl Label {
    /// Its upper left and lower right corner.
    pub fn bounds(&self) -> (Point, Point) {
        let each = self.words.iter().map(bounds);
        let both = each
            .reduce(|(a, b), (c, d)| ((a.0.min(c.0), a.1.min(c.1)), (b.0.max(d.0), b.1.max(d.1))));
        both.unwrap_or_default()
    }
}

/// All labels, `most` names at the most: the coldest part first, then each name once.
pub fn labels(drawing: &Drawing, moment: &Moment, units: Units, most: usize) -> Vec<Label> {
    let shown = |subject: usize| sided(moment.celsius[subject], moment.threshold_c, units);
    let mut shapes: Vec<(usize, &Shape, &Reading)> = drawing
        .shapes
        .iter()
        .enumerate()
        .filter_map(|(k, shape)| Some((k, shape, shape.reading.as_ref()?)))
        .collect();
    let limited = most < usize::MAX;
    if limited {
        let coldest = moment.coldest.as_ref().map_or("", |c| c.part.as_str());
        let of = |shape: &Shape| &drawing.subjects[shape.subject];
        shapes.retain(|(_, shape, _)| of(shape).kind == Kind::Engine);
        shapes.sort_by_key(|(_, shape, _)| !of(shape).cells.iter().any(|c| c == coldest));
        let mut names: Vec<&str> = Vec::new();
        shapes.retain(|(.., reading)| {
            let new = !names.contains(&reading.name.as_str()) && names.len() < most;
            names.extend(new.then_some(reading.name.as_str()));
            new
        });
    }
    let mut all: Vec<Label> = shapes
        .into_iter()
        .map(|(k, shape, reading)| {
            let air = drawing.subjects[shape.subject].kind == Kind::Air;
            let inside = (!air).then_some(&shape.outline);
            Label {
                words: on_shape(&reading.name, &shown(shape.subject), reading.at, inside),
                over: Some(shape.subject),
                shape: Some(k),
            }
        })
        .collect();
    let beside = drawing.callouts.iter().filter(|_| !limited);
    all.extend(beside.map(|callout| {
        let text = format!("{} {}", callout.name, shown(callout.subject));
        let style = TextStyle::plain(NAME, TEXT);
        Label {
            words: vec![Words::new(text, callout.at, callout.anchor, style)],
            over: callout.over,
            shape: None,
        }
    }));
    all
}

/// A name and a number in one line, in more, the number alone: the first that fits inside an outline, about a point.
fn on_shape(name: &str, number: &str, at: Point, inside: Option<&Outline>) -> Vec<Words> {
    let style = TextStyle::plain(NAME, TEXT);
    let set = |lines: &[String]| -> Vec<Words> {
        let first = at.1 - LINE * (lines.len() as f64 - 1.0) / 2.0;
        let line = |(k, text): (usize, &String)| {
            let at = (at.0, first + LINE * k as f64);
            Words::new(text.as_str(), at, Anchor::Middle, style)
        };
        lines.iter().enumerate().map(line).collect()
    };
    let joined = format!("{name} {number}");
    let Some(outline) = inside else {
        return set(&[joined]);
    };
    let (from, to) = outline.bounds();
    let short: String = match name.contains([' ', '.']) {
        true => name.to_owned(),
        false => name.chars().take(4).chain(['.']).collect(),
    };
    let last = [number.to_owned()];
    let apart = name.split(' ').map(str::to_owned).chain(last.clone());
    let choices = [
        vec![joined.clone()],
        wrapped(&joined, style, (to.0 - from.0) / 1.04 - 2.0, LINES),
        vec![name.to_owned(), number.to_owned()],
        apart.collect(),
        vec![short, number.to_owned()],
    ];
    let fits = |words: &[Words]| {
        words
            .iter()
            .map(bounds)
            .all(|((left, top), (right, foot))| {
                let corners = [(left, top), (right, top), (left, foot), (right, foot)];
                corners.iter().all(|corner| outline.holds(*corner))
            })
    };
    let whole = choices
        .iter()
        .filter(|lines| lines.concat().ends_with(number));
    let mut fitting = whole.map(|lines| set(lines)).filter(|words| fits(words));
    fitting.next().unwrap_or_else(|| set(&last))
}

/// The upper left and lower right corner of words, a little wider than the bundled font sets them.
pub fn bounds(words: &Words) -> (Point, Point) {
    let width = 1.04 * words.style.width(&words.text);
    let left = match words.anchor {
        Anchor::Start => words.at.0,
        Anchor::Middle => words.at.0 - width / 2.0,
        Anchor::End => words.at.0 - width,
    };
    let half = words.style.size * 0.46;
    ((left, words.at.1 - half), (left + width, words.at.1 + half))
}

/// Most digits after the point of a temperature beside a threshold.
const FINEST: usize = 3;

/// The number of a temperature without its unit and with a true minus, in whole degrees; where rounding would put it on
/// the other side of a threshold, as 39.6 °F under 40 °F, to as many digits as show the side.
fn sided(celsius: f64, threshold_c: f64, units: Units) -> String {
    let (value, asked) = (units.temperature(celsius), units.temperature(threshold_c));
    // What degrees make of a round threshold may be off in its last digits.
    let asked = (asked * 1e6).round() / 1e6;
    let shown = |digits: &usize| format!("{value:.digits$}");
    let same = |digits: &usize| {
        let shown: f64 = shown(digits).parse().unwrap_or(value);
        (shown < asked) == (celsius < threshold_c)
    };
    let digits = (0..=FINEST).find(same).unwrap_or(0);
    let shown = shown(&digits);
    // Minus nothing is nothing.
    match shown.trim_start_matches('-').trim_matches(['0', '.']) {
        "" => shown.trim_start_matches('-').to_owned(),
        _ => shown.replace('-', "\u{2212}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_is_on_its_side_of_the_threshold() {
        let beside = |f: f64| sided((f - 32.0) / 1.8, 8.0 / 1.8, Units::Fahrenheit);
        assert_eq!(
            [39.6, 39.4, 39.98, 40.2, 43.9].map(beside),
            ["39.6", "39", "39.98", "40", "44"]
        );
        // 4.44 °C is the minimum, as 40 °F is: 4.5 is over it, and 4.0 is not.
        let kelvin = |c: f64| sided(c, 8.0 / 1.8, Units::Celsius);
        assert_eq!([4.45, 4.4, 4.6, -0.2].map(kelvin), ["4.5", "4", "5", "0"]);
    }
}
