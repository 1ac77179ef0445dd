//! Conduction within cut parts, with the measured order of convergence.

use crate::bench::{at, bar, face, join, near, part, problem, solved, steady};
use coldsoak::quantity::{Conductivity, Length};
use coldsoak::scenario::body::Body;
use coldsoak::scenario::joint::{Contact, Joint};
use coldsoak::scenario::part::{Shape, Spot};

/// A wall of half-thickness 1 m, k = 1, rho c = 3600 so that a Fourier number of one is an hour, insulated at
/// `start`, in air of 0 °C through Biot at `end`, in eight parts end to end, each cut `resolution` times.
fn wall(biot: f64) -> Body {
    let pieces = 8;
    let mut parts = Vec::new();
    let mut joints = Vec::new();
    for i in 0..pieces {
        parts.push(part(
            &format!("w{i}"),
            3600.0 / f64::from(pieces),
            bar(1.0 / f64::from(pieces), 1.0, 1.0),
        ));
        if i > 0 {
            joints.push(Joint {
                from: (format!("w{}", i - 1), Spot::end),
                to: (format!("w{i}"), Spot::start),
                contact: Contact::perfect,
                footprint: None,
            });
        }
    }
    Body {
        parts,
        joints,
        faces: vec![face("w7", Spot::end, "air", 1.0, biot)],
        surroundings: vec![steady("air", 0.0)],
        ..Body::default()
    }
}

/// The series for the plane wall at a place (0 the insulated middle, 1 the surface), `ζ tan ζ = Bi`.
fn wall_series(biot: f64, place: f64, fourier: f64) -> f64 {
    (0..60)
        .map(|n| {
            let (mut low, mut high) = (
                f64::from(n) * std::f64::consts::PI,
                (f64::from(n) + 0.5) * std::f64::consts::PI - 1e-12,
            );
            for _ in 0..200 {
                let zeta = 0.5 * (low + high);
                if zeta * zeta.tan() < biot {
                    low = zeta;
                } else {
                    high = zeta;
                }
            }
            let zeta: f64 = 0.5 * (low + high);
            let weight = 4.0 * zeta.sin() / (2.0 * zeta + (2.0 * zeta).sin());
            weight * (-zeta * zeta * fourier).exp() * (zeta * place).cos()
        })
        .sum()
}

/// The series itself against its published values. Source: Incropera, table 5.1 and section 5.5 (from memory;
/// recomputed to six digits).
#[test]
fn the_series_gives_its_published_values() {
    near(wall_series(1.0, 0.0, 0.2), 0.950_642, 1e-6, "Bi 1");
    near(wall_series(10.0, 1.0, 0.2), 0.122_482, 1e-6, "Bi 10");
    near(wall_series(0.1, 0.0, 0.05), 0.999_973, 1e-6, "Bi 0.1");
}

/// Plane walls of Biot 0.1, 1 and 10: temperatures of the cell nearest the surface and of the innermost, at
/// their own places, and the order in space measured over resolutions 1, 2 and 4.
#[test]
fn a_plane_wall_cools_as_its_series_to_second_order() {
    for biot in [0.1, 1.0, 10.0] {
        let mut errors = Vec::new();
        for resolution in [1usize, 2, 4] {
            let night = solved(&problem(wall(biot), 100.0, &[], 43_200.0, resolution));
            let cells = 8.0 * resolution as f64;
            let (first, last) = if resolution == 1 {
                ("w0".to_owned(), "w7".to_owned())
            } else {
                ("w0.0".to_owned(), format!("w7.{}", resolution - 1))
            };
            let mut worst: f64 = 0.0;
            for fourier in [0.2, 0.5, 1.0] {
                let seconds = fourier * 3600.0;
                for (cell, place) in [(&first, 0.5 / cells), (&last, 1.0 - 0.5 / cells)] {
                    let exact = 100.0 * wall_series(biot, place, fourier);
                    worst = worst.max((at(&night, cell, seconds) - exact).abs());
                }
            }
            errors.push(worst);
        }
        // 100 K over eight cells: a tenth of a kelvin at most; each doubling a quarter of it.
        assert!(errors[0] < 0.35, "Biot {biot}: {errors:?}");
        let order = (errors[0] / errors[2]).log2() / 2.0;
        assert!(order > 1.85, "Biot {biot}: order {order}, {errors:?}");
    }
}

/// A straight fin (blade) of aluminium, P = 0.32 m, A = 2.2e-3 m2, L = 0.85 m, k = 150, h = 8: 0.903125 W/K
/// with an adiabatic tip. Source: the exact solution, `sqrt(h P k A) tanh(m L)`.
#[test]
fn a_blade_takes_what_a_straight_fin_takes() {
    let body = Body {
        parts: vec![
            part("root", 1e9, Shape::lump),
            part("blade", 4000.0, bar(0.85, 2.2e-3, 150.0)),
        ],
        joints: vec![join(("root", Spot::whole), ("blade", Spot::start), 1e9)],
        faces: vec![face("blade", Spot::whole, "air", 0.32 * 0.85, 8.0)],
        surroundings: vec![steady("air", 0.0)],
        ..Body::default()
    };
    let mut taken = Vec::new();
    for resolution in [4, 8] {
        let night = solved(&problem(
            body.clone(),
            0.0,
            &[("root", 100.0)],
            43_200.0,
            resolution,
        ));
        let w: f64 = night.findings.losses_w.iter().map(|l| l.watts).sum();
        taken.push(w / at(&night, "root", 43_200.0));
    }
    // Second order: the rest after eight cells is a third of the change from four; the next term of the
    // expansion, (m dx)^4 / 240 of four cells, is a thousandth.
    let extrapolated = taken[1] + (taken[1] - taken[0]) / 3.0;
    near(extrapolated, 0.903_125, 1e-3, "fin, extrapolated");
    // Cell-centred cells of m dx = 0.296 take (m dx)^2 / 8 too little: 1.1 percent.
    near(taken[1], 0.903_125, 1.1e-2, "fin, eight cells");
}

/// An annular fin of steel, 136 mm inside, 176 mm across, 1.2 mm thick, k = 42, h = 20: efficiency 0.89440.
/// Source: Kern and Kraus, Extended Surface Heat Transfer (1972), by the library `ht` 1.2.0.
#[test]
fn an_annular_fin_has_the_efficiency_of_its_bessel_functions() {
    let (r0, r1, t): (f64, f64, f64) = (0.068, 0.088, 0.0012);
    let sides = 2.0 * std::f64::consts::PI * (r1 * r1 - r0 * r0);
    let body = Body {
        parts: vec![
            part("barrel", 1e9, Shape::lump),
            part(
                "fin",
                100.0,
                Shape::tube {
                    inner: Length::m(r0),
                    outer: Length::m(r1),
                    length: Length::m(t),
                    conductivity: Conductivity::W_mK(42.0),
                    cut: (false, true),
                },
            ),
        ],
        joints: vec![join(("barrel", Spot::whole), ("fin", Spot::inner), 1e9)],
        faces: vec![face("fin", Spot::whole, "air", sides, 20.0)],
        surroundings: vec![steady("air", 0.0)],
        ..Body::default()
    };
    let night = solved(&problem(body, 0.0, &[("barrel", 100.0)], 43_200.0, 8));
    let w: f64 = night.findings.losses_w.iter().map(|l| l.watts).sum();
    let efficiency = w / (20.0 * sides * at(&night, "barrel", 43_200.0));
    near(efficiency, 0.894_40, 1.5e-3, "annular fin");
}

/// A deep slab, alpha = 7e-7 m2/s, whose surface is stepped: at 0.1 m and 6 h the change is erfc(0.4067) =
/// 0.565254 of the step. Source: Carslaw and Jaeger, Conduction of Heat in Solids (1959), section 2.5.
#[test]
fn a_deep_slab_follows_the_error_function() {
    // 64 cells of 2 cm: the far end is 1.28 m away and feels nothing for twelve hours.
    let k = 1.4;
    let capacity = k / 7e-7;
    let pieces = 8;
    let length = 1.28 / f64::from(pieces);
    let mut body = Body {
        surroundings: vec![steady("surface", 0.0)],
        ..Body::default()
    };
    for i in 0..pieces {
        body.parts.push(part(
            &format!("s{i}"),
            capacity * length,
            bar(length, 1.0, k),
        ));
        if i > 0 {
            body.joints.push(Joint {
                from: (format!("s{}", i - 1), Spot::end),
                to: (format!("s{i}"), Spot::start),
                contact: Contact::perfect,
                footprint: None,
            });
        }
    }
    body.faces = vec![face("s0", Spot::start, "surface", 1.0, 1e9)];
    let night = solved(&problem(body, 10.0, &[], 43_200.0, 8));
    // 0.1 m is the border of the fifth and sixth cell: the mean of the two is there to second order.
    let there = 0.5 * (at(&night, "s0.4", 21_600.0) + at(&night, "s0.5", 21_600.0));
    near(1.0 - there / 10.0, 0.565_254, 1.5e-3, "deep slab");
}
