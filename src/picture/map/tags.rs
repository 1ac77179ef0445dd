//! Names of parts: a letter at one shape of each kind, and under the view where it stands first what it means.

use super::drawing::{Drawing, Kind};
use crate::picture::draw::colour::MUTED;
use crate::picture::draw::{Anchor, Point, TextStyle, Words};

/// Letters of parts and of air; `i`, `l` and `o` are too like a numeral.
const PARTS: &str = "abcdefghjkmnpqrstuvwxyz";
const AIR: &str = "ABCDEFGH";
/// Height of the words of a key, of a line of it, and how wide a letter is at the most.
const SIZE: f64 = 12.0;
const LINE: f64 = 15.0;
const LETTER: f64 = 0.6 * SIZE;
/// From a letter of the key to its words, and from these to the next column.
const INDENT: f64 = 16.0;
const GAP: f64 = 8.0;
/// From a view to its key.
const ABOVE: f64 = 12.0;

/// A letter as it is drawn.
pub fn lettered(letter: char, at: Point) -> Words {
    Words::new(letter, at, Anchor::Middle, TextStyle::bold(SIZE))
}

/// Gives the tags of a view their letters, the same words the same one, and writes the key of those that are new under
/// the view, between these edges; gives the height it takes. Tags for which no letter is left are dropped.
pub fn key(drawing: &mut Drawing, view: usize, (left, right): (f64, f64), top: f64) -> f64 {
    let mut new: Vec<(char, String)> = Vec::new();
    for k in 0..drawing.tags.len() {
        let tag = &drawing.tags[k];
        if tag.view != view {
            continue;
        }
        let mut before = drawing.tags.iter().filter(|t| t.letter != ' ');
        let known = before.find(|t| t.words == tag.words).map(|t| t.letter);
        let letters = match drawing.subjects[tag.subject].kind {
            Kind::Air => AIR,
            _ => PARTS,
        };
        let taken = |c: &char| drawing.tags.iter().any(|t| t.letter == *c);
        let letter = known.or_else(|| letters.chars().find(|c| !taken(c)));
        let words = tag.words.clone();
        if known.is_none() {
            new.extend(letter.map(|c| (c, words)));
        }
        drawing.tags[k].letter = letter.unwrap_or(' ');
    }
    drawing.tags.retain(|t| t.view != view || t.letter != ' ');
    // Parts before air.
    new.sort_by_key(|(letter, _)| (letter.is_ascii_uppercase(), *letter));
    if new.is_empty() {
        return 0.0;
    }
    let longest = new.iter().map(|(_, w)| w.chars().count()).max();
    let needed = INDENT + LETTER * longest.unwrap_or(0) as f64 + GAP;
    let columns = (((right - left) / needed) as usize).clamp(1, new.len());
    let rows = new.len().div_ceil(columns);
    let wide = (right - left) / columns as f64;
    for (k, (letter, text)) in new.into_iter().enumerate() {
        let x = left + wide * (k / rows) as f64;
        let y = top + ABOVE + LINE * ((k % rows) as f64 + 0.5);
        let (bold, plain) = (TextStyle::bold(SIZE), TextStyle::plain(SIZE, MUTED));
        let mut write = |text: String, x: f64, style: TextStyle| {
            drawing
                .words
                .push(Words::new(text, (x, y), Anchor::Start, style));
        };
        write(letter.to_string(), x, bold);
        write(text, x + INDENT, plain);
    }
    let high = ABOVE + LINE * rows as f64;
    drawing.views[view].key_high = high;
    high
}
