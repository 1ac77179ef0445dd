//! What was found in files that were checked.

use super::columns::{Cell, Table};
use super::model::{Report, Section};
use serde_json::{Value, json};

/// What was found in one file.
#[derive(Debug, Default)]
pub struct CheckedFile {
    /// The file as it was named.
    pub file: String,
    /// Its kind; none if it has errors.
    pub kind: Option<&'static str>,
    /// What a weather file was read as.
    pub detected_format: Option<String>,
    /// What is wrong with it.
    pub errors: Vec<Located>,
    /// Numbers that are hardly plausible.
    pub warnings: Vec<Located>,
    /// What was left out, corrected or assumed.
    pub notes: Vec<String>,
}

/// Something to say about a file, at its place.
#[derive(Debug)]
pub struct Located {
    /// The file it is in.
    pub file: String,
    /// Line and column from 1, if it has a place.
    pub place: Option<(usize, usize)>,
    /// What is wrong.
    pub message: String,
    /// What to write instead.
    pub suggestion: Option<String>,
}

/// The report of checked files. People read the errors beside it.
pub fn report(files: &[CheckedFile]) -> Report {
    let table = Table::of("files", files)
        .json("file", |f| f.file.as_str())
        .json("valid", |f| f.kind.is_some())
        .words("kind", "", |f| Cell::new(f.kind, valid(f)))
        .json("detected_format", |f| f.detected_format.clone())
        .json("errors", |f| located(&f.errors))
        .json("plausibility_warnings", |f| located(&f.warnings))
        .json("input_notes", |f| f.notes.clone());
    Report::new("check", "", None).with(Section::new("").block(table))
}

fn valid(f: &CheckedFile) -> String {
    let format = f.detected_format.as_ref();
    let format = format.map_or(String::new(), |format| format!(" ({format})"));
    f.kind.map_or(String::new(), |kind| {
        format!("{}: a valid {kind} file{format}", f.file)
    })
}

fn located(list: &[Located]) -> Value {
    let one = |l: &Located| {
        let (line, column) = l.place.unzip();
        json!({
            "file": l.file,
            "line": line,
            "column": column,
            "message": l.message,
            "suggestion": l.suggestion,
        })
    };
    list.iter().map(one).collect()
}
