//! The program as a user meets it: each test runs the built command in a folder of its own.

mod chart;
mod desk;
mod endings;
mod folder;
mod machine;
mod network;
mod pictures;
mod ranges;
mod study;
mod when;
mod words;

use std::path::Path;
use std::process::{Command, Output, Stdio};
use tempfile::TempDir;

/// The program in a folder of its own.
struct TempProject {
    folder: TempDir,
}

impl TempProject {
    fn new() -> Self {
        Self {
            folder: tempfile::tempdir().expect("a folder for the test"),
        }
    }
    fn path(&self) -> &Path {
        self.folder.path()
    }
    fn command(&self, words: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_coldsoak"));
        command
            .args(words)
            .current_dir(self.path())
            .env_remove("COLUMNS")
            .env_remove("NO_COLOR")
            .env_remove("CLICOLOR_FORCE")
            .stdin(Stdio::null());
        command
    }
    /// Runs it with these words.
    fn run(&self, words: &[&str]) -> Ran {
        Ran::of(&self.command(words).output().expect("the program runs"))
    }
    /// The names of the files in a folder of the desk, sorted.
    fn files(&self, folder: &str) -> Vec<String> {
        let Ok(entries) = std::fs::read_dir(self.path().join(folder)) else {
            return Vec::new();
        };
        let name = |e: std::io::Result<std::fs::DirEntry>| e.unwrap().file_name();
        let mut names: Vec<String> = entries
            .map(|e| name(e).to_string_lossy().into_owned())
            .collect();
        names.sort();
        names
    }
}

/// What a run left.
struct Ran {
    code: i32,
    out: String,
    err: String,
}

impl Ran {
    fn of(output: &Output) -> Self {
        let text = |bytes: &[u8]| String::from_utf8(bytes.to_vec()).expect("UTF-8");
        Self {
            code: output.status.code().expect("an exit code"),
            out: text(&output.stdout),
            err: text(&output.stderr),
        }
    }
    /// Its standard output, after a look at its exit code.
    fn done(self) -> String {
        assert_eq!(self.code, 0, "{}", self.err);
        self.out
    }
}
