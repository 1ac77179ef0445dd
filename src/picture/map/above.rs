//! An opposed engine from above, its nose to the left, its cylinders cut open.

use super::drawing::LineKind;
use super::measures::Measures;
use super::pen::{Pen, rectangle};
use crate::picture::draw::{Anchor, Point};

/// Thickness of a skin as drawn, m.
pub(super) const SKIN: f64 = 0.02;

/// A side: its letter in the names of parts, its letter in those of the case, its pocket, and which way it lies.
pub(super) const SIDES: [(&str, &str, &str, f64); 2] =
    [("L", "l", "UL", 1.0), ("R", "r", "UR", -1.0)];

/// Draws the view.
pub fn draw(pen: &mut Pen, m: &Measures) {
    air(pen, m);
    skins(pen, m);
    for (letter, case, _, way) in SIDES {
        let baffle = rectangle(
            (m.case + 0.01, way * m.half_width),
            (m.case + 0.03, way * m.cowl),
        );
        pen.part("baffle", &baffle, None);
        for row in 1..=m.rows {
            cylinder(pen, m, letter, row, way);
        }
        for station in 0..=m.rows {
            let (from, to) = (m.begin(station), m.begin(station + 1));
            let side = way * m.half_width;
            pen.block(
                &format!("case{station}u{case}"),
                (from, 0.0),
                (to, side),
                true,
            );
        }
    }
    behind(pen, m);
    pen.block("hub", (m.front, -0.055), (-0.07, 0.055), true);
    pen.block("crank0", (-0.07, -0.025), (0.0, 0.025), false);
    pen.line(
        &[(m.front - 0.03, 0.0), (m.firewall + 0.04, 0.0)],
        LineKind::Axis,
    );
    beside(pen, m);
}

/// Names beside what is too small or too thin for them.
fn beside(pen: &mut Pen, m: &Measures) {
    let wall = (m.firewall - 0.03, -m.cowl + 0.04);
    let end = (wall, Anchor::End);
    pen.beside("firewall", Some("RE"), end, (m.firewall, wall.1));
    let baffle = (m.case + 0.06, m.cowl - 0.20);
    let start = (baffle, Anchor::Start);
    pen.beside("baffle", Some("RE"), start, (m.case + 0.025, baffle.1));
    let mount = ((m.case + m.firewall) / 2.0, -1.62 * m.half_width - 0.07);
    let foot = (mount.0, -1.62 * m.half_width);
    pen.beside("mount", Some("RE"), (mount, Anchor::Middle), foot);
    let skin = (0.78 * m.station, -m.cowl + 0.055);
    let edge = (skin.0, -m.cowl - 0.01);
    pen.beside("cowlFR", Some("FR"), (skin, Anchor::Middle), edge);
}

fn air(pen: &mut Pen, m: &Measures) {
    let (front, back) = (m.station, m.case + 0.02);
    for (_, _, pocket, way) in SIDES {
        let corners = rectangle((front, 0.0), (back, way * m.cowl));
        let spot = ((front + m.case) / 2.0, way * (m.cowl - 0.035));
        pen.pocket(pocket, &corners, spot, true);
    }
    let nose = nose(m);
    pen.pocket("FR", &nose, (0.5 * m.station, 0.62 * m.cowl), true);
    let rear = rectangle((back, -m.cowl), (m.firewall, m.cowl));
    let spot = ((back + m.firewall) / 2.0, m.cowl - 0.05);
    pen.pocket("RE", &rear, spot, true);
}

/// The room behind the nose bowl.
fn nose(m: &Measures) -> [Point; 6] {
    let narrow = 0.55 * m.cowl;
    [
        (m.nose, -narrow),
        (m.station * 0.5, -m.cowl),
        (m.station, -m.cowl),
        (m.station, m.cowl),
        (m.station * 0.5, m.cowl),
        (m.nose, narrow),
    ]
}

fn skins(pen: &mut Pen, m: &Measures) {
    let narrow = 0.55 * m.cowl;
    for (_, _, pocket, way) in SIDES {
        let (inside, outside) = (way * m.cowl, way * (m.cowl + SKIN));
        let skin = rectangle((m.station, inside), (m.case + 0.02, outside));
        pen.part(&format!("cowl{pocket}"), &skin, None);
        let rear = rectangle((m.case + 0.02, inside), (m.firewall, outside));
        pen.part("cowlRE", &rear, None);
        let bowl = [
            (m.nose, way * 0.12),
            (m.nose, way * narrow),
            (m.station * 0.5, inside),
            (m.station, inside),
            (m.station, outside),
            (m.station * 0.5 - 0.008, outside),
            (m.nose - SKIN, way * (narrow + 0.01)),
            (m.nose - SKIN, way * 0.12),
        ];
        pen.part("cowlFR", &bowl, None);
    }
}

fn cylinder(pen: &mut Pen, m: &Measures, letter: &str, row: usize, way: f64) {
    let x = m.row(row);
    let third = m.barrel / 3.0;
    for piece in 0..3 {
        let from = m.half_width + third * f64::from(piece);
        let r = m.barrel_radius;
        let corners = rectangle((x - r, way * from), (x + r, way * (from + third)));
        pen.part(&format!("cyl{letter}{row}b{piece}"), &corners, None);
    }
    let (base, top) = (m.half_width + m.barrel, m.half_width + m.barrel + m.head);
    let r = m.head_radius;
    let head = [
        (x - r, way * base),
        (x - r, way * (top - 0.02)),
        (x - r + 0.02, way * top),
        (x + r - 0.02, way * top),
        (x + r, way * (top - 0.02)),
        (x + r, way * base),
    ];
    let name = format!("cyl{letter}{row}head");
    pen.part(&name, &head, Some((x, way * (base + 0.5 * m.head))));
    let (foot, crown) = (
        m.half_width + 0.25 * m.barrel,
        m.half_width + 0.8 * m.barrel,
    );
    let r = m.bore_radius;
    let piston = rectangle((x - r, way * foot), (x + r, way * crown));
    let told = Some((x, way * (foot + crown) / 2.0));
    pen.part(&format!("piston{letter}{row}"), &piston, told);
}

fn behind(pen: &mut Pen, m: &Measures) {
    let (back, wide) = (m.case, m.half_width);
    for way in [1.0, -1.0] {
        let tube = [
            (back + 0.03, way * wide * 1.35),
            (back + 0.03, way * wide * 1.55),
            (m.firewall, way * wide * 2.05),
            (m.firewall, way * wide * 1.85),
        ];
        pen.part("mount", &tube, None);
        let magneto = rectangle((back + 0.10, way * 0.043), (back + 0.21, way * 0.128));
        let told = Some((back + 0.155, way * 0.0855));
        pen.part("mags", &magneto, told);
    }
    pen.block(
        "acc_case",
        (back, -wide * 0.95),
        (back + 0.10, wide * 0.95),
        true,
    );
    pen.block("gen", (back + 0.10, -0.042), (back + 0.21, 0.042), true);
    let wall = rectangle(
        (m.firewall, -m.cowl - SKIN),
        (m.firewall + SKIN, m.cowl + SKIN),
    );
    pen.part("firewall", &wall, None);
}
