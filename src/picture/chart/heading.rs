//! The headings of a picture: a title in one line, and under it what is shown, in two at most.

use super::names::{NAME, fitted};
use crate::picture::draw::{Anchor, Canvas, TextStyle, colour};

/// The room both take, two lines of the lesser one included.
pub const HIGH: f64 = 66.0;
/// Lines of the lesser one.
const LINES: usize = 2;

/// Writes them between two edges.
pub fn written(canvas: &Canvas, title: &str, what: &str, left: f64, right: f64) {
    let big = TextStyle::bold(17.0);
    let title = fitted(title, big, right - left);
    canvas.words(&title, (left, 20.0), Anchor::Start, big);
    let small = TextStyle::plain(NAME, colour::MUTED);
    for (k, line) in lines(what, small, right - left).iter().enumerate() {
        let at = (left, 41.0 + 17.0 * k as f64);
        canvas.words(line, at, Anchor::Start, small);
    }
}

/// A text in as many lines as fit; the last is cut short if need be.
fn lines(text: &str, style: TextStyle, room: f64) -> Vec<String> {
    let (mut lines, mut line) = (Vec::new(), String::new());
    for word in text.split(' ') {
        let longer = if line.is_empty() {
            word.to_owned()
        } else {
            format!("{line} {word}")
        };
        let full = lines.len() + 1 == LINES;
        if line.is_empty() || full || style.width(&longer) <= room {
            line = longer;
        } else {
            lines.push(std::mem::replace(&mut line, word.to_owned()));
        }
    }
    lines.push(fitted(&line, style, room));
    lines
}
