//! Readings in order of time, one a moment: one pass for reports and tables.

use super::note::{Detail, Note};
use crate::scenario::weather::{AIR_C, DEW_POINT_ABOVE_K, DEW_POINT_C, Observation};

/// Readings farther apart than this leave a gap worth a note, in minutes: routine reports come every 30 or 60.
const LONGEST_STEP_MIN: f64 = 90.0;
/// A reading warmer or colder than both neighbours by more than this is a spike, in kelvin (an estimate: in an hour
/// the air may change so, but not there and back).
const SPIKE_K: f64 = 8.0;
/// Neighbours farther away than this say nothing about a spike, in minutes.
const NEIGHBOUR_MIN: f64 = 180.0;

/// The readings of one station, and notes on them.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Series {
    /// The station, if the file names one.
    pub station: Option<String>,
    /// In order of time.
    pub readings: Vec<Observation>,
    /// What was assumed, skipped, corrected or odd.
    pub notes: Vec<Note>,
}

/// A report, or the row of a table, at its moment.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry {
    pub line: usize,
    /// Station and time group of a report.
    pub report: Option<String>,
    pub unix_s: f64,
    /// Of two of one moment the one of higher rank is kept: one with an observation, then a correction.
    pub rank: (bool, bool),
    /// What was measured; none if something is missing or cannot be true.
    pub reading: Option<Observation>,
    /// What is to be noted of it, if it is kept.
    pub details: Vec<Detail>,
}

impl Entry {
    /// A note on it.
    pub fn note(&self, detail: Detail) -> Note {
        Note {
            line: Some(self.line),
            report: self.report.clone(),
            unix_s: Some(self.unix_s),
            detail,
        }
    }
}

/// Whether temperature and dew point cannot be true, alone or together.
pub fn impossible(reading: &Observation) -> Option<Detail> {
    let Observation {
        temp_c,
        dew_point_c,
        ..
    } = *reading;
    let possible = AIR_C.contains(&temp_c)
        && DEW_POINT_C.contains(&dew_point_c)
        && dew_point_c <= temp_c + DEW_POINT_ABOVE_K;
    (!possible).then_some(Detail::ImpossibleDewPoint(temp_c, dew_point_c))
}

/// The readings in order of time, one a moment: of several the one of highest rank, then the later line. Notes on what
/// is skipped, on gaps and on spikes go to `notes`, which are sorted by line; spikes are kept, and nothing is put into a gap.
pub fn ordered(mut entries: Vec<Entry>, notes: &mut Vec<Note>) -> Vec<Observation> {
    entries.sort_by(|a, b| a.unix_s.total_cmp(&b.unix_s).then(a.line.cmp(&b.line)));
    let mut kept: Vec<Entry> = Vec::new();
    for mut entry in entries {
        match kept.last_mut().filter(|last| last.unix_s == entry.unix_s) {
            Some(last) => {
                if entry.rank >= last.rank {
                    std::mem::swap(last, &mut entry);
                }
                notes.push(entry.note(skipped_for(&entry, last)));
            }
            None => kept.push(entry),
        }
    }
    for entry in &mut kept {
        let details = std::mem::take(&mut entry.details);
        notes.extend(details.into_iter().map(|detail| entry.note(detail)));
    }
    kept.retain(|entry| entry.reading.is_some());
    let readings: Vec<Observation> = kept.iter().filter_map(|entry| entry.reading).collect();
    for (at, detail) in gaps_and_spikes(&readings) {
        notes.extend(kept.get(at).map(|entry| entry.note(detail)));
    }
    notes.sort_by_key(|note| note.line);
    readings
}

fn skipped_for(entry: &Entry, kept: &Entry) -> Detail {
    let same =
        |a: &Entry, b: &Entry| (a.rank, a.reading, &a.details) == (b.rank, b.reading, &b.details);
    if same(entry, kept) {
        return Detail::Repeated(kept.line);
    }
    Detail::Replaced {
        kept: kept.line,
        correction: kept.rank.1 && !entry.rank.1,
    }
}

/// Gaps and spikes, each with the place of its reading.
fn gaps_and_spikes(readings: &[Observation]) -> Vec<(usize, Detail)> {
    let minutes = |a: &Observation, b: &Observation| (b.unix_s - a.unix_s) / 60.0;
    // To a tenth, as they are shown.
    let tenths = |r: &Observation| (r.temp_c * 10.0).round() / 10.0;
    let gaps = readings.windows(2).enumerate().filter_map(|(at, pair)| {
        let minutes = minutes(&pair[0], &pair[1]);
        (minutes > LONGEST_STEP_MIN).then_some((at + 1, Detail::Gap { minutes }))
    });
    let spikes = readings.windows(3).enumerate().filter_map(|(at, three)| {
        let near = three
            .windows(2)
            .all(|p| minutes(&p[0], &p[1]) <= NEIGHBOUR_MIN);
        let [before_c, temp_c, after_c] = [0, 1, 2].map(|i| tenths(&three[i]));
        let (up, down) = (temp_c - before_c, temp_c - after_c);
        let spike = up.min(down) > SPIKE_K || up.max(down) < -SPIKE_K;
        (near && spike).then_some((
            at + 1,
            Detail::Spike {
                temp_c,
                before_c,
                after_c,
            },
        ))
    });
    gaps.chain(spikes).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn series(minutes_and_temps: &[(f64, f64)]) -> Vec<Observation> {
        minutes_and_temps
            .iter()
            .map(|&(minutes, temp_c)| Observation {
                unix_s: minutes * 60.0,
                temp_c,
                dew_point_c: -20.0,
                wind_m_s: 0.0,
            })
            .collect()
    }

    #[test]
    fn ninety_minutes_are_no_gap_and_ninety_one_are() {
        let c = series(&[(0.0, -5.0), (90.0, -5.0), (181.0, -5.0)]);
        assert_eq!(gaps_and_spikes(&c), [(2, Detail::Gap { minutes: 91.0 })]);
    }

    /// As in a genuine archive: 13.1 °F in an hour between 57.0 and 57.2 °F.
    #[test]
    fn a_single_cold_hour_is_a_spike_and_a_front_is_none() {
        let c = series(&[(0.0, 13.9), (60.0, -10.5), (120.0, 14.0)]);
        let spike = Detail::Spike {
            temp_c: -10.5,
            before_c: 13.9,
            after_c: 14.0,
        };
        assert_eq!(gaps_and_spikes(&c), [(1, spike)]);
        let front = series(&[(0.0, 10.0), (60.0, 0.0), (120.0, -10.0)]);
        assert_eq!(gaps_and_spikes(&front), []);
        let eight = series(&[(0.0, 0.0), (60.0, 8.0), (120.0, 0.0)]);
        assert_eq!(gaps_and_spikes(&eight), []);
    }

    #[test]
    fn noon_between_two_midnights_is_no_spike() {
        let c = series(&[(0.0, -10.0), (720.0, 2.0), (1440.0, -10.0)]);
        let found = gaps_and_spikes(&c);
        assert_eq!(found.len(), 2);
        assert!(
            found.iter().all(|(_, d)| matches!(d, Detail::Gap { .. })),
            "{found:?}"
        );
    }
}
