//! Places in a text: from lines and characters to bytes, and from a byte to the word it stands in.

use ron::error::Position;
use std::ops::Range;

/// The bytes between two places given in lines and characters from one.
pub fn bytes_between(text: &str, start: Position, end: Position) -> Range<usize> {
    let from = byte_at(text, start);
    from..byte_at(text, end).max(from)
}

fn byte_at(text: &str, position: Position) -> usize {
    let mut line_start = 0;
    for line in text
        .split_inclusive('\n')
        .take(position.line.saturating_sub(1))
    {
        line_start += line.len();
    }
    let line = &text[line_start.min(text.len())..];
    line.char_indices()
        .nth(position.col.saturating_sub(1))
        .map_or(text.len(), |(at, _)| line_start + at)
}

/// A place widened to the word it stands in, so that there is something to underline.
pub fn whole_word(text: &str, place: Range<usize>) -> Range<usize> {
    let is_word = |c: char| c.is_alphanumeric() || matches!(c, '_' | '.' | '-' | '+');
    let before = text[..place.start]
        .char_indices()
        .rev()
        .take_while(|&(_, c)| is_word(c))
        .last()
        .map_or(place.start, |(at, _)| at);
    let mut after = place.end;
    for c in text[place.end..].chars() {
        if !is_word(c) {
            break;
        }
        after += c.len_utf8();
    }
    if before < after {
        return before..after;
    }
    // Nothing but space: the character before it, if there is one.
    let back = text[..before]
        .char_indices()
        .rev()
        .find(|(_, c)| !c.is_whitespace());
    match back {
        Some((at, c)) => at..at + c.len_utf8(),
        None => before..after,
    }
}

/// As much of a place as stands on its first line.
pub fn first_line(text: &str, bytes: &Range<usize>) -> Range<usize> {
    let line = text[bytes.clone()].lines().next().unwrap_or("");
    bytes.start..bytes.start + line.trim_end().len()
}

/// The number of the line a byte stands in, from one.
pub fn line_of(text: &str, at: usize) -> usize {
    text.as_bytes()[..at.min(text.len())]
        .iter()
        .filter(|b| **b == b'\n')
        .count()
        + 1
}
