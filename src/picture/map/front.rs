//! An opposed engine cut through its front cylinders and seen from the front: its left is on the right of the sheet.
//! Down is positive here.

use super::above::{SIDES, SKIN};
use super::drawing::LineKind;
use super::measures::Measures;
use super::pen::{Pen, rectangle};
use crate::picture::draw::{Anchor, Point};

/// Layers of oil that are drawn.
const LAYERS: usize = 4;
/// How far in the shoulders of the cowl are, m.
const SHOULDER: f64 = 0.10;

/// Draws the view.
pub fn draw(pen: &mut Pen, m: &Measures) {
    air(pen, m);
    skins(pen, m);
    for (letter, case, _, way) in SIDES {
        for (level, up) in [("u", -1.0), ("l", 1.0)] {
            let corners = rectangle((0.0, 0.0), (way * m.half_width, up * m.half_height));
            pen.part(&format!("case1{level}{case}"), &corners, None);
        }
        cylinder(pen, m, letter, way);
        pipes(pen, m, way);
    }
    pen.round("crank1", (0.0, 0.0), 0.038);
    sump(pen, m);
    pen.line(
        &[(0.0, -m.roof - 0.04), (0.0, m.floor + 0.04)],
        LineKind::Axis,
    );
    let wide = m.cowl + 0.04;
    pen.line(&[(-wide, 0.0), (wide, 0.0)], LineKind::Axis);
    let pipe = (m.half_width + 0.05, m.half_height + 0.005);
    let at = (pipe.0 + 0.03, pipe.1 + 0.10);
    pen.beside("intake", Some("FL"), (at, Anchor::Start), pipe);
}

fn air(pen: &mut Pen, m: &Measures) {
    let deep = m.half_height + 0.5 * m.sump.0;
    for (_, _, pocket, way) in SIDES {
        let corners = [
            (0.0, 0.0),
            (0.0, -m.roof),
            (way * (m.cowl - SHOULDER), -m.roof),
            (way * m.cowl, -m.roof + SHOULDER),
            (way * m.cowl, 0.0),
        ];
        let spot = (way * 0.5 * m.cowl, -m.roof + 0.05);
        pen.pocket(pocket, &corners, spot, true);
    }
    let corners = rectangle((-m.cowl, 0.0), (m.cowl, deep));
    let spot = (-0.72 * m.cowl, m.head_radius + 0.04);
    pen.pocket("LO", &corners, spot, true);
    let corners: [Point; 6] = [
        (-m.cowl, deep),
        (m.cowl, deep),
        (m.cowl, m.floor - SHOULDER),
        (m.cowl - SHOULDER, m.floor),
        (-m.cowl + SHOULDER, m.floor),
        (-m.cowl, m.floor - SHOULDER),
    ];
    pen.pocket("FL", &corners, (0.0, m.floor - 0.03), true);
}

fn skins(pen: &mut Pen, m: &Measures) {
    let deep = m.half_height + 0.5 * m.sump.0;
    for (_, _, pocket, way) in SIDES {
        let (inner, outer) = (way * m.cowl, way * (m.cowl + SKIN));
        let over = [
            (0.0, -m.roof),
            (way * (m.cowl - SHOULDER), -m.roof),
            (inner, -m.roof + SHOULDER),
            (inner, 0.0),
            (outer, 0.0),
            (outer, -m.roof + SHOULDER - 0.008),
            (way * (m.cowl - SHOULDER + 0.008), -m.roof - SKIN),
            (0.0, -m.roof - SKIN),
        ];
        pen.part(&format!("cowl{pocket}"), &over, None);
        pen.part("cowlLO", &rectangle((inner, 0.0), (outer, deep)), None);
        let under = [
            (inner, deep),
            (inner, m.floor - SHOULDER),
            (way * (m.cowl - SHOULDER), m.floor),
            (0.0, m.floor),
            (0.0, m.floor + SKIN),
            (way * (m.cowl - SHOULDER + 0.008), m.floor + SKIN),
            (outer, m.floor - SHOULDER + 0.008),
            (outer, deep),
        ];
        pen.part("cowlFL", &under, None);
    }
}

fn cylinder(pen: &mut Pen, m: &Measures, letter: &str, way: f64) {
    let third = m.barrel / 3.0;
    let r = m.barrel_radius;
    for piece in 0..3 {
        let from = m.half_width + third * f64::from(piece);
        let corners = rectangle((way * from, -r), (way * (from + third), r));
        pen.part(&format!("cyl{letter}1b{piece}"), &corners, None);
    }
    let (base, top) = (m.half_width + m.barrel, m.half_width + m.barrel + m.head);
    let r = m.head_radius;
    let corners = rectangle((way * base, -r), (way * top, r));
    let told = Some((way * (base + 0.5 * m.head), 0.0));
    pen.part(&format!("cyl{letter}1head"), &corners, told);
    let (foot, crown) = (
        m.half_width + 0.25 * m.barrel,
        m.half_width + 0.8 * m.barrel,
    );
    let r = m.bore_radius;
    let corners = rectangle((way * foot, -r), (way * crown, r));
    let told = Some((way * (foot + crown) / 2.0, 0.0));
    pen.part(&format!("piston{letter}1"), &corners, told);
}

fn pipes(pen: &mut Pen, m: &Measures, way: f64) {
    let h = m.half_height;
    let x = m.half_width + 0.05;
    pen.round("intake", (way * x, h + 0.005), 0.022);
    pen.round("exhaust", (way * (x + 0.08), h + 0.03), 0.024);
}

fn sump(pen: &mut Pen, m: &Measures) {
    let (depth, oil) = m.sump;
    let wide = m.sump_plan.1;
    let (top, foot) = (m.half_height, m.half_height + depth);
    pen.part("sump_side", &rectangle((-wide, top), (wide, foot)), None);
    let layer = oil / LAYERS as f64;
    // The mean of the oil is written over its layers.
    pen.block(
        "oil",
        (-wide + 0.012, foot - oil),
        (wide - 0.012, foot),
        true,
    );
    for k in 0..LAYERS {
        let low = foot - layer * k as f64;
        let corners = rectangle((-wide + 0.012, low - layer), (wide - 0.012, low));
        pen.slice("oil", (k, LAYERS), &corners, None);
    }
    pen.block("sump_bot", (-wide, foot), (wide, foot + 0.04), true);
}
