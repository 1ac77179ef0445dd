//! Where a result comes from: the version, the command line as it was typed, and the hash of every file that went in.
//! No clock times and no machine's paths but those that were typed, so the same run says the same.

use serde::Serialize;
use serde_json::{Value, json};

/// The program's version, in every output.
const VERSION: &str = env!("CARGO_PKG_VERSION");
/// Digits of a hash in a line of text.
const SHORT: usize = 12;

/// A file that went into the nights.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct InputJson {
    /// Its name.
    pub name: String,
    /// The SHA-256 of its text.
    pub sha256: String,
}

/// Where a result comes from.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Provenance {
    /// The program's version.
    pub version: &'static str,
    /// What was typed after the program's name; empty for a result made by code.
    pub command: Vec<String>,
    /// Every file that went in.
    pub inputs: Vec<InputJson>,
    /// Notes on them: what was skipped, corrected or assumed.
    #[serde(skip)]
    pub notes: Vec<String>,
    /// Their numbers that are hardly plausible.
    #[serde(skip)]
    pub hard_to_believe: Vec<String>,
}

impl Provenance {
    /// That of a result of this version.
    pub fn new(command: Vec<String>, inputs: Vec<InputJson>) -> Self {
        Self {
            version: VERSION,
            command,
            inputs,
            notes: Vec::new(),
            hard_to_believe: Vec::new(),
        }
    }

    /// The same, with notes and warnings about the inputs.
    pub fn noted(self, notes: Vec<String>, hard_to_believe: Vec<String>) -> Self {
        Self {
            notes,
            hard_to_believe,
            ..self
        }
    }

    /// What the JSON of a result begins with, after the version.
    pub fn members(&self) -> [(&'static str, Value); 4] {
        [
            ("command", json!(self.command)),
            ("inputs", json!(self.inputs)),
            ("input_notes", json!(self.notes)),
            ("plausibility_warnings", json!(self.hard_to_believe)),
        ]
    }

    /// As the last line of a text; empty for a result made by code.
    pub fn line(&self) -> String {
        if self.command.is_empty() {
            return String::new();
        }
        let short =
            |i: &InputJson| format!("{} {}", i.name, &i.sha256[..SHORT.min(i.sha256.len())]);
        let inputs: Vec<String> = self.inputs.iter().map(short).collect();
        format!(
            "Made by coldsoak {} as `{}` from {} (first digits of each SHA-256).",
            self.version,
            self.typed(),
            inputs.join(", ")
        )
    }

    /// As pictures carry it: the version, the command, and each input with its hash, in a line each.
    pub fn in_lines(&self) -> String {
        let mut lines = format!("coldsoak {}\n{}\n", self.version, self.typed());
        for input in &self.inputs {
            lines += &format!("{} {}\n", input.sha256, input.name);
        }
        lines
    }

    /// The command as one line that a shell would read the same way.
    pub fn typed(&self) -> String {
        let mut line = "coldsoak".to_owned();
        for word in &self.command {
            let plain = !word.is_empty()
                && word
                    .chars()
                    .all(|c| c.is_alphanumeric() || "-_./=:,+@%".contains(c));
            line.push(' ');
            if plain {
                line += word;
            } else {
                line += &format!("'{}'", word.replace('\'', "'\\''"));
            }
        }
        line
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn some() -> Provenance {
        let input = InputJson {
            name: "my <night>.ron".to_owned(),
            sha256: "0123456789abcdef".to_owned(),
        };
        let typed = ["night", "my <night>.ron", "it's"].map(str::to_owned);
        Provenance::new(typed.to_vec(), vec![input])
    }

    #[test]
    fn words_with_blanks_are_quoted_as_a_shell_reads_them() {
        let line = some().line();
        assert!(
            line.contains(r"`coldsoak night 'my <night>.ron' 'it'\''s'`"),
            "{line}"
        );
        assert!(line.contains("0123456789ab (first"), "{line}");
    }
}
