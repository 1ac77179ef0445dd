//! Files as people spoil them: each input has beside it the message that it must produce.
//!
//! `tests/bad/inputs/NAME.ron` (or `.csv`) is run as `coldsoak check NAME.ron`, or with the words after `// run:` in
//! its first line. `NAME.txt` holds what must be said. `UPDATE_SNAPSHOTS=1 cargo test --test program bad::` writes them again:
//! read every one before you keep it.

mod generated;
mod mutilated;
mod sound;

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

fn inputs() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/bad/inputs")
}

/// The program in a folder, with these words.
fn run(folder: &Path, words: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_coldsoak"))
        .args(words)
        .current_dir(folder)
        .env_remove("COLUMNS")
        .env_remove("CLICOLOR_FORCE")
        .env("NO_COLOR", "1")
        .stdin(Stdio::null())
        .output()
        .expect("the program runs")
}

/// The names in a folder, sorted.
fn listing(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned())
        .collect();
    names.sort();
    names
}

/// What was said on standard error, after a look at everything else: code 2, nothing on standard output, nothing
/// written, no panic.
fn refusal(folder: &Path, words: &[&str]) -> String {
    let before = listing(folder);
    let ran = run(folder, words);
    let said = String::from_utf8(ran.stderr).expect("UTF-8");
    assert_eq!(ran.status.code(), Some(2), "{words:?}: {said}");
    assert!(ran.stdout.is_empty(), "{words:?}");
    assert_eq!(listing(folder), before, "{words:?} wrote something");
    assert!(!said.contains("panicked"), "{words:?}: {said}");
    let place = folder.display().to_string();
    let lines: Vec<&str> = said.lines().map(str::trim_end).collect();
    lines.join("\n").replace(&place, "FOLDER")
}

/// Holds a message against its snapshot, or writes it.
fn hold(name: &str, said: &str, wrong: &mut Vec<String>) {
    let path = inputs().join(format!("{name}.txt"));
    if std::env::var_os("UPDATE_SNAPSHOTS").is_some() {
        fs::write(&path, said).unwrap();
        return;
    }
    let kept = fs::read_to_string(&path)
        .unwrap_or_default()
        .replace("\r\n", "\n");
    if kept != said {
        wrong.push(format!("--- {name}: kept\n{kept}\n+++ said\n{said}"));
    }
}

#[test]
fn every_bad_file_says_what_is_wrong_with_it() {
    let mut wrong = Vec::new();
    let mut count = 0;
    for name in listing(&inputs()) {
        let Some((stem, "ron" | "csv")) = name.rsplit_once('.') else {
            continue;
        };
        if stem.starts_with("with-") {
            continue;
        }
        count += 1;
        let folder = tempfile::tempdir().unwrap();
        // Files that others name are called `with-...`.
        for other in listing(&inputs()) {
            if other.starts_with("with-") || other == name {
                fs::copy(inputs().join(&other), folder.path().join(&other)).unwrap();
            }
        }
        let bytes = fs::read(inputs().join(&name)).unwrap();
        let text = String::from_utf8_lossy(&bytes);
        let first = text.lines().next().unwrap_or("");
        let words = first
            .split_once("run: ")
            .map_or("check", |(_, words)| words);
        let mut words: Vec<&str> = words.split_whitespace().collect();
        words.push(&name);
        hold(stem, &refusal(folder.path(), &words), &mut wrong);
    }
    assert!(count >= 80, "{count} inputs were found");
    assert!(wrong.is_empty(), "{}", wrong.join("\n\n"));
}
