//! Recorded weather from a table: CSV with any of the usual separators and names of columns.

mod cell;
mod clock_change;
mod column;
mod head;
mod row;
mod rows;
mod sheet;
mod time;

pub use rows::{is_table, read};
