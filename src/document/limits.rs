//! What a number of an input may be, and what it usually is: declared at its key, held everywhere.

use super::path::under;

/// A key of an input: its name, its line of the reference, and what its numbers may be.
#[derive(Debug)]
pub struct Key {
    /// Its name.
    pub name: &'static str,
    /// What it is.
    pub doc: &'static str,
    /// Its type.
    pub of: &'static str,
    /// What stands there, with an example.
    pub wanted: &'static str,
    /// An example of its value.
    pub example: &'static str,
    /// Its default as it is written in Rust; none if it must be given.
    pub default: Option<&'static str>,
    /// What its numbers may be.
    pub rule: Rule,
}

/// What the numbers at a key may be, and what they usually are; temperatures in °C, the rest in SI, unless
/// another unit is given.
#[derive(Debug, Clone, Copy)]
pub struct Rule {
    /// What they may be.
    pub limits: Limits,
    /// What they usually are, and why.
    pub usual: Option<(f64, f64, &'static str)>,
    /// The unit of both, and what it is in the unit the number is kept in, if that is another.
    pub unit: Option<(&'static str, f64)>,
    /// An example of the value, if not that of its type.
    pub example: Option<&'static str>,
    /// How far a number may be off that was set, and so counts as measured.
    pub if_set: Option<IfSet>,
}

/// How far a number may be off that was set.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum IfSet {
    /// By so much.
    Within(f64),
    /// By this share of itself.
    Share(f64),
}

/// The numbers between two others.
#[derive(Debug, Clone, Copy)]
pub struct Limits {
    low: f64,
    high: f64,
    /// Whether the lowest is itself excluded.
    above: bool,
}

impl Rule {
    /// Any finite number.
    pub const ANY: Self = Self {
        limits: Limits {
            low: f64::NEG_INFINITY,
            high: f64::INFINITY,
            above: false,
        },
        usual: None,
        unit: None,
        example: None,
        if_set: None,
    };
    const fn within(mut self, low: f64, high: f64, above: bool) -> Self {
        self.limits = Limits { low, high, above };
        self
    }
    /// From one number to another, both allowed.
    pub const fn limits(self, low: f64, high: f64) -> Self {
        self.within(low, high, false)
    }
    /// Above a number, and at most another.
    pub const fn above_to(self, low: f64, high: f64) -> Self {
        self.within(low, high, true)
    }
    /// Above zero.
    pub const fn above_zero(self) -> Self {
        self.within(0.0, f64::INFINITY, true)
    }
    /// Zero or above.
    pub const fn not_negative(self) -> Self {
        self.within(0.0, f64::INFINITY, false)
    }
    /// From 0 to 1.
    pub const fn fraction(self) -> Self {
        self.within(0.0, 1.0, false)
    }
    /// What is usual, and why: outside there is a warning.
    pub const fn usual(mut self, low: f64, high: f64, reason: &'static str) -> Self {
        self.usual = Some((low, high, reason));
        self
    }
    /// The unit in which limits and usual range are given, and what it is in the unit the number is kept in.
    pub const fn unit(mut self, unit: &'static str, factor: f64) -> Self {
        self.unit = Some((unit, factor));
        self
    }
    /// How far a number may be off that was set: by so much.
    pub const fn set_within(mut self, by: f64) -> Self {
        self.if_set = Some(IfSet::Within(by));
        self
    }
    /// How far a number may be off that was set: by this share of itself.
    pub const fn set_share(mut self, share: f64) -> Self {
        self.if_set = Some(IfSet::Share(share));
        self
    }
    /// How a value is written.
    pub const fn example(mut self, example: &'static str) -> Self {
        self.example = Some(example);
        self
    }
    /// The example given here, or else that of the type.
    pub const fn example_or(&self, of_type: &'static str) -> &'static str {
        match self.example {
            Some(example) => example,
            None => of_type,
        }
    }
    /// Whether there is anything to hold.
    pub fn holds_something(&self) -> bool {
        self.limits.low > f64::NEG_INFINITY || self.limits.high < f64::INFINITY
    }
}

impl Limits {
    /// The lowest, the highest, and whether the lowest is itself excluded.
    pub fn ends(&self) -> (f64, f64, bool) {
        (self.low, self.high, self.above)
    }
    /// Whether a number lies within.
    pub fn contain(&self, number: f64) -> bool {
        number.is_finite()
            && number <= self.high
            && (number > self.low || number == self.low && !self.above)
    }
    /// What is demanded of a number.
    fn demand(&self, unit: &str) -> String {
        let (low, high) = (self.low, self.high);
        let unit = after(unit);
        match (low.is_finite(), high.is_finite(), self.above) {
            (false, false, _) => "must be finite".to_owned(),
            (true, false, true) if low == 0.0 => "must be above zero".to_owned(),
            (true, false, false) if low == 0.0 => "must not be negative".to_owned(),
            (true, false, true) => format!("must be above {low}{unit}"),
            (true, false, false) => format!("must be at least {low}{unit}"),
            (false, true, _) => format!("must be at most {high}{unit}"),
            (true, true, true) => format!("must be above {low} and at most {high}{unit}"),
            (true, true, false) => format!("must be from {low} to {high}{unit}"),
        }
    }
}

/// A unit as it stands after a number.
fn after(unit: &str) -> String {
    match unit {
        "" => String::new(),
        unit => format!(" {unit}"),
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

/// A number that is refused, or hard to believe.
#[derive(Debug, Clone, PartialEq)]
pub struct Found {
    /// Where it stands.
    pub path: String,
    /// What is wrong with it, or what it is.
    pub message: String,
    /// The value to write instead.
    pub instead: Option<String>,
    /// What is usual.
    pub suggestion: Option<String>,
    /// Whether it is only hard to believe.
    pub warning: bool,
}

/// A walk over all numbers of a value, each held to the rule of its key.
#[derive(Debug, Default)]
pub struct RuleCheck {
    path: String,
    /// The last key, with the name of its entry if it holds a map.
    called: String,
    rule: Option<&'static Rule>,
    found: Vec<Found>,
    /// The path of a number whose rule is looked for, and the rule.
    sought: Option<(String, Option<&'static Rule>)>,
}

impl RuleCheck {
    /// The rule of the number at a path of what is walked; none if no number is there.
    pub fn rule_at(path: &str, walked: impl FnOnce(&mut Self)) -> Option<&'static Rule> {
        let mut walk = Self {
            sought: Some((path.to_owned(), None)),
            ..Self::default()
        };
        walked(&mut walk);
        walk.sought?.1
    }
    /// A walk from a path on, holding the numbers it meets first to a rule.
    pub(super) fn at(path: &str, rule: &'static Rule) -> Self {
        Self {
            path: path.to_owned(),
            called: path.rsplit('.').next().unwrap_or("").to_owned(),
            rule: Some(rule),
            ..Self::default()
        }
    }
    /// All that was found, in order.
    pub fn into_found(self) -> Vec<Found> {
        self.found
    }
    /// Walks what stands at a key.
    pub fn key(&mut self, key: &'static Key, inner: impl FnOnce(&mut Self)) {
        let path = under(&self.path, Some(key.name));
        self.held(key, |walk| walk.step(&path, key.name, inner));
    }
    /// Walks what stands in the brackets of a word.
    pub fn held(&mut self, key: &'static Key, inner: impl FnOnce(&mut Self)) {
        let before = self.rule.replace(&key.rule);
        inner(self);
        self.rule = before;
    }
    /// Walks an item of a list, under the rule of the list.
    pub fn item(&mut self, i: usize, inner: impl FnOnce(&mut Self)) {
        let called = self.called.clone();
        self.step(&format!("{}[{i}]", self.path), &called, inner);
    }
    /// Walks an entry of a map, under the rule of the map.
    pub fn entry(&mut self, name: &str, inner: impl FnOnce(&mut Self)) {
        let called = under(&self.called, Some(name));
        self.step(&under(&self.path, Some(name)), &called, inner);
    }
    fn step(&mut self, path: &str, called: &str, inner: impl FnOnce(&mut Self)) {
        let before = std::mem::replace(&mut self.path, path.to_owned());
        let called = std::mem::replace(&mut self.called, called.to_owned());
        inner(self);
        self.path = before;
        self.called = called;
    }
    /// A number, as it is kept, and the unit it is kept in, such as `kg_m3`.
    pub fn number(&mut self, number: f64, unit: &str) {
        let rule = self.rule.unwrap_or(&Rule::ANY);
        if let Some((path, found)) = &mut self.sought
            && *path == self.path
        {
            *found = self.rule;
        }
        let (written_in, factor) = rule.unit.unwrap_or((unit, 1.0));
        let unit = &written_in.replace('_', "/");
        let number = number / factor;
        let called = &self.called;
        let unit_after = after(unit);
        let (message, instead, suggestion) = if !rule.limits.contain(number) {
            let Limits { low, high, .. } = rule.limits;
            let fraction = short(number / 100.0);
            let percent = low == 0.0 && high == 1.0 && (2.0..=100.0).contains(&number);
            let demand = match number.is_finite() {
                true => rule.limits.demand(unit),
                false => "must be finite".to_owned(),
            };
            let without_sign = low == 0.0 && rule.limits.contain(-number);
            let instead = match (percent, written_in) {
                (true, _) => Some(fraction.to_string()),
                (false, _) if !without_sign => None,
                (false, "") => Some(short(-number).to_string()),
                (false, unit) => Some(format!("{unit}({})", short(-number))),
            };
            let message = format!("`{called}` {demand}; found {}{unit_after}", short(number));
            (message, instead, None)
        } else if let Some((low, high, reason)) = rule.usual
            && !(low..=high).contains(&number)
        {
            let number: f64 = format!("{number:.3e}").parse().unwrap_or(number);
            let usual = format!("{low} to {high}{unit_after} ({reason})");
            (
                format!("`{called}` is {number}{unit_after}"),
                None,
                Some(usual),
            )
        } else {
            return;
        };
        self.found.push(Found {
            path: self.path.clone(),
            message,
            warning: suggestion.is_some(),
            instead,
            suggestion,
        });
    }
}
