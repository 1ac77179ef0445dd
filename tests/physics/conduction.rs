//! Walls and bars against worked examples and ht.

use coldsoak::physics::conduction::*;

use super::table::{assert_agrees, rows};

/// ht 1.2.0: tube walls, and a ball buried deep.
const WALLS: &str = include_str!("reference/walls.csv");
/// Tables are written with ten figures.
const WRITTEN: f64 = 1e-9;
/// Worked values are printed with six figures.
const PRINTED: f64 = 2e-6;
/// Depth of the buried ball against its radius leaves this much.
const BURIED: f64 = 1e-6;

#[test]
fn a_five_layer_wall_adds_up() {
    // Cowl and blanket: film 8, 2 mm of 0.25, 25 mm of 0.04, 0.5 mm of 0.25, film 12 W/m2K; U evaluated
    // from R = 0.843333 m2K/W.
    let layers = [
        8.0,
        bar_w_per_k(0.25, 1.0, 0.002),
        bar_w_per_k(0.04, 1.0, 0.025),
        bar_w_per_k(0.25, 1.0, 0.0005),
        12.0,
    ];
    let u = layers.into_iter().fold(f64::INFINITY, series_w_per_k);
    assert_agrees(u, 1.185_771, PRINTED);
    assert_agrees(u * 30.0, 35.573_12, PRINTED);
}

#[test]
fn a_window_loses_its_textbook_heat() {
    // Cengel, Heat Transfer, examples 3-2 and 3-3 (from memory): 0.8 x 1.5 m, glass 0.78 W/mK; single
    // 8 mm, 266 W; two of 4 mm with 10 mm of air at 0.026, 69.2 W; films 10 and 40 W/m2K, 20 to -10 degC.
    const THREE_FIGURES: f64 = 1e-3;
    let area = 1.2;
    let films = series_w_per_k(10.0 * area, 40.0 * area);
    let single = series_w_per_k(films, bar_w_per_k(0.78, area, 0.008));
    assert_agrees(30.0 * single, 266.0, THREE_FIGURES);
    let pane = bar_w_per_k(0.78, area, 0.004);
    let gap = bar_w_per_k(0.026, area, 0.010);
    let double = series_w_per_k(series_w_per_k(films, series_w_per_k(pane, pane)), gap);
    assert_agrees(30.0 * double, 69.2, THREE_FIGURES);
}

#[test]
fn tube_walls_and_buried_balls_are_those_of_ht() {
    for row in rows(WALLS) {
        let number = |i: usize| row[i].parse::<f64>().unwrap();
        if row[0] == "tube" {
            let found = tube_wall_w_per_k(number(1), number(2), number(3), number(4));
            assert_agrees(found, number(5), WRITTEN);
        } else {
            let found = shell_wall_w_per_k(number(1), number(3), f64::INFINITY);
            assert_agrees(found, number(5), BURIED);
        }
    }
}

#[test]
fn a_ball_is_many_thin_shells() {
    // Numerical: resistances of flat layers of the local area add up, midpoint rule.
    let (k, inner, outer, layers) = (0.04, 0.1, 0.15, 2000);
    let thickness = (outer - inner) / f64::from(layers);
    let resistance: f64 = (0..layers)
        .map(|i| inner + (f64::from(i) + 0.5) * thickness)
        .map(|r| 1.0 / bar_w_per_k(k, 4.0 * std::f64::consts::PI * r * r, thickness))
        .sum();
    assert_agrees(shell_wall_w_per_k(k, inner, outer), 1.0 / resistance, 1e-6);
}
