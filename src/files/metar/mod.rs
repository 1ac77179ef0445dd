//! Aviation weather reports (METAR and SPECI, WMO code forms FM 15 and FM 16) read into a weather record.

mod batch;
mod bulletin;
mod calendar;
mod fault;
mod groups;
mod order;
mod quality;
mod report;
mod stamp;

pub use batch::{Batch, read_batch, read_dated};
pub(super) use bulletin::has_reports;
pub use fault::{Fault, MetarError, ReportError};
pub(super) use quality::odd_courses;
pub use quality::{Note, Oddity};
pub use report::{Kind, Report, parse_report};
