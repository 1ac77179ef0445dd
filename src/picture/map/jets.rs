//! Where heaters are drawn and which way they blow, from the places they draw from, throw to and strike.

use super::drawing::{Drawing, Kind};
use crate::night::Night;
use crate::picture::draw::Point;
use crate::scenario::heater::{Aim, HeaterKind};
use std::f64::consts::FRAC_PI_4;

/// The least share of a throw that gets an arrow, and of a strike that gets a badge.
const WORTH: f64 = 0.2;
/// How far a heater stands from the middle of its pocket, where the air's temperature is written.
const AWAY: f64 = 38.0;
/// A shorter way gets no arrow.
const SHORT: f64 = 24.0;
/// Radius of a badge.
pub const BADGE: f64 = 9.0;

/// One heater in one view.
#[derive(Debug, Clone, PartialEq)]
pub struct Jet {
    /// Which heater, in the order of the night.
    pub heater: usize,
    /// Where its number stands.
    pub badge: Point,
    /// Where its heat goes from there, if the view shows it.
    pub arrow: Option<Point>,
}

/// A box on the sheet: its upper left and its lower right corner.
type Bounds = (Point, Point);

/// All jets of a drawing, their badges clear of these boxes.
pub fn jets(drawing: &Drawing, night: &Night, taken: &[Bounds]) -> Vec<Jet> {
    let heaters = &night.scenario.scenario().heaters;
    let mut jets: Vec<Jet> = Vec::new();
    for (heater, (said, aim)) in heaters.iter().zip(night.scenario.aims()).enumerate() {
        for view in 0..drawing.views.len() {
            let scenic = drawing.views[view].scenic;
            match &said.kind {
                HeaterKind::bonded => bonded((drawing, taken), (heater, view), aim, &mut jets),
                kind if scenic => {
                    let outside = matches!(kind, HeaterKind::ducted { .. });
                    let known = jets.len();
                    blown((drawing, taken), (heater, view), aim, outside, &mut jets);
                    // A lamp stands too near for an arrow.
                    let lamp = matches!(kind, HeaterKind::radiant { .. });
                    if lamp && jets.len() == known {
                        beside((drawing, taken), (heater, view), aim, &mut jets);
                    }
                }
                _ => {}
            }
        }
    }
    jets
}

/// On the metal: a badge at the part that gets the most.
fn bonded(
    (drawing, taken): (&Drawing, &[Bounds]),
    (heater, view): (usize, usize),
    aim: &Aim,
    jets: &mut Vec<Jet>,
) {
    let most = aim.impingement.iter().map(|s| s.1).fold(0.0, f64::max);
    for (part, share) in aim
        .impingement
        .iter()
        .filter(|s| s.1 >= most.max(1e-9) * 0.99)
    {
        debug_assert!(*share > 0.0);
        let mut shapes = drawing.shapes.iter().filter(|s| {
            let subject = &drawing.subjects[s.subject];
            s.view == view && subject.kind != Kind::Air && subject.name == *part
        });
        let Some(shape) = shapes.next() else { continue };
        let (from, to) = shape.outline.bounds();
        // At its left edge, clear of a reading in its middle.
        let middle = (from.1 + to.1) / 2.0;
        let badge = match drawing.views[view].scenic && to.0 - from.0 > 60.0 {
            true => (from.0 + BADGE + 2.0, middle),
            false => ((from.0 + to.0) / 2.0, middle),
        };
        let badge = place(jets, taken, badge);
        jets.push(Jet {
            heater,
            badge,
            arrow: None,
        });
        // Rings sit on every barrel: one of a view stands for all.
        break;
    }
}

/// The nearest place to the wanted one that is clear of other badges and of what is written.
fn place(jets: &[Jet], taken: &[Bounds], wanted: Point) -> Point {
    let clear = |at: &Point| {
        let other = |j: &Jet| (j.badge.0 - at.0).hypot(j.badge.1 - at.1) < 2.0 * BADGE + 2.0;
        let written = |(from, to): &Bounds| {
            let (x, y) = (at.0.clamp(from.0, to.0), at.1.clamp(from.1, to.1));
            (x - at.0).hypot(y - at.1) < BADGE + 2.0
        };
        !jets.iter().any(other) && !taken.iter().any(written)
    };
    let around = (0..48).map(|k| {
        let (turn, far) = (f64::from(k % 8) * FRAC_PI_4, 10.0 * f64::from(k / 8 + 1));
        (wanted.0 + far * turn.sin(), wanted.1 + far * turn.cos())
    });
    let mut places = [wanted].into_iter().chain(around);
    places.find(clear).unwrap_or(wanted)
}

/// Blown or shone: from its pocket, or from outside, towards where it throws or what it strikes.
fn blown(
    (drawing, taken): (&Drawing, &[Bounds]),
    (heater, view): (usize, usize),
    aim: &Aim,
    outside: bool,
    jets: &mut Vec<Jet>,
) {
    let room = |pocket: &str| {
        let mut rooms = drawing.rooms.iter();
        rooms
            .find(|r| r.view == view && drawing.subjects[r.subject].name == pocket)
            .map(|r| r.spot)
    };
    let from_pocket = match (outside, aim.intake.is_empty()) {
        (true, _) => None,
        (false, false) => aim.intake.first(),
        (false, true) => aim.discharge.first(),
    };
    let thrown = aim
        .discharge
        .iter()
        .filter(|t| t.1 >= WORTH && from_pocket.is_none_or(|from| from.0 != t.0));
    let mut targets: Vec<Point> = thrown.filter_map(|t| room(&t.0)).collect();
    if targets.is_empty() || outside {
        let struck = struck(drawing, view, aim);
        targets = if outside {
            targets.into_iter().take(1).collect()
        } else {
            Vec::new()
        };
        targets.extend(struck.filter(|_| targets.is_empty()));
    }
    let source = match from_pocket {
        Some(pocket) => room(&pocket.0),
        // A duct comes in from the front and below.
        None => targets.first().map(|t| {
            let corner = &drawing.views[view];
            (
                (t.0 - 60.0).max(corner.from.0 + BADGE + 2.0),
                (t.1 + 90.0).min(corner.to.1 - BADGE - 2.0),
            )
        }),
    };
    let Some(source) = source else { return };
    for (k, target) in targets.iter().enumerate() {
        let way = (target.0 - source.0, target.1 - source.1);
        let long = way.0.hypot(way.1);
        if long < AWAY + SHORT && !outside {
            continue;
        }
        let along = |distance: f64| {
            let share = distance / long;
            (source.0 + way.0 * share, source.1 + way.1 * share)
        };
        let away = if outside { 0.0 } else { AWAY };
        let badge = if k == 0 {
            place(jets, taken, along(away))
        } else {
            along(away)
        };
        jets.push(Jet {
            heater,
            badge,
            // Short of the target, where a temperature is written.
            arrow: Some(along(long - 30.0)),
        });
    }
}

/// A badge beside where the air that a heater warms has its temperature written.
fn beside(
    (drawing, taken): (&Drawing, &[Bounds]),
    (heater, view): (usize, usize),
    aim: &Aim,
    jets: &mut Vec<Jet>,
) {
    let warmed = |subject: usize| {
        aim.discharge
            .iter()
            .any(|t| t.0 == drawing.subjects[subject].name)
    };
    let mut rooms = drawing.rooms.iter();
    let Some(room) = rooms.find(|r| r.view == view && warmed(r.subject)) else {
        return;
    };
    let badge = place(jets, taken, (room.spot.0 - 1.4 * AWAY, room.spot.1));
    jets.push(Jet {
        heater,
        badge,
        arrow: None,
    });
}

/// The middle of what is struck in a view, weighed by the shares; none if nothing of it is drawn.
fn struck(drawing: &Drawing, view: usize, aim: &Aim) -> Option<Point> {
    let mut sum = (0.0, 0.0, 0.0);
    for (part, share) in &aim.impingement {
        let shapes: Vec<_> = drawing
            .shapes
            .iter()
            .filter(|s| {
                let subject = &drawing.subjects[s.subject];
                s.view == view && subject.kind != Kind::Air && subject.name == *part
            })
            .collect();
        for shape in &shapes {
            let (x, y) = shape.outline.middle();
            let weight = share / shapes.len() as f64;
            sum = (sum.0 + weight * x, sum.1 + weight * y, sum.2 + weight);
        }
    }
    (sum.2 > 0.0).then(|| (sum.0 / sum.2, sum.1 / sum.2))
}
