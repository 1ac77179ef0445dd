//! A number that is hard to believe, and the list of them.

/// A number that is hard to believe.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PlausibilityWarning {
    /// Where it stands, as a path of keys.
    pub path: String,
    /// What is hard to believe.
    pub what: String,
    /// The usual range and where it is from.
    pub usual: String,
}

/// A usual range: the lowest, the highest, their unit, and where they are from.
pub(super) struct Usual(pub f64, pub f64, pub &'static str, pub &'static str);

#[derive(Default)]
pub(super) struct PlausibilityWarnings(Vec<PlausibilityWarning>);

impl PlausibilityWarnings {
    /// PlausibilityWarnings a number outside its usual range; `called` says what it is.
    pub fn outside(&mut self, path: impl Into<String>, called: &str, number: f64, usual: &Usual) {
        let Usual(low, high, unit, source) = usual;
        if !(*low..=*high).contains(&number) {
            let unit = if unit.is_empty() {
                String::new()
            } else {
                format!(" {unit}")
            };
            self.0.push(PlausibilityWarning {
                path: path.into(),
                what: format!("{called} is {}{unit}", short(number)),
                usual: format!("{low} to {high}{unit} ({source})"),
            });
        }
    }
    /// PlausibilityWarnings something that is no single number.
    pub fn odd(&mut self, path: impl Into<String>, what: impl Into<String>, usual: &str) {
        self.0.push(PlausibilityWarning {
            path: path.into(),
            what: what.into(),
            usual: usual.to_owned(),
        });
    }
    pub fn into_all(self) -> Vec<PlausibilityWarning> {
        self.0
    }
}

/// Four digits are enough to recognise a number.
fn short(number: f64) -> f64 {
    format!("{number:.3e}").parse().unwrap_or(number)
}
