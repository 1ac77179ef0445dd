//! Writing so that nothing is lost and nothing is half written.

use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// The file that every folder of a run holds.
pub const FINDINGS: &str = "findings.json";
/// The file in which a folder says what it was made from, and which files it holds.
pub const PROVENANCE: &str = "provenance.json";
/// Endings of the files that a run writes.
const ENDINGS: [&str; 4] = ["json", "csv", "svg", "png"];

/// Why something was not written.
#[derive(Debug, thiserror::Error)]
pub enum WriteError {
    /// Something is there already.
    #[error("{} is there already; name another, or overwrite it with --force", .0.display())]
    Exists(PathBuf),
    /// Something is there that a run did not write, so it is not replaced whatever the flags say.
    #[error("{} is not a folder that coldsoak wrote, so --force leaves it alone; name another with --out", .0.display())]
    NotOurs(PathBuf),
    /// Something is there that is not a plain file, so a file cannot take its place.
    #[error("{} is not a plain file, so it is not replaced; name another", .0.display())]
    NoFile(PathBuf),
    /// The folder that a file is to be written into is not there.
    #[error("{} could not be written: there is no folder {}; make it, or name another", path.display(), folder.display())]
    NoFolder {
        /// The file.
        path: PathBuf,
        /// Where it was to go.
        folder: PathBuf,
    },
    /// The system refused.
    #[error("{} could not be written: {source}", path.display())]
    Refused {
        /// Where.
        path: PathBuf,
        /// What the system said.
        source: io::Error,
    },
}

fn refused(path: &Path) -> impl Fn(io::Error) -> WriteError + '_ {
    move |source| WriteError::Refused {
        path: path.to_owned(),
        source,
    }
}

/// Refuses to write a file where there is no folder for it, where something is already and `force` is not set, and in
/// place of a folder, a device or a pipe. Whether the system lets it be written shows only when it is.
///
/// *Errors*: it is not to be written.
pub fn may_write(path: &Path, force: bool) -> Result<(), WriteError> {
    let folder = match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    if !folder.is_dir() {
        return Err(WriteError::NoFolder {
            path: path.to_owned(),
            folder: folder.to_owned(),
        });
    }
    if path.exists() && !path.is_file() {
        return Err(WriteError::NoFile(path.to_owned()));
    }
    if !force && path.exists() {
        return Err(WriteError::Exists(path.to_owned()));
    }
    Ok(())
}

/// Writes a file whole or not at all: under another name beside its own, then renamed.
///
/// *Errors*: as [`may_write`], or the system refuses.
pub fn write_file(path: &Path, bytes: &[u8], force: bool) -> Result<(), WriteError> {
    may_write(path, force)?;
    let draft = beside(path, "draft");
    let written = fs::write(&draft, bytes).and_then(|()| fs::rename(&draft, path));
    written.map_err(|source| {
        // Best effort, as for a folder's draft.
        let _ = fs::remove_file(&draft);
        refused(path)(source)
    })
}

/// A folder that appears whole or not at all: written under another name beside its own, then renamed.
#[derive(Debug)]
pub struct NewFolder {
    path: PathBuf,
    draft: PathBuf,
    force: bool,
    done: bool,
}

impl NewFolder {
    /// Begins a folder.
    ///
    /// *Errors*: it is there already and not empty, and `force` is not set; it holds anything that a run did not
    /// write; or the system refuses.
    pub fn begin(path: &Path, force: bool) -> Result<Self, WriteError> {
        may_replace(path, force)?;
        let draft = beside(path, "draft");
        if draft.exists() {
            fs::remove_dir_all(&draft).map_err(refused(&draft))?;
        }
        fs::create_dir_all(&draft).map_err(refused(&draft))?;
        Ok(Self {
            path: path.to_owned(),
            draft,
            force,
            done: false,
        })
    }

    /// Writes a file of the folder.
    ///
    /// *Errors*: the system refuses.
    pub fn write(&self, name: &str, bytes: &[u8]) -> Result<(), WriteError> {
        let path = self.draft.join(name);
        let mut file = fs::File::create(&path).map_err(refused(&path))?;
        file.write_all(bytes).map_err(refused(&path))
    }

    /// Puts the folder in its place.
    ///
    /// *Errors*: something has appeared there meanwhile, or the system refuses; what was there stays.
    pub fn finish(mut self) -> Result<(), WriteError> {
        let path = self.path.clone();
        if occupied(&path) {
            may_replace(&path, self.force)?;
            let old = beside(&path, "old");
            if old.exists() {
                fs::remove_dir_all(&old).map_err(refused(&old))?;
            }
            fs::rename(&path, &old).map_err(refused(&path))?;
            if let Err(e) = fs::rename(&self.draft, &path) {
                fs::rename(&old, &path).map_err(refused(&path))?;
                return Err(refused(&path)(e));
            }
            self.done = true;
            return fs::remove_dir_all(&old).map_err(refused(&old));
        }
        fs::rename(&self.draft, &path).map_err(refused(&path))?;
        self.done = true;
        Ok(())
    }
}

impl Drop for NewFolder {
    fn drop(&mut self) {
        if !self.done {
            // Best effort: a draft that stays behind harms nobody.
            let _ = fs::remove_dir_all(&self.draft);
        }
    }
}

/// The files that a folder's own account of itself lists, if it has one.
fn told_files(path: &Path) -> Option<Vec<String>> {
    let text = fs::read(path.join(PROVENANCE)).ok()?;
    let shown: serde_json::Value = serde_json::from_slice(&text).ok()?;
    let files = shown.get("files")?.as_array()?.iter();
    Some(
        files
            .filter_map(|file| Some(file.get("name")?.as_str()?.to_owned()))
            .collect(),
    )
}

/// Refuses to replace what is there, unless it is empty, or `force` is set and a run wrote all of it: findings, the
/// account of what it was made from, plain files that this account lists, and nothing else.
///
/// *Errors*: something is there that is not to be replaced.
pub fn may_replace(path: &Path, force: bool) -> Result<(), WriteError> {
    if !occupied(path) {
        return Ok(());
    }
    if !force {
        return Err(WriteError::Exists(path.to_owned()));
    }
    let shown = told_files(path);
    let written_by_a_run = || -> io::Result<bool> {
        for entry in fs::read_dir(path)? {
            let entry = entry?;
            let name = entry.file_name();
            let ending = Path::new(&name).extension().and_then(|e| e.to_str());
            let ours = ending.is_some_and(|e| ENDINGS.contains(&e));
            let shown = shown.as_ref().is_some_and(|shown| {
                let name = name.to_string_lossy();
                name == PROVENANCE || shown.iter().any(|t| *t == name)
            });
            if !ours || !shown || !entry.file_type()?.is_file() {
                return Ok(false);
            }
        }
        let account = path.join(FINDINGS).is_file() || shown.is_some();
        Ok(account && path.file_name().is_some())
    };
    match written_by_a_run() {
        Ok(true) => Ok(()),
        _ => Err(WriteError::NotOurs(path.to_owned())),
    }
}

/// Whether something is there that a new folder would replace.
fn occupied(path: &Path) -> bool {
    match fs::read_dir(path) {
        Ok(mut entries) => entries.next().is_some(),
        Err(_) => path.exists(),
    }
}

/// A name beside a path: `out` becomes `.out.4711.draft`.
fn beside(path: &Path, word: &str) -> PathBuf {
    let name = path.file_name().map_or_else(
        || "coldsoak".to_owned(),
        |name| name.to_string_lossy().into_owned(),
    );
    // Each run has its own, so that two at once do not spoil each other's.
    let run = std::process::id();
    path.with_file_name(format!(".{name}.{run}.{word}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_folder_appears_whole_or_not_at_all() {
        let room = tempfile::tempdir().unwrap();
        let out = room.path().join("out");
        let begun = NewFolder::begin(&out, false).unwrap();
        begun.write("a.txt", b"half").unwrap();
        drop(begun);
        assert_eq!(fs::read_dir(room.path()).unwrap().count(), 0);

        let begun = NewFolder::begin(&out, false).unwrap();
        begun.write("a.txt", b"whole").unwrap();
        begun.finish().unwrap();
        assert_eq!(fs::read(out.join("a.txt")).unwrap(), b"whole");
    }

    #[test]
    fn a_file_appears_whole_or_not_at_all() {
        let room = tempfile::tempdir().unwrap();
        let path = room.path().join("a.json");
        write_file(&path, b"one", false).unwrap();
        assert!(matches!(
            write_file(&path, b"two", false),
            Err(WriteError::Exists(_))
        ));
        assert_eq!(fs::read(&path).unwrap(), b"one");
        write_file(&path, b"two", true).unwrap();
        assert_eq!(fs::read(&path).unwrap(), b"two");
        // A folder cannot be replaced by a file, and no draft is left beside it.
        let folder = room.path().join("folder");
        fs::create_dir(&folder).unwrap();
        assert!(matches!(
            write_file(&folder, b"x", true),
            Err(WriteError::NoFile(_))
        ));
        // Nor is a folder made that is not there.
        let missing = room.path().join("none").join("a.json");
        assert!(matches!(
            write_file(&missing, b"x", false),
            Err(WriteError::NoFolder { .. })
        ));
        assert_eq!(fs::read_dir(room.path()).unwrap().count(), 2);
    }

    #[test]
    fn another_run_is_not_overwritten_unless_told() {
        let room = tempfile::tempdir().unwrap();
        let out = room.path().join("out");
        fs::create_dir(&out).unwrap();
        fs::write(out.join("kept.txt"), b"kept").unwrap();
        assert!(matches!(
            NewFolder::begin(&out, false),
            Err(WriteError::Exists(_))
        ));
        // Somebody's own things are never replaced, nor is a plain file.
        assert!(matches!(
            NewFolder::begin(&out, true),
            Err(WriteError::NotOurs(_))
        ));
        assert!(matches!(
            NewFolder::begin(&out.join("kept.txt"), true),
            Err(WriteError::NotOurs(_))
        ));
        fs::remove_file(out.join("kept.txt")).unwrap();
        // A folder that does not say what a run wrote in it is somebody's own, whatever the names in it.
        fs::write(out.join(FINDINGS), b"{}").unwrap();
        fs::write(out.join("old.csv"), b"").unwrap();
        assert!(matches!(
            NewFolder::begin(&out, true),
            Err(WriteError::NotOurs(_))
        ));
        let account = |files: &str| format!("{{\"files\": [{files}]}}");
        let both = r#"{"name": "findings.json"}, {"name": "old.csv"}"#;
        fs::write(
            out.join(PROVENANCE),
            account(r#"{"name": "findings.json"}"#),
        )
        .unwrap();
        assert!(matches!(
            NewFolder::begin(&out, true),
            Err(WriteError::NotOurs(_))
        ));
        fs::write(out.join(PROVENANCE), account(both)).unwrap();
        let begun = NewFolder::begin(&out, true).unwrap();
        begun.write(FINDINGS, b"{}").unwrap();
        begun.finish().unwrap();
        assert!(out.join(FINDINGS).exists() && !out.join("old.csv").exists());
        assert_eq!(fs::read_dir(room.path()).unwrap().count(), 1);
    }
}
