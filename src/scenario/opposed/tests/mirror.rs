//! Left and right: in still air an opposed engine is its own mirror image.

use super::*;
use crate::scenario::heater::Aim;

/// A name seen in the mirror.
fn mirrored(name: &str) -> String {
    let swap = |a: char| match a {
        'l' => 'r',
        'r' => 'l',
        'L' => 'R',
        'R' => 'L',
        other => other,
    };
    let last = |name: &str| {
        let mut turned = name.to_owned();
        let side = turned.pop().map(swap);
        turned.extend(side);
        turned
    };
    match name {
        "UL" | "UR" | "cowlUL" | "cowlUR" => last(name),
        "case" => name.to_owned(),
        _ if name.starts_with("case") => last(name),
        _ if name.starts_with("cyl") => swapped_at(name, 3, swap),
        _ if name.starts_with("piston") => swapped_at(name, 6, swap),
        _ => name.to_owned(),
    }
}

fn swapped_at(name: &str, at: usize, swap: impl Fn(char) -> char) -> String {
    name.char_indices()
        .map(|(i, c)| if i == at { swap(c) } else { c })
        .collect()
}

/// Everything that links two things, as text, in an order that does not depend on the list's.
fn shown(body: &Body, name: impl Fn(&str) -> String) -> Vec<String> {
    let pair = |one: &str, other: &str| {
        let mut ends = [name(one), name(other)];
        ends.sort();
        ends.join("-")
    };
    let mut lines = Vec::new();
    for p in &body.parts {
        let (kg, cp) = (p.mass, p.specific_heat);
        lines.push(format!("{} {kg:?} {cp:?} {:?}", name(&p.name), p.shape));
    }
    for j in &body.joints {
        let ends = pair(&j.from.0, &j.to.0);
        lines.push(format!("{ends} {:?} {:?}", j.contact, j.footprint));
    }
    for f in &body.surfaces {
        let (part, meets) = (name(&f.part), name(&f.meets));
        lines.push(format!("{part} meets {meets} {:?} {:?}", f.area, f.law));
    }
    for s in &body.radiation_pairs {
        lines.push(format!("{} sees {:?}", pair(&s.from, &s.to), s.area));
    }
    for p in &body.openings {
        let ends = pair(&p.between.0, &p.between.1);
        lines.push(format!(
            "{ends} open {:?} {:?} {:?}",
            p.area, p.centre, p.height
        ));
    }
    for e in &body.mixing_openings {
        lines.push(format!("{} {:?}", pair(&e.below, &e.above), e.area));
    }
    for g in &body.cowl_leaks {
        lines.push(format!("{} {:?} {:?}", name(&g.pocket), g.opening, g.area));
    }
    for f in &body.fin_passages {
        let fins: Vec<String> = f.fins.iter().map(|(part, _)| name(part)).collect();
        lines.push(format!("{} {} {fins:?}", name(&f.below), name(&f.above)));
    }
    for w in body.crankcase_gas.iter().flat_map(|room| &room.walls) {
        let part = name(&w.part);
        lines.push(format!(
            "wall {part} {:?} {:?} {:?}",
            w.area, w.facing, w.group
        ));
    }
    lines.sort();
    lines
}

#[test]
fn the_mirror_shows_the_same_engine() {
    for (engine, ..) in OPPOSED {
        let body = body(engine);
        assert_eq!(
            shown(&body, mirrored),
            shown(&body, str::to_owned),
            "{engine}"
        );
    }
}

#[test]
fn the_mirror_swaps_blowing_left_and_blowing_right() {
    let turned = |aim: &Aim| {
        let mut lists = [&aim.intake, &aim.discharge, &aim.impingement].map(|list| {
            let turn = |(name, share): &(String, f64)| (mirrored(name), format!("{share}"));
            list.iter().map(turn).collect::<Vec<_>>()
        });
        lists.iter_mut().for_each(|list| list.sort());
        lists
    };
    let itself = |aim: &Aim| {
        let mut lists = [&aim.intake, &aim.discharge, &aim.impingement].map(|list| {
            let keep = |(name, share): &(String, f64)| (name.clone(), format!("{share}"));
            list.iter().map(keep).collect::<Vec<_>>()
        });
        lists.iter_mut().for_each(|list| list.sort());
        lists
    };
    let places = body("flat-six-8l5").places;
    for (name, aim) in &places {
        let other = match name.rsplit_once('-') {
            Some((start, "left")) => format!("{start}-right"),
            Some((start, "right")) => format!("{start}-left"),
            _ => name.clone(),
        };
        assert_eq!(turned(aim), itself(&places[&other]), "{name}");
    }
}

#[test]
fn only_the_wind_tells_left_from_right() {
    let body = body("flat-four-3l1");
    let wind = |pocket: &str| {
        let gap = body.cowl_leaks.iter().find(|gap| gap.pocket == pocket);
        gap.map(|gap| gap.wind_coefficient)
    };
    assert_eq!((wind("UL"), wind("UR")), (Some(-0.1), Some(-0.2)));
}
