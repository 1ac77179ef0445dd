//! What is written: every point as CSV, and what equal error costs.

use crate::bench::{Checked, Point};
use crate::methods::Method;
use std::fmt::Write;

/// The errors at which costs are compared, K: what matters of a plan, and what the program delivers by itself on a night
/// without a thermostat.
pub const EQUAL_K: [f64; 2] = [0.05, 0.001];
/// Points whose errors lie between these make the line; beyond, a method does not do what its tolerance says.
const FITTED_K: [f64; 2] = [1e-4, 1.0];
/// Nor do points count whose error is less than this many times what the reference may be off.
const ABOVE_REFERENCE: f64 = 3.0;

/// The head of a table.
const HEAD: &str = "\
| method | by the line: median, ms | least, ms | over coldsoak's, median | least | loosest setting so right, as all tighter ones: ms, K, setting |
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
    /// From medians, from the least; ms.
    cpu_ms: [f64; 2],
    /// Whether the error lies between those of its points.
    within: bool,
}

/// The cost where the line through a method's points, logarithm against logarithm, meets the error asked for; none if it does
/// not fall.
fn cost(points: &[&Point], method: Method, equal_k: f64, least_k: f64) -> Option<Cost> {
    let fitted = FITTED_K[0].max(least_k)..=FITTED_K[1];
    let near = |p: &&&Point| p.method == method && fitted.contains(&p.error_k[0]);
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
        // Dearer the more wrong is no line.
        (along < 0.0).then(|| (my + along / spread * (equal_k.ln() - mx)).exp())
    };
    let errors = || near.iter().map(|p| p.error_k[0]);
    Some(Cost {
        cpu_ms: [at(0)?, at(1)?],
        within: errors().any(|e| e <= equal_k) && errors().any(|e| e >= equal_k),
    })
}

/// The loosest setting of a method whose error is not above the one asked for, nor that of any tighter one: a single run
/// that is right by luck is no setting to trust.
fn trusted(points: &[&Point], method: Method, equal_k: f64) -> String {
    let mut of: Vec<&&Point> = points.iter().filter(|p| p.method == method).collect();
    of.sort_by(|a, b| a.setting.total_cmp(&b.setting));
    let right = of.iter().take_while(|p| p.error_k[0] <= equal_k);
    right.last().map_or_else(
        || "none".into(),
        |p| format!("{:.1}, {:.4}, {}", p.cpu_ms[0], p.error_k[0], p.setting),
    )
}

/// Costs at equal error, two tables a night, and how far the references are from an independent one.
pub fn table(points: &[Point], checks: &[Checked]) -> String {
    let mut text = String::from("CPU at equal errors of the worst engine cell\n");
    for check in checks {
        let of: Vec<&Point> = points
            .iter()
            .filter(|p| p.night == check.night && p.states == check.states)
            .collect();
        let _ = writeln!(
            text,
            "\n## {}, {} states (reference against {}: {:.1e} K)",
            check.night, check.states, check.by, check.difference_k
        );
        for equal_k in EQUAL_K {
            let _ = writeln!(text, "\nAt {equal_k} K:\n");
            text.push_str(HEAD);
            rows(
                &mut text,
                &of,
                equal_k,
                ABOVE_REFERENCE * check.difference_k,
            );
        }
    }
    text
}

fn rows(text: &mut String, of: &[&Point], equal_k: f64, least_k: f64) {
    let mut methods: Vec<Method> = Vec::new();
    for p in of {
        if !methods.contains(&p.method) {
            methods.push(p.method);
        }
    }
    let costs: Vec<(Method, Option<Cost>)> = methods
        .into_iter()
        .map(|method| (method, cost(of, method, equal_k, least_k)))
        .collect();
    let ours = costs.iter().find(|c| c.0 == Method::Ours);
    let ours = ours.and_then(|c| c.1.as_ref());
    for (method, cost) in &costs {
        let line = cost.as_ref().map_or_else(
            || "no line | | | ".to_owned(),
            |c| {
                let [median, least] = c.cpu_ms;
                let ratio = |which: usize| match ours {
                    Some(o) => format!("{:.2}", c.cpu_ms[which] / o.cpu_ms[which]),
                    None => String::new(),
                };
                let mark = if c.within { "" } else { " (extrapolated)" };
                format!(
                    "{median:.1}{mark} | {least:.1} | {} | {}",
                    ratio(0),
                    ratio(1)
                )
            },
        );
        let trusted = trusted(of, *method, equal_k);
        let _ = writeln!(text, "| {} | {line} | {trusted} |", method.name());
    }
}
