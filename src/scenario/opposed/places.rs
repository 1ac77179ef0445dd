//! Where heaters can be put on an opposed engine, and what each place means for air and metal.
//!
//! All shares are estimates of how much of the struck fins and case lies in the jet.

use super::names::{self, Level, Side};
use super::plan::Plan;
use crate::scenario::heater::Aim;
use std::collections::BTreeMap;

type Shares = Vec<(String, f64)>;

/// Every place by its name.
pub(super) fn all(plan: &Plan) -> BTreeMap<String, Aim> {
    let mut places = BTreeMap::new();
    for blowing in Side::BOTH {
        let to = blowing.word();
        places.insert(format!("top-blowing-{to}"), top(plan, blowing));
        places.insert(
            format!("front-high-blowing-{to}"),
            front_high(plan, blowing),
        );
    }
    let others: [(&str, Aim); 6] = [
        ("front", front()),
        ("bottom", bottom(plan)),
        ("duct-under-nose", duct_under_nose()),
        ("sump-pad", sump_pad()),
        ("barrel-rings", barrel_rings(plan)),
        ("lamp-under-sump", lamp_under_sump()),
    ];
    places.extend(others.map(|(name, aim)| (name.to_owned(), aim)));
    places
}

fn shares<const N: usize>(list: [(&str, f64); N]) -> Shares {
    list.map(|(name, share)| (name.to_owned(), share)).into()
}

/// On top of one side's cylinders, blowing across the spine onto the other side's.
fn top(plan: &Plan, blowing: Side) -> Aim {
    let spill = plan.bay().jet_spill;
    let stands = blowing.other();
    let rows = plan.rows as f64;
    let mut impingement = Vec::new();
    for row in 1..=plan.rows {
        for (piece, share) in [("head", 0.60), ("b2", 0.17), ("b1", 0.17), ("b0", 0.06)] {
            let part = names::cylinder(blowing, row, piece);
            impingement.push((part, 0.78 * share / rows));
        }
    }
    for station in 1..plan.stations {
        for (side, share) in [(blowing, 0.55), (stands, 0.45)] {
            let part = names::case(station, Level::Upper, side);
            impingement.push((part, 0.22 * share / rows));
        }
    }
    Aim {
        intake: shares([(stands.pocket(), 1.0)]),
        discharge: shares([(blowing.pocket(), 1.0 - spill), (stands.pocket(), spill)]),
        impingement,
    }
}

/// High in the front inlet, blowing to one side: as on top, but half its air comes from the front.
fn front_high(plan: &Plan, blowing: Side) -> Aim {
    Aim {
        intake: shares([("FR", 0.5), (blowing.other().pocket(), 0.5)]),
        ..top(plan, blowing)
    }
}

/// Behind the nose bowl, blowing back over both sides.
fn front() -> Aim {
    let mut impingement = Vec::new();
    for side in Side::BOTH {
        impingement.push((names::case(0, Level::Upper, side), 0.06));
        impingement.push((names::case(1, Level::Upper, side), 0.05));
        impingement.push((names::cylinder(side, 1, "head"), 0.20));
        impingement.push((names::cylinder(side, 1, "b1"), 0.07));
    }
    Aim {
        intake: shares([("FR", 1.0)]),
        discharge: shares([("UL", 0.5), ("UR", 0.5)]),
        impingement,
    }
}

/// Under the cylinders, blowing up at the case.
fn bottom(plan: &Plan) -> Aim {
    let mut impingement = shares([("carb", 0.09), ("intake", 0.20)]);
    for station in 1..plan.stations {
        for side in Side::BOTH {
            impingement.push((names::case(station, Level::Lower, side), 0.06));
        }
    }
    Aim {
        intake: shares([("LO", 1.0)]),
        discharge: shares([("LO", 1.0)]),
        impingement,
    }
}

/// A duct's mouth under the nose.
///
/// The jet is worth 0.6 W/K to each lower and 0.4 to each upper quarter of the nose, 0.8 to the sump's
/// side and 0.8 to each head of the first row: **4.4 W/K in all**, which is the impingement conductance a
/// ducted heater should give for this place. Here they stand as shares of it.
fn duct_under_nose() -> Aim {
    const IN_ALL: f64 = 4.4;
    let mut impingement = Vec::new();
    for side in Side::BOTH {
        impingement.push((names::case(0, Level::Lower, side), 0.6 / IN_ALL));
        impingement.push((names::case(0, Level::Upper, side), 0.4 / IN_ALL));
    }
    impingement.push(("sump_side".to_owned(), 0.8 / IN_ALL));
    for side in Side::BOTH {
        impingement.push((names::cylinder(side, 1, "head"), 0.8 / IN_ALL));
    }
    Aim {
        intake: Vec::new(),
        discharge: shares([("FR", 0.6), ("LO", 0.4)]),
        impingement,
    }
}

/// Bonded under the sump.
fn sump_pad() -> Aim {
    Aim {
        impingement: shares([("sump_bot", 0.8), ("sump_side", 0.2)]),
        ..Aim::default()
    }
}

/// A ring round each barrel at the crankcase.
fn barrel_rings(plan: &Plan) -> Aim {
    let each = 1.0 / plan.cylinders();
    let mut impingement = Vec::new();
    for side in Side::BOTH {
        for row in 1..=plan.rows {
            impingement.push((names::cylinder(side, row, "b0"), each));
        }
    }
    Aim {
        impingement,
        ..Aim::default()
    }
}

/// A lamp on the cowl's floor: what it radiates falls on the sump, the rest warms the air around it.
fn lamp_under_sump() -> Aim {
    Aim {
        intake: Vec::new(),
        discharge: shares([("FL", 1.0)]),
        impingement: shares([("sump_bot", 0.7), ("sump_side", 0.3)]),
    }
}
