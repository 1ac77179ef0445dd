//! What a night leaves behind: every state at every sample, what each column is, and where the joules and grams went.

mod column_info;
mod conservation;
mod record;

pub use column_info::{
    BearingNote, CellInfo, Column, ColumnInfo, ColumnKind, GasNote, HeaterNote, LossPath, OilNote,
    PocketNote, ReadingNote, WallNote,
};
pub use conservation::{Conservation, ConservationError};
pub use record::{SwitchCause, Switching, Trace};
