//! What is wrong with a scenario, and the list in which all of it is collected.

use super::unit::{key, unit_of};
use crate::document::Found;

/// Something wrong with a scenario.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{path}: {what}")]
pub struct Problem {
    /// Where it stands, as a path of keys: `heaters[0].thermostat.lo`.
    pub path: String,
    /// The word to underline in the file, if one names the culprit.
    pub word: Option<String>,
    /// What is wrong, in one sentence.
    pub what: String,
    /// What would mend it.
    pub help: Option<String>,
}

impl Problem {
    /// The word to underline.
    pub(super) fn word(&mut self, word: &str) -> &mut Self {
        self.word = Some(word.to_owned());
        self
    }
    /// What would mend it.
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
        });
    }

    /// A number that must be above zero; whether it is.
    pub fn positive(&mut self, path: impl Into<String>, number: f64) -> bool {
        let good = number > 0.0 && number.is_finite();
        if !good {
            let path = path.into();
            let (key, unit) = (key(&path), unit_of(&path));
            let what = format!("`{key}` must be above zero, it is {}{unit}", short(number));
            self.tell(path, what);
        }
        good
    }

    /// A number that may be zero but not less.
    pub fn not_negative(&mut self, path: impl Into<String>, number: f64) {
        if !(number >= 0.0 && number.is_finite()) {
            let path = path.into();
            let (key, unit) = (key(&path), unit_of(&path));
            let what = format!(
                "`{key}` must not be negative, it is {}{unit}",
                short(number)
            );
            self.tell(path, what);
        }
    }

    /// A number that must lie between two others, both allowed; `unit` is told behind them.
    pub fn within(
        &mut self,
        path: impl Into<String>,
        number: f64,
        low: f64,
        high: f64,
        unit: &str,
    ) -> bool {
        let good = number >= low && number <= high;
        if !good {
            let path = path.into();
            let unit = if unit.is_empty() {
                String::new()
            } else {
                format!(" {unit}")
            };
            let what = format!(
                "`{}` must lie between {low} and {high}{unit}, it is {}{unit}",
                key(&path),
                short(number),
            );
            let share = low == 0.0 && high == 1.0 && (2.0..=100.0).contains(&number);
            let problem = self.tell(path, what);
            if share {
                let part = short(number / 100.0);
                problem.help(format!("it is a share: {number} percent is {part}"));
            }
        }
        good
    }

    /// A share above zero and at most one, such as an emissivity.
    pub fn share_above_zero(&mut self, path: impl Into<String>, number: f64) {
        if !(number > 0.0 && number <= 1.0) {
            let path = path.into();
            let what = format!(
                "`{}` must be above 0 and at most 1, it is {number}",
                key(&path)
            );
            self.tell(path, what);
        }
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

/// A number as people write it: no more than six digits behind the point.
fn short(number: f64) -> f64 {
    let rounded = (number * 1e6).round() / 1e6;
    if rounded == 0.0 || !rounded.is_finite() {
        number
    } else {
        rounded
    }
}
