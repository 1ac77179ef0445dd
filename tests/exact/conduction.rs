//! Conduction within cut parts, with the measured order of convergence.

use crate::kit::bench::{
    along, at, bar, chain, converges, face, join, near, part, problem, solved, steady, surface_c,
};
use coldsoak::scenario::body::Body;
use coldsoak::scenario::part::{Shape, Spot};

/// A wall of half-thickness 1 m, k = 1, rho c = 3600 so that a Fourier number of one is an hour, insulated at
/// `start`, in air of 0 °C through Biot at `end`, in eight parts end to end, each cut `resolution` times.
fn wall(biot: f64) -> Body {
    let mut body = Body {
        surfaces: vec![face("w7", Spot::end, "air", 1.0, biot)],
        surroundings: vec![steady("air", 0.0)],
        ..Body::default()
    };
    chain(&mut body, "w", 8, 1.0, 1.0, 1.0, 3600.0);
    body
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
/// their own places, and the order in space measured over resolutions 1, 2, 4 and 8.
#[test]
fn a_plane_wall_cools_as_its_series_to_second_order() {
    for biot in [0.1, 1.0, 10.0] {
        let mut errors = Vec::new();
        for resolution in [1usize, 2, 4, 8] {
            let night = solved(&problem(wall(biot), 100.0, &[], 43_200.0, resolution));
            let cells = 8.0 * resolution as f64;
            let mut worst: f64 = 0.0;
            for fourier in [0.2, 0.5, 1.0] {
                let seconds = fourier * 3600.0;
                let all = along(&night, "w", seconds);
                for (cell, place) in [(all[0], 0.5), (all[all.len() - 1], cells - 0.5)] {
                    let exact = 100.0 * wall_series(biot, place / cells, fourier);
                    worst = worst.max((cell - exact).abs());
                }
            }
            errors.push(worst);
        }
        // 100 K over eight cells: a tenth of a kelvin at most; each doubling a quarter of it.
        near(
            errors[0],
            0.0,
            0.35,
            &format!("wall, Biot {biot}, eight cells"),
        );
        converges(&errors, 2.0, &format!("wall, Biot {biot}"));
    }
}

/// The steel wall of a pipe, 40 mm, insulated outside, at -20 °C when hot oil of 60 °C enters: Biot 0.313, and after
/// eight minutes Fourier 5.64. Source: Incropera and DeWitt, example 5.5 (from memory; 42.9 °C outside, 45.2 °C
/// inside, with one term and a rounded root), recomputed 43.018 and 45.364 °C.
#[test]
fn a_pipe_wall_warms_as_in_the_textbook() {
    let (biot, seconds) = (0.313, 5.64 * 3600.0);
    let night = solved(&problem(wall(biot), 100.0, &[], 43_200.0, 8));
    let all = along(&night, "w", seconds);
    let surface = surface_c(all[63], 0.0, 2.0 * 64.0, biot);
    // From 100 in 0 to -20 in 60 °C; printed to a thousandth, for Biot and Fourier numbers of three digits.
    near(60.0 - 0.8 * all[0], 43.018, 5e-3, "insulated side");
    near(60.0 - 0.8 * surface, 45.364, 5e-3, "wetted side");
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
        surfaces: vec![face("blade", Spot::whole, "air", 0.32 * 0.85, 8.0)],
        surroundings: vec![steady("air", 0.0)],
        ..Body::default()
    };
    let mut taken = Vec::new();
    for resolution in [1, 2, 4, 8] {
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
    let extrapolated = taken[3] + (taken[3] - taken[2]) / 3.0;
    near(extrapolated, 0.903_125, 1e-3, "fin, extrapolated");
    // Cell-centred cells of m dx = 0.296 take (m dx)^2 / 8 too little: 1.1 percent.
    near(taken[3], 0.903_125, 1.1e-2, "fin, eight cells");
    let errors: Vec<f64> = taken.iter().map(|w| (w - 0.903_125).abs()).collect();
    converges(&errors, 2.0, "straight fin");
}
