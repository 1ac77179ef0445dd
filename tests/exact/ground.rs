//! Bodies so deep that their far side feels nothing: slabs, soil, thick metal.

use crate::kit::bench::{along, chain, converges, face, near, problem, solved, steady, surface_c};
use coldsoak::scenario::body::Body;
use coldsoak::scenario::part::Spot;

/// Bars a depth is said in; with a resolution of eight it has eight times as many cells.
const PIECES: usize = 8;
const CELLS: f64 = 8.0 * PIECES as f64;
/// A film so good that the surface has the temperature of what it meets, W/m2K.
const CLAMPED: f64 = 1e9;

/// A square metre of depth in 64 cells whose surface meets this temperature through this film.
fn depth(length: f64, k: f64, alpha: f64, meets_c: f64, h: f64) -> Body {
    let mut body = Body {
        surroundings: vec![steady("surface", meets_c)],
        ..Body::default()
    };
    chain(&mut body, "deep", PIECES, length, 1.0, k, k / alpha);
    body.surfaces = vec![face("deep0", Spot::start, "surface", 1.0, h)];
    body
}

/// A deep slab, alpha = 7e-7 m2/s, k = 1.4, whose surface is stepped by 10 K: at 0.1 m and 6 h the change is
/// erfc(0.4067) = 0.565254 of the step, and the flux is k dT/sqrt(pi alpha t) = 64.23581 W/m2.
/// Source: Carslaw and Jaeger, Conduction of Heat in Solids (1959), section 2.5.
#[test]
fn a_deep_slab_follows_the_error_function() {
    // 1.28 m in cells of 2 cm: the far end feels nothing for twelve hours.
    let (length, k) = (1.28, 1.4);
    let night = solved(&problem(
        depth(length, k, 7e-7, 0.0, CLAMPED),
        10.0,
        &[],
        43_200.0,
        8,
    ));
    let t = along(&night, "deep", 21_600.0);
    // 0.1 m is the border of the fifth and sixth cell: the mean of the two is there to second order.
    near(1.0 - 0.05 * (t[4] + t[5]), 0.565_254, 1.5e-3, "deep slab");
    let half_cell = 0.5 * length / CELLS;
    // Half a cell of 1 cm is short beside the 25 cm the change has gone.
    near(k * t[0] / half_cell, 64.235_81, 0.2, "flux");
}

/// The same slab in 8, 16, 32 and 64 cells: the flux through its surface, and the change at 0.16 m (a border of cells
/// in each), `erfc(0.16 / (2 sqrt(alpha t)))` = erfc(0.650600) = 0.357527, are found to second order.
/// Source: Carslaw and Jaeger (1959), section 2.5.
#[test]
fn a_deep_slab_follows_the_error_function_to_second_order() {
    let (length, k) = (1.28, 1.4);
    let found = [1, 2, 4, 8].map(|resolution| {
        let body = depth(length, k, 7e-7, 0.0, CLAMPED);
        let t = along(
            &solved(&problem(body, 10.0, &[], 43_200.0, resolution)),
            "deep",
            21_600.0,
        );
        let cell = length / (PIECES * resolution) as f64;
        let border = (0.16 / cell).round() as usize;
        let change = 1.0 - 0.05 * (t[border - 1] + t[border]);
        (
            (k * t[0] / (0.5 * cell) - 64.235_81).abs(),
            (change - 0.357_527_08).abs(),
        )
    });
    converges(&found.map(|f| f.0), 2.0, "flux into a deep slab");
    converges(&found.map(|f| f.1), 2.0, "change within a deep slab");
}

/// How deep frost goes: soil of alpha 0.138e-6 m2/s at 20 °C, surface -15 °C, 0 °C after 60 days. Depth goes as the
/// root of time, so after 15 days it is half as deep. Source: Incropera and DeWitt, example 5.6 (from memory;
/// 0.68 m), recomputed 0.6770 m.
#[test]
fn frost_goes_as_deep_as_the_textbook_says() {
    let (length, days) = (2.56, 15.0);
    let end = days * 86_400.0;
    let night = solved(&problem(
        depth(length, 0.52, 0.138e-6, -15.0, CLAMPED),
        20.0,
        &[],
        end,
        8,
    ));
    let t = along(&night, "deep", end);
    let above = t.iter().rposition(|&c| c < 0.0).unwrap();
    let share = -t[above] / (t[above + 1] - t[above]);
    let depth = (above as f64 + 0.5 + share) * length / CELLS;
    // Cells of 4 cm: (dx / 42 cm)^2 / 8 is a thousandth.
    near(2.0 * depth, 0.677_0, 1.5e-3, "frost depth in 60 days");
}

/// Thick aluminium, alpha = 6.4e-5 m2/s, k = 150, in a stream with h = 20: after a minute its surface has gone
/// `1 - exp(h2 alpha t/k2) erfc(h sqrt(alpha t)/k)` = 0.00925524 of the way. Source: Carslaw and Jaeger (1959),
/// section 2.7.
#[test]
fn thick_metal_in_a_stream_warms_at_its_surface() {
    let (length, k, h, air_c) = (0.64, 150.0, 20.0, 200.0);
    let night = solved(&problem(
        depth(length, k, 6.4e-5, air_c, h),
        0.0,
        &[],
        43_200.0,
        8,
    ));
    let first = along(&night, "deep", 60.0)[0];
    let surface = surface_c(first, air_c, k / (0.5 * length / CELLS), h);
    // Cells of 1 cm beside the 6 cm the change has gone in a minute: dx^2/(24 alpha t), a thousandth or two.
    near(surface / air_c, 0.009_255_24, 2e-5, "surface");
}
