//! Words of a picture: broken into lines, and the headline with the smaller lines under it.

use super::draw::{Anchor, Size, TextStyle, Words, colour};
use crate::quantity::Units;

/// Height of the words of a picture.
pub const NAME: f64 = 13.0;
/// From one line of them to the next.
pub const LINE: f64 = 16.0;
/// From one line of the headline to the next.
const HEADLINE: f64 = 22.0;

/// The headline, which states the finding, and under it what night it is of and what is drawn.
pub struct Heading {
    headline: Vec<String>,
    note: Vec<String>,
    style: TextStyle,
}

impl Heading {
    /// Both, broken into lines of this width.
    pub fn of(headline: &str, note: &str, size: Size, width: f64) -> Self {
        let style = TextStyle::bold(if size == Size::Phone { 15.0 } else { 17.0 });
        let small = TextStyle::plain(NAME, colour::MUTED);
        // A little less, for a reader whose own sans-serif runs wider than ours.
        let width = width / 1.04;
        Self {
            headline: wrapped(headline, style, width, 4),
            note: wrapped(note, small, width, 6),
            style,
        }
    }
    /// The height of both.
    pub fn high(&self) -> f64 {
        10.0 + HEADLINE * self.headline.len() as f64 + LINE * self.note.len() as f64
    }
    /// Its words, from this left edge.
    pub fn words(&self, left: f64) -> Vec<Words> {
        let small = TextStyle::plain(NAME, colour::MUTED);
        let headline = self.headline.iter().map(|l| (l, self.style, HEADLINE));
        let note = self.note.iter().map(|l| (l, small, LINE));
        let mut y = 20.0;
        let lines = headline.chain(note).map(|(line, style, high)| {
            let words = Words::new(line.as_str(), (left, y), Anchor::Start, style);
            y += high;
            words
        });
        lines.collect()
    }
}

/// A temperature at a time and its distance from the minimum: `44 °F at 07:30, 4 °F above the minimum`.
pub fn beside_minimum(celsius: f64, min_c: f64, units: Units, at: &str) -> String {
    let side = if celsius < min_c { "below" } else { "above" };
    let shown = units.temperature_text(celsius).replace('-', "\u{2212}");
    let gap = units.size(celsius - min_c);
    format!("{shown} at {at}, {gap} {side} the minimum")
}

/// A text in lines no wider than `room`, as many as `most`; the last is cut short if need be.
pub fn wrapped(text: &str, style: TextStyle, room: f64, most: usize) -> Vec<String> {
    let (mut lines, mut line) = (Vec::new(), String::new());
    for word in chunks(text) {
        let longer = format!("{line}{}{word}", if line.is_empty() { "" } else { " " });
        let full = lines.len() + 1 == most;
        if line.is_empty() || full || style.width(&longer) <= room {
            line = longer;
        } else {
            lines.push(std::mem::replace(&mut line, word));
        }
    }
    lines.push(fitted(&line, style, room));
    lines
}

/// The words of a text, a number together with what follows it, which may be its unit.
fn chunks(text: &str) -> Vec<String> {
    let mut chunks: Vec<String> = Vec::new();
    for word in text.split(' ') {
        match chunks.last_mut() {
            Some(before) if before.ends_with(|c: char| c.is_ascii_digit()) => {
                *before = format!("{before} {word}");
            }
            _ => chunks.push(word.to_owned()),
        }
    }
    chunks
}

/// Words cut short with an ellipsis so that they fit.
fn fitted(text: &str, style: TextStyle, room: f64) -> String {
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
    use super::*;

    #[test]
    fn a_number_stays_with_its_unit() {
        let style = TextStyle::plain(10.0, colour::TEXT);
        let lines = wrapped(
            "duct at the nose, 2 h",
            style,
            style.width("at the nose, 2"),
            9,
        );
        assert_eq!(lines, ["duct at the", "nose, 2 h"]);
    }

    #[test]
    fn a_text_is_broken_between_words_and_cut_only_at_its_last_line() {
        let style = TextStyle::plain(10.0, colour::TEXT);
        let room = style.width("underneath is");
        let text = "the fan underneath is best tonight";
        assert_eq!(
            wrapped(text, style, room, 9),
            ["the fan", "underneath is", "best tonight"]
        );
        let cut = wrapped(text, style, room, 2);
        assert_eq!(cut[0], "the fan");
        assert!(cut[1].starts_with("underneath") && cut[1].ends_with('…'));
        assert!(cut.iter().all(|line| style.width(line) <= room));
    }
}
