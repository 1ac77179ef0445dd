//! What a weather file gives.

use super::note::Note;
use crate::scenario::weather::Record;

/// What a weather file is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Form {
    /// Aviation reports.
    Reports,
    /// A table.
    Table,
}

/// A weather file that was read.
#[derive(Debug, Clone, PartialEq)]
pub struct Reading {
    /// What it is.
    pub form: Form,
    /// The station, if the file names one.
    pub station: Option<String>,
    /// Its readings.
    pub record: Record,
    /// What was told about it.
    pub notes: Vec<Note>,
}
