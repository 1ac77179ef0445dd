//! Two heaters with times of their own: the pair of starts that is ready for the least energy.
//!
//! A grid over both starts is run whole. In each of its rows (one start of the second heater) the least ready start
//! of the first lies in a known bracket, refined to the minute where the row can still win: a row cannot if even
//! the night at the lower end of its bracket, which is not ready, draws more than a ready night elsewhere. Around
//! the best row the second heater's start is then moved by ever smaller steps, down to a minute, as long as that
//! saves energy. Pairs that are known to be worth a try (the starts as they are written, and those with one heater as
//! late as it can be) are tried beside the grid. So the plan is the best near the best of these; a better one in a
//! narrow dip between grid lines could be missed, which the grid's step says.

use super::super::case::Case;
use super::search::{Probe, Search};
use super::starts::Starts;
use crate::night::NightError;

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

impl Pair {
    /// The pair of these starts, if it is ready.
    fn of(starts: [usize; 2], probe: &Option<Probe>) -> Option<Self> {
        let ready = probe.as_ref().filter(|p| p.ready.ready_at_departure)?;
        Some(Self {
            starts,
            kwh: ready.kwh,
        })
    }

    /// That of two pairs which draws less; of equal ones the first.
    fn better(self, other: Self) -> Self {
        if other.kwh < self.kwh - SAME_KWH {
            other
        } else {
            self
        }
    }
}

/// The step of the grid over the starts, minutes.
pub fn grid_step(most: usize) -> usize {
    most.div_ceil(COLUMNS).div_ceil(STEP_MIN).max(1) * STEP_MIN
}

/// The least-energy ready starts of two heaters, none if no pair that was tried is ready; `beside` are pairs that are tried beside the grid.
///
/// *Errors*: a night that cannot be computed.
pub fn least_energy(search: &Search, beside: &[[usize; 2]]) -> Result<Option<Starts>, NightError> {
    let switches = &search.switches;
    let step = grid_step(switches.most);
    let mut lines: Vec<usize> = (0..switches.most).step_by(step).collect();
    lines.push(switches.most);
    let pairs: Vec<[usize; 2]> = lines
        .iter()
        .flat_map(|&second| lines.iter().map(move |&first| [first, second]))
        .chain(beside.iter().copied())
        .collect();
    let cases: Vec<Case> = pairs.iter().map(|pair| switches.case(pair)).collect();
    let probes: Vec<Option<Probe>> = search
        .probes(&cases)
        .into_iter()
        .collect::<Result<_, _>>()?;
    let (grid, apart) = probes.split_at(lines.len() * lines.len());
    let rows: Vec<&[Option<Probe>]> = grid.chunks(lines.len()).collect();
    let first_ready = |(row, &second): (&&[Option<Probe>], &usize)| {
        let k = row.iter().position(is_ready)?;
        Pair::of([lines[k], second], &row[k])
    };
    let beside = beside.iter().zip(apart);
    let ready = beside
        .filter_map(|(&starts, probe)| Pair::of(starts, probe))
        .chain(rows.iter().zip(&lines).filter_map(first_ready));
    let Some(mut best) = ready.reduce(Pair::better) else {
        return Ok(None);
    };
    for (row, &second) in rows.iter().zip(&lines) {
        let Some(k) = row.iter().position(is_ready).filter(|&k| k > 0) else {
            continue;
        };
        let at_least = row[k - 1].as_ref().map_or(0.0, |p| p.kwh);
        if at_least <= best.kwh {
            let found = in_row(search, second, lines[k - 1], lines[k])?;
            best = found.into_iter().fold(best, Pair::better);
        }
    }
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
                let found = in_row(search, moved, low, high)?;
                best = found.into_iter().fold(best, Pair::better);
            }
        }
        if best == from && stride == 1 {
            break;
        }
        if best == from {
            stride = (stride / 3).max(1);
        }
    }
    Ok(Some(best.starts.to_vec()))
}

/// The least ready start of the first heater between two, at a start of the second.
fn in_row(
    search: &Search,
    second: usize,
    low: usize,
    high: usize,
) -> Result<Option<Pair>, NightError> {
    let case = |n: usize| search.switches.case(&[low + n, second]);
    let found = search.least(high - low, (high - low).max(1), &case)?;
    Ok(found.found.and_then(|n| {
        let kwh = found.at(n)?.kwh;
        Some(Pair {
            starts: [low + n, second],
            kwh,
        })
    }))
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
