//! The headings of a picture: a title in one line, and under it what is shown, in two at most.

use super::canvas::{Canvas, DrawError, Lettering, Stand};
use super::colour;
use super::names::{NAME, fitted};

/// The room both take, two lines of the lesser one included.
pub const HIGH: f64 = 66.0;
/// Lines of the lesser one.
const LINES: usize = 2;

/// Writes them between two edges.
///
/// *Errors*: the drawing failed.
pub fn written(
    canvas: &Canvas,
    title: &str,
    what: &str,
    left: f64,
    right: f64,
) -> Result<(), DrawError> {
    let big = Lettering::bold(17.0);
    let title = fitted(canvas, title, big, right - left)?;
    canvas.words(&title, (left, 20.0), Stand::Right, big)?;
    let small = Lettering::plain(NAME, colour::MUTED);
    for (k, line) in lines(canvas, what, small, right - left)?.iter().enumerate() {
        let at = (left, 41.0 + 17.0 * k as f64);
        canvas.words(line, at, Stand::Right, small)?;
    }
    Ok(())
}

/// A text in as many lines as fit; the last is cut short if need be.
fn lines(
    canvas: &Canvas,
    text: &str,
    lettering: Lettering,
    room: f64,
) -> Result<Vec<String>, DrawError> {
    let (mut lines, mut line) = (Vec::new(), String::new());
    for word in text.split(' ') {
        let longer = if line.is_empty() {
            word.to_owned()
        } else {
            format!("{line} {word}")
        };
        let full = lines.len() + 1 == LINES;
        if line.is_empty() || full || canvas.width_of(&longer, lettering)? <= room {
            line = longer;
        } else {
            lines.push(std::mem::replace(&mut line, word.to_owned()));
        }
    }
    lines.push(fitted(canvas, &line, lettering, room)?);
    Ok(lines)
}
