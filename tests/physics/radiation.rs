//! Grey exchange against worked values.

use coldsoak::physics::radiation::*;
use nalgebra::DMatrix;

use super::table::{assert_agrees, numbers};

/// Worked values are printed with six figures.
const PRINTED: f64 = 2e-6;

/// ht 1.2.0: a grey surface that sees only surroundings.
const SURROUNDINGS: &str = include_str!("reference/radiation.csv");
/// The library has the Stefan-Boltzmann constant of CODATA 2014, this project that of 2018: 1.3e-6 more.
const TABLED: f64 = 2e-6;

/// Source: ht 1.2.0 `q_rad`.
#[test]
fn a_surface_loses_to_its_surroundings_what_ht_says() {
    for row in numbers(SURROUNDINGS) {
        let (emissivity, t, around, flux) = (row[0], row[1], row[2], row[3]);
        let black_surroundings = exchange_area_m2(1.0, emissivity, 1.0, 0.0);
        assert_agrees(exchange_w(t, around, black_surroundings), flux, TABLED);
        assert_agrees(
            film_coefficient(t, around, emissivity) * (t - around),
            flux,
            TABLED,
        );
    }
}

#[test]
fn two_grey_surfaces_exchange_their_worked_heat() {
    // q = sigma (T1^4 - T2^4) / ((1 - e1)/(e1 A1) + 1/(A1 F12) + (1 - e2)/(e2 A2)), evaluated.
    let plates = exchange_area_m2(1.0, 0.3, 0.9, 1.0);
    assert_agrees(exchange_w(20.0, -20.0, plates), 53.9682, PRINTED);
    let small_in_large = exchange_area_m2(0.5, 0.8, 0.9, 0.5 / 4.0);
    assert_agrees(exchange_w(30.0, -10.0, small_in_large), 81.8849, PRINTED);
    assert!(exchange_area_m2(1.0, 0.0, 0.9, 1.0) == 0.0);
}

#[test]
fn the_film_coefficient_is_the_exact_one() {
    // (emissivity, T1, T2, flux W/m2, exact h_r W/m2K); 4 e sigma Tm^3 would be up to 2.4 % lower.
    const FIVE_FIGURES: f64 = 2e-5;
    for (e, t1, t2, flux, h_r) in [
        (0.9, 20.0, -20.0, 167.3015, 4.18254),
        (0.3, 10.0, -10.0, 27.7721, 1.38860),
        (0.05, 60.0, -30.0, 25.0153, 0.27795),
    ] {
        assert_agrees(film_coefficient(t1, t2, e), h_r, FIVE_FIGURES);
        assert_agrees(exchange_w(t1, t2, e), flux, PRINTED * 2.0);
        assert_agrees(
            film_coefficient(t1, t2, e) * (t1 - t2),
            exchange_w(t1, t2, e),
            1e-14,
        );
    }
}

#[test]
fn three_surfaces_exchange_as_the_radiosities_say() {
    // J = e sigma T^4 + (1 - e) F J solved for the enclosure; net heat leaving each surface.
    let (areas, emissivities) = ([0.5, 1.0, 1.5], [0.8, 0.9, 0.3]);
    let temps_c = [30.0, -5.0, -10.0];
    let view = DMatrix::from_row_slice(
        3,
        3,
        &[
            0.0,
            0.4,
            0.6, //
            0.2,
            0.0,
            0.8, //
            0.2,
            8.0 / 15.0,
            4.0 / 15.0,
        ],
    );
    let exchange = enclosure_exchange_areas(&areas, &emissivities, &view);
    for (i, published) in [68.6598, -41.9062, -26.7536].into_iter().enumerate() {
        let leaving: f64 = (0..3)
            .map(|j| exchange_w(temps_c[i], temps_c[j], exchange[(i, j)]))
            .sum();
        assert_agrees(leaving, published, PRINTED);
    }
}

#[test]
fn black_surfaces_exchange_by_view_alone() {
    // Exact: with no reflections the exchange area is A F.
    let view = DMatrix::from_row_slice(2, 2, &[0.0, 1.0, 0.25, 0.75]);
    let exchange = enclosure_exchange_areas(&[1.0, 4.0], &[1.0, 1.0], &view);
    assert_agrees(exchange[(0, 1)], 1.0, 1e-14);
    assert_agrees(exchange[(1, 1)], 3.0, 1e-14);
}

#[test]
fn slopes_are_those_of_the_complex_step() {
    assert_slopes!(|a, b| exchange_w(a, b, 0.3); [20.0, -20.0], [5.0, 5.0]);
    assert_slopes!(|a, b| film_coefficient(a, b, 0.85); [20.0, -20.0], [5.0, 5.0]);
}
