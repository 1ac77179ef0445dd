//! Commas that are missing, and commas in numbers.

use super::fault::Fault;
use super::place::whole_word;
use super::wording::under;
use ron::error::Error;
use std::ops::Range;

/// The comma of a number such as `1,5` that stands at or just before a byte.
pub(super) fn decimal_comma(text: &str, at: usize) -> Option<usize> {
    let bytes = text.as_bytes();
    let digit = |i: usize| bytes.get(i).is_some_and(u8::is_ascii_digit);
    [at, at.wrapping_sub(1), at.wrapping_sub(2)]
        .into_iter()
        .filter(|&i| bytes.get(i) == Some(&b','))
        .find(|&i| i > 0 && digit(i - 1) && digit(i + 1))
}

pub(super) fn comma_in_number(file: &str, text: &str, comma: usize, path: &str) -> Fault {
    let place = whole_word(text, comma..comma + 1);
    let number = &text[place.clone()];
    Fault::of(
        file,
        format!("the number `{number}` has a comma{}", under(path)),
    )
    .at(text, place)
    .help(format!(
        "write a decimal point: {}",
        number.replace(',', ".")
    ))
}

/// Where a comma is missing: the end of the value before, where a blank can hold one.
pub(super) fn comma_missing(text: &str, at: usize, code: &Error) -> Option<usize> {
    let next = text[at..].chars().next()?;
    let before = text[..at].trim_end();
    let last = before.chars().next_back()?;
    let begins = next.is_alphabetic() || matches!(next, '"' | '_' | '(' | '[' | '{');
    let ended = last.is_alphanumeric() || matches!(last, '"' | ')' | ']' | '}');
    (wants_end(code) && begins && ended && before.len() < at).then_some(before.len())
}

pub(super) fn no_comma(file: &str, text: &str, end: usize) -> Fault {
    let line = text[..end].rfind('\n').map_or(0, |i| i + 1);
    let last = text[line..end]
        .char_indices()
        .next_back()
        .map_or(end, |(i, _)| line + i);
    Fault::of(file, "a comma is missing after this")
        .at(text, last..end)
        .help("write `,` here")
}

/// Whether the reader had read a value and wanted a comma or a closing bracket.
pub(super) fn wants_end(code: &Error) -> bool {
    matches!(
        code,
        Error::ExpectedComma
            | Error::ExpectedStructLikeEnd
            | Error::ExpectedMapEnd
            | Error::ExpectedArrayEnd
    )
}

/// A plain value with what is written to it without a space, such as the whole of `80%` or `19:00`.
pub(super) fn whole_token(text: &str, value: Range<usize>) -> Range<usize> {
    if text[value.clone()].contains(['(', '[', '{', '"']) {
        return value;
    }
    let ends = |c: char| c.is_whitespace() || ",()[]{}\"".contains(c);
    let more = text[value.end..].find(ends).unwrap_or(0);
    value.start..value.end + more
}
