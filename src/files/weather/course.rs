//! Readings put in order of time, with what is odd about their course.

use super::super::metar::odd_courses;
use super::note::{Note, NoteKind};
use crate::scenario::weather::{Observation, utc};

/// A reading and the line it stands on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lined {
    pub line: usize,
    pub reading: Observation,
}

/// The readings in order, one a moment; notes on order, repetitions, gaps and spikes go to `notes`.
pub fn ordered(mut lined: Vec<Lined>, notes: &mut Vec<Note>) -> Vec<Observation> {
    let time = |l: &Lined| l.reading.unix_s;
    if !lined.is_sorted_by(|a, b| time(a) <= time(b)) {
        let what = "the lines were not in order of time and were put in order";
        notes.push(Note::of(NoteKind::Repaired, what));
    }
    lined.sort_by(|a, b| time(a).total_cmp(&time(b)).then(a.line.cmp(&b.line)));
    let mut kept: Vec<Lined> = Vec::new();
    for one in lined {
        match kept.last_mut().filter(|last| time(last) == time(&one)) {
            Some(last) => {
                let what = if last.reading == one.reading {
                    format!("a repetition of line {}", one.line)
                } else {
                    format!(
                        "line {} tells otherwise of the same moment and comes later",
                        one.line
                    )
                };
                notes.push(
                    Note::of(NoteKind::LeftOut, what)
                        .line(last.line)
                        .at(time(&one)),
                );
                *last = one;
            }
            None => kept.push(one),
        }
    }
    // To a tenth, as they are told.
    let tenths = |c: f64| (c * 10.0).round() / 10.0;
    let course: Vec<_> = kept
        .iter()
        .map(|l| (time(l), tenths(l.reading.temp_c)))
        .collect();
    for (at, oddity) in odd_courses(&course) {
        let Some(one) = kept.get(at) else { continue };
        let care = oddity_care(&oddity);
        let what = format!("{}: {oddity}", utc(time(one)));
        notes.push(Note::of(care, what).line(one.line).at(time(one)));
    }
    kept.into_iter().map(|l| l.reading).collect()
}

/// What was done about an oddity of a report or of a course.
pub fn oddity_care(oddity: &super::super::metar::Oddity) -> NoteKind {
    use super::super::metar::Oddity;
    match oddity {
        odd if odd.leaves_out() => NoteKind::LeftOut,
        Oddity::Gap { .. } => NoteKind::Gap,
        Oddity::MonthBefore { .. } => NoteKind::Assumed,
        _ => NoteKind::Kept,
    }
}
