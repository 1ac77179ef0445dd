//! What is wrong with a file: where, what, and what would mend it.

use annotate_snippets::renderer::DecorStyle;
use annotate_snippets::{AnnotationKind, Level, Renderer, Snippet};
use std::fmt;
use std::ops::Range;

/// Something wrong with a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// The file, as the user named it.
    pub file: String,
    /// Its text and the bytes to underline, if the place is known.
    pub place: Option<(String, Range<usize>)>,
    /// What is wrong, in one sentence.
    pub what: String,
    /// What would mend it.
    pub help: Option<String>,
}

impl Fault {
    /// A fault of a whole file.
    pub fn of(file: &str, what: impl Into<String>) -> Self {
        Self {
            file: file.to_owned(),
            place: None,
            what: what.into(),
            help: None,
        }
    }
    /// The same fault at a place in the file's text.
    pub fn at(mut self, text: &str, bytes: Range<usize>) -> Self {
        self.place = Some((text.to_owned(), bytes));
        self
    }
    /// The same fault with what would mend it.
    pub fn help(mut self, help: impl Into<String>) -> Self {
        self.help = Some(help.into());
        self
    }
    /// Line and column of the place, from one.
    pub fn line_and_column(&self) -> Option<(usize, usize)> {
        let (text, bytes) = self.place.as_ref()?;
        let before = text.get(..bytes.start)?;
        let line = before.matches('\n').count() + 1;
        let column = before.rsplit('\n').next().unwrap_or("").chars().count() + 1;
        Some((line, column))
    }
    /// The fault with its line underlined, in colour or plain.
    pub fn rendered(&self, colour: bool) -> String {
        self.rendered_as(&Level::ERROR, colour)
    }
    /// The same, if it is hard to believe and no error.
    pub fn warned(&self, colour: bool) -> String {
        self.rendered_as(&Level::WARNING, colour)
    }
    fn rendered_as(&self, level: &Level<'static>, colour: bool) -> String {
        let renderer = if colour {
            Renderer::styled()
        } else {
            Renderer::plain()
        };
        let title = level.clone().primary_title(self.what.as_str());
        let whole = format!("in {}", self.file);
        let mut group = match &self.place {
            Some((text, bytes)) => title.element(
                Snippet::source(text.as_str())
                    .path(self.file.as_str())
                    .annotation(AnnotationKind::Primary.span(bytes.clone())),
            ),
            None => title.element(Level::NOTE.message(whole.as_str())),
        };
        if let Some(help) = &self.help {
            group = group.element(Level::HELP.message(help.as_str()));
        }
        renderer.decor_style(DecorStyle::Ascii).render(&[group])
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.line_and_column() {
            Some((line, column)) => write!(f, "{}:{line}:{column}: {}", self.file, self.what)?,
            None => write!(f, "{}: {}", self.file, self.what)?,
        }
        match &self.help {
            Some(help) => write!(f, " ({help})"),
            None => Ok(()),
        }
    }
}

impl std::error::Error for Fault {}

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
    #[error("{}", .0.iter().map(Fault::to_string).collect::<Vec<_>>().join("\n"))]
    Faults(Vec<Fault>),
}

/// Why a file could not be read, in words rather than numbers of errors.
pub(super) fn why(source: &std::io::Error) -> String {
    match source.kind() {
        std::io::ErrorKind::IsADirectory => "it is a folder, and a file is wanted".to_owned(),
        std::io::ErrorKind::NotFound => "there is no such file".to_owned(),
        _ => source.to_string(),
    }
}

/// Faults of several files, gathered before any is told.
#[derive(Debug, Default)]
pub struct ErrorList(Vec<Fault>);

impl ErrorList {
    /// What was read, if it was; its faults are kept.
    pub fn keep<T>(&mut self, read: Result<T, FileError>) -> Option<T> {
        match read {
            Ok(value) => return Some(value),
            Err(FileError::Faults(faults)) => self.add(faults),
            Err(FileError::Read { file, source }) => {
                let what = format!("{file} could not be read: {}", why(&source));
                self.add([Fault::of(&file, what)]);
            }
        }
        None
    }
    /// Adds faults, each once: a file may be named several times.
    pub fn add(&mut self, faults: impl IntoIterator<Item = Fault>) {
        for fault in faults {
            if !self.0.contains(&fault) {
                self.0.push(fault);
            }
        }
    }
    /// The value, if nothing was found wrong.
    ///
    /// *Errors*: all that was gathered.
    pub fn ended<T>(self, value: Option<T>) -> Result<T, FileError> {
        match value {
            Some(value) if self.0.is_empty() => Ok(value),
            _ => Err(FileError::Faults(self.0)),
        }
    }
}

impl From<Fault> for FileError {
    fn from(fault: Fault) -> Self {
        Self::Faults(vec![fault])
    }
}
