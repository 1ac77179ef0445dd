//! What is being solved, laid open at one moment: nodes, heat paths, slow modes, and where the heaters' watts enter.

mod conductances;
mod constants;
mod entries;
mod nodes;
mod path;
mod snapshot;
mod streams;

pub use conductances::heat_paths;
pub use constants::{Mode, ModeError, ModeShare, time_constants};
pub use entries::{Feed, HeatInput, HeatMode, HeaterEntries, entries, feeds};
pub use nodes::{Node, NodeKind, Nodes};
pub use path::{HeatPath, PathKind};
pub use snapshot::{NetworkSnapshot, SnapshotError, anatomy};
