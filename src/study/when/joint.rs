//! Two heaters with times of their own: the pair of starts that is ready for the least energy.
//!
//! A grid over both starts is run whole. In each of its rows (one start of the second heater) the least ready start
//! of the first lies in a known bracket, refined to the minute where the row can still win: a row cannot if even
//! the night at the lower end of its bracket, which is not ready, draws more than a ready night elsewhere. Around
//! the best row the second heater's start is then moved by ever smaller steps, down to a minute, as long as that
//! saves energy. Pairs that are known to be worth a try (the starts as they are written, and those with one heater as
//! late as it can be) are tried beside the grid. So the plan is the best near the best of these; a better one in a
//! narrow dip between grid lines could be missed, which the grid's step says.

use super::search::{Probe, ProgressCallback, least, probed};
use super::starts::{Starts, Switches};
use crate::night::NightError;
use crate::scenario::document::Scenario;

/// Columns of the grid at most, so that it is a hundred nights or so.
const COLUMNS: usize = 10;
/// The grid's step is a multiple of this, minutes.
const STEP_MIN: usize = 30;
/// How far the first heater's start is looked for, in strides of the second's: a minute of the second heater is
/// seldom worth more than that of the first. Further off the search goes on from the end of the reach.
const REACH: usize = 4;
/// Energies closer than this are the same, kWh: a tenth of a watt-hour.
const SAME_KWH: f64 = 1e-4;

/// A ready pair of starts.
#[derive(Debug, Clone, PartialEq)]
struct Pair {
    starts: [usize; 2],
    kwh: f64,
}

/// The step of the grid over the starts, minutes.
pub fn grid_step(most: usize) -> usize {
    most.div_ceil(COLUMNS).div_ceil(STEP_MIN).max(1) * STEP_MIN
}

/// What a search over pairs found.
#[derive(Debug, Clone, PartialEq)]
pub struct Joint {
    /// The least-energy ready starts; none if no pair tried is ready.
    pub found: Option<Starts>,
    /// Of all pairs of the grid and those beside it, the one that comes nearest to ready, with what it comes to.
    pub nearest: Option<(Starts, Probe)>,
}

/// The least-energy ready starts of two heaters; `beside` are pairs that are tried beside the grid.
///
/// *Errors*: a night that cannot be computed.
pub fn least_energy(
    switches: &Switches,
    scenario: &Scenario,
    beside: &[[usize; 2]],
    tell: ProgressCallback,
) -> Result<Joint, NightError> {
    let step = grid_step(switches.most);
    let mut lines: Vec<usize> = (0..switches.most).step_by(step).collect();
    lines.push(switches.most);
    let pairs: Vec<[usize; 2]> = lines
        .iter()
        .flat_map(|&second| lines.iter().map(move |&first| [first, second]))
        .chain(beside.iter().copied())
        .collect();
    let nights: Vec<Scenario> = pairs.iter().map(|p| switches.night(scenario, p)).collect();
    let probes = probed(&nights, tell)?;
    let nearest = pairs
        .iter()
        .zip(&probes)
        .filter_map(|(pair, probe)| Some((pair.to_vec(), probe.clone()?)))
        .reduce(|a, b| if b.1.nearer_than(&a.1) { b } else { a });
    let (grid, apart) = probes.split_at(lines.len() * lines.len());
    let rows: Vec<&[Option<Probe>]> = grid.chunks(lines.len()).collect();
    let mut best: Option<Pair> = None;
    for (&starts, probe) in beside.iter().zip(apart) {
        if let Some(probe) = probe.as_ref().filter(|p| p.ready.ready_at_departure) {
            better(
                &mut best,
                Pair {
                    starts,
                    kwh: probe.kwh,
                },
            );
        }
    }
    for (row, &second) in rows.iter().zip(&lines) {
        if let Some(k) = row.iter().position(is_ready) {
            let kwh = row[k].as_ref().map_or(f64::INFINITY, |p| p.kwh);
            better(
                &mut best,
                Pair {
                    starts: [lines[k], second],
                    kwh,
                },
            );
        }
    }
    for (row, &second) in rows.iter().zip(&lines) {
        let Some(k) = row.iter().position(is_ready).filter(|&k| k > 0) else {
            continue;
        };
        let at_least = row[k - 1].as_ref().map_or(0.0, |p| p.kwh);
        if best.as_ref().is_some_and(|b| at_least > b.kwh) {
            continue;
        }
        let found = in_row(switches, scenario, second, lines[k - 1], lines[k], tell)?;
        found.into_iter().for_each(|pair| better(&mut best, pair));
    }
    let Some(mut best) = best else {
        return Ok(Joint {
            found: None,
            nearest,
        });
    };
    let mut stride = (step / 3).max(1);
    loop {
        let from = best.clone();
        let [first, second] = from.starts;
        let reach = REACH * stride;
        for moved in [
            second.saturating_sub(stride),
            (second + stride).min(switches.most),
        ] {
            if moved != second {
                let low = first.saturating_sub(reach);
                let high = (first + reach).min(switches.most);
                let found = in_row(switches, scenario, moved, low, high, tell)?;
                let mut so_far = Some(best);
                found.into_iter().for_each(|pair| better(&mut so_far, pair));
                best = so_far.unwrap_or(from.clone());
            }
        }
        if best == from && stride == 1 {
            break;
        }
        if best == from {
            stride = (stride / 3).max(1);
        }
    }
    Ok(Joint {
        found: Some(best.starts.to_vec()),
        nearest,
    })
}

/// The least ready start of the first heater between two, at a start of the second.
fn in_row(
    switches: &Switches,
    scenario: &Scenario,
    second: usize,
    low: usize,
    high: usize,
    tell: ProgressCallback,
) -> Result<Option<Pair>, NightError> {
    let make = |n: usize| switches.night(scenario, &[low + n, second]);
    let sought = least(high - low, (high - low).max(1), &make, tell)?;
    Ok(sought.found.and_then(|n| {
        let kwh = sought.at(n)?.kwh;
        Some(Pair {
            starts: [low + n, second],
            kwh,
        })
    }))
}

/// Keeps the pair that draws less; of equal ones the first.
fn better(best: &mut Option<Pair>, pair: Pair) {
    if best.as_ref().is_none_or(|b| pair.kwh < b.kwh - SAME_KWH) {
        *best = Some(pair);
    }
}

fn is_ready(probe: &Option<Probe>) -> bool {
    probe.as_ref().is_some_and(|p| p.ready.ready_at_departure)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_grid_has_ten_steps_or_so_of_whole_half_hours() {
        assert_eq!(grid_step(810), 90);
        assert_eq!(grid_step(300), 30);
        assert_eq!(grid_step(10), 30);
    }
}
