//! placeholder until the physics branch lands
use serde::{Deserialize, Serialize};
/// Facing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum Facing {
    /// up
    Up,
    /// down
    Down,
    /// upright
    Upright,
}
