//! What was told about a weather file: nothing in it is changed in silence.

use std::fmt;

/// What was done about it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum NoteKind {
    /// Something the file does not say was taken from elsewhere, or from its other lines.
    Assumed,
    /// A line was left out.
    LeftOut,
    /// A missing or disordered value was mended.
    Repaired,
    /// It is odd, and was kept as it stands.
    Kept,
    /// A long time without readings.
    Gap,
    /// A column that the night does not use.
    Unused,
}

impl NoteKind {
    /// All of them, in the order in which they are told.
    pub const ALL: [Self; 6] = [
        Self::Assumed,
        Self::LeftOut,
        Self::Repaired,
        Self::Kept,
        Self::Gap,
        Self::Unused,
    ];
    /// The word for it, as machine output spells it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Assumed => "assumed",
            Self::LeftOut => "left out",
            Self::Repaired => "repaired",
            Self::Kept => "kept, but odd",
            Self::Gap => "gap",
            Self::Unused => "not used",
        }
    }
}

/// Something worth telling about a weather file.
#[derive(Debug, Clone, PartialEq)]
pub struct Note {
    /// What was done about it.
    pub care: NoteKind,
    /// The line, counted from 1; nothing if it is about the whole file.
    pub line: Option<usize>,
    /// The moment, in seconds since 1970 UTC, if it is about one.
    pub unix_s: Option<f64>,
    /// What it is.
    pub what: String,
}

impl Note {
    /// A note about the whole file.
    pub(super) fn of(care: NoteKind, what: impl Into<String>) -> Self {
        Self {
            care,
            line: None,
            unix_s: None,
            what: what.into(),
        }
    }
    /// The same about a line.
    pub(super) fn line(mut self, line: usize) -> Self {
        self.line = Some(line);
        self
    }
    /// The same about a moment.
    pub(super) fn at(mut self, unix_s: f64) -> Self {
        self.unix_s = Some(unix_s);
        self
    }
}

impl fmt::Display for Note {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.line {
            Some(line) => write!(f, "line {line}: {}", self.what),
            None => write!(f, "{}", self.what),
        }
    }
}
