//! Where the text behind a name comes from: the built-in models, or files beside the user's own.

use super::fault::{FileError, InputError, why};
use super::library::{self, Kind, builtin};
use super::recognise::mistaken;
use super::ron::{parse_model, text_of};
use super::written_units::HasRanges;
use crate::document::{Read, Source};
use serde::Serialize;
use sha2::{Digest, Sha256};
use std::path::{Path, PathBuf};
use std::sync::OnceLock;

/// Endings that make a name that of a file.
const ENDINGS: [&str; 5] = [".ron", ".csv", ".tsv", ".txt", ".metar"];

/// A file that went into a night.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Input {
    /// Its path as it was named, or `built-in heaters/lamp-100w.ron`.
    pub name: String,
    /// The SHA-256 of its text.
    pub sha256: String,
}

/// Whether a name in a file may lead out of that file's folder.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Outside {
    /// No: a night from elsewhere reads nothing but what came with it.
    #[default]
    Refused,
    /// Yes, wherever it leads.
    Allowed,
}

/// Reads names, and keeps the texts it has read.
#[derive(Debug, Clone, Default)]
pub struct Sources {
    folder: Option<PathBuf>,
    outside: Outside,
    /// Name and text, and the hash of the bytes.
    read: Vec<(Source, String)>,
    notes: Vec<String>,
}

impl Sources {
    /// Names resolve to built-ins only.
    pub fn builtin() -> Self {
        Self::default()
    }
    /// Names resolve to built-ins, and names that end like files (`.ron`, `.csv`, `.txt` ...) to those in this file's folder.
    pub fn beside(file: &Path) -> Self {
        Self {
            folder: Some(file.parent().unwrap_or(Path::new("")).to_owned()),
            ..Self::default()
        }
    }
    /// The same, with names that lead out of the folder allowed or not.
    pub fn outside(mut self, outside: Outside) -> Self {
        self.outside = outside;
        self
    }
    /// Notes on the files: what was skipped or corrected in them.
    pub fn notes(&self) -> &[String] {
        &self.notes
    }
    /// Adds a note.
    pub(super) fn tell(&mut self, note: String) {
        if !self.notes.contains(&note) {
            self.notes.push(note);
        }
    }
    /// The files read so far, with their hashes.
    pub fn inputs(&self) -> Vec<Input> {
        self.read
            .iter()
            .map(|(source, hash)| Input {
                name: source.file.clone(),
                sha256: hash.clone(),
            })
            .collect()
    }
    /// The files read so far.
    pub fn texts(&self) -> impl Iterator<Item = &Source> {
        self.read.iter().map(|(source, _)| source)
    }
    /// A file read so far.
    pub fn named(&self, file: &str) -> Option<&Source> {
        self.texts().find(|source| source.file == file)
    }

    /// Reads the user's own file; `-` is standard input, whose names resolve in the working directory.
    ///
    /// *Errors*: it cannot be read, is too long, or is no UTF-8 text.
    pub fn open(&mut self, path: &Path) -> Result<Source, FileError> {
        let file = called(path);
        let bytes = if is_stdin(path) {
            standard_input()
        } else {
            read_bounded(path)
        }
        .map_err(|source| FileError::Read {
            file: file.clone(),
            source,
        })?;
        let hash = sha256(&bytes);
        let text = text_of(&file, bytes)?;
        Ok(self.keep(&file, &text, hash))
    }

    /// The text behind a name: a built-in of this kind, or a file beside the user's own. `asked_by` is the
    /// file that names it, for the fault.
    ///
    /// *Errors*: no such built-in (with the nearest name), a path outside the folder, or a file that cannot be read.
    pub fn text(&mut self, kind: Kind, name: &str, asked_by: &str) -> Result<Source, FileError> {
        if !ENDINGS.iter().any(|ending| name.ends_with(ending)) {
            let Some(text) = builtin(kind, name) else {
                return Err(self.unknown(kind, name, asked_by).into());
            };
            return Ok(self.keep(&label(kind, name), text, sha256(text.as_bytes())));
        }
        let free = self.outside == Outside::Allowed;
        let plain = free
            || Path::new(name)
                .components()
                .all(|c| matches!(c, std::path::Component::Normal(_)));
        let folder = self.folder.clone().filter(|_| plain).ok_or_else(|| {
            self.error_at_name(asked_by,
                name,
                format!("`{name}` is not a file in the folder of {asked_by}"),
            )
            .help("put it beside that file and name it without `..` or a leading `/`, or say --allow-outside")
        })?;
        let path = folder.join(name);
        let unread = |e: std::io::Error| {
            let what = format!(
                "the {} `{name}` could not be read: {}",
                kind.word(),
                why(&e)
            );
            self.error_at_name(asked_by, name, what)
        };
        // A link may still lead out of the folder.
        let inside = if folder.as_os_str().is_empty() {
            Path::new(".")
        } else {
            &folder
        };
        let real = path.canonicalize().map_err(unread)?;
        if !free && !real.starts_with(inside.canonicalize().map_err(unread)?) {
            let what = format!("`{name}` is a link that leads out of the folder of {asked_by}");
            return Err(self
                .error_at_name(asked_by, name, what)
                .help("copy the file itself there, or say --allow-outside")
                .into());
        }
        let bytes = read_bounded(&real).map_err(unread)?;
        let hash = sha256(&bytes);
        let text = text_of(name, bytes)?;
        Ok(self.keep(name, &text, hash))
    }

    /// The value behind a name.
    ///
    /// *Errors*: as [`Sources::text`], or a text that is not such a value.
    pub fn value<T: Read + HasRanges>(
        &mut self,
        kind: Kind,
        name: &str,
        asked_by: &str,
    ) -> Result<T, FileError> {
        let source = self.text(kind, name, asked_by)?;
        parse_model(&source).map_err(|e| match mistaken(&source, kind) {
            Some(fault) => fault
                .suggest(format!("name another file in {asked_by}"))
                .into(),
            None => e,
        })
    }

    fn keep(&mut self, name: &str, text: &str, hash: String) -> Source {
        if let Some(source) = self.named(name) {
            return source.clone();
        }
        let source = Source::new(name, text);
        self.read.push((source.clone(), hash));
        source
    }

    fn unknown(&self, kind: Kind, name: &str, asked_by: &str) -> InputError {
        library::unknown(kind, name, |what| self.error_at_name(asked_by, name, what))
    }

    /// A fault at a quoted name in the file that asks for it.
    fn error_at_name(&self, asked_by: &str, name: &str, what: String) -> InputError {
        let fault = InputError::of(asked_by, what);
        match self
            .named(asked_by)
            .and_then(|source| Some((source, source.text.find(&format!("\"{name}\""))?)))
        {
            Some((source, at)) => fault.at(source.text.clone(), at + 1..at + 1 + name.len()),
            None => fault,
        }
    }
}

/// What a file is called in faults and inputs: `built-in oils/sae-50.ron`, or the name of the user's own.
pub fn label(kind: Kind, name: &str) -> String {
    if builtin(kind, name).is_none() {
        return name.to_owned();
    }
    let (folder, ending) = kind.folder_and_ending();
    format!("built-in {folder}/{name}{ending}")
}

/// What a user's file is called: its path as typed, or `standard input`.
pub fn called(path: &Path) -> String {
    if is_stdin(path) {
        "standard input".to_owned()
    } else {
        path.display().to_string()
    }
}

/// Standard input, which can be read once and is needed twice: by what kind of file it is, and as one.
fn standard_input() -> std::io::Result<Vec<u8>> {
    static READ: OnceLock<Vec<u8>> = OnceLock::new();
    if let Some(bytes) = READ.get() {
        return Ok(bytes.clone());
    }
    let bytes = bounded(std::io::stdin().lock())?;
    Ok(READ.get_or_init(|| bytes).clone())
}

fn is_stdin(path: &Path) -> bool {
    path == Path::new("-")
}

/// The SHA-256 of some bytes, in hexadecimal digits.
pub fn sha256(bytes: &[u8]) -> String {
    let digest = Sha256::digest(bytes);
    digest.iter().map(|byte| format!("{byte:02x}")).collect()
}

fn read_bounded(path: &Path) -> std::io::Result<Vec<u8>> {
    bounded(std::fs::File::open(path)?)
}

/// Bytes, no more than a model file may have and one more.
fn bounded(from: impl std::io::Read) -> std::io::Result<Vec<u8>> {
    use std::io::Read;
    let mut bytes = Vec::new();
    from.take(super::ron::LONGEST as u64 + 1)
        .read_to_end(&mut bytes)?;
    Ok(bytes)
}
