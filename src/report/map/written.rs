//! What is written on shapes at a moment: their temperatures, and the letters that name them.

use super::drawing::{Anchor, Drawing, Kind, Shape, Stands, Tag, Words};
use super::moment::Moment;
use super::tags::lettered;
use crate::quantity::Units;
use crate::report::format::sided;

/// Room for a letter before a temperature.
const BEFORE: f64 = 14.0;

/// The temperatures that are written on shapes, the letters that name these, and the subjects under them; without one
/// they are on paper.
pub fn readings(drawing: &Drawing, moment: &Moment, units: Units) -> Vec<(Words, Option<usize>)> {
    let mut all = Vec::new();
    for shape in &drawing.shapes {
        let Some(at) = shape.reading else { continue };
        let subject = shape.subject;
        let number = sided(moment.celsius[subject], moment.threshold_c, units);
        let air = drawing.subjects[subject].kind == Kind::Air;
        let text = if air { format!("air {number}") } else { number };
        let mut words = Words {
            text,
            at,
            anchor: Anchor::Middle,
            size: if air { 12.0 } else { 13.0 },
            bold: false,
            quiet: false,
        };
        if let Some(tag) = tag_before(drawing, shape) {
            let (from, to) = words.bounds();
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
