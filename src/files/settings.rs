//! Values of a night set by their paths: by `--set PATH=VALUE`, and by the choices of a comparison.
//!
//! A path leads into the night file, or through the name of a model into its numbers: `hangar` is a name, and
//! `hangar.cabin_above` a number of the hangar of that name. Settings are made in the night file first, then in the
//! Scenario that it stands for.

use super::fault::ErrorList;
use super::night_file::NightFile;
use super::shown::{short, shown};
use super::written_units::HasRanges;
use crate::document::{InputError, Name, Node, PathError, Source, Span, Value, read_node, spelt};
use crate::scenario::document::Scenario;

/// Where ranges stand in a night.
pub const RANGES: &str = "uncertain.";
/// What a range that is set says of itself, unless it says otherwise.
const OF_A_RANGE: [(&str, &str); 3] = [
    ("distribution", "uniform"),
    ("basis", "measured"),
    ("source", "\"set\""),
];
/// Keys of a night whose number stands elsewhere in the Scenario.
const ELSEWHERE: (&str, &str) = ("hangar_start", "hangar.start");

/// A value to be set.
#[derive(Debug, Clone)]
pub struct Setting {
    /// Its path.
    pub path: String,
    /// The value; of a group only the keys that are written.
    pub value: Node,
    place: Place,
}

/// Where a setting is written.
#[derive(Debug, Clone)]
enum Place {
    /// On the command line, as it was typed.
    Flag(String),
    /// In a file.
    File(Source, Span),
}

/// A value that was set.
#[derive(Debug, Clone, PartialEq)]
pub struct SetValue {
    /// Its path in the Scenario.
    pub path: String,
    /// The value, for people.
    pub value: String,
    /// What the night has in its place, for people; none if nothing.
    pub night: Option<String>,
    /// The range it takes along, in the unit of the value or of the range before; none if it is certain.
    pub range: Option<(f64, f64)>,
}

impl SetValue {
    /// The value on one line: `covers.outlet_plug 0.9 (0.87 to 0.93; night: 0.48)`.
    pub fn line(&self) -> String {
        let range = self
            .range
            .map(|(low, high)| format!("{} to {}; ", short(low), short(high)));
        let night = match self.night.as_deref() {
            None => "nothing",
            Some("none") if self.path.starts_with("heaters[") => "as its model",
            Some(night) => night,
        };
        format!(
            "{} {} ({}night: {night})",
            self.path,
            self.value,
            range.unwrap_or_default()
        )
    }
}

/// A night file with settings made in it.
#[derive(Debug, Clone)]
pub struct Changed {
    /// The night.
    pub night: NightFile,
    /// Settings of numbers that stand in the models it names.
    pub of_models: Vec<Setting>,
    /// What was set.
    pub values: Vec<SetValue>,
}

/// A setting as it is typed in a shell, in quotes where brackets or blanks would be read as something else.
fn flag(path: &str, value: &str) -> String {
    let text = format!("{path}={value}");
    let plain = |c: char| c.is_ascii_alphanumeric() || "._-=[]:,+".contains(c);
    match text.chars().all(plain) {
        true => format!("--set {text}"),
        false => format!("--set '{text}'"),
    }
}

impl Setting {
    /// A setting as it is typed: `PATH=VALUE`.
    ///
    /// *Errors*: no equals sign, or nothing on one side of it.
    pub fn typed(text: &str) -> Result<Self, InputError> {
        let sides = text.split_once('=');
        let sides = sides.map(|(path, value)| (path.trim(), value.trim()));
        let Some((path, value)) = sides.filter(|(p, v)| !p.is_empty() && !v.is_empty()) else {
            let what = format!("\"{text}\" is not PATH=VALUE");
            return Err(InputError::of("--set", what).suggest("--set covers.outlet_plug=0.9"));
        };
        Ok(Self {
            path: spelt(path),
            value: Node::typed(value),
            place: Place::Flag(value.to_owned()),
        })
    }

    /// A setting that is written in a file.
    pub fn written(path: &str, value: &Node, source: &Source, span: Span) -> Self {
        Self {
            path: spelt(path),
            value: value.clone(),
            place: Place::File(source.clone(), span),
        }
    }

    /// Whether it sets what stands at a path, as a whole or alone.
    pub fn holds(&self, path: &str) -> bool {
        within(&self.path, path)
    }

    /// The setting with another word in it, as it is written; the word alone where a file holds it.
    pub fn with_word(&self, word: &str, write: &str) -> String {
        match &self.place {
            Place::Flag(typed) => flag(&self.path, &typed.replacen(word, write, 1)),
            Place::File(..) => format!("\"{write}\""),
        }
    }

    /// Errors of names that lead nowhere, those of names that were set on the command line as errors of their settings.
    pub fn own(settings: &[Self], errors: Vec<InputError>) -> Vec<InputError> {
        let own = |error: InputError| {
            let names = |setting: &&Self| {
                let name = setting.value.text().or(match &setting.place {
                    Place::Flag(typed) => Some(typed),
                    Place::File(..) => None,
                });
                let quoted = name.map(|name| format!("`{name}`"));
                error.place.is_none() && quoted.is_some_and(|name| error.message.contains(&name))
            };
            match settings.iter().find(names) {
                Some(setting) => setting.error(&error.message, error.suggestion.as_deref()),
                None => error,
            }
        };
        errors.into_iter().map(own).collect()
    }

    /// An error in it.
    pub fn error(&self, message: &str, suggestion: Option<&str>) -> InputError {
        match &self.place {
            Place::Flag(typed) => {
                let mut error = InputError::of(&format!("--set {}={typed}", self.path), message);
                let key = self.path.rsplit('.').next().unwrap_or_default();
                error.suggestion = suggestion.map(|what| match what.strip_prefix(key) {
                    Some(rest) if rest.starts_with(": ") => flag(&self.path, &rest[2..]),
                    _ => what.to_owned(),
                });
                error
            }
            Place::File(source, span) => {
                let mut error = InputError::of(&source.file, message).path(&self.path);
                error.suggestion = suggestion.map(str::to_owned);
                let line = source.text[span.range()].lines().next().unwrap_or("");
                let start = span.start as usize;
                error.at(source.text.clone(), start..start + line.trim_end().len())
            }
        }
    }

    /// That its path leads nowhere.
    fn lost(&self, error: PathError) -> InputError {
        let near = match error {
            PathError::Unknown { near, .. } => near,
            other => return self.error(&other.to_string(), None),
        };
        let suggestion = near.map(|near| match &self.place {
            Place::Flag(typed) => flag(&near, typed),
            Place::File(source, _) => match source.text.get(self.value.span.range()) {
                Some(value) if !value.contains('\n') => format!("\"{near}\": {value}"),
                _ => format!("\"{near}\": ..."),
            },
        });
        let message = format!("nothing stands at `{}` in this night", self.path);
        self.error(&message, suggestion.as_deref())
    }

    /// The value as it can stand in place of another: a text needs no quotes on the command line, a range says only its ends.
    fn fitted(&self, there: Option<&Node>) -> Node {
        let mut value = self.value.clone();
        if let (Place::Flag(typed), Some(Value::Text(_))) = (&self.place, there.map(|n| &n.value))
            && value.text().is_none()
        {
            return Node::free(Value::Text(typed.clone()));
        }
        if self.path.starts_with(RANGES)
            && let Value::Record(None, entries) = &mut value.value
        {
            for (key, default) in OF_A_RANGE {
                if !entries.iter().any(|(name, _)| name.text == key) {
                    let (text, span) = (key.to_owned(), Span::default());
                    entries.push((Name { text, span }, Node::typed(default)));
                }
            }
        }
        value
    }
}

/// Whether a path is another or leads into what stands there.
fn within(outer: &str, inner: &str) -> bool {
    let rest = inner.strip_prefix(outer);
    rest.is_some_and(|rest| rest.is_empty() || rest.starts_with(['.', '[']))
}

/// A night file with these settings; `written` is its own text, in which its values are written as people know them. What
/// is wrong with them goes to `errors`.
pub fn in_night(
    night: &NightFile,
    written: Option<&Node>,
    settings: &[Setting],
    errors: &mut ErrorList,
) -> Option<Changed> {
    let mut changed = Changed {
        night: night.clone(),
        of_models: Vec::new(),
        values: Vec::new(),
    };
    if settings.is_empty() {
        return Some(changed);
    }
    let mut tree = Node::of(night).ok()?;
    let before = tree.clone();
    let mut here = Vec::new();
    for setting in settings {
        let value = setting.fitted(tree.at(&setting.path));
        match tree.overlay(&setting.path, &value) {
            Ok(set) => {
                here.push(setting);
                let old = |path: &str| written.and_then(|w| w.at(path)).or(before.at(path));
                changed.values.extend(values(&tree, &set, old));
            }
            Err(_) => changed.of_models.push(setting.clone()),
        }
    }
    let mut night: NightFile = checked(&before, &tree, &here, errors)?;
    // A range is in the unit of the number it is of, as that is written.
    let unit = |node: Option<&Node>| {
        let measured = node.and_then(Node::measured);
        measured.and_then(|(_, unit)| unit.map(str::to_owned))
    };
    let known = changed.night.uncertain().clone();
    for (path, range) in night.uncertain() {
        if range.unit.is_none() {
            let set = settings.iter().find(|setting| setting.path == *path);
            let before = known.get(path).and_then(|range| range.unit.clone());
            range.unit = unit(set.map(|setting| &setting.value))
                .or(before)
                .or_else(|| unit(written.and_then(|written| written.at(path))));
        }
    }
    changed.night = night;
    Some(changed)
}

/// A Scenario with settings of numbers in its models, and what was set. What is wrong with them goes to `errors`.
pub fn in_scenario(
    scenario: Scenario,
    settings: &[Setting],
    errors: &mut ErrorList,
) -> Option<(Scenario, Vec<SetValue>)> {
    if settings.is_empty() {
        return Some((scenario, Vec::new()));
    }
    let mut tree = Node::of(&scenario).ok()?;
    let before = tree.clone();
    let (mut set_values, mut lost) = (Vec::new(), false);
    for setting in settings {
        let value = setting.fitted(tree.at(&setting.path));
        match tree.overlay(&setting.path, &value) {
            Ok(set) => set_values.extend(values(&tree, &set, |path| before.at(path))),
            Err(error) => {
                lost = true;
                errors.add(setting.lost(error));
            }
        }
    }
    if lost {
        return None;
    }
    let here: Vec<&Setting> = settings.iter().collect();
    Some((checked(&before, &tree, &here, errors)?, set_values))
}

/// The values at paths of a tree that were set.
fn values<'n>(
    tree: &Node,
    set: &[String],
    old: impl Fn(&str) -> Option<&'n Node>,
) -> Vec<SetValue> {
    let value = |path: &String| {
        Some(SetValue {
            path: match path == ELSEWHERE.0 {
                true => ELSEWHERE.1.to_owned(),
                false => path.clone(),
            },
            value: shown(tree.at(path)?),
            night: old(path).map(shown),
            range: None,
        })
    };
    set.iter().filter_map(value).collect()
}

/// What a tree stands for. Its errors, but for those that there were `before`, are errors of the settings made in it.
fn checked<T: crate::document::Read>(
    before: &Node,
    tree: &Node,
    settings: &[&Setting],
    errors: &mut ErrorList,
) -> Option<T> {
    let (value, found) = read_node::<T>(tree);
    if found.count() == 0 {
        return value;
    }
    let known = read_node::<T>(before).1;
    let same = |a: &InputError, b: &InputError| a.path == b.path && a.message == b.message;
    let new = |error: &&InputError| !known.kept().iter().any(|old| same(old, error));
    let mut sound = true;
    for error in found.kept().iter().filter(new) {
        let near = |s: &&&Setting| s.holds(&error.path) || within(&error.path, &s.path);
        let of_it = settings.iter().rev().find(near);
        if let Some(setting) = of_it.or(settings.last()) {
            sound = false;
            errors.add(setting.error(&error.message, error.suggestion.as_deref()));
        }
    }
    value.filter(|_| sound)
}
