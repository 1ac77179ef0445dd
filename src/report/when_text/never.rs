//! No start is ready: the best that was found, and the least change that would do.

use super::Tale;
use crate::report::change_text;
use crate::report::readiness::cost;
use crate::study::when::{Never, Probe, REMEDY_RANKING};
use std::fmt::{Result, Write};

impl Tale<'_> {
    pub(super) fn never(&self, text: &mut String, never: &Never) -> Result {
        let whole = &self.when.whole_time;
        let (starts, nearest) = &never.nearest;
        let best = if *starts == self.when.switches.together(self.when.switches.most) {
            format!(
                "The best that can be had, heating the whole time: {}, for {}.",
                self.outcome(nearest),
                cost(&whole.findings)
            )
        } else {
            let on = match self.starts(starts) {
                none if none.is_empty() => "without heat".to_owned(),
                on => format!("switched on {on}"),
            };
            format!(
                "The best that was found, {on}: {}, for {:.1} kWh. Heating the whole time: {}, for {}.",
                self.outcome(nearest),
                nearest.kwh,
                self.outcome(&Probe::of(whole)),
                cost(&whole.findings)
            )
        };
        self.line(text, "", &best)?;
        let change = |c| change_text::told(c, self.scenario, self.clock, self.units);
        if never.remedies.is_empty() {
            self.line(text, "", "No single change of those tried makes it ready:")?;
        } else {
            writeln!(
                text,
                "\nThe least single change that does, heating the whole time"
            )?;
            for (k, remedy) in never.remedies.iter().enumerate() {
                let over = if remedy.overloads {
                    " (MORE than the circuit should carry)"
                } else {
                    ""
                };
                let line = format!(
                    "{}. {}: {}, {:.1} kWh{over}",
                    k + 1,
                    change(&remedy.change),
                    self.outcome(&remedy.probe),
                    remedy.probe.kwh
                );
                self.line(text, "  ", &line)?;
            }
            self.line(text, "", &format!("Ranked by: {REMEDY_RANKING}."))?;
        }
        for tried in &never.in_vain {
            let came = match &tried.probe {
                Some(probe) => self.outcome(probe),
                None => "cannot be done with this engine, weather or cover".to_owned(),
            };
            let line = format!("not enough: {}: {came}", change(&tried.change));
            self.line(text, "  ", &line)?;
        }
        Ok(())
    }
}
