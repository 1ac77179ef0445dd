//! Joints, faces, sights, enclosures and feeds: that they name what is there, and that heat can pass as written.

use super::super::body::Body;
use super::super::joint::{Contact, Enclosure, FilmLaw, Joint, Surface};
use super::super::part::{Part, Shape, Spot};
use super::names::{Names, spot_fits};
use super::problem::Problems;
use std::collections::BTreeSet;
use std::f64::consts::PI;

/// How far a row of view factors may be from one, and a pair from reciprocity: factors are printed to three digits.
const VIEW_TOLERANCE: f64 = 1e-3;
/// How much larger than its end a footprint may be, for the rounding of areas.
const FOOTPRINT_TOLERANCE: f64 = 1e-6;

/// Checks every way for heat between parts and to what is around them.
pub(super) fn check(body: &Body, names: &Names, problems: &mut Problems) {
    for (i, j) in body.joints.iter().enumerate() {
        joint(j, &format!("engine.joints[{i}]"), names, problems);
    }
    for (i, f) in body.surfaces.iter().enumerate() {
        face(f, &format!("engine.surfaces[{i}]"), names, problems);
    }
    for (i, sight) in body.radiation_pairs.iter().enumerate() {
        let path = format!("engine.radiation_pairs[{i}]");
        names.part(&sight.from, &format!("{path}.from"), problems);
        names.seen(&sight.to, &format!("{path}.to"), problems);
        if sight.from == sight.to {
            problems
                .tell(&path, format!("`{}` is paired with itself", sight.from))
                .word(&sight.from);
        }
    }
    for (i, e) in body.enclosures.iter().enumerate() {
        enclosure(e, &format!("engine.enclosures[{i}]"), names, problems);
    }
    for (i, feed) in body.feeds.iter().enumerate() {
        let path = format!("engine.feeds[{i}]");
        if let Some(part) = names.part(&feed.part, &format!("{path}.part"), problems) {
            spot_fits(part, feed.at, &format!("{path}.at"), problems);
        }
    }
    connected(body, problems);
}

fn joint(joint: &Joint, path: &str, names: &Names, problems: &mut Problems) {
    let mut fitting = Vec::new();
    for (key, (name, spot)) in [("from", &joint.from), ("to", &joint.to)] {
        let at = format!("{path}.{key}");
        if let Some(part) = names.part(name, &at, problems)
            && spot_fits(part, *spot, &at, problems)
        {
            fitting.push((part, *spot));
        }
    }
    if joint.from.0 == joint.to.0 {
        problems
            .tell(path, format!("`{}` is joined to itself", joint.from.0))
            .word(&joint.from.0);
    }
    match joint.contact {
        Contact::total(_) => {}
        Contact::perfect => {
            if fitting.len() == 2 && fitting.iter().all(|(_, spot)| *spot == Spot::whole) {
                problems
                    .tell(
                        format!("{path}.contact"),
                        format!(
                            "`{}` and `{}` are joined without any resistance between their temperatures",
                            joint.from.0, joint.to.0
                        ),
                    )
                    .help("name an end or a side of one of them, or give the joint a `total` conductance");
            }
        }
        Contact::oil_floor => {
            let is_oil = |(part, spot): &(&Part, Spot)| {
                matches!(part.shape, Shape::stack { .. })
                    && matches!(spot, Spot::bottom | Spot::top)
            };
            if fitting.len() == 2 && fitting.iter().filter(|end| is_oil(end)).count() != 1 {
                problems
                    .tell(
                        format!("{path}.contact"),
                        "`oil_floor` joins a shell to the `bottom` or `top` of one oil stack",
                    )
                    .word("oil_floor");
            }
        }
    }
    if let Some(footprint) = joint.footprint {
        for (part, spot) in fitting {
            footprint_fits(footprint.si(), part, spot, path, problems);
        }
    }
}

fn footprint_fits(footprint: f64, part: &Part, spot: Spot, path: &str, problems: &mut Problems) {
    if let Some(whole) = spot_area(&part.shape, spot)
        && footprint > whole * (1.0 + FOOTPRINT_TOLERANCE)
    {
        problems
            .tell(
                format!("{path}.footprint"),
                format!(
                    "the footprint of {footprint} m2 is larger than the `{spot:?}` of `{}`, {whole:.6} m2",
                    part.name
                ),
            )
            .help("leave `footprint` out to join the whole of it");
    }
}

/// Area of a spot, m2; none where it does not follow from the shape.
fn spot_area(shape: &Shape, spot: Spot) -> Option<f64> {
    match (shape, spot) {
        (Shape::bar { section, .. }, Spot::start | Spot::end) => Some(section.si()),
        (Shape::block { size, .. }, _) => {
            let (a, b, c) = (size.0.si(), size.1.si(), size.2.si());
            match spot {
                Spot::start | Spot::end => Some(b * c),
                Spot::near | Spot::far => Some(a * c),
                Spot::bottom | Spot::top => Some(a * b),
                _ => None,
            }
        }
        (
            Shape::tube {
                inner,
                outer,
                length,
                ..
            },
            _,
        ) => match spot {
            Spot::start | Spot::end => Some(PI * (outer.si().powi(2) - inner.si().powi(2))),
            Spot::inner => Some(2.0 * PI * inner.si() * length.si()),
            Spot::outer => Some(2.0 * PI * outer.si() * length.si()),
            _ => None,
        },
        (Shape::shell { inner, .. }, Spot::inner) => Some(4.0 * PI * inner.si().powi(2)),
        (Shape::shell { outer, .. }, Spot::outer) => Some(4.0 * PI * outer.si().powi(2)),
        (Shape::stack { area, .. }, Spot::bottom | Spot::top) => Some(area.si()),
        _ => None,
    }
}

fn face(face: &Surface, path: &str, names: &Names, problems: &mut Problems) {
    if let Some(part) = names.part(&face.part, &format!("{path}.part"), problems) {
        spot_fits(part, face.at, &format!("{path}.at"), problems);
    }
    let meets = format!("{path}.meets");
    let known = names.met(&face.meets, &meets, problems);
    let mut wants = |good: bool, law: &str, wanted: &str| {
        if known && !good {
            problems
                .tell(
                    &meets,
                    format!(
                        "the law `{law}` is for {wanted}, and `{}` is none",
                        face.meets
                    ),
                )
                .word(&face.meets);
        }
    };
    let pocket = names.is_pocket(&face.meets);
    match &face.law {
        FilmLaw::air { .. } => wants(pocket, "air", "an air volume"),
        FilmLaw::fins { .. } => wants(pocket, "fins", "an air volume"),
        FilmLaw::outdoors { .. } => {
            wants(names.is_hangar(&face.meets), "outdoors", "the `hangar`");
        }
        FilmLaw::fixed(_) | FilmLaw::power { .. } => {}
    }
}

fn enclosure(enclosure: &Enclosure, path: &str, names: &Names, problems: &mut Problems) {
    let surfaces = &enclosure.surfaces;
    for (i, (name, _, emissivity)) in surfaces.iter().enumerate() {
        let at = format!("{path}.surfaces[{i}]");
        names.seen(name, &at, problems);
        if *emissivity > 1.0 {
            let what = format!("the emissivity of `{name}` must be at most 1; found {emissivity}");
            problems.tell(format!("{at}[2]"), what);
        }
    }
    let view = &enclosure.view;
    let at = format!("{path}.view");
    if surfaces.is_empty() {
        problems.tell(path, "the enclosure has no surfaces");
    }
    if view.len() != surfaces.len() || view.iter().any(|row| row.len() != surfaces.len()) {
        let n = surfaces.len();
        let what = format!("{n} surfaces need {n} rows of {n} view factors each");
        problems.tell(at, what);
        return;
    }
    for (i, row) in view.iter().enumerate() {
        let name = &surfaces[i].0;
        let sum: f64 = row.iter().sum();
        if sum.is_nan() || (sum - 1.0).abs() > VIEW_TOLERANCE {
            let what = format!("the view factors of `{name}` must sum to 1, they sum to {sum:.4}");
            problems.tell(format!("{at}[{i}]"), what);
        }
        for (j, other) in view.iter().enumerate().skip(i + 1) {
            let (mine, theirs) = (surfaces[i].1.si(), surfaces[j].1.si());
            let (there, back) = (mine * row[j], theirs * other[i]);
            let apart = (there - back).abs();
            if apart.is_nan() || apart > VIEW_TOLERANCE * mine.min(theirs) {
                problems
                    .tell(
                        format!("{at}[{i}]"),
                        format!(
                            "`{name}` sees `{}` with {there:.5} m2, but is seen by it with {back:.5} m2",
                            surfaces[j].0
                        ),
                    )
                    .help("area times view factor must be the same both ways");
            }
        }
    }
}

/// A part that nothing is joined to, touches or sees could only keep its temperature.
fn connected(body: &Body, problems: &mut Problems) {
    let mut touched: BTreeSet<&str> = BTreeSet::new();
    for joint in &body.joints {
        touched.extend([joint.from.0.as_str(), joint.to.0.as_str()]);
    }
    touched.extend(body.surfaces.iter().map(|f| f.part.as_str()));
    for sight in &body.radiation_pairs {
        touched.extend([sight.from.as_str(), sight.to.as_str()]);
    }
    for enclosure in &body.enclosures {
        touched.extend(enclosure.surfaces.iter().map(|(name, ..)| name.as_str()));
    }
    for passage in &body.fin_passages {
        touched.extend(passage.fins.iter().map(|(name, _)| name.as_str()));
    }
    for (i, part) in body.parts.iter().enumerate() {
        if !touched.contains(part.name.as_str()) {
            problems
                .tell(
                    format!("engine.parts[{i}].name"),
                    format!(
                        "nothing is joined to the part `{}` or touches it",
                        part.name
                    ),
                )
                .word(&part.name)
                .help("give it a joint, a face or a sight, or leave it out");
        }
    }
}
