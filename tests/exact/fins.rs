//! Fins, rods and a finned cylinder.

use crate::kit::bench::{
    at, chain, converges, face, join, lost_w, lump, near, part, problem, solved, steady,
};
use coldsoak::quantity::{Conductivity, Length};
use coldsoak::scenario::body::Body;
use coldsoak::scenario::part::{Part, Shape, Spot};
use std::f64::consts::PI;

/// Heat capacity of a root whose temperature stays, J/K.
const HUGE: f64 = 1e9;
/// A joint without resistance of its own, W/K.
const WELDED: f64 = 1e9;

fn ring(inner: f64, outer: f64, thick: f64, k: f64) -> Part {
    let shape = Shape::tube {
        inner: Length::m(inner),
        outer: Length::m(outer),
        length: Length::m(thick),
        conductivity: Conductivity::W_mK(k),
        cut: (false, true),
    };
    part("fin", 100.0, shape)
}

/// The efficiency of an annular fin with an adiabatic tip, cut into so many rings.
fn efficiency(inner: f64, outer: f64, thick: f64, k: f64, h: f64, rings: usize) -> f64 {
    let sides = 2.0 * PI * (outer * outer - inner * inner);
    let body = Body {
        parts: vec![lump("root", HUGE), ring(inner, outer, thick, k)],
        joints: vec![join(("root", Spot::whole), ("fin", Spot::inner), WELDED)],
        surfaces: vec![face("fin", Spot::whole, "air", sides, h)],
        surroundings: vec![steady("air", 0.0)],
        ..Body::default()
    };
    let night = solved(&problem(body, 0.0, &[("root", 100.0)], 43_200.0, rings));
    lost_w(&night) / (h * sides * at(&night, "root", 43_200.0))
}

/// Annular fins of heads and barrels. Source: Kern and Kraus, Extended Surface Heat Transfer (1972), by the
/// library `ht` 1.2.0; the exact Bessel functions, adiabatic tip.
#[test]
fn annular_fins_have_the_efficiency_of_their_bessel_functions() {
    for (across, tip_across, thick, k, h, published) in [
        (0.15, 0.2, 0.002, 150.0, 5.0, 0.99204),
        (0.15, 0.2, 0.002, 150.0, 20.0, 0.96904),
        (0.15, 0.2, 0.002, 150.0, 60.0, 0.91340),
        (0.15, 0.2, 0.0015, 110.0, 5.0, 0.98564),
        (0.15, 0.2, 0.0015, 110.0, 20.0, 0.94533),
        (0.15, 0.2, 0.0015, 110.0, 60.0, 0.85457),
        (0.136, 0.176, 0.0012, 42.0, 5.0, 0.97090),
        (0.136, 0.176, 0.0012, 42.0, 20.0, 0.89440),
        (0.136, 0.176, 0.0012, 42.0, 60.0, 0.74589),
    ] {
        let by = |rings| efficiency(across / 2.0, tip_across / 2.0, thick, k, h, rings);
        let [whole, coarsest, coarse, fine] = [1, 2, 4, 8].map(by);
        let what = format!("annular fin, k {k}, h {h}");
        // Second order: what is missing with eight rings is a third of the change from four.
        near(fine + (fine - coarse) / 3.0, published, 1e-4, &what);
        // Published to five digits: the order is read where the finest error is well above them, on the changes.
        let changes = [coarsest - whole, coarse - coarsest, fine - coarse].map(f64::abs);
        converges(&changes, 2.0, &what);
    }
}

/// Very long rods of 5 mm at 100 °C in air of 25 °C, h = 100: copper 8.3, aluminium 5.6, stainless steel
/// 1.6 W. Source: Incropera and DeWitt, example 3.9 (from memory), recomputed 8.310, 5.588 and 1.558 W by
/// `sqrt(h P k A) θ`.
#[test]
fn long_rods_take_what_the_textbook_says() {
    let (d, h, pieces): (f64, f64, usize) = (5e-3, 100.0, 8);
    for (k, published) in [(398.0, 8.310), (180.0, 5.588), (14.0, 1.558)] {
        // Six decay lengths: beyond lies less than 1e-5 of the heat.
        let length = 6.0 / (4.0 * h / (k * d)).sqrt();
        let mut body = Body {
            parts: vec![lump("root", HUGE)],
            surroundings: vec![steady("air", 25.0)],
            ..Body::default()
        };
        chain(&mut body, "rod", pieces, length, PI * d * d / 4.0, k, 3e6);
        body.joints
            .push(join(("root", Spot::whole), ("rod0", Spot::start), WELDED));
        let side = PI * d * length / pieces as f64;
        body.surfaces = (0..pieces)
            .map(|i| face(&format!("rod{i}"), Spot::whole, "air", side, h))
            .collect();
        let night = solved(&problem(body, 25.0, &[("root", 100.0)], 43_200.0, 8));
        // 64 cells of 0.094 decay lengths: (m dx)^2 / 8 too little.
        near(
            lost_w(&night),
            published,
            2e-3 * published,
            &format!("k {k}"),
        );
    }
}

/// A motorcycle cylinder, 150 x 50 mm with five annular fins 6 mm thick and 20 mm long, k = 186, h = 50, 500 K in
/// air of 300 K: 705 W, without fins 235.62 W. Source: Incropera and DeWitt, example 3.10 (from memory; the book
/// reads 690 W from a chart), recomputed 704.66 W with Bessel functions and the corrected radius.
#[test]
fn a_motorcycle_cylinder_sheds_what_the_textbook_says() {
    let (inner, outer, height, fins, k, h) = (0.025, 0.045, 0.15, 5.0 * 0.006, 186.0, 50.0);
    let bare = |length: f64| face("root", Spot::whole, "air", 2.0 * PI * inner * length, h);
    let mut body = Body {
        parts: vec![lump("root", HUGE)],
        surfaces: vec![bare(height)],
        surroundings: vec![steady("air", 26.85)],
        ..Body::default()
    };
    let start = [("root", 226.85)];
    let night = solved(&problem(body.clone(), 26.85, &start, 43_200.0, 1));
    near(lost_w(&night), 235.62, 0.03, "without fins");
    // Five alike count as one, five times as thick, with the sides of five.
    let sides = 5.0 * 2.0 * PI * (outer * outer - inner * inner);
    body.parts.push(ring(inner, outer, fins, k));
    body.joints = vec![join(("root", Spot::whole), ("fin", Spot::inner), WELDED)];
    body.surfaces = vec![
        bare(height - fins),
        face("fin", Spot::whole, "air", sides, h),
        face("fin", Spot::outer, "air", 2.0 * PI * outer * fins, h),
    ];
    let night = solved(&problem(body, 26.85, &start, 43_200.0, 8));
    // The corrected radius is itself good to a few tenths of a percent.
    near(lost_w(&night), 704.66, 0.004 * 704.66, "with fins");
}
