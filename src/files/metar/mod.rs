//! Aviation weather reports (METAR and SPECI, WMO code forms FM 15 and FM 16) read into a weather record.

mod batch;
mod bulletin;
mod calendar;
mod fault;
mod groups;
mod quality;
mod report;

pub use batch::read_batch;
pub use fault::{Fault, MetarError, ReportError};
pub use quality::{Note, Oddity};
pub use report::{Kind, Report, parse_report};
