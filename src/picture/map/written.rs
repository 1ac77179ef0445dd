//! What is written on shapes at a moment: their temperatures, and the letters that name them.

use super::drawing::{Drawing, Kind, Shape, Stands, Tag, bounds};
use super::moment::Moment;
use super::tags::lettered;
use crate::picture::draw::colour::TEXT;
use crate::picture::draw::{Anchor, TextStyle, Words};
use crate::quantity::Units;

/// Room for a letter before a temperature.
const BEFORE: f64 = 14.0;

/// The temperatures that are written on shapes, the letters that name these, and the subjects under them; without one
/// they are on the background.
pub fn readings(drawing: &Drawing, moment: &Moment, units: Units) -> Vec<(Words, Option<usize>)> {
    let mut all = Vec::new();
    for shape in &drawing.shapes {
        let Some(at) = shape.reading else { continue };
        let subject = shape.subject;
        let number = sided(moment.celsius[subject], moment.threshold_c, units);
        let air = drawing.subjects[subject].kind == Kind::Air;
        let text = if air { format!("air {number}") } else { number };
        let style = TextStyle::plain(if air { 12.0 } else { 13.0 }, TEXT);
        let mut words = Words::new(text, at, Anchor::Middle, style);
        if let Some(tag) = tag_before(drawing, shape) {
            let (from, to) = bounds(&words);
            // Both together are in the middle.
            words.at.0 += BEFORE / 2.0;
            let left = at.0 - (to.0 - from.0) / 2.0 - 2.0;
            all.push((lettered(tag.letter, (left, at.1)), Some(subject)));
        }
        all.push((words, Some(subject)));
    }
    for tag in &drawing.tags {
        let free = tag.stands.free(tag.subject);
        all.extend(free.map(|(at, over)| (lettered(tag.letter, at), over)));
    }
    all
}

/// The letter before a shape's reading.
fn tag_before<'a>(drawing: &'a Drawing, shape: &Shape) -> Option<&'a Tag> {
    let mut tags = drawing.tags.iter();
    tags.find(|t| {
        let here = (t.view, t.subject) == (shape.view, shape.subject);
        here && t.stands == Stands::Before
    })
}

/// Most digits after the point of a temperature beside a threshold.
const FINEST: usize = 3;

/// The number of a temperature without its unit and with a true minus, in whole degrees; where rounding would put it on
/// the other side of a threshold, as 39.6 °F under 40 °F, to as many digits as show the side.
fn sided(celsius: f64, threshold_c: f64, units: Units) -> String {
    let (value, asked) = (units.temperature(celsius), units.temperature(threshold_c));
    // What degrees make of a round threshold may be off in its last digits.
    let asked = (asked * 1e6).round() / 1e6;
    let told = |digits: &usize| format!("{value:.digits$}");
    let same = |digits: &usize| {
        let shown: f64 = told(digits).parse().unwrap_or(value);
        (shown < asked) == (celsius < threshold_c)
    };
    let digits = (0..=FINEST).find(same).unwrap_or(0);
    let told = told(&digits);
    // Minus nothing is nothing.
    match told.trim_start_matches('-').trim_matches(['0', '.']) {
        "" => told.trim_start_matches('-').to_owned(),
        _ => told.replace('-', "\u{2212}"),
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
