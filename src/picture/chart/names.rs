//! Names beside the ends of lines: pushed apart where they would touch.

use crate::picture::draw::colour::{self, Colour};
use crate::picture::draw::{Anchor, Canvas, TextStyle};

/// Height of a name at the right edge.
pub const NAME: f64 = 13.0;
/// The room it is given.
const NAME_ROOM: f64 = 17.0;
/// From the edge of a plot to its names.
pub const LEADER: f64 = 22.0;

/// A name, and the line it belongs to.
pub struct Name {
    /// Where the line ends.
    pub y: f64,
    /// The words.
    pub text: String,
    /// The colour of the line.
    pub colour: Colour,
    /// Its dashes.
    pub dashes: Option<(f64, f64)>,
    /// What stands between the edge and the words.
    pub sample: Sample,
}

/// What stands between the edge of a plot and a name.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sample {
    /// A line that leads to the end of the named one.
    Leader,
    /// A block, for an area.
    Block,
    /// A stroke, for a line among areas, where leaders would cross blocks.
    Stroke,
}

/// Writes names to the right of an edge, between two heights, each with a leader to the end of its line; what is wider
/// than `widest` is cut off with an ellipsis.
pub fn written(
    canvas: &Canvas,
    mut names: Vec<Name>,
    edge: f64,
    (top, foot): (f64, f64),
    widest: f64,
) {
    names.sort_by(|a, b| a.y.total_cmp(&b.y));
    let wished: Vec<f64> = names.iter().map(|n| n.y).collect();
    let places = spread(&wished, NAME_ROOM, top, foot);
    for (name, place) in names.into_iter().zip(places) {
        // A leader is dashed as its line is, in shorter strokes: it has little room.
        let dashes = name.dashes.map(|(dash, gap)| (dash.min(4.0), gap.min(3.0)));
        match name.sample {
            Sample::Leader => {
                let leader = [(edge + 2.0, name.y), (edge + LEADER - 4.0, place)];
                canvas.line(&leader, name.colour, 2.0, dashes);
            }
            Sample::Block | Sample::Stroke => {
                let half = if name.sample == Sample::Block {
                    6.0
                } else {
                    1.25
                };
                let (corner, far) = ((edge + 6.0, place - half), (edge + 18.0, place + half));
                canvas.bar(corner, far, name.colour);
            }
        }
        let small = TextStyle::plain(NAME, colour::TEXT);
        let text = fitted(&name.text, small, widest);
        canvas.words(&text, (edge + LEADER, place), Anchor::Start, small);
    }
}

/// Heights as near to the wished ones as they can be with this much room for each, inside the bounds where
/// there is room. The wishes rise.
fn spread(wished: &[f64], room: f64, top: f64, foot: f64) -> Vec<f64> {
    let mut groups: Vec<(f64, usize)> = Vec::new();
    let limits = |centre: f64, count: usize| {
        let half = room * (count as f64 - 1.0) / 2.0;
        centre.min(foot - half).max(top + half)
    };
    for wish in wished {
        groups.push((limits(*wish, 1), 1));
        while let [.., above, below] = groups[..] {
            let needed = room * (above.1 + below.1) as f64 / 2.0;
            if below.0 - above.0 >= needed {
                break;
            }
            let count = above.1 + below.1;
            let centre = (above.0 * above.1 as f64 + below.0 * below.1 as f64) / count as f64;
            groups.truncate(groups.len() - 2);
            groups.push((limits(centre, count), count));
        }
    }
    groups
        .iter()
        .flat_map(|(centre, count)| {
            let first = centre - room * (*count as f64 - 1.0) / 2.0;
            (0..*count).map(move |k| first + room * k as f64)
        })
        .collect()
}

/// Words cut short with an ellipsis so that they fit.
pub fn fitted(text: &str, style: TextStyle, room: f64) -> String {
    if style.width(text) <= room {
        return text.to_owned();
    }
    let letters: Vec<char> = text.chars().collect();
    let short = |keep: usize| letters[..keep].iter().chain(&['…']).collect::<String>();
    let shorter = (0..letters.len()).rev().map(short);
    let mut fitting = shorter.filter(|short| style.width(short) <= room);
    fitting.next().unwrap_or("…".to_owned())
}

#[cfg(test)]
mod tests {
    use super::spread;

    #[test]
    fn names_that_would_touch_are_pushed_apart_and_stay_on_the_sheet() {
        assert_eq!(spread(&[100.0, 200.0], 16.0, 0.0, 400.0), [100.0, 200.0]);
        assert_eq!(spread(&[100.0, 104.0], 16.0, 0.0, 400.0), [94.0, 110.0]);
        assert_eq!(
            spread(&[396.0, 399.0, 400.0], 16.0, 0.0, 400.0),
            [368.0, 384.0, 400.0]
        );
    }
}
