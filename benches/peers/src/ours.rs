//! coldsoak's own march.

use crate::carried::{Carried, Work};
use crate::problem::{SAME_MOMENT_S, SAMPLE_S};
use coldsoak::network::Network;
use coldsoak::solver::{Solution, LaneJob, march, integrate_lanes};

/// Carries a night.
pub fn integrate(net: &Network, tolerance: f64) -> Result<Carried, String> {
    let marched = integrate(net, tolerance, SAMPLE_S).map_err(|e| e.to_string())?;
    Ok(carried(net, &marched))
}

/// Carries nights abreast.
pub fn abreast(nets: &[Network], tolerance: f64) -> Result<Vec<Carried>, String> {
    let wanted = |net| LaneJob {
        net,
        tolerance,
        sample_s: SAMPLE_S,
    };
    let nights: Vec<LaneJob> = nets.iter().map(wanted).collect();
    let marched = integrate_lanes(&nights).into_iter().zip(nets);
    marched
        .map(|(marched, net)| Ok(carried(net, &marched.map_err(|e| e.to_string())?)))
        .collect()
}

fn carried(net: &Network, marched: &Solution) -> Carried {
    let trace = &marched.trace;
    let mut cells: Vec<Vec<f64>> = Vec::new();
    for (k, &time_s) in trace.times_s.iter().enumerate() {
        if (time_s - cells.len() as f64 * SAMPLE_S).abs() <= SAME_MOMENT_S {
            cells.push(trace.sample(k)[..net.index.cells].to_vec());
        }
    }
    let effort = marched.effort;
    Carried {
        cells,
        switchings: trace.switchings.len(),
        work: Work {
            steps: effort.steps,
            rates: effort.evaluations,
            // One a step, whatever the number of tries.
            jacobians: effort.steps,
            factorisations: effort.factorisations,
        },
    }
}
