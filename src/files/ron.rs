//! Model files: text to values, with every error at its place.

use super::fault::FileError;
use super::written_units::{HasRanges, with_units};
use crate::document::{Read, Reading, Source, read};

pub use crate::document::source::{LONGEST, text_of};
pub use crate::document::write::written;

/// A value from the text of a model file.
///
/// *Errors*: everything in the text that cannot be read, with its place and what to write instead.
pub fn parse<T: Read>(file: &str, text: &str) -> Result<T, FileError> {
    sound(read(&Source::new(file, text)))
}

/// The same, each of its ranges in the unit in which its number is written.
///
/// *Errors*: as [`parse`].
pub fn parse_model<T: Read + HasRanges>(source: &Source) -> Result<T, FileError> {
    let reading = read::<T>(source);
    let root = reading.root.clone();
    Ok(with_units(sound(reading)?, &root))
}

fn sound<T>(reading: Reading<T>) -> Result<T, FileError> {
    match reading.value {
        Some(value) if reading.errors.count() == 0 => Ok(value),
        _ => Err(FileError::Faults(reading.errors.into_kept())),
    }
}
