//! What is written: every point as CSV, and what equal error costs.

use crate::bench::{Checked, Point};
use crate::methods::Method;
use std::fmt::Write;

/// The error at which costs are compared, K.
pub const EQUAL_K: f64 = 0.05;
/// Points whose errors lie here make the line; beyond, a method does not do what its tolerance says.
const FITTED_K: [f64; 2] = [5e-4, 1.0];

/// The head of a table.
const HEAD: &str = "\
| method | by the line: median, ms | least, ms | over coldsoak's, median | least | cheapest run at most so wrong: ms, K, setting |
|---|---|---|---|---|---|
";

/// All points.
pub fn csv(points: &[Point]) -> String {
    let mut text = String::from(
        "night,states,method,setting,error_k,any_cell_error_k,cpu_median_ms,cpu_least_ms,steps,rates,jacobians,factorisations\n",
    );
    for p in points {
        let ([engine, any], [median, least], w) = (p.error_k, p.cpu_ms, p.work);
        let _ = writeln!(
            text,
            "{},{},\"{}\",{},{engine:.6},{any:.6},{median:.3},{least:.3},{},{},{},{}",
            p.night,
            p.states,
            p.method.name(),
            p.setting,
            w.steps,
            w.rates,
            w.jacobians,
            w.factorisations
        );
    }
    text
}

/// A method's cost at equal error.
struct Cost {
    method: Method,
    /// From medians, from the least; ms.
    cpu_ms: [f64; 2],
    /// Whether the error lies between those of its points.
    within: bool,
}

/// The cost where the line through a method's points, logarithm against logarithm, meets the error asked for.
fn cost(points: &[&Point], method: Method) -> Option<Cost> {
    let near =
        |p: &&&Point| p.method == method && (FITTED_K[0]..=FITTED_K[1]).contains(&p.error_k[0]);
    let near: Vec<&Point> = points.iter().filter(near).copied().collect();
    if near.len() < 2 {
        return None;
    }
    let at = |which: usize| {
        let n = near.len() as f64;
        let x: Vec<f64> = near.iter().map(|p| p.error_k[0].ln()).collect();
        let y: Vec<f64> = near.iter().map(|p| p.cpu_ms[which].ln()).collect();
        let (mx, my) = (x.iter().sum::<f64>() / n, y.iter().sum::<f64>() / n);
        let along: f64 = x.iter().zip(&y).map(|(x, y)| (x - mx) * (y - my)).sum();
        let spread: f64 = x.iter().map(|x| (x - mx).powi(2)).sum();
        (my + along / spread * (EQUAL_K.ln() - mx)).exp()
    };
    let errors = || near.iter().map(|p| p.error_k[0]);
    Some(Cost {
        method,
        cpu_ms: [at(0), at(1)],
        within: errors().any(|e| e <= EQUAL_K) && errors().any(|e| e >= EQUAL_K),
    })
}

/// The cheapest run of a method whose error is not above the one asked for.
fn cheapest(points: &[&Point], method: Method) -> String {
    let right = |p: &&&Point| p.method == method && p.error_k[0] <= EQUAL_K;
    let cheaper = |a: &&&Point, b: &&&Point| a.cpu_ms[0].total_cmp(&b.cpu_ms[0]);
    let found = points.iter().filter(right).min_by(cheaper);
    found.map_or_else(
        || "none".into(),
        |p| format!("{:.1}, {:.3}, {}", p.cpu_ms[0], p.error_k[0], p.setting),
    )
}

/// Costs at equal error, a table a night, and how far the references are from an independent one.
pub fn table(points: &[Point], checks: &[Checked]) -> String {
    let mut text = format!("CPU at an engine error of {EQUAL_K} K\n");
    for check in checks {
        let of: Vec<&Point> = points
            .iter()
            .filter(|p| p.night == check.night && p.states == check.states)
            .collect();
        let mut methods: Vec<Method> = Vec::new();
        for p in &of {
            if !methods.contains(&p.method) {
                methods.push(p.method);
            }
        }
        let costs: Vec<Cost> = methods.iter().filter_map(|&m| cost(&of, m)).collect();
        let ours = costs.iter().find(|c| c.method == Method::Ours);
        let _ = writeln!(
            text,
            "\n{}, {} states (reference against {}: {:.1e} K)\n",
            check.night, check.states, check.by, check.difference_k
        );
        text.push_str(HEAD);
        for c in &costs {
            let [median, least] = c.cpu_ms;
            let ratio = |which: usize| ours.map_or(f64::NAN, |o| c.cpu_ms[which] / o.cpu_ms[which]);
            let _ = writeln!(
                text,
                "| {}{} | {median:.1} | {least:.1} | {:.2} | {:.2} | {} |",
                c.method.name(),
                if c.within { "" } else { " (extrapolated)" },
                ratio(0),
                ratio(1),
                cheapest(&of, c.method)
            );
        }
    }
    text
}
