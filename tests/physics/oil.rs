//! Oil against Walther rows, the cranking limits of SAE J300, and layers heated from below.

use coldsoak::physics::oil::*;

use super::table::{assert_agrees, assert_envelope, numbers};

/// ht 1.2.0: Hollands, Raithby and Konicek, general Prandtl number.
const LAYER: &str = include_str!("reference/layer.csv");

/// Name, viscosities at 40 and 100 degC (typical data sheets, from memory), ASTM D341 constants and
/// mm2/s at -30, -20, -10, 0, 10, 20 and 60 degC, evaluated from the equation.
type Row = (&'static str, f64, f64, f64, f64, [f64; 7]);
const OILS: [Row; 6] = [
    (
        "SAE 30",
        100.0,
        11.0,
        9.25259,
        3.58646,
        [9.187e4, 1.973e4, 5470.0, 1861.0, 748.1, 344.4, 39.5],
    ),
    (
        "SAE 40",
        145.0,
        14.5,
        8.94342,
        3.44917,
        [1.506e5, 3.204e4, 8752.0, 2925.0, 1153.0, 519.9, 55.21],
    ),
    (
        "SAE 50",
        225.0,
        19.8,
        8.69409,
        3.33462,
        [2.963e5, 6.075e4, 1.599e4, 5154.0, 1962.0, 856.2, 81.43],
    ),
    (
        "SAE 60",
        310.0,
        24.5,
        8.59367,
        3.28441,
        [5.263e5, 1.028e5, 2.589e4, 8021.0, 2946.0, 1246.0, 107.4],
    ),
    (
        "15W-50",
        141.0,
        19.6,
        7.42270,
        2.84082,
        [2.596e4, 8643.0, 3360.0, 1485.0, 730.3, 392.9, 63.04],
    ),
    (
        "20W-50",
        165.0,
        19.5,
        7.90232,
        3.02758,
        [5.943e4, 1.681e4, 5727.0, 2273.0, 1024.0, 512.4, 68.48],
    ),
];
const TEMPS_C: [f64; 7] = [-30.0, -20.0, -10.0, 0.0, 10.0, 20.0, 60.0];

/// Constants are printed with six figures, viscosities with four (three for one).
const CONSTANTS: f64 = 2e-6;
const FOUR_FIGURES: f64 = 5e-4;

/// Depth of oil in m of the three sumps: the least of nine tenths of the sump and volume over plan area.
fn depths() -> [f64; 3] {
    [(4.0, 0.045, 0.12), (7.6, 0.095, 0.10), (11.4, 0.12, 0.11)]
        .map(|(litres, area, depth): (f64, f64, f64)| (0.9 * depth).min(litres * 1e-3 / area))
}

/// Hollands, Raithby and Konicek 1975, general Prandtl number; oil's is as good as infinite, which leaves
/// k1 = 1.44 and k2 = 75.
fn hollands(ra: f64, pr: f64) -> f64 {
    if ra < 1708.0 {
        return 1.0;
    }
    let k1 = 1.44 / (1.0 + 0.018 / pr + 0.00136 / (pr * pr));
    let k2 = 75.0 * (1.5 / pr.sqrt()).exp();
    let r = ra.cbrt() / k2;
    let roll = k1 + 2.0 * r.powf(1.0 - r.ln());
    1.0 + (1.0 - 1708.0 / ra) * roll + ((ra / 5830.0).cbrt() - 1.0).max(0.0)
}

/// Rayleigh number of a depth of oil heated by 10 K, as published: g beta dT h^3 / (nu alpha).
fn rayleigh_of_ten_kelvin(nu_mm2_s: f64, depth: f64) -> f64 {
    9.80665 * 7e-4 * 10.0 * depth.powi(3) / (nu_mm2_s * 1e-6 * 8e-8)
}

/// Mixing of the whole depth when 10 K lie across it: 2.5 K across each quarter.
fn mixing_of_ten_kelvin(nu_mm2_s: f64, depth: f64) -> f64 {
    mixing(2.5, nu_mm2_s, depth)
}

/// Pairs (ours, published) over -15 to 70 degC and the three sumps.
fn anchored(nu40: f64, nu100: f64, published: impl Fn(f64, f64) -> Option<f64>) -> Vec<(f64, f64)> {
    let oil = Walther::through(nu40, nu100);
    let mut pairs = Vec::new();
    for depth in depths() {
        for temp_c in -15..=70 {
            let nu = oil.viscosity_mm2_s(f64::from(temp_c));
            let ra = rayleigh_of_ten_kelvin(nu, depth);
            if let Some(published) = published(ra, nu * 1e-6 / 8e-8) {
                pairs.push((mixing_of_ten_kelvin(nu, depth), published));
            }
        }
    }
    pairs
}

#[test]
fn viscosities_are_those_of_walthers_line() {
    for (name, nu40, nu100, a, b, rows) in OILS {
        let oil = Walther::through(nu40, nu100);
        assert_agrees(oil.a, a, CONSTANTS);
        assert_agrees(oil.b, b, CONSTANTS);
        for (temp_c, published) in TEMPS_C.into_iter().zip(rows) {
            let found = oil.viscosity_mm2_s(temp_c);
            assert!(
                (found / published - 1.0).abs() < FOUR_FIGURES,
                "{name} at {temp_c}: {found}"
            );
        }
        assert_agrees(oil.viscosity_mm2_s(40.0), nu40, 1e-12);
        assert_agrees(oil.viscosity_mm2_s(100.0), nu100, 1e-12);
    }
}

#[test]
fn winter_grades_agree_with_their_cranking_limits() {
    // SAE J300 (2015): cranking 15W 7.0 Pa s at -20, 20W 9.5 at -15; pumping 60 at -25 and -20 degC.
    // Density of mineral oil, API MPMS 11.1 (from memory). A typical oil lies near its cranking limit,
    // which shear lowers, and far under its pumping limit.
    let density = |t: f64| 885.0 * (1.0 - 6.8e-4 * (t - 15.6));
    let dynamic = |oil: Walther, t: f64| 1e-6 * oil.viscosity_mm2_s(t) * density(t);
    let (fifteen, twenty) = (Walther::through(141.0, 19.6), Walther::through(165.0, 19.5));
    const NEAR: f64 = 0.15;
    assert_agrees(dynamic(fifteen, -20.0), 7.0, NEAR);
    assert_agrees(dynamic(twenty, -15.0), 9.5, NEAR);
    assert!(dynamic(fifteen, -25.0) < 60.0 && dynamic(twenty, -20.0) < 60.0);
}

#[test]
fn conductivity_and_diffusivity_are_those_of_engine_oil() {
    // Incropera and DeWitt, unused engine oil (from memory), 273 to 340 K: k, rho, cp.
    let table = [
        (0.147, 899.1, 1796.0),
        (0.144, 895.3, 1827.0),
        (0.145, 890.0, 1868.0),
        (0.145, 884.1, 1909.0),
        (0.143, 871.8, 1993.0),
        (0.139, 859.9, 2076.0),
    ];
    assert_envelope(
        table.map(|(k, ..)| (CONDUCTIVITY_W_PER_MK, k)),
        -8.2..=-2.8,
        0.2,
    );
    let diffusivity = table.map(|(k, rho, cp)| (DIFFUSIVITY_M2_PER_S, k / (rho * cp)));
    assert_envelope(diffusivity, -12.2..=2.8, 0.2);
    // Cragoe 1929 (from memory), specific gravity 0.885, -30 to 60 degC.
    let cragoe = [0.13457, 0.13243, 0.13100, 0.12814];
    assert_envelope(cragoe.map(|k| (CONDUCTIVITY_W_PER_MK, k)), 0.3..=5.4, 0.1);
}

#[test]
fn hollands_as_written_here_is_that_of_ht() {
    // ht has 5803 for 5830 in the last term: 0.16 % of it.
    for row in numbers(LAYER) {
        assert_agrees(hollands(row[0], row[1]), row[2], 2e-3);
    }
}

#[test]
fn oil_heated_from_below_mixes_as_hollands_measured() {
    for (name, nu40, nu100, ..) in OILS {
        let limit = if ["SAE 30", "SAE 40"].contains(&name) {
            25.0
        } else {
            20.0
        };
        for (found, published) in anchored(nu40, nu100, |ra, _| Some(hollands(ra, f64::INFINITY))) {
            let error = 100.0 * (found / published - 1.0);
            assert!(error.abs() < limit, "{name}: {error} %");
        }
    }
    let all = OILS
        .iter()
        .flat_map(|row| anchored(row.1, row.2, |ra, _| Some(hollands(ra, f64::INFINITY))));
    assert_envelope(all, -12.4..=23.0, 0.5);
}

/// The fall in K across one piece of oil that carries a flux of heat.
fn fall_for(flux_w: f64, height: f64, depth: f64, nu: f64) -> f64 {
    let (mut low, mut high) = (0.0, 100.0);
    for _ in 0..80 {
        let middle = 0.5 * (low + high);
        if Piece::of(0.1, 1.0, height, depth).carries_w(middle, 0.0, nu) < flux_w {
            low = middle;
        } else {
            high = middle;
        }
    }
    low
}

#[test]
fn cutting_the_oil_finer_changes_no_flux() {
    // Half a layer from the shell, whole layers between, half a layer to the surface; the flux at which
    // their falls add up to 10 K. Where it does not depend on the cut it is that of the whole depth.
    const CUT: f64 = 1e-9;
    let (depth, nu) = (0.08, 800.0);
    let whole = 10.0 * 0.135 * 0.1 / depth * mixing(2.5, nu, depth);
    for layers in [4, 8, 16] {
        let height = depth / f64::from(layers);
        let (mut low, mut high) = (0.0, 1e4);
        for _ in 0..80 {
            let flux = 0.5 * (low + high);
            let falls = 2.0 * fall_for(flux, 0.5 * height, depth, nu)
                + f64::from(layers - 1) * fall_for(flux, height, depth, nu);
            if falls < 10.0 {
                low = flux;
            } else {
                high = flux;
            }
        }
        assert_agrees(low, whole, CUT);
    }
}

#[test]
fn oil_heated_from_above_conducts_at_its_conductivity() {
    // Fourier's law.
    assert_agrees(
        Piece::of(0.2, 0.5, 0.02, 0.08).carries_w(-10.0, 30.0, 5000.0),
        0.135 * 0.1 / 0.02 * -40.0,
        1e-14,
    );
}

#[test]
fn globe_and_dropkin_find_more_mixing() {
    // Globe and Dropkin 1959 (from memory): 0.069 Ra^(1/3) Pr^0.074, Ra 3e5 to 7e9, Pr to 8750.
    let globe =
        |ra: f64, pr: f64| (ra > 3e5 && pr < 8750.0).then(|| 0.069 * ra.cbrt() * pr.powf(0.074));
    let all = OILS.iter().flat_map(|row| anchored(row.1, row.2, globe));
    assert_envelope(all.map(|(ours, theirs)| (theirs, ours)), 33.0..=58.5, 0.6);
}

#[test]
fn slopes_are_those_of_the_complex_step() {
    let oil = Walther::through(225.0, 19.8);
    assert_slopes!(|t| oil.viscosity_mm2_s(t); [-20.0], [15.0], [80.0]);
    assert_slopes!(|fall, nu| mixing(fall, nu, 0.09);
        [2.5, 800.0], [1e-3, 5000.0], [0.0, 5000.0], [-3.0, 5000.0]);
    let piece = Piece::of(0.1, 1.0, 0.02, 0.08);
    assert_slopes!(|low, up, nu| piece.carries_w(low, up, nu);
        [5.0, 3.0, 800.0], [3.0, 3.0, 800.0], [0.0, 9.0, 800.0]);
}
