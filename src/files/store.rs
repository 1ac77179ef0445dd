//! A study on disk: an SQLite file in which every computed night stands as soon as it is done.
//!
//! Nights are added some at a time, all of them or none, so a program that is killed leaves a sound file behind and
//! the next run goes on from there.

use rusqlite::{Connection, ErrorCode, OptionalExtension, params};
use std::path::{Path, PathBuf};
use std::time::Duration;

/// The form of the file; it changes when an older file could no longer be read.
const FORM: i32 = 2;
/// What marks an SQLite file as one of ours: "Csok" in letters.
const OURS: i32 = 0x4373_6f6b;
/// How long another run that writes to the same file is waited for.
const PATIENCE: Duration = Duration::from_secs(2);

/// What a study is of: nights of different studies do not go together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Identity {
    /// The version of the program, since another may compute another night.
    pub program: String,
    /// The title of the scenario, for messages.
    pub title: String,
    /// The SHA-256 of the scenario.
    pub scenario: String,
    /// The seed.
    pub seed: u32,
}

/// A study file that is open.
#[derive(Debug)]
pub struct Store {
    path: PathBuf,
    connection: Connection,
}

/// A row of a study: what the night was for, its number, what became of it.
pub type Row = (String, u32, String);

/// Why a study file was not opened, read or written.
#[derive(Debug, thiserror::Error)]
pub enum StoreError {
    /// Something else is there.
    #[error("{} is not a study file of coldsoak; name another with --study", .0.display())]
    NotAStudy(PathBuf),
    /// It was written by another version.
    #[error("{} was written by {wrote} and this is {reads}; finish it with that version, or begin a new file with --study", path.display())]
    OtherVersion {
        /// The file.
        path: PathBuf,
        /// Which version wrote it.
        wrote: String,
        /// Which version this is.
        reads: String,
    },
    /// It is a study of another scenario.
    #[error("{} holds nights of another scenario, \"{title}\", or of an earlier text of this one; begin a new file with --study", path.display())]
    OtherScenario {
        /// The file.
        path: PathBuf,
        /// The title of its scenario.
        title: String,
    },
    /// It was begun with another seed.
    #[error("{} was begun with seed {seed}; go on with --seed {seed}, or begin a new file with --study", path.display())]
    OtherSeed {
        /// The file.
        path: PathBuf,
        /// Its seed.
        seed: String,
    },
    /// The system or the database refused.
    #[error("the study {} could not be {doing}: {}", path.display(), reason(source))]
    Refused {
        /// The file.
        path: PathBuf,
        /// What was being done.
        doing: &'static str,
        /// What the database said.
        source: rusqlite::Error,
    },
}

impl StoreError {
    /// Whether another file or other flags would put it right, rather than the machine.
    pub fn is_users(&self) -> bool {
        !matches!(self, Self::Refused { .. })
    }
}

/// A refusal in plain words.
fn reason(e: &rusqlite::Error) -> String {
    match e.sqlite_error_code() {
        Some(ErrorCode::DiskFull) => "the disk is full".to_owned(),
        Some(ErrorCode::ReadOnly) => "it may not be written to".to_owned(),
        Some(ErrorCode::CannotOpen) => {
            "it cannot be opened (is the folder there, and may you write to it?)".to_owned()
        }
        Some(ErrorCode::DatabaseBusy | ErrorCode::DatabaseLocked) => {
            "another run is writing to it".to_owned()
        }
        _ => e.to_string(),
    }
}

impl Store {
    /// Opens a study, or begins one where there is no file.
    ///
    /// *Errors*: the file is not a study, is one of another version, scenario or seed, or cannot be read or written.
    pub fn open(path: &Path, identity: &Identity) -> Result<Self, StoreError> {
        let refused = |doing| {
            move |source: rusqlite::Error| match source.sqlite_error_code() {
                Some(ErrorCode::NotADatabase) => StoreError::NotAStudy(path.to_owned()),
                _ => StoreError::Refused {
                    path: path.to_owned(),
                    doing,
                    source,
                },
            }
        };
        if path.is_dir() {
            return Err(StoreError::NotAStudy(path.to_owned()));
        }
        let connection = Connection::open(path).map_err(refused("opened"))?;
        connection
            .busy_timeout(PATIENCE)
            .map_err(refused("opened"))?;
        let number = |pragma: &str| -> rusqlite::Result<i32> {
            connection.pragma_query_value(None, pragma, |row| row.get(0))
        };
        let tables: i64 = connection
            .query_row("SELECT count(*) FROM sqlite_schema", [], |row| row.get(0))
            .map_err(refused("read"))?;
        let (mark, form) = (
            number("application_id").map_err(refused("read"))?,
            number("user_version").map_err(refused("read"))?,
        );
        if tables == 0 && mark == 0 {
            begin(&connection, identity).map_err(refused("begun"))?;
        } else if mark != OURS {
            return Err(StoreError::NotAStudy(path.to_owned()));
        } else if form != FORM {
            return Err(StoreError::OtherVersion {
                path: path.to_owned(),
                wrote: format!("a version with form {form} of study files"),
                reads: format!("one with form {FORM}"),
            });
        }
        let store = Self {
            path: path.to_owned(),
            connection,
        };
        store.is_of(identity)?;
        Ok(store)
    }

    fn is_of(&self, identity: &Identity) -> Result<(), StoreError> {
        let path = || self.path.clone();
        let program = self.noted("program")?;
        if program != identity.program {
            return Err(StoreError::OtherVersion {
                path: path(),
                wrote: format!("coldsoak {program}"),
                reads: format!("coldsoak {}", identity.program),
            });
        }
        if self.noted("scenario")? != identity.scenario {
            return Err(StoreError::OtherScenario {
                path: path(),
                title: self.noted("title")?,
            });
        }
        let seed = self.noted("seed")?;
        if seed != identity.seed.to_string() {
            return Err(StoreError::OtherSeed { path: path(), seed });
        }
        Ok(())
    }

    fn noted(&self, key: &str) -> Result<String, StoreError> {
        let found = self
            .connection
            .query_row("SELECT value FROM study WHERE key = ?1", [key], |row| {
                row.get(0)
            })
            .optional();
        found
            .map(Option::unwrap_or_default)
            .map_err(self.refused("read"))
    }

    fn refused(&self, doing: &'static str) -> impl Fn(rusqlite::Error) -> StoreError + '_ {
        move |source| StoreError::Refused {
            path: self.path.clone(),
            doing,
            source,
        }
    }

    /// All nights in the file.
    ///
    /// *Errors*: it cannot be read.
    pub fn rows(&self) -> Result<Vec<Row>, StoreError> {
        let read = || -> rusqlite::Result<Vec<Row>> {
            let mut all = self
                .connection
                .prepare("SELECT purpose, number, outcome FROM night ORDER BY purpose, number")?;
            let rows = all.query_map([], |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?)))?;
            rows.collect()
        };
        read().map_err(self.refused("read"))
    }

    /// Adds nights, all of them or none.
    ///
    /// *Errors*: the file cannot be written; what stood in it before stays.
    pub fn keep(&mut self, rows: &[Row]) -> Result<(), StoreError> {
        let path = self.path.clone();
        let mut write = || -> rusqlite::Result<()> {
            let change = self.connection.transaction()?;
            {
                let mut add = change.prepare_cached(
                    "INSERT OR REPLACE INTO night (purpose, number, outcome) VALUES (?1, ?2, ?3)",
                )?;
                for (purpose, number, outcome) in rows {
                    add.execute(params![purpose, number, outcome])?;
                }
            }
            change.commit()
        };
        write().map_err(|source| StoreError::Refused {
            path,
            doing: "written",
            source,
        })
    }
}

/// The tables of a new file and what it is of, in one change.
fn begin(connection: &Connection, identity: &Identity) -> rusqlite::Result<()> {
    let change = connection.unchecked_transaction()?;
    change.execute_batch(&format!(
        "PRAGMA application_id = {OURS};
         PRAGMA user_version = {FORM};
         CREATE TABLE study (key TEXT PRIMARY KEY, value TEXT NOT NULL) WITHOUT ROWID;
         CREATE TABLE night (purpose TEXT, number INTEGER, outcome TEXT NOT NULL,
             PRIMARY KEY (purpose, number)) WITHOUT ROWID;"
    ))?;
    for (key, value) in [
        ("program", identity.program.as_str()),
        ("title", &identity.title),
        ("scenario", &identity.scenario),
        ("seed", &identity.seed.to_string()),
    ] {
        change.execute("INSERT INTO study VALUES (?1, ?2)", [key, value])?;
    }
    change.commit()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn identity() -> Identity {
        Identity {
            program: "0.1.0".to_owned(),
            title: "a night".to_owned(),
            scenario: "abc".to_owned(),
            seed: 1,
        }
    }

    fn row(number: u32) -> Row {
        (
            "plausible".to_owned(),
            number,
            format!("{{\"n\":{number}}}"),
        )
    }

    #[test]
    fn what_was_kept_is_there_after_opening_again_and_a_change_is_whole_or_not_at_all() {
        let room = tempfile::tempdir().unwrap();
        let path = room.path().join("a.db");
        let mut store = Store::open(&path, &identity()).unwrap();
        store.keep(&[row(2), row(0)]).unwrap();
        drop(store);
        let store = Store::open(&path, &identity()).unwrap();
        assert_eq!(store.rows().unwrap(), [row(0), row(2)]);
        // A change that is not committed, as when the program is killed, leaves no trace.
        {
            let half = store.connection.unchecked_transaction().unwrap();
            half.execute("INSERT INTO night VALUES ('plausible', 9, '{}')", [])
                .unwrap();
        }
        assert_eq!(store.rows().unwrap().len(), 2);
    }

    #[test]
    fn a_file_of_another_study_is_refused_with_what_to_do() {
        let room = tempfile::tempdir().unwrap();
        let path = room.path().join("a.db");
        drop(Store::open(&path, &identity()).unwrap());
        let shown = |identity: Identity| Store::open(&path, &identity).unwrap_err().to_string();
        let other = shown(Identity {
            scenario: "xyz".to_owned(),
            ..identity()
        });
        assert!(other.contains("another scenario, \"a night\""), "{other}");
        let other = shown(Identity {
            seed: 7,
            ..identity()
        });
        assert!(other.contains("go on with --seed 1"), "{other}");
        let other = shown(Identity {
            program: "9.0.0".to_owned(),
            ..identity()
        });
        assert!(other.contains("written by coldsoak 0.1.0"), "{other}");
        let newer = Connection::open(&path).unwrap();
        newer.pragma_update(None, "user_version", 99).unwrap();
        drop(newer);
        let other = shown(identity());
        assert!(other.contains("form 99"), "{other}");
    }

    #[test]
    fn what_is_no_study_is_left_alone() {
        let room = tempfile::tempdir().unwrap();
        let text = room.path().join("a.txt");
        let words = "a letter, and long enough to hold a header of a hundred bytes: ".repeat(4);
        std::fs::write(&text, &words).unwrap();
        let refused = Store::open(&text, &identity()).unwrap_err();
        assert!(matches!(refused, StoreError::NotAStudy(_)), "{refused}");
        assert_eq!(std::fs::read_to_string(&text).unwrap(), words);
        // Somebody else's database.
        let other = room.path().join("other.db");
        let theirs = Connection::open(&other).unwrap();
        theirs.execute_batch("CREATE TABLE t (x)").unwrap();
        drop(theirs);
        let refused = Store::open(&other, &identity()).unwrap_err();
        assert!(matches!(refused, StoreError::NotAStudy(_)), "{refused}");
        let missing = Store::open(&room.path().join("no/such.db"), &identity()).unwrap_err();
        assert!(
            missing.to_string().contains("is the folder there"),
            "{missing}"
        );
        assert!(!missing.is_users());
    }

    /// A file that may not grow any more stands for a full disk.
    #[test]
    fn a_full_disk_is_told_and_what_was_there_stays() {
        let room = tempfile::tempdir().unwrap();
        let path = room.path().join("a.db");
        let mut store = Store::open(&path, &identity()).unwrap();
        store.keep(&[row(0)]).unwrap();
        let pages: i64 = store
            .connection
            .pragma_query_value(None, "page_count", |row| row.get(0))
            .unwrap();
        store
            .connection
            .pragma_update(None, "max_page_count", pages)
            .unwrap();
        let large = ("plausible".to_owned(), 1, "x".repeat(100_000));
        let refused = store.keep(&[row(2), large]).unwrap_err().to_string();
        assert!(refused.contains("the disk is full"), "{refused}");
        assert_eq!(store.rows().unwrap(), [row(0)]);
    }
}
