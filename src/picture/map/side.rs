//! An opposed engine cut along the crankshaft and seen from its left, its nose to the left. Down is positive here.

use super::above::SKIN;
use super::drawing::LineKind;
use super::measures::Measures;
use super::pen::{Pen, rectangle};
use crate::picture::draw::Anchor;

/// Layers of oil that are drawn.
const LAYERS: usize = 4;

/// Draws the view.
pub fn draw(pen: &mut Pen, m: &Measures) {
    air(pen, m);
    skins(pen, m);
    for station in 0..=m.rows {
        let (from, to) = (m.begin(station), m.begin(station + 1));
        let h = m.half_height;
        let middle = (from + to) / 2.0;
        let between = (h + 0.03) / 2.0;
        for (level, way) in [("u", -1.0), ("l", 1.0)] {
            let corners = rectangle((from, way * 0.028), (to, way * h));
            let told = Some((middle, way * between));
            pen.part(&format!("case{station}{level}l"), &corners, told);
        }
    }
    for station in 0..=m.rows {
        let from = if station == 0 {
            -0.07
        } else {
            m.begin(station)
        };
        pen.block(
            &format!("crank{station}"),
            (from, -0.028),
            (m.begin(station + 1), 0.028),
            true,
        );
    }
    sump(pen, m);
    beneath(pen, m);
    behind(pen, m);
    propeller(pen, m);
    pen.line(
        &[(m.front - 0.03, 0.0), (m.firewall + 0.04, 0.0)],
        LineKind::Axis,
    );
    beside(pen, m);
}

/// Names beside what is too small or too thin for them.
fn beside(pen: &mut Pen, m: &Measures) {
    let h = m.half_height;
    let wall = (m.firewall - 0.03, m.floor - 0.09);
    let end = (wall, Anchor::End);
    pen.beside("firewall", Some("RE"), end, (m.firewall, wall.1));
    let exhaust = (m.nose + 0.07, m.floor - 0.03);
    let to = (m.nose + 0.125, h + m.sump.0 + 0.05);
    pen.beside("exhaust", Some("FL"), (exhaust, Anchor::Start), to);
    let blade = (m.front + 0.0675, m.roof + 0.08);
    pen.beside("blade2", None, (blade, Anchor::Middle), (blade.0, m.roof));
}

fn air(pen: &mut Pen, m: &Measures) {
    let (front, back) = (m.station, m.case + 0.02);
    let (h, deep) = (m.half_height, m.half_height + 0.5 * m.sump.0);
    let over = rectangle((front, -m.roof), (back, 0.0));
    pen.pocket(
        "UL",
        &over,
        ((front + back) / 2.0, -(h + m.roof) / 2.0),
        true,
    );
    let under = rectangle((front * 0.4, 0.0), (back, deep));
    pen.pocket("LO", &under, (front * 0.7, h + 0.02), false);
    let floor = rectangle((m.nose + 0.05, deep), (back, m.floor));
    pen.pocket("FL", &floor, (back - 0.075, m.floor - 0.03), true);
    let nose = [
        (m.nose, -0.6 * m.roof),
        (m.station * 0.5, -m.roof),
        (m.station, -m.roof),
        (m.station, 0.0),
        (m.station * 0.4, 0.0),
        (m.station * 0.4, h),
        (m.station * 0.4, deep),
        (m.nose + 0.05, deep),
        (m.nose, 0.6 * deep),
    ];
    pen.pocket(
        "FR",
        &nose,
        (m.station * 0.5, -(h + m.roof) / 2.0 + 0.01),
        true,
    );
    let rear = rectangle((back, -m.roof), (m.firewall, m.floor - 0.05));
    pen.pocket(
        "RE",
        &rear,
        ((back + m.firewall) / 2.0, -m.roof + 0.04),
        true,
    );
}

fn skins(pen: &mut Pen, m: &Measures) {
    let back = m.case + 0.02;
    let (roof, floor) = (m.roof, m.floor);
    pen.part(
        "cowlUL",
        &rectangle((m.station, -roof), (back, -roof - SKIN)),
        None,
    );
    pen.part(
        "cowlRE",
        &rectangle((back, -roof), (m.firewall, -roof - SKIN)),
        None,
    );
    let deep = m.half_height + 0.5 * m.sump.0;
    let bowl = [
        (m.nose, -0.6 * roof),
        (m.station * 0.5, -roof),
        (m.station, -roof),
        (m.station, -roof - SKIN),
        (m.station * 0.5 - 0.006, -roof - SKIN),
        (m.nose - SKIN, -0.6 * roof - 0.006),
        (m.nose - SKIN, -0.09),
        (m.nose, -0.09),
    ];
    pen.part("cowlFR", &bowl, None);
    let chin = [
        (m.nose, 0.09),
        (m.nose, 0.6 * deep),
        (m.nose + 0.05, deep),
        (m.nose + 0.05 - SKIN, deep),
        (m.nose - SKIN, 0.6 * deep + 0.006),
        (m.nose - SKIN, 0.09),
    ];
    pen.part("cowlFR", &chin, None);
    let pan = [
        (m.nose + 0.05, deep),
        (m.nose + 0.05, floor),
        (back, floor),
        (back, floor + SKIN),
        (m.nose + 0.05 - SKIN, floor + SKIN),
        (m.nose + 0.05 - SKIN, deep),
    ];
    pen.part("cowlFL", &pan, None);
}

fn sump(pen: &mut Pen, m: &Measures) {
    let (depth, oil) = m.sump;
    let (from, to) = (m.case - m.sump_plan.0, m.case);
    let (top, foot) = (m.half_height, m.half_height + depth);
    pen.part("sump_side", &rectangle((from, top), (to, foot)), None);
    let layer = oil / LAYERS as f64;
    let wall = 0.012;
    // The mean of the oil is written over its layers.
    pen.block("oil", (from + wall, foot - oil), (to - wall, foot), true);
    for k in 0..LAYERS {
        let low = foot - layer * k as f64;
        let corners = rectangle((from + wall, low - layer), (to - wall, low));
        pen.slice("oil", (k, LAYERS), &corners, None);
    }
    pen.block("sump_bot", (from, foot), (to, foot + 0.04), true);
}

fn beneath(pen: &mut Pen, m: &Measures) {
    let h = m.half_height;
    let front = m.case - m.sump_plan.0;
    let (from, to) = (front - 0.145, front - 0.02);
    pen.block("carb", (from, h + 0.035), (to, h + 0.12), true);
    let pipe = [
        (to - 0.03, h + 0.035),
        (to - 0.03, h + 0.005),
        (m.case - 0.05, h + 0.005),
        (m.case - 0.05, h + 0.025),
        (to - 0.005, h + 0.025),
        (to - 0.005, h + 0.035),
    ];
    pen.part("intake", &pipe, None);
    let under = m.half_height + m.sump.0 + 0.045;
    let exhaust = [
        (m.nose + 0.11, h + 0.125),
        (m.nose + 0.14, h + 0.125),
        (m.nose + 0.14, under),
        (m.case, under),
        (m.case, under + 0.02),
        (m.nose + 0.11, under + 0.02),
    ];
    pen.part("exhaust", &exhaust, None);
}

fn behind(pen: &mut Pen, m: &Measures) {
    let (back, h) = (m.case, m.half_height);
    for z in [-0.75 * h, 0.75 * h] {
        let tube = [
            (back + 0.1, z - 0.008),
            (back + 0.1, z + 0.008),
            (m.firewall, 1.3 * z + 0.008),
            (m.firewall, 1.3 * z - 0.008),
        ];
        pen.part("mount", &tube, None);
    }
    pen.block("acc_case", (back, -0.95 * h), (back + 0.10, 0.95 * h), true);
    pen.block("mags", (back + 0.10, -0.105), (back + 0.21, -0.02), true);
    pen.block("gen", (back + 0.10, 0.0), (back + 0.21, 0.085), true);
    pen.block(
        "filter",
        (back + 0.02, 0.95 * h),
        (back + 0.15, 0.95 * h + 0.085),
        true,
    );
    let wall = rectangle((m.firewall, -m.roof - SKIN), (m.firewall + SKIN, m.floor));
    pen.part("firewall", &wall, None);
    let baffle = rectangle((back + 0.01, -m.roof), (back + 0.03, -h));
    pen.part("baffle", &baffle, None);
}

fn propeller(pen: &mut Pen, m: &Measures) {
    let (front, back) = (m.front + 0.05, m.front + 0.085);
    for way in [-1.0, 1.0] {
        let reach = m.roof + 0.02;
        let piece = (reach - 0.05) / 3.0;
        for k in 0..3 {
            let from = 0.05 + piece * f64::from(k);
            let corners = rectangle((front, way * from), (back, way * (from + piece)));
            pen.part(&format!("blade{k}"), &corners, None);
        }
        let end = way * reach;
        let width = back - front;
        let zigzag = [
            (front - 0.01, end),
            (front + 0.3 * width, end + 0.01),
            (front + 0.6 * width, end - 0.01),
            (back + 0.01, end),
        ];
        pen.line(&zigzag, LineKind::Edge);
    }
    pen.block("hub", (m.front, -0.055), (-0.07, 0.055), true);
}
