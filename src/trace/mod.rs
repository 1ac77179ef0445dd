//! What a night leaves behind: every state at every sample, what each column is, and where the joules and grams went.

mod ledger;
mod legend;
mod record;

pub use ledger::{Ledger, LedgerError};
pub use legend::{
    BearingNote, CellNote, Column, ColumnKind, GasNote, HeaterNote, Legend, LossPath, OilNote,
    PocketNote, ReadingNote, WallNote,
};
pub use record::{SwitchCause, Switching, Trace};
