//! Recorded weather from outside formats: aviation reports (METAR, SPECI) or a table, read into the readings of one
//! station.

mod error;
pub mod metar;
mod note;
mod options;
mod read;
mod series;
mod standalone;
mod station;
pub mod table;
mod write;

pub use error::WeatherError;
pub use note::{Detail, Note, NoteKind};
pub use options::{Month, WeatherOptions};
pub use read::{Form, Reading, form_of, holds_weather, read};
pub use series::Series;
pub use standalone::{Standalone, standalone};
pub use write::to_csv;
