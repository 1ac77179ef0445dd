//! Balls and tubes.

use crate::kit::bench::{
    along, at, converges, face, join, lost_w, lump, near, part, problem, solved, steady,
};
use coldsoak::quantity::{Conductivity, Length};
use coldsoak::scenario::body::Body;
use coldsoak::scenario::part::{Shape, Spot};
use std::f64::consts::{FRAC_PI_2, PI};

/// A root of `1 - ζ cot ζ = Bi`, counted from none, and its weight `4 (sin ζ - ζ cos ζ)/(2 ζ - sin 2ζ)`.
fn term(biot: f64, n: usize) -> (f64, f64) {
    let (mut low, mut high) = (n as f64 * PI + 1e-12, (n + 1) as f64 * PI - 1e-12);
    for _ in 0..200 {
        let zeta = 0.5 * (low + high);
        if 1.0 - zeta / zeta.tan() < biot {
            low = zeta;
        } else {
            high = zeta;
        }
    }
    let zeta = 0.5 * (low + high);
    let weight = 4.0 * (zeta.sin() - zeta * zeta.cos()) / (2.0 * zeta - (2.0 * zeta).sin());
    (zeta, weight)
}

/// What is left of a ball's heat.
fn left(biot: f64, fourier: f64) -> f64 {
    (0..60)
        .map(|n| {
            let (zeta, weight) = term(biot, n);
            let mean = 3.0 * (zeta.sin() - zeta * zeta.cos()) / zeta.powi(3);
            weight * mean * (-zeta * zeta * fourier).exp()
        })
        .sum()
}

/// Source: Incropera and DeWitt, table 5.1 (from memory): Bi 1 has ζ 1.5708 (π/2) and C 1.2732, Bi 10 has 2.8363 and
/// 1.9249.
#[test]
fn the_series_of_the_ball_has_its_published_terms() {
    for (biot, zeta, weight) in [(1.0, FRAC_PI_2, 1.2732), (10.0, 2.8363, 1.9249)] {
        let found = term(biot, 0);
        near(found.0, zeta, 1e-4, "root");
        near(found.1, weight, 1e-4, "weight");
    }
}

/// A solid ball of 1 m, k = 1, rho c = 3600 so that a Fourier number of one is an hour: the heat left in it is
/// that of its series, with an error that falls to a quarter as the shells are halved.
#[test]
fn a_ball_cools_as_its_series_to_second_order() {
    for (biot, allowed_k) in [(1.0, 0.4), (10.0, 1.2)] {
        let ball = Shape::shell {
            inner: Length::m(0.0),
            outer: Length::m(1.0),
            conductivity: Conductivity::W_mK(1.0),
        };
        let body = Body {
            parts: vec![part("ball", 3600.0 * 4.0 / 3.0 * PI, ball)],
            surfaces: vec![face("ball", Spot::outer, "air", 4.0 * PI, biot)],
            surroundings: vec![steady("air", 0.0)],
            ..Body::default()
        };
        let errors = [1, 2, 4, 8].map(|shells: usize| {
            let night = solved(&problem(body.clone(), 100.0, &[], 43_200.0, shells));
            [0.1, 0.2, 0.5]
                .map(|fourier| {
                    let cells = along(&night, "ball", fourier * 3600.0);
                    let kept: f64 = cells
                        .iter()
                        .enumerate()
                        .map(|(i, t)| t * (3 * i * i + 3 * i + 1) as f64)
                        .sum();
                    (kept / (shells as f64).powi(3) - 100.0 * left(biot, fourier)).abs()
                })
                .into_iter()
                .fold(0.0_f64, f64::max)
        });
        converges(&errors, 2.0, &format!("ball, Biot {biot}"));
        // Of 100 K, with eight shells: a shell's mean stands for its middle, the worse the steeper the fall.
        near(errors[3], 0.0, allowed_k, &format!("ball, Biot {biot}"));
    }
}

/// Through a tube `2 pi k L dT/ln(r2/r1)`, through a hollow ball `4 pi k dT/(1/r1 - 1/r2)`, however they are
/// cut. Source: Carslaw and Jaeger, Conduction of Heat in Solids (1959), sections 7.2 and 9.2 (from memory).
#[test]
fn tubes_and_hollow_balls_pass_what_their_radii_allow() {
    let (inner, outer, length, k) = (0.05, 0.12, 0.8, 0.4);
    let conductivity = Conductivity::W_mK(k);
    let (near_to, far_to) = (Length::m(inner), Length::m(outer));
    let tube = Shape::tube {
        inner: near_to,
        outer: far_to,
        length: Length::m(length),
        conductivity,
        cut: (false, true),
    };
    let ball = Shape::shell {
        inner: near_to,
        outer: far_to,
        conductivity,
    };
    for (shape, w_per_k) in [
        (tube, 2.0 * PI * k * length / (outer / inner).ln()),
        (ball, 4.0 * PI * k / (1.0 / inner - 1.0 / outer)),
    ] {
        for cuts in [1, 3, 8] {
            let body = Body {
                parts: vec![lump("hot", 1e12), part("wall", 100.0, shape.clone())],
                joints: vec![join(("hot", Spot::whole), ("wall", Spot::inner), 1e9)],
                surfaces: vec![face("wall", Spot::outer, "air", 1.0, 1e9)],
                surroundings: vec![steady("air", 0.0)],
                ..Body::default()
            };
            let night = solved(&problem(body, 0.0, &[("hot", 100.0)], 43_200.0, cuts));
            let found = lost_w(&night) / at(&night, "hot", 43_200.0);
            // Settled; the hot lump cools by far less than this.
            near(found, w_per_k, 1e-6 * w_per_k, &format!("{cuts} cuts"));
        }
    }
}
