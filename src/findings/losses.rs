//! Where the heat went during the last hour before the departure.

use crate::trace::LossPath;
use serde::Serialize;

/// Heat lost by one path.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PathLoss {
    /// The path.
    pub path: LossPath,
    /// Averaged over the last hour before the departure (the whole night if it is shorter), W.
    pub watts: f64,
}
