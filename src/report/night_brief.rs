//! One night in brief: the verdict, its warnings, the clock times, the cautions.

use super::comparison_text::setting;
use super::format::{apart, folded, wrapped};
use super::night_text::warnings;
use super::verdict_text::{thin, verdict};
use super::{cautions, events_text};
use crate::night::Night;
use std::fmt::{Result, Write};

/// The verdict, what happened when, and the cautions.
pub fn told(night: &Night, width: u16) -> String {
    let mut text = String::new();
    // Writing to a string cannot fail.
    let _ = write(&mut text, night, width);
    folded(&text, width)
}

fn write(text: &mut String, night: &Night, width: u16) -> Result {
    let (f, units) = (&night.findings, night.scenario.scenario().units);
    writeln!(text, "{}", night.scenario.scenario().title)?;
    writeln!(text, "{}\n", wrapped(&setting(night), width, ""))?;
    writeln!(text, "{}", wrapped(&verdict(f, units), width, ""))?;
    if let Some(thin) = thin(f) {
        writeln!(text, "{}", wrapped(&thin, width, ""))?;
    }
    warnings(text, f, units, width)?;
    if f.warnings.is_empty() {
        writeln!(text)?;
    }
    if let Some(coldest) = &f.coldest {
        let (at, _) = apart(coldest.temp_c, f.threshold.threshold_c, units);
        writeln!(text, "Coldest at departure: {}, {at}\n", coldest.label)?;
    }
    writeln!(text, "What happened when")?;
    let events = events_text::told(&f.events, night.scenario.clock());
    writeln!(text, "{events}")?;
    writeln!(text, "{}", cautions::told(width))
}
