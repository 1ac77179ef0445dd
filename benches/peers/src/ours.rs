//! coldsoak's own march.

use crate::carried::{Carried, Work};
use crate::problem::{SAME_MOMENT_S, SAMPLE_S};
use coldsoak::network::Network;
use coldsoak::solver::march;

/// Carries a night.
pub fn integrate(net: &Network, tolerance: f64) -> Result<Carried, String> {
    let marched = march(net, tolerance, SAMPLE_S).map_err(|e| e.to_string())?;
    let trace = &marched.trace;
    let mut cells: Vec<Vec<f64>> = Vec::new();
    for (k, &time_s) in trace.times_s.iter().enumerate() {
        if (time_s - cells.len() as f64 * SAMPLE_S).abs() <= SAME_MOMENT_S {
            cells.push(trace.sample(k)[..net.index.cells].to_vec());
        }
    }
    let effort = marched.effort;
    Ok(Carried {
        cells,
        switchings: trace.switchings.len(),
        work: Work {
            steps: effort.steps,
            rates: effort.evaluations,
            // One a step, whatever the number of tries.
            jacobians: effort.steps,
            factorisations: effort.factorisations,
        },
    })
}
