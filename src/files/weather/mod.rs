//! Recorded weather from a file, aviation reports or a table, read into the record of one station.

mod alone;
mod clean;
mod columns;
mod course;
mod entry;
mod layout;
mod note;
mod number;
mod options;
mod read;
mod reading;
mod reports;
mod row;
mod rows;
mod settle;
mod sheet;
mod stamp;
mod table;

pub use alone::{Alone, alone};
pub use clean::written;
pub use entry::{WeatherEntry, resolve};
pub use note::{Note, NoteKind};
pub use options::{Month, WeatherError, WeatherOptions};
pub use read::{holds_weather, read, read_plain};
pub use reading::{Form, Reading};
