//! Two lumps in still surroundings, exact by hand.
//!
//! 20 and 70 kJ/K, 8 W/K between them, 2 and 5 W/K to surroundings at −15 °C, 150 W into the first: the
//! matrix `C⁻¹ G` is 2 by 2 and its eigenvalues follow from its trace and determinant.

use crate::kit::bench::{face, joint, lump, near, problem, steady};
use coldsoak::inspect::{HeatPath, NetworkSnapshot, PathKind, SnapshotError, anatomy};
use coldsoak::quantity::Power;
use coldsoak::scenario::body::Body;
use coldsoak::scenario::document::Scenario;
use coldsoak::scenario::joint::Feed;
use coldsoak::scenario::part::Spot;

/// The length of the night that is followed, s.
const LATE_S: f64 = 12.0 * 3600.0;

fn pair() -> Scenario {
    let body = Body {
        parts: vec![lump("sump", 20e3), lump("mass", 70e3)],
        joints: vec![joint("sump", "mass", 8.0)],
        surfaces: vec![
            face("sump", Spot::whole, "still", 1.0, 2.0),
            face("mass", Spot::whole, "still", 1.0, 5.0),
        ],
        feeds: vec![Feed {
            part: "sump".to_owned(),
            at: Spot::whole,
            power: Power::W(150.0),
        }],
        surroundings: vec![steady("still", -15.0)],
        ..Body::default()
    };
    problem(body, -15.0, &[], LATE_S, 1)
}

fn path<'a>(found: &'a NetworkSnapshot, from: &str, to: &str) -> &'a HeatPath {
    let mut all = found.paths.iter();
    let path = all.find(|p| p.from == from && p.to == to);
    path.unwrap_or_else(|| panic!("no path from {from} to {to}"))
}

/// Eigenvalues −6.08202509e-4 and −7.75117768e-5 1/s, worked out by hand from the quadratic.
#[test]
fn two_lumps_have_the_two_time_constants_of_their_matrix() {
    let found = anatomy(&pair(), 3600.0).unwrap();
    let seconds: Vec<f64> = found
        .modes
        .iter()
        .map(|m| m.time_constant_h.unwrap() * 3600.0)
        .collect();
    assert_eq!(seconds.len(), 2);
    near(seconds[0], 12_901.265, 1e-3, "slow");
    near(seconds[1], 1644.189, 1e-3, "fast");
    // By hand: (G + λ C) v = 0 gives T_sump / T_mass = 8 / (10 − 20e3/12901.265) in the slow mode.
    let slow = &found.modes[0];
    assert_eq!(slow.shares[0].node, "mass");
    let (mass, sump) = (&slow.shares[0], &slow.shares[1]);
    near(
        sump.oscillation / mass.oscillation,
        8.0 / (10.0 - 20e3 / 12_901.265),
        1e-6,
        "shape",
    );
    near(mass.heat_share + sump.heat_share, 1.0, 1e-12, "all of it");
    // In the fast mode one cools as the other warms.
    let fast = &found.modes[1].shares;
    assert!(fast[0].oscillation * fast[1].oscillation < 0.0, "{fast:?}");
}

#[test]
fn linear_conductances_are_those_written() {
    let found = anatomy(&pair(), 3600.0).unwrap();
    assert_eq!(found.paths.len(), 3);
    for (from, to, w_per_k, kind) in [
        ("sump", "mass", 8.0, PathKind::Conduction),
        ("sump", "still", 2.0, PathKind::Surface),
        ("mass", "still", 5.0, PathKind::Surface),
    ] {
        let path = path(&found, from, to);
        near(path.conductance_w_per_k, w_per_k, 1e-12, from);
        assert_eq!(path.kind, kind);
        assert!(!path.directed);
        let driven = path.conductance_w_per_k * path.difference_k;
        near(path.heat_w, driven, 1e-9, "heat");
    }
    // After an hour, by the two eigenvalues: −1.478373 and −12.284509 °C.
    near(
        path(&found, "sump", "mass").heat_w,
        8.0 * (12.284_509 - 1.478_373),
        1e-3,
        "between",
    );
    assert_eq!(found.heat_sources.len(), 1);
    assert_eq!(found.heat_sources[0].heat_w, 150.0);
}

#[test]
fn a_moment_outside_the_night_is_refused() {
    for at_s in [-1.0, LATE_S + 1.0, f64::NAN] {
        let refused = anatomy(&pair(), at_s);
        assert!(
            matches!(refused, Err(SnapshotError::Outside { .. })),
            "{at_s}"
        );
    }
    assert_eq!(anatomy(&pair(), 0.0).unwrap().nodes[0].temp_c, -15.0);
}

/// A lump that loses nothing keeps its heat: no time constant, and none invented.
#[test]
fn what_loses_nothing_does_not_fade() {
    let body = Body {
        parts: vec![lump("a", 1e3), lump("b", 3e3)],
        joints: vec![joint("a", "b", 2.0)],
        ..Body::default()
    };
    let found = anatomy(&problem(body, 0.0, &[("a", 8.0)], LATE_S, 1), 60.0).unwrap();
    assert_eq!(found.modes[0].time_constant_h, None);
    // Two capacities in series through 2 W/K: 750 J/K over 2 W/K.
    near(
        found.modes[1].time_constant_h.unwrap() * 3600.0,
        375.0,
        1e-6,
        "evening out",
    );
}
