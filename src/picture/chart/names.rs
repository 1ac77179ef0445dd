//! Names beside the ends of lines: pushed apart where they would touch.

use crate::picture::draw::colour::{self, Colour};
use crate::picture::draw::{Anchor, Canvas, TextStyle};
use crate::picture::text::{LINE, NAME, wrapped};

/// Between two names.
const APART: f64 = 2.0;
/// From the edge of a plot to its names.
pub const LEADER: f64 = 22.0;
/// The most lines of a name.
const LINES: usize = 3;

/// A name, and the line it belongs to.
pub struct Name {
    /// Where the line ends.
    pub y: f64,
    /// The words.
    pub text: String,
    /// The colour of the line.
    pub colour: Colour,
    /// Its dashes.
    pub dashes: &'static [f64],
    /// What stands between the edge and the words.
    pub sample: Sample,
}

/// What stands between the edge of a plot and a name.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Sample {
    /// A line that leads to the end of the named one.
    Leader,
    /// A block this high, for an area of this opacity or for a line among areas, where leaders would cross.
    Block(f64, f64),
}

/// The lines of a name that may be so wide.
pub fn lines(text: &str, widest: f64) -> Vec<String> {
    wrapped(text, TextStyle::plain(NAME, colour::TEXT), widest, LINES)
}

/// Writes names to the right of an edge, between two heights, each with a leader to the end of its line.
pub fn write(
    canvas: &Canvas,
    mut names: Vec<Name>,
    edge: f64,
    (top, foot): (f64, f64),
    widest: f64,
) {
    names.sort_by(|a, b| a.y.total_cmp(&b.y));
    let texts: Vec<Vec<String>> = names.iter().map(|n| lines(&n.text, widest)).collect();
    let wished: Vec<(f64, f64)> = names
        .iter()
        .zip(&texts)
        .map(|(name, lines)| (name.y, LINE * lines.len() as f64 + APART))
        .collect();
    let places = spread(&wished, top, foot);
    for ((name, place), lines) in names.into_iter().zip(places).zip(texts) {
        match name.sample {
            Sample::Leader => {
                // Dashed as its line is, in shorter strokes: it has little room.
                let dashes: Vec<f64> = name.dashes.iter().map(|d| d.min(4.0)).collect();
                let leader = [(edge + 2.0, name.y), (edge + LEADER - 4.0, place)];
                canvas.line(&leader, name.colour, 2.0, &dashes);
            }
            Sample::Block(high, opacity) => {
                let (top, foot) = (place - high / 2.0, place + high / 2.0);
                let (left, right) = (edge + 6.0, edge + 18.0);
                let corners = [(left, top), (right, top), (right, foot), (left, foot)];
                canvas.area(&corners, name.colour, opacity);
            }
        }
        let first = place - LINE * (lines.len() - 1) as f64 / 2.0;
        for (k, line) in lines.iter().enumerate() {
            let at = (edge + LEADER, first + LINE * k as f64);
            let small = TextStyle::plain(NAME, colour::TEXT);
            canvas.words(line, at, Anchor::Start, small);
        }
    }
}

/// Heights as near to the wished ones, which rise, as they can be with the room for each, inside the bounds if they are
/// wide enough.
///
/// *Method*: isotonic regression by pooling adjacent violators (Ayer and others, *Annals of Mathematical Statistics* 26,
/// 1955, pp. 641-647) of the wishes less the room that is before each.
fn spread(wished: &[(f64, f64)], top: f64, foot: f64) -> Vec<f64> {
    let mut before = Vec::new();
    let mut pools: Vec<(f64, usize)> = Vec::new();
    for (k, (wish, room)) in wished.iter().enumerate() {
        let last = |k: usize| before[k - 1] + (wished[k - 1].1 + room) / 2.0;
        before.push(if k == 0 { 0.0 } else { last(k) });
        pools.push((wish - before[k], 1));
        while let [.., above, below] = pools[..] {
            if above.0 <= below.0 {
                break;
            }
            let count = above.1 + below.1;
            let mean = (above.0 * above.1 as f64 + below.0 * below.1 as f64) / count as f64;
            pools.truncate(pools.len() - 2);
            pools.push((mean, count));
        }
    }
    let lowest = foot - before.last().copied().unwrap_or(0.0);
    let each = pools
        .into_iter()
        .flat_map(|(at, count)| std::iter::repeat_n(at, count));
    let inside = |at: f64| at.min(lowest).max(top);
    each.zip(before).map(|(at, b)| inside(at) + b).collect()
}

#[cfg(test)]
mod tests {
    use super::spread;

    #[test]
    fn names_that_would_touch_are_pushed_apart_and_stay_on_the_sheet() {
        let spread = |wished: &[f64]| {
            let wished: Vec<_> = wished.iter().map(|w| (*w, 16.0)).collect();
            spread(&wished, 0.0, 400.0)
        };
        assert_eq!(spread(&[100.0, 200.0]), [100.0, 200.0]);
        assert_eq!(spread(&[100.0, 104.0]), [94.0, 110.0]);
        assert_eq!(spread(&[396.0, 399.0, 400.0]), [368.0, 384.0, 400.0]);
    }

    #[test]
    fn a_name_of_two_lines_takes_their_room() {
        assert_eq!(
            spread(&[(100.0, 16.0), (104.0, 32.0)], 0.0, 400.0),
            [90.0, 114.0]
        );
    }
}
