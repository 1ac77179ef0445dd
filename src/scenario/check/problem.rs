//! What is wrong with a scenario, and the list in which all of it is collected.

use super::unit::{key, unit_of};

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

/// The name most like this one, if any is like enough: at most a third of its letters differ.
///
/// Likeness is the number of letters to insert, delete, replace or exchange with their neighbour (the restricted
/// distance of Damerau 1964), case not counted.
pub fn nearest<'a>(name: &str, among: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let name: Vec<char> = name.to_lowercase().chars().collect();
    let allowed = (name.len() / 3).max(1);
    among
        .into_iter()
        .map(|candidate| {
            let letters: Vec<char> = candidate.to_lowercase().chars().collect();
            (edits(&name, &letters), candidate)
        })
        .filter(|(edits, _)| *edits <= allowed)
        .min_by_key(|(edits, _)| *edits)
        .map(|(_, candidate)| candidate)
}

fn edits(a: &[char], b: &[char]) -> usize {
    let mut before = Vec::new();
    let mut above: Vec<usize> = (0..=b.len()).collect();
    for (i, x) in a.iter().enumerate() {
        let mut row = vec![i + 1];
        for (j, y) in b.iter().enumerate() {
            let replaced = above[j] + usize::from(x != y);
            let mut fewest = replaced.min(row[j] + 1).min(above[j + 1] + 1);
            if i > 0 && j > 0 && *x == b[j - 1] && a[i - 1] == *y {
                let exchanged: &Vec<usize> = &before;
                fewest = fewest.min(exchanged[j - 1] + 1);
            }
            row.push(fewest);
        }
        before = std::mem::replace(&mut above, row);
    }
    above[b.len()]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_nearest_name_is_found_and_a_far_one_is_not() {
        let names = ["sump", "sump_side", "carb"];
        assert_eq!(nearest("smup", names), Some("sump"));
        assert_eq!(nearest("pusm", names), None);
        assert_eq!(nearest("sumo", names), Some("sump"));
        assert_eq!(nearest("SUMP_SIDE", names), Some("sump_side"));
        assert_eq!(nearest("propeller", names), None);
        // "kitten" to "sitting" takes three, the textbook example.
        let letters = |s: &str| s.chars().collect::<Vec<_>>();
        assert_eq!(edits(&letters("kitten"), &letters("sitting")), 3);
    }
}
