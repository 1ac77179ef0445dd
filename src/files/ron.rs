//! Model files, in RON: text to values, and every way in which that can go wrong told with its place.

use super::fault::{Fault, FileError};
use super::outline::Outline;
use super::recover::{self, Reading};
use ron::Options;
use ron::extensions::Extensions;
use serde::de::DeserializeOwned;

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
    if bytes.starts_with(&[0xff, 0xfe]) || bytes.starts_with(&[0xfe, 0xff]) {
        return Err(Fault::of(file, "the file is UTF-16 text").help("save it again as UTF-8 text"));
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

/// A value from the text of a model file, or every fault of the text.
pub fn read<T: DeserializeOwned>(file: &str, text: &str) -> Reading<T> {
    // The reader refuses a field that stands twice, but would let the last of two equal keys of a map win.
    match options().from_str(text) {
        Ok(value) if Outline::of(text).twice.is_empty() => Reading {
            value: Some(value),
            faults: Vec::new(),
            guessed: Vec::new(),
            ignored: Vec::new(),
        },
        _ => recover::read(file, text, &options()),
    }
}

/// A value from the text of a model file.
///
/// *Errors*: everything in the text that cannot be read, with its place and what would mend it.
pub fn parse<T: DeserializeOwned>(file: &str, text: &str) -> Result<T, FileError> {
    let reading = read(file, text);
    match reading.value {
        Some(value) if reading.faults.is_empty() => Ok(value),
        _ => Err(FileError::Faults(reading.faults)),
    }
}

/// The text of a value, as a model file would hold it.
///
/// *Errors*: none for the types of this library; whatever the writer says otherwise.
pub fn written<T: serde::Serialize>(value: &T) -> Result<String, ron::Error> {
    let pretty = ron::ser::PrettyConfig::default().struct_names(false);
    options().to_string_pretty(value, pretty)
}
