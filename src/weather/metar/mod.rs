//! Aviation weather reports (METAR and SPECI, WMO code forms FM 15 and FM 16) read into a weather record.

mod archive;
mod bulletin;
mod calendar;
mod groups;
mod observation;
mod placed;
mod report;
mod reports;

pub use bulletin::has_reports;
pub use report::{Kind, Report, ReportError, parse_report};
pub use reports::read;
