//! Model files, in RON: text to values, and every way in which that can go wrong told with its place.

use super::fault::Fault;
use super::outline::Outline;
use ron::Options;
use ron::error::{Position, SpannedError};
use ron::extensions::Extensions;
use serde::de::DeserializeOwned;
use std::ops::Range;

/// The longest model file, in bytes; a night with an explicit engine takes a hundredth of this.
pub const LONGEST: usize = 8 << 20;

fn options() -> Options {
    Options::default().with_default_extension(Extensions::IMPLICIT_SOME)
}

/// The text of a file: UTF-8, a byte order mark stripped.
///
/// *Errors*: too long, or not UTF-8.
pub fn text_of(file: &str, bytes: Vec<u8>) -> Result<String, Fault> {
    if bytes.len() > LONGEST {
        let megabytes = LONGEST >> 20;
        return Err(
            Fault::of(file, format!("the file is longer than {megabytes} MB"))
                .help("this does not look like a model file"),
        );
    }
    let text = String::from_utf8(bytes).map_err(|e| {
        let at = e.utf8_error().valid_up_to();
        let what = format!("the file is not UTF-8 text (byte {} is not)", at + 1);
        Fault::of(file, what).help("save it as UTF-8 text")
    })?;
    Ok(match text.strip_prefix('\u{feff}') {
        Some(rest) => rest.to_owned(),
        None => text,
    })
}

/// A value from the text of a model file.
///
/// *Errors*: the first thing in the text that cannot be read, with its place and a hint.
pub fn parse<T: DeserializeOwned>(file: &str, text: &str) -> Result<T, Fault> {
    let mut reader = ron::Deserializer::from_str_with_options(text, &options())
        .map_err(|e| fault(file, text, &e, ""))?;
    let value = serde_path_to_error::deserialize(&mut reader).map_err(|e| {
        let path = e.path().to_string();
        let spanned = reader.span_error(e.into_inner());
        fault(file, text, &spanned, &path)
    })?;
    reader
        .end()
        .map_err(|e| fault(file, text, &reader.span_error(e), ""))?;
    // The reader refuses a field that stands twice, but would let the last of two equal keys of a map win.
    match Outline::of(text).twice.into_iter().next() {
        Some((key, place)) => Err(
            Fault::of(file, format!("the key `{key}` stands there twice"))
                .at(text, place)
                .help("leave one of the two out"),
        ),
        None => Ok(value),
    }
}

/// The text of a value, as a model file would hold it.
///
/// *Errors*: none for the types of this library; whatever the writer says otherwise.
pub fn written<T: serde::Serialize>(value: &T) -> Result<String, ron::Error> {
    let pretty = ron::ser::PrettyConfig::default().struct_names(false);
    options().to_string_pretty(value, pretty)
}

fn fault(file: &str, text: &str, error: &SpannedError, path: &str) -> Fault {
    let said = error.code.to_string();
    let place = bytes_between(text, error.span.start, error.span.end);
    let place = whole_word(text, place);
    let word = &text[place.clone()];
    let mut what = if said.starts_with("Found invalid std identifier") {
        // The reader wants a unit's name here; its own words speak of identifiers.
        format!("`{word}` stands where a value with its unit is expected")
    } else {
        said.trim_end_matches('.').to_owned()
    };
    if !path.is_empty() && path != "." && path != "?" {
        what = format!("{what}, at `{path}`");
    }
    let fault = Fault::of(file, what).at(text, place.clone());
    match hint(&said, word, text, &place) {
        Some(help) => fault.help(help),
        None => fault,
    }
}

/// What would mend it, for the slips that the reader's own words do not explain.
fn hint(said: &str, word: &str, text: &str, place: &Range<usize>) -> Option<String> {
    let bare = word.trim_start_matches(['-', '+']);
    let number = bare.starts_with(|c: char| c.is_ascii_digit() || c == '.');
    let quoted = text[..place.start].ends_with('"');
    let before = text[..place.start].strip_suffix(',');
    let decimal_comma = word.starts_with(|c: char| c.is_ascii_digit())
        && before.is_some_and(|b| b.ends_with(|c: char| c.is_ascii_digit()));
    if decimal_comma {
        Some("write a decimal point, not a comma: 1.5".to_owned())
    } else if number && !quoted {
        Some("a unit goes here, such as degC(-9), W(350), m(0.12), kg(15) or h(2)".to_owned())
    } else if said.contains("nexpected field") || said.contains("nexpected variant") {
        None
    } else if said.contains("No such extension") || said.contains("identifier") && word.is_empty() {
        Some("a name in quotes, a number or a bracket is missing here".to_owned())
    } else {
        None
    }
}

/// The bytes between two places given in lines and characters from one.
fn bytes_between(text: &str, start: Position, end: Position) -> Range<usize> {
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
fn whole_word(text: &str, place: Range<usize>) -> Range<usize> {
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
