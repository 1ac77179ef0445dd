//! Clock times of a zone as moments, also in the hours in which its clocks are changed.

use super::sheet::Line;
use crate::weather::note::{Detail, Note};
use jiff::civil::DateTime;
use jiff::tz::{AmbiguousOffset, TimeZone};

/// The moment of a clock time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Moment {
    /// Seconds since 1970 UTC; the earlier of two.
    pub unix_s: f64,
    /// The clock shows this time once more, so many seconds later.
    pub again_s: Option<f64>,
}

/// The moment of a clock time in a zone.
///
/// *Errors*: the clocks were put forward over it.
pub fn moment(zone: &TimeZone, clock: DateTime) -> Result<Moment, Detail> {
    let never = || Detail::Impossible(format!("the clocks were put forward: {clock} never was"));
    let at = zone.to_ambiguous_timestamp(clock);
    let again_s = match at.offset() {
        AmbiguousOffset::Gap { .. } => return Err(never()),
        AmbiguousOffset::Fold { before, after } => {
            Some(f64::from(before.seconds() - after.seconds()))
        }
        AmbiguousOffset::Unambiguous { .. } => None,
    };
    let earlier = at.earlier().map_err(|_| never())?;
    Ok(Moment {
        unix_s: earlier.as_second() as f64,
        again_s,
    })
}

/// The hour that occurs twice as the clocks are put back.
#[derive(Debug, Default)]
pub struct RepeatedHour {
    /// The first line in it, its moment, and how many more lines are taken to be of the first of the two.
    first: Option<(usize, f64)>,
    more: usize,
    /// A line of the second was found, so the others are of the first.
    settled: bool,
}

impl RepeatedHour {
    /// The moment of a line: of two the second, if the line before it (at `before_s`) is not earlier than the first.
    pub fn settle(
        &mut self,
        moment: Moment,
        line: Line,
        before_s: Option<f64>,
    ) -> (f64, Option<Note>) {
        let Moment { unix_s, again_s } = moment;
        let Some(again_s) = again_s else {
            return (unix_s, None);
        };
        if before_s.is_some_and(|before_s| before_s >= unix_s) {
            self.settled = true;
            let note = note(line.number, unix_s + again_s, Detail::SecondOfTwo);
            return (unix_s + again_s, Some(note));
        }
        match self.first {
            None => self.first = Some((line.number, unix_s)),
            Some(_) => self.more += 1,
        }
        (unix_s, None)
    }

    /// The note if no line of the second was found.
    pub fn unsettled(&self) -> Option<Note> {
        let (line, unix_s) = self.first.filter(|_| !self.settled)?;
        Some(note(line, unix_s, Detail::FirstOfTwo(self.more)))
    }
}

fn note(line: usize, unix_s: f64, detail: Detail) -> Note {
    Note {
        line: Some(line),
        unix_s: Some(unix_s),
        ..detail.into()
    }
}
