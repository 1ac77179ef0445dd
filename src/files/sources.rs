//! Where the text behind a name comes from: the built-in models, or files beside the user's own.

use super::fault::{Fault, FileError};
use super::library::{Kind, builtin, names};
use super::ron::{parse, text_of};
use super::written_units::{Doubted, with_units};
use serde::Serialize;
use serde::de::DeserializeOwned;
use sha2::{Digest, Sha256};
use std::path::{Path, PathBuf};

/// A file that went into a night.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Input {
    /// Its path as it was asked for, or `built-in heaters/lamp-100w.ron`.
    pub name: String,
    /// The SHA-256 of its text.
    pub sha256: String,
}

/// Reads names, and keeps the texts it has read.
#[derive(Debug, Clone, Default)]
pub struct Sources {
    folder: Option<PathBuf>,
    read: Vec<(String, String)>,
}

impl Sources {
    /// Names resolve to built-ins only.
    pub fn builtin() -> Self {
        Self::default()
    }
    /// Names resolve to built-ins, and names that end in `.ron` or `.csv` to files in this file's folder.
    pub fn beside(file: &Path) -> Self {
        Self {
            folder: Some(file.parent().unwrap_or(Path::new("")).to_owned()),
            read: Vec::new(),
        }
    }
    /// The files read so far, with their hashes.
    pub fn inputs(&self) -> Vec<Input> {
        self.read
            .iter()
            .map(|(name, text)| Input {
                name: name.clone(),
                sha256: Sha256::digest(text.as_bytes())
                    .iter()
                    .map(|byte| format!("{byte:02x}"))
                    .collect(),
            })
            .collect()
    }
    /// The texts read so far, by name.
    pub fn texts(&self) -> impl Iterator<Item = (&str, &str)> {
        self.read.iter().map(|(n, t)| (n.as_str(), t.as_str()))
    }
    /// A file read so far, and its text.
    pub fn named_text(&self, file: &str) -> Option<(&str, &str)> {
        self.texts().find(|(name, _)| *name == file)
    }

    /// Reads the user's own file.
    ///
    /// *Errors*: it cannot be read, is too long, or is no UTF-8 text.
    pub fn open(&mut self, path: &Path) -> Result<String, FileError> {
        let file = path.display().to_string();
        let bytes = read_bounded(path).map_err(|source| FileError::Read {
            file: file.clone(),
            source,
        })?;
        let text = text_of(&file, bytes)?;
        self.keep(&file, &text);
        Ok(text)
    }

    /// The text behind a name: a built-in of this kind, or a file beside the user's own. `asked_by` is the
    /// file that names it, for the fault.
    ///
    /// *Errors*: no such built-in (with the nearest name), a path outside the folder, or a file that cannot be read.
    pub fn text(&mut self, kind: Kind, name: &str, asked_by: &str) -> Result<String, FileError> {
        if !(name.ends_with(".ron") || name.ends_with(".csv")) {
            let Some(text) = builtin(kind, name) else {
                return Err(self.unknown(kind, name, asked_by).into());
            };
            self.keep(&label(kind, name), text);
            return Ok(text.to_owned());
        }
        let plain = Path::new(name)
            .components()
            .all(|c| matches!(c, std::path::Component::Normal(_)));
        let folder = self.folder.clone().filter(|_| plain).ok_or_else(|| {
            self.named(
                asked_by,
                name,
                format!("`{name}` is not a file in the folder of {asked_by}"),
            )
            .help("put the file beside the night and name it without `..` or a leading `/`")
        })?;
        let path = folder.join(name);
        let unread = |e: std::io::Error| {
            let what = format!("the {} `{name}` could not be read: {e}", kind.word());
            self.named(asked_by, name, what)
        };
        // A link may still lead out of the folder.
        let inside = if folder.as_os_str().is_empty() {
            Path::new(".")
        } else {
            &folder
        };
        let real = path.canonicalize().map_err(unread)?;
        if !real.starts_with(inside.canonicalize().map_err(unread)?) {
            let what = format!("`{name}` leads out of the folder of {asked_by}");
            return Err(self.named(asked_by, name, what).into());
        }
        let bytes = read_bounded(&real).map_err(unread)?;
        let text = text_of(name, bytes)?;
        self.keep(name, &text);
        Ok(text)
    }

    /// The value behind a name.
    ///
    /// *Errors*: as [`Sources::text`], or a text that is not such a value.
    pub fn value<T: DeserializeOwned + Doubted>(
        &mut self,
        kind: Kind,
        name: &str,
        asked_by: &str,
    ) -> Result<T, FileError> {
        let text = self.text(kind, name, asked_by)?;
        Ok(with_units(parse(&label(kind, name), &text)?, &text))
    }

    fn keep(&mut self, name: &str, text: &str) {
        if !self.read.iter().any(|(n, _)| n == name) {
            self.read.push((name.to_owned(), text.to_owned()));
        }
    }

    fn unknown(&self, kind: Kind, name: &str, asked_by: &str) -> Fault {
        let what = format!("there is no built-in {} called `{name}`", kind.word());
        let fault = self.named(asked_by, name, what);
        let known = names(kind);
        let nearest = crate::scenario::check::nearest(name, known.iter().copied());
        match nearest {
            Some(near) => fault.help(format!("did you mean `{near}`? A file of your own is named with its ending, as in \"{name}.ron\"")),
            None => fault.help(format!("built in are {}", known.join(", "))),
        }
    }

    /// A fault at a quoted name in the file that asks for it.
    fn named(&self, asked_by: &str, name: &str, what: String) -> Fault {
        let fault = Fault::of(asked_by, what);
        match self
            .named_text(asked_by)
            .and_then(|(_, text)| Some((text, text.find(&format!("\"{name}\""))?)))
        {
            Some((text, at)) => fault.at(text, at + 1..at + 1 + name.len()),
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

/// A file's bytes, no more than a model file may have and one to tell.
fn read_bounded(path: &Path) -> std::io::Result<Vec<u8>> {
    use std::io::Read;
    let mut bytes = Vec::new();
    std::fs::File::open(path)?
        .take(super::ron::LONGEST as u64 + 1)
        .read_to_end(&mut bytes)?;
    Ok(bytes)
}
