//! What is wrong with a scenario, and the list in which all of it is collected.

use crate::document::Found;

/// Something wrong with a scenario.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{path}: {what}")]
pub struct Problem {
    /// Where it stands, as a path of keys: `heaters[0].thermostat.on_at`.
    pub path: String,
    /// The word to underline in the file, if one names the culprit.
    pub word: Option<String>,
    /// What is wrong, in one sentence.
    pub what: String,
    /// What would correct it.
    pub help: Option<String>,
    /// What to write in the place of the word, or of the value if there is none.
    pub instead: Option<String>,
}

impl Problem {
    /// The word to underline.
    pub(super) fn word(&mut self, word: &str) -> &mut Self {
        self.word = Some(word.to_owned());
        self
    }
    /// What to write in the place of the word.
    pub(super) fn instead(&mut self, write: impl Into<String>) -> &mut Self {
        self.instead = Some(write.into());
        self
    }
    /// What would correct it.
    pub(super) fn help(&mut self, help: impl Into<String>) -> &mut Self {
        self.help = Some(help.into());
        self
    }
}

/// All that has been found so far.
#[derive(Debug, Default)]
pub(super) struct Problems(Vec<Problem>);

impl Problems {
    /// Adds a problem; its word and help can be added to what is returned.
    pub fn tell(&mut self, path: impl Into<String>, what: impl Into<String>) -> &mut Problem {
        self.0.push(Problem {
            path: path.into(),
            word: None,
            what: what.into(),
            help: None,
            instead: None,
        });
        let last = self.0.len() - 1;
        &mut self.0[last]
    }

    /// Adds a number that is refused by the limits of its key.
    pub fn add(&mut self, found: Found) {
        self.0.push(Problem {
            path: found.path,
            word: None,
            what: found.message,
            help: found.suggestion,
            instead: found.instead,
        });
    }

    /// Whether none is about what stands below a path.
    pub fn none_under(&self, path: &str) -> bool {
        !self.0.iter().any(|problem| problem.path.starts_with(path))
    }

    /// How many there are.
    pub fn count(&self) -> usize {
        self.0.len()
    }

    /// All of them, in the order in which they were found.
    pub fn into_all(self) -> Vec<Problem> {
        self.0
    }
}
