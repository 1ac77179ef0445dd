//! Weather files as a user has them, through the command: tables of every spelling, reports, and what is said of bad ones.

mod nights;
mod refused;
mod reports;
mod tables;

use serde_json::Value;
use std::path::Path;
use std::process::{Command, Stdio};
use tempfile::TempDir;

/// The program in a folder of its own.
struct TempProject {
    folder: TempDir,
}

/// What a run left.
struct Ran {
    code: i32,
    out: String,
    err: String,
}

impl TempProject {
    /// A folder with these files.
    fn with(files: &[(&str, &str)]) -> Self {
        let folder = tempfile::tempdir().expect("a folder for the test");
        for (name, text) in files {
            std::fs::write(folder.path().join(name), text).unwrap();
        }
        Self { folder }
    }
    fn path(&self) -> &Path {
        self.folder.path()
    }
    fn run(&self, words: &[&str]) -> Ran {
        let output = Command::new(env!("CARGO_BIN_EXE_coldsoak"))
            .args(words)
            .current_dir(self.path())
            .env_remove("COLUMNS")
            .stdin(Stdio::null())
            .output()
            .expect("the program runs");
        let text = |bytes: Vec<u8>| String::from_utf8(bytes).expect("UTF-8");
        Ran {
            code: output.status.code().expect("an exit code"),
            out: text(output.stdout),
            err: text(output.stderr),
        }
    }
    /// The weather of a file as JSON.
    #[track_caller]
    fn weather(&self, words: &[&str]) -> Value {
        let ran = self.run(&[&["weather", "--json"], words].concat());
        assert_eq!(ran.code, 0, "{}", ran.err);
        serde_json::from_str(&ran.out).unwrap()
    }
}

/// The weather of one file's text.
#[track_caller]
fn weather(text: &str, words: &[&str]) -> Value {
    TempProject::with(&[("own.csv", text)]).weather(&[&["own.csv"], words].concat())
}

/// What is said of a file that is refused.
#[track_caller]
fn refused(text: &str, words: &[&str]) -> String {
    let desk = TempProject::with(&[("own.csv", text)]);
    let ran = desk.run(&[&["weather", "own.csv"], words].concat());
    assert_eq!((ran.code, ran.out.as_str()), (2, ""), "{}", ran.err);
    ran.err
}

/// Time, temperature, dew point and wind of each reading.
fn readings(shown: &Value) -> Vec<(String, f64, f64, f64)> {
    let number = |r: &Value, key: &str| r[key].as_f64().unwrap();
    shown["readings"]
        .as_array()
        .unwrap()
        .iter()
        .map(|r| {
            let time = r["time_utc"].as_str().unwrap().to_owned();
            (
                time,
                number(r, "temp_c"),
                number(r, "dew_point_c"),
                number(r, "wind_m_s"),
            )
        })
        .collect()
}

/// The notes of a kind.
fn notes(shown: &Value, kind: &str) -> Vec<String> {
    let notes = shown["input_notes"].as_array().unwrap().iter();
    notes
        .filter(|note| note["kind"] == kind)
        .map(|note| note["message"].as_str().unwrap().to_owned())
        .collect()
}
