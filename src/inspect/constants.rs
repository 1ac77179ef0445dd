//! The slowest time constants: how fast the whole forgets how it began.
//!
//! The slopes of all temperatures (cells, pockets, air inside), the air movement and streams following at once
//! and the hangar held, are `C dT/dt = J T` near the state of the moment. The unknowns that follow at once
//! are eliminated,
//!
//! ```text
//! J = J_tt − J_ta J_aa⁻¹ J_at
//! ```
//!
//! and the eigenvalues `λ` of `C^-½ J C^-½`, which are those of `C⁻¹ J`, give the time constants `−1/λ`.
//! Water on walls and in the oil, and the vapour of the pockets, are held as they are; the vapour inside
//! follows at once.

use super::nodes::Nodes;
use crate::balance::Balance;
use nalgebra::{Complex, DMatrix, DVector, Schur};
use serde::Serialize;

/// Most parts listed of a mode.
const MOST_SHARES: usize = 6;
/// Iterations allowed for each eigenvalue; about two are needed.
const ITERATIONS: usize = 200;
/// A mode slower than this, 1/s (thirty years), does not decay in a night.
const STILL_PER_S: f64 = 1e-9;
/// The shift that keeps an inverse iteration solvable, as a share of the eigenvalue.
const SHIFT: f64 = 1e-7;
/// Inverse iterations: each gains the distance to the next eigenvalue over the shift.
const INVERSE_ITERATIONS: usize = 4;

/// A way in which temperatures fade together.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Mode {
    /// Its time constant, hours: after so long 37 % of it is left. None if it does not decay.
    pub time_constant_h: Option<f64>,
    /// Its period, hours, if it swings as it fades.
    pub period_h: Option<f64>,
    /// The nodes that hold most of its heat, most first.
    pub shares: Vec<ModeShare>,
}

/// One node's share of a mode.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ModeShare {
    /// The node.
    pub node: String,
    /// Its share of the heat, as capacity times size of the swing, from 0 to 1.
    pub heat_share: f64,
    /// How far its temperature swings, as a share of the largest; negative if against it.
    pub oscillation: f64,
}

/// Why no time constants were found.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum ModeError {
    /// The unknowns that follow at once could not be eliminated.
    #[error("the streams cannot be eliminated from the slopes at this moment")]
    Streams,
    /// The eigenvalues did not come out.
    #[error("the eigenvalues of the slopes were not found")]
    Eigenvalues,
}

/// The slowest modes where the balance was last evaluated, `count` of them at most, slowest first.
///
/// *Checked by* `tests/anatomy`: two lumps, 1644.189 s and 12 901.265 s.
///
/// *Errors*: [`ModeError`].
pub fn time_constants(
    balance: &mut Balance,
    nodes: &Nodes,
    count: usize,
) -> Result<Vec<Mode>, ModeError> {
    let scaled = thermal_slopes(balance)?;
    let size = scaled.nrows();
    if size == 0 {
        return Ok(Vec::new());
    }
    if scaled.iter().any(|v| !v.is_finite()) {
        return Err(ModeError::Eigenvalues);
    }
    let schur = Schur::try_new(scaled.clone(), f64::EPSILON, ITERATIONS * size)
        .ok_or(ModeError::Eigenvalues)?;
    let found = schur.complex_eigenvalues();
    // Of a pair that oscillates, one is listed.
    let mut values: Vec<Complex<f64>> = found.iter().copied().filter(|v| v.im >= 0.0).collect();
    values.sort_by(|a, b| b.re.total_cmp(&a.re).then(a.im.total_cmp(&b.im)));
    values.truncate(count);
    let columns = thermal(balance);
    let capacities: Vec<f64> = columns
        .iter()
        .map(|&c| balance.network().capacities[c])
        .collect();
    values
        .into_iter()
        .map(|value| {
            let mode = mode_of(&scaled, value).ok_or(ModeError::Eigenvalues)?;
            Ok(Mode {
                time_constant_h: (value.re < -STILL_PER_S).then(|| -1.0 / value.re / 3600.0),
                period_h: (value.im > STILL_PER_S)
                    .then(|| std::f64::consts::TAU / value.im / 3600.0),
                shares: shares(&mode, &capacities, &columns, nodes),
            })
        })
        .collect()
}

/// The columns of the temperatures that change: cells, pockets, air inside.
fn thermal(balance: &Balance) -> Vec<usize> {
    let ix = &balance.network().index;
    let pockets = (0..ix.pockets).map(|p| ix.pocket(p));
    let gas = ix.gas.then(|| ix.gas_temperature());
    (0..ix.cells).chain(pockets).chain(gas).collect()
}

/// The reduced slopes of the temperatures, over the root of the capacities on both sides, 1/s.
fn thermal_slopes(balance: &mut Balance) -> Result<DMatrix<f64>, ModeError> {
    let net = balance.network();
    let ix = &net.index;
    let kept = thermal(balance);
    let entries = balance.entries().to_vec();
    let slopes = balance.slopes();
    let mut gone: Vec<usize> = (ix.states()..ix.unknowns()).collect();
    if ix.gas {
        let own = ix.gas_vapour();
        let of = entries.iter().zip(slopes);
        let follows = of
            .filter(|(e, _)| e.row == own && e.column == own)
            .any(|(_, s)| *s != 0.0);
        gone.extend(follows.then_some(own));
    }
    let mut place = vec![None; ix.columns()];
    for (at, &column) in kept.iter().chain(&gone).enumerate() {
        place[column] = Some(at);
    }
    let size = kept.len() + gone.len();
    let mut whole = DMatrix::<f64>::zeros(size, size);
    for (entry, slope) in entries.iter().zip(slopes) {
        if entry.row >= ix.unknowns() || entry.column >= ix.unknowns() {
            continue;
        }
        if let (Some(row), Some(column)) = (place[entry.row], place[entry.column]) {
            whole[(row, column)] += slope;
        }
    }
    let (n, m) = (kept.len(), gone.len());
    let mut reduced = whole.view((0, 0), (n, n)).into_owned();
    if m > 0 {
        let follow = whole.view((n, n), (m, m)).into_owned().lu();
        let moved = follow
            .solve(&whole.view((n, 0), (m, n)).into_owned())
            .ok_or(ModeError::Streams)?;
        reduced -= whole.view((0, n), (n, m)) * moved;
    }
    let root = |at: usize| net.capacities[kept[at]].sqrt();
    Ok(DMatrix::from_fn(n, n, |i, j| {
        reduced[(i, j)] / (root(i) * root(j))
    }))
}

/// The eigenvector of an eigenvalue, by inverse iteration from a start that favours no symmetry.
fn mode_of(scaled: &DMatrix<f64>, value: Complex<f64>) -> Option<DVector<Complex<f64>>> {
    let size = scaled.nrows();
    let largest = scaled.amax();
    let shift = SHIFT * value.norm().max(f64::EPSILON * largest);
    let mut shifted = scaled.map(|v| Complex::new(v, 0.0));
    for at in 0..size {
        shifted[(at, at)] -= value + Complex::new(shift, 0.0);
    }
    let factors = shifted.lu();
    let golden = 0.618_033_988_749_895;
    let mut vector = DVector::from_fn(size, |at, _| {
        Complex::new(0.5 + (golden * (at + 1) as f64).fract(), 0.0)
    });
    for _ in 0..INVERSE_ITERATIONS {
        vector = factors.solve(&vector)?;
        let norm = vector.norm();
        if norm == 0.0 || !norm.is_finite() {
            return None;
        }
        vector /= Complex::new(norm, 0.0);
    }
    Some(vector)
}

fn shares(
    mode: &DVector<Complex<f64>>,
    capacities: &[f64],
    columns: &[usize],
    nodes: &Nodes,
) -> Vec<ModeShare> {
    let swings: Vec<Complex<f64>> = mode
        .iter()
        .zip(capacities)
        .map(|(v, c)| v / c.sqrt())
        .collect();
    let largest = swings.iter().fold(Complex::new(0.0, 0.0), |most, s| {
        if s.norm() > most.norm() { *s } else { most }
    });
    let heat = |at: usize| capacities[at] * swings[at].norm();
    let total: f64 = (0..capacities.len()).map(heat).sum();
    let mut order: Vec<usize> = (0..capacities.len()).collect();
    order.sort_by(|&a, &b| heat(b).total_cmp(&heat(a)));
    order
        .into_iter()
        .take(MOST_SHARES)
        .filter_map(|at| {
            Some(ModeShare {
                node: nodes.list[nodes.at(columns[at])?].name.clone(),
                heat_share: heat(at) / total,
                oscillation: (swings[at] / largest).re,
            })
        })
        .collect()
}
