//! How fast the indices of `spread` come to those of two functions whose indices are known in closed form.

use super::plot::{Curve, Words, draw};
use coldsoak::study::sample::{axis, coordinate};
use coldsoak::study::sobol::{Answers, indices};
use std::error::Error;
use std::f64::consts::PI;
use std::fmt::Write;
use std::path::Path;

/// The seed of the points, and that of the resampling.
const SEED: u32 = 1;
/// Powers of two of points.
const POWERS: std::ops::RangeInclusive<u32> = 5..=14;

/// A function on the unit cube and its indices.
struct Known {
    name: &'static str,
    axes: usize,
    of: fn(&[f64]) -> f64,
    first: Vec<f64>,
    total: Vec<f64>,
}

/// Writes `indices.csv` and `indices.svg`.
pub fn write(folder: &Path) -> Result<(), Box<dyn Error>> {
    std::fs::create_dir_all(folder)?;
    let mut table =
        "function,points,evaluations,largest_error,largest_half_width,covered_of\n".to_owned();
    let mut curves = Vec::new();
    for (k, known) in [ishigami(), g_function()].into_iter().enumerate() {
        let (mut errors, mut widths) = (Vec::new(), Vec::new());
        for power in POWERS {
            let points = 1_u32 << power;
            let found = measured(&known, points)?;
            let evaluations = points as usize * (known.axes + 2);
            writeln!(
                table,
                "{},{points},{evaluations},{:.3e},{:.3e},{} of {}",
                known.name,
                found.error,
                found.half_width,
                found.covered,
                2 * known.axes
            )?;
            errors.push((f64::from(points), found.error));
            widths.push((f64::from(points), found.half_width));
        }
        let curve = |what: &str, ink, points| Curve {
            name: format!("{}: {what}", known.name),
            ink,
            points,
            guide: false,
        };
        let start = widths[0];
        curves.push(curve("largest error of an index", 2 * k, errors));
        curves.push(curve(
            "largest half-width of an interval",
            2 * k + 1,
            widths.clone(),
        ));
        // The pace of random points, for comparison.
        curves.push(Curve {
            name: String::new(),
            ink: 2 * k + 1,
            points: widths
                .iter()
                .map(|(n, _)| (*n, start.1 * (start.0 / n).sqrt()))
                .collect(),
            guide: true,
        });
    }
    std::fs::write(folder.join("indices.csv"), table)?;
    let words = Words {
        title: "First and total indices of two known functions (dashed: one over the square root)",
        across: "points (each evaluated once for every axis, and twice)",
        up: "of the variance",
    };
    draw(&folder.join("indices.svg"), &words, &curves)
}

/// What was found at so many points.
struct Found {
    error: f64,
    half_width: f64,
    covered: usize,
}

fn measured(known: &Known, points: u32) -> Result<Found, Box<dyn Error>> {
    let answers: Vec<Answers> = (0..points)
        .map(|n| {
            let axes = known.axes as u32;
            let point = |from: u32| -> Vec<f64> {
                (from..from + axes)
                    .map(|d| coordinate(SEED, n, axis(&d.to_string(), false)))
                    .collect()
            };
            let (a, b) = (point(0), point(axes));
            let mixed = |i: usize| {
                let mut x = a.clone();
                x[i] = b[i];
                (known.of)(&x)
            };
            Answers {
                first: (known.of)(&a),
                second: (known.of)(&b),
                mixed: (0..known.axes).map(mixed).collect(),
            }
        })
        .collect();
    let found = indices(&answers, SEED).ok_or("the function does not vary")?;
    let pairs: Vec<_> = found
        .iter()
        .enumerate()
        .flat_map(|(i, f)| [(f.first, known.first[i]), (f.total, known.total[i])])
        .collect();
    let largest = |of: &dyn Fn(&(coldsoak::study::sobol::Index, f64)) -> f64| {
        pairs.iter().map(of).fold(0.0, f64::max)
    };
    Ok(Found {
        error: largest(&|(index, exact)| (index.share - exact).abs()),
        half_width: largest(&|(index, _)| 0.5 * (index.high - index.low)),
        covered: pairs
            .iter()
            .filter(|(i, exact)| (i.low..=i.high).contains(exact))
            .count(),
    })
}

/// sin x1 + 7 sin² x2 + 0.1 x3⁴ sin x1 on (-π, π). Source: Ishigami and Homma (1990).
fn ishigami() -> Known {
    let (a, b) = (7.0, 0.1);
    let alone = 0.5 * (1.0 + b * PI.powi(4) / 5.0).powi(2);
    let second = a * a / 8.0;
    let joint = b * b * PI.powi(8) * (1.0 / 18.0 - 1.0 / 50.0);
    let all = alone + second + joint;
    Known {
        name: "Ishigami",
        axes: 3,
        of: |u| {
            let x = |i: usize| PI * (2.0 * u[i] - 1.0);
            x(0).sin() + 7.0 * x(1).sin().powi(2) + 0.1 * x(2).powi(4) * x(0).sin()
        },
        first: vec![alone / all, second / all, 0.0],
        total: vec![(alone + joint) / all, second / all, joint / all],
    }
}

/// The constants of the g-function.
const G: [f64; 6] = [0.0, 1.0, 4.5, 9.0, 99.0, 99.0];

/// The product of (|4x - 2| + a)/(1 + a). Source: Saltelli and Sobol' (1995).
fn g_function() -> Known {
    let v = G.map(|a| 1.0 / (3.0 * (1.0 + a) * (1.0 + a)));
    let product: f64 = v.iter().map(|v| 1.0 + v).product();
    let all = product - 1.0;
    Known {
        name: "g-function",
        axes: G.len(),
        of: |u| {
            u.iter()
                .zip(G)
                .map(|(u, a)| ((4.0 * u - 2.0).abs() + a) / (1.0 + a))
                .product()
        },
        first: v.iter().map(|v| v / all).collect(),
        total: v.iter().map(|v| v * product / (1.0 + v) / all).collect(),
    }
}
