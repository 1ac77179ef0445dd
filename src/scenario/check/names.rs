//! The names of an engine's parts, air volumes and surroundings, and the search for one that is not there.

use super::super::body::Body;
use super::super::part::{Part, Shape, Spot};
use super::problem::Problems;
use crate::document::names::nearest;
use std::collections::{BTreeMap, BTreeSet};

/// The hangar, wherever a name of surroundings may stand.
const HANGAR: &str = "hangar";
/// The cabin behind the firewall.
const CABIN: &str = "cabin";

/// What can be called by name.
pub(super) struct Names<'a> {
    parts: BTreeMap<&'a str, &'a Part>,
    pockets: BTreeSet<&'a str>,
    surroundings: BTreeSet<&'a str>,
}

impl<'a> Names<'a> {
    /// Collects the names of a body, reporting those that are taken, reserved or no single word.
    pub fn of(body: &'a Body, path: &str, problems: &mut Problems) -> Self {
        let mut taken: BTreeMap<&str, String> = BTreeMap::new();
        let mut take = |name: &'a str, at: String| {
            let shown = problems.count();
            if let Some(first) = taken.get(name) {
                problems
                    .tell(
                        &at,
                        format!("the name `{name}` is already taken by {first}"),
                    )
                    .word(name)
                    .help("parts, air volumes and surroundings each need a name of their own");
            } else if name == HANGAR || name == CABIN {
                problems
                    .tell(&at, format!("`{name}` is a reserved name"))
                    .word(name)
                    .help("`hangar` and `cabin` are always there; choose another name");
            } else if !is_word(name) {
                problems
                    .tell(&at, format!("`{name}` is not a name"))
                    .word(name)
                    .help("a name is one word of letters, digits, `_` and `-`");
            }
            if problems.count() == shown {
                taken.insert(name, at);
            }
        };
        for (i, part) in body.parts.iter().enumerate() {
            take(&part.name, format!("{path}.parts[{i}].name"));
        }
        for (i, pocket) in body.air_volumes.iter().enumerate() {
            take(&pocket.name, format!("{path}.air_volumes[{i}].name"));
        }
        for (i, surrounding) in body.surroundings.iter().enumerate() {
            take(&surrounding.name, format!("{path}.surroundings[{i}].name"));
        }
        made_names(body, path, problems);
        Self {
            parts: body.parts.iter().map(|p| (p.name.as_str(), p)).collect(),
            pockets: body.air_volumes.iter().map(|p| p.name.as_str()).collect(),
            surroundings: body.surroundings.iter().map(|s| s.name.as_str()).collect(),
        }
    }

    /// The part of this name, or a problem.
    pub fn part(&self, name: &str, path: &str, problems: &mut Problems) -> Option<&'a Part> {
        let found = self.parts.get(name).copied();
        if found.is_none() {
            self.missing(name, "part", self.parts.keys().copied(), path, problems);
        }
        found
    }

    /// Whether there is an air volume of this name; a problem if not.
    pub fn pocket(&self, name: &str, path: &str, problems: &mut Problems) -> bool {
        let found = self.pockets.contains(name);
        if !found {
            self.missing(
                name,
                "air volume",
                self.pockets.iter().copied(),
                path,
                problems,
            );
        }
        found
    }

    /// A part or an air volume of this name, as a sensor can feel.
    pub fn part_or_pocket(&self, name: &str, path: &str, problems: &mut Problems) {
        if !self.parts.contains_key(name) && !self.pockets.contains(name) {
            let among = self.parts.keys().chain(&self.pockets).copied();
            self.missing(name, "part or air volume", among, path, problems);
        }
    }

    /// A part, the hangar or surroundings of this name, as a surface can see.
    pub fn seen(&self, name: &str, path: &str, problems: &mut Problems) {
        if !self.parts.contains_key(name) && !self.is_outside(name) {
            let among = self
                .parts
                .keys()
                .chain(&self.surroundings)
                .copied()
                .chain([HANGAR, CABIN]);
            self.missing(name, "part or surrounding", among, path, problems);
        }
    }

    /// An air volume, the hangar, the cabin or surroundings of this name, as a face can meet.
    pub fn met(&self, name: &str, path: &str, problems: &mut Problems) -> bool {
        let found = self.is_pocket(name) || self.is_outside(name);
        if !found {
            let among = self
                .pockets
                .iter()
                .chain(&self.surroundings)
                .copied()
                .chain([HANGAR, CABIN]);
            self.missing(name, "air volume or surrounding", among, path, problems);
        }
        found
    }

    /// Whether this is an air volume.
    pub fn is_pocket(&self, name: &str) -> bool {
        self.pockets.contains(name)
    }
    /// Whether this is the hangar.
    pub fn is_hangar(&self, name: &str) -> bool {
        name == HANGAR
    }
    fn is_outside(&self, name: &str) -> bool {
        name == HANGAR || name == CABIN || self.surroundings.contains(name)
    }

    fn missing<'n>(
        &self,
        name: &str,
        wanted: &str,
        among: impl Iterator<Item = &'n str>,
        path: &str,
        problems: &mut Problems,
    ) {
        let a = if wanted.starts_with('a') { "an" } else { "a" };
        let what = if self.parts.contains_key(name) {
            format!("`{name}` is a part; {a} {wanted} is needed here")
        } else if self.pockets.contains(name) {
            format!("`{name}` is an air volume; {a} {wanted} is needed here")
        } else if self.is_outside(name) {
            format!("`{name}` is surroundings; {a} {wanted} is needed here")
        } else {
            format!("there is no {wanted} named `{name}`")
        };
        let among: Vec<_> = among.collect();
        let problem = problems.tell(path, what).word(name);
        if let Some(like) = nearest(name, among.iter().copied()) {
            problem.instead(like);
        } else if !among.is_empty() && among.len() <= 12 {
            problem.help(format!("there are {}", listed(&among)));
        }
    }
}

/// Reports parts whose name the trace gives to something else: a layer of oil, the air of an air volume, the outdoors.
fn made_names(body: &Body, path: &str, problems: &mut Problems) {
    for (i, part) in body.parts.iter().enumerate() {
        let name = part.name.as_str();
        let layer_of = |other: &&Part| {
            let digits = name.strip_prefix(other.name.as_str()).unwrap_or("");
            let numbered = !digits.is_empty() && digits.chars().all(|c| c.is_ascii_digit());
            numbered && matches!(other.shape, Shape::stack { .. })
        };
        let air_of = |pocket: &&str| name.strip_prefix("air_") == Some(pocket);
        let taken = if let Some(oil) = body.parts.iter().find(layer_of) {
            format!("a layer of `{}`", oil.name)
        } else if let Some(pocket) = body
            .air_volumes
            .iter()
            .map(|p| p.name.as_str())
            .find(air_of)
        {
            format!("the air of `{pocket}`")
        } else if name == "outdoors" {
            "the outdoor air".to_owned()
        } else {
            continue;
        };
        problems
            .tell(
                format!("{path}.parts[{i}].name"),
                format!("in the results `{name}` is the name of {taken}"),
            )
            .word(name)
            .help("choose another name for the part");
    }
}

/// `a`, `b` and `c`, each between backticks.
pub(super) fn listed(names: &[&str]) -> String {
    let quoted: Vec<String> = names.iter().map(|n| format!("`{n}`")).collect();
    match quoted.as_slice() {
        [] => "none".to_owned(),
        [one] => one.clone(),
        [all @ .., last] => format!("{} and {last}", all.join(", ")),
    }
}

/// Whether this is one word of letters, digits, `_` and `-`.
pub(super) fn is_word(name: &str) -> bool {
    !name.is_empty()
        && name
            .chars()
            .all(|c| c.is_alphanumeric() || c == '_' || c == '-')
}

/// The places a shape has for joints and faces.
pub(super) fn spots(shape: &Shape) -> &'static [Spot] {
    use Spot::{bottom, end, far, inner, near, outer, start, top, whole};
    match shape {
        Shape::lump => &[whole],
        Shape::bar { .. } => &[whole, start, end],
        Shape::block { .. } => &[whole, start, end, near, far, bottom, top],
        Shape::tube { inner: hole, .. } if hole.si() == 0.0 => &[whole, start, end, outer],
        Shape::tube { .. } => &[whole, start, end, inner, outer],
        Shape::shell { inner: hole, .. } if hole.si() == 0.0 => &[whole, outer],
        Shape::shell { .. } => &[whole, inner, outer],
        Shape::stack { .. } => &[whole, bottom, top],
    }
}

/// Reports a part that has no such spot; whether it has.
pub(super) fn spot_fits(part: &Part, spot: Spot, path: &str, problems: &mut Problems) -> bool {
    let spots = spots(&part.shape);
    let fits = spots.contains(&spot);
    if !fits {
        let names: Vec<String> = spots.iter().map(|s| format!("{s:?}")).collect();
        let names: Vec<&str> = names.iter().map(String::as_str).collect();
        problems
            .tell(
                path,
                format!(
                    "the part `{}` is a {} and has no `{spot:?}`",
                    part.name,
                    shape_name(&part.shape)
                ),
            )
            .word(&format!("{spot:?}"))
            .help(format!("it has {}", listed(&names)));
    }
    fits
}

fn shape_name(shape: &Shape) -> &'static str {
    match shape {
        Shape::lump => "lump",
        Shape::bar { .. } => "bar",
        Shape::block { .. } => "block",
        Shape::tube { .. } => "tube",
        Shape::shell { .. } => "shell",
        Shape::stack { .. } => "stack",
    }
}
