//! A file's name and its text, as bytes become it.

use super::error::InputError;
use std::sync::Arc;

/// The longest model file, in bytes; a night with an explicit engine takes a hundredth of this.
pub const LONGEST: usize = 8 << 20;

/// A file's name and its text.
#[derive(Debug, Clone)]
pub struct Source {
    /// The file, as the user named it.
    pub file: String,
    /// Its text, shared by all errors.
    pub text: Arc<str>,
}

impl Source {
    /// A file and its text.
    pub fn new(file: &str, text: &str) -> Self {
        Self {
            file: file.to_owned(),
            text: text.into(),
        }
    }
}

/// The text of a file: UTF-8, a byte order mark stripped.
///
/// *Errors*: too long, or not UTF-8.
pub fn text_of(file: &str, bytes: Vec<u8>) -> Result<String, InputError> {
    let refused =
        |message: String, suggestion: &str| Err(InputError::of(file, message).suggest(suggestion));
    if bytes.len() > LONGEST {
        let megabytes = LONGEST >> 20;
        let message = format!("the file is longer than {megabytes} MB");
        return refused(message, "is this a model file?");
    }
    if bytes.starts_with(&[0xff, 0xfe]) || bytes.starts_with(&[0xfe, 0xff]) {
        let message = "the file is UTF-16 text".to_owned();
        return refused(message, "save it again as UTF-8 text");
    }
    match String::from_utf8(bytes) {
        Ok(text) => Ok(match text.strip_prefix('\u{feff}') {
            Some(rest) => rest.to_owned(),
            None => text,
        }),
        Err(e) => {
            let at = e.utf8_error().valid_up_to() + 1;
            let message = format!("the file is not UTF-8 text (byte {at} is not)");
            refused(message, "save it as UTF-8 text")
        }
    }
}
