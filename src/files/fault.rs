//! Why files could not be turned into a night.

use crate::document::error::MOST_PRINTED;
pub use crate::document::{ErrorList, InputError};

/// Why files could not be turned into a night.
#[derive(Debug, thiserror::Error)]
pub enum FileError {
    /// A file could not be read.
    #[error("{file} could not be read: {}", why(source))]
    Read {
        /// The file.
        file: String,
        /// What the system said.
        source: std::io::Error,
    },
    /// Files were read, and these things are wrong with them.
    #[error("{}", printed(.0))]
    Faults(Vec<InputError>),
}

impl FileError {
    /// All errors, that of a file that could not be read among them.
    pub fn into_errors(self) -> Vec<InputError> {
        match self {
            Self::Faults(errors) => errors,
            Self::Read { file, source } => {
                let message = format!("the file could not be read: {}", why(&source));
                vec![InputError::of(&file, message)]
            }
        }
    }
}

/// The first errors, and the number of the others.
pub fn printed(errors: &[InputError]) -> String {
    let first = errors.iter().take(MOST_PRINTED).map(InputError::to_string);
    let mut lines: Vec<String> = first.collect();
    if errors.len() > MOST_PRINTED {
        lines.push(format!("{} more errors", errors.len() - MOST_PRINTED));
    }
    lines.join("\n")
}

/// Why a file could not be read, in words rather than numbers of errors.
pub(super) fn why(source: &std::io::Error) -> String {
    match source.kind() {
        std::io::ErrorKind::IsADirectory => "it is a folder, and a file is wanted".to_owned(),
        std::io::ErrorKind::NotFound => "there is no such file".to_owned(),
        _ => source.to_string(),
    }
}

impl ErrorList {
    /// What was read, if it was; its errors are kept.
    pub fn keep<T>(&mut self, read: Result<T, FileError>) -> Option<T> {
        read.map_err(|e| self.extend(e.into_errors())).ok()
    }
    /// The value, if nothing was found wrong.
    ///
    /// *Errors*: all that is in the list.
    pub fn ended<T>(self, value: Option<T>) -> Result<T, FileError> {
        match value {
            Some(value) if self.count() == 0 => Ok(value),
            _ => Err(FileError::Faults(self.into_kept())),
        }
    }
}

impl From<InputError> for FileError {
    fn from(error: InputError) -> Self {
        Self::Faults(vec![error])
    }
}
