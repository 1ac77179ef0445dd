//! All rows of a table, oldest first: what is left out or mended is told, and the hour that clocks tell twice is settled.

use super::super::fault::Fault;
use super::course::Lined;
use super::note::{Note, NoteKind};
use super::options::WeatherError;
use super::row::{Fit, Rows, Unfit};
use super::sheet::Line;

/// More impossible rows than one in so many are no slips of a station: the unit is wrong.
const ONE_IMPOSSIBLE_IN: usize = 10;
/// So few impossible rows prove nothing.
const FEW: usize = 3;

/// A row with its line, read or not.
type Told<'a> = (Line<'a>, Result<Fit, Unfit>);

/// Reads all rows; what is left out or mended goes to `notes`.
///
/// *Errors*: a time without a zone; no row that can be used; many that cannot be true.
pub fn read_rows(
    file: &str,
    text: &str,
    reader: &Rows,
    rows: &[(Line, csv::StringRecord)],
    notes: &mut Vec<Note>,
) -> Result<Vec<Lined>, WeatherError> {
    let mut told: Vec<Told> = rows
        .iter()
        .map(|(line, cells)| (*line, reader.read(&cells.iter().collect::<Vec<_>>())))
        .collect();
    if newest_first(&told) {
        told.reverse();
        let what = "the lines stand newest first, and were turned round";
        notes.push(Note::of(NoteKind::Repaired, what));
    }
    let mut aside: Vec<Note> = Vec::new();
    let mut lined: Vec<Lined> = Vec::new();
    let mut left_out: Vec<(Line, Unfit)> = Vec::new();
    let mut twice = Twice::default();
    for (line, read) in told {
        match read {
            Ok(mut fit) => {
                aside.extend(twice.settle(&mut fit, line, lined.last()));
                let at = fit.reading.unix_s;
                let told = |what| Note::of(NoteKind::Repaired, what).line(line.number).at(at);
                aside.extend(fit.repairs.into_iter().map(told));
                lined.push(Lined {
                    line: line.number,
                    reading: fit.reading,
                });
            }
            Err(Unfit::NoZone(time)) => return Err(no_zone(file, text, line, reader, &time)),
            Err(unfit) => left_out.push((line, unfit)),
        }
    }
    aside.extend(twice.unsettled());
    left_out.sort_by_key(|(line, _)| line.number);
    let note = |(line, unfit): &(Line, Unfit)| {
        Note::of(NoteKind::LeftOut, unfit.words()).line(line.number)
    };
    aside.extend(left_out.iter().map(note));
    aside.sort_by_key(|note| note.line);
    notes.append(&mut aside);
    usable(file, text, rows.len(), &lined, &left_out)?;
    Ok(lined)
}

/// Whether more rows are older than the row above them than newer.
fn newest_first(told: &[Told]) -> bool {
    let times: Vec<f64> = told
        .iter()
        .filter_map(|(_, read)| Some(read.as_ref().ok()?.reading.unix_s))
        .collect();
    let steps = |falls: bool| {
        let pairs = times.windows(2);
        pairs
            .filter(|p| if falls { p[1] < p[0] } else { p[1] > p[0] })
            .count()
    };
    steps(true) > steps(false)
}

/// The hour that the clocks told twice, as they were put back.
#[derive(Default)]
struct Twice {
    /// The first line in it, its moment, and how many lines are taken to be of the first telling.
    first: Option<(usize, f64)>,
    lines: usize,
    /// A line of the second telling was found, so the others are of the first.
    settled: bool,
}

impl Twice {
    /// Takes a time that was told twice as the second telling if the line before it says so.
    fn settle(&mut self, fit: &mut Fit, line: Line, before: Option<&Lined>) -> Option<Note> {
        let again_s = fit.again_s?;
        let at = fit.reading.unix_s;
        if before.is_some_and(|before| before.reading.unix_s >= at) {
            self.settled = true;
            fit.reading.unix_s += again_s;
            let what = "the clocks were put back: this time was told twice, and this is taken to be the second";
            return Some(
                Note::of(NoteKind::Assumed, what)
                    .line(line.number)
                    .at(at + again_s),
            );
        }
        self.first.get_or_insert((line.number, at));
        self.lines += 1;
        None
    }

    /// What is to be told if no line of a second telling was found.
    fn unsettled(&self) -> Option<Note> {
        let (line, at) = self.first.filter(|_| !self.settled)?;
        let others = match self.lines {
            1 => String::new(),
            2 => ", and so is one more".to_owned(),
            n => format!(", and so are {} more", n - 1),
        };
        let what = format!(
            "the clocks were put back: this time was told twice, and no line settles which it is; it is taken to be the \
             first{others}. Write the offset behind such times, as in 01:30-04:00"
        );
        Some(Note::of(NoteKind::Assumed, what).line(line).at(at))
    }
}

fn no_zone(file: &str, text: &str, line: Line, reader: &Rows, time: &str) -> WeatherError {
    let column = &reader.layout.time.name;
    let what = match reader.layout.local {
        true => {
            format!("`{time}` is by a local clock, as `{column}` says, and no zone tells which")
        }
        false => format!("`{time}` names no time zone, and no zone is given"),
    };
    let fault = line.fault(file, text, what).help(
        "call the column time_utc if it is UTC, write the offset behind each time (-07:00), or name the \
         zone: zone: \"America/Denver\" in the night, --zone America/Denver on the command line",
    );
    WeatherError {
        fault: Box::new(fault),
        key: Some("zone"),
    }
}

/// Refuses a table of which nothing is left, or much cannot be true.
fn usable(
    file: &str,
    text: &str,
    rows: usize,
    lined: &[Lined],
    left_out: &[(Line, Unfit)],
) -> Result<(), WeatherError> {
    let impossible = left_out
        .iter()
        .filter(|(_, unfit)| matches!(unfit, Unfit::Impossible(_)));
    let impossible: Vec<&(Line, Unfit)> = impossible.collect();
    if let Some((line, first)) = impossible.first()
        && impossible.len() > FEW.max(rows / ONE_IMPOSSIBLE_IN)
    {
        let told = format!(
            "{} of {rows} lines hold what cannot be true; the first: {}",
            impossible.len(),
            first.words()
        );
        let fault = line.fault(file, text, told);
        return Err(fault
            .help("is the unit in the column's name the right one?")
            .into());
    }
    match left_out.first() {
        _ if !lined.is_empty() => Ok(()),
        Some((line, first)) => {
            let what = format!(
                "none of the {rows} lines can be used; the first: {}",
                first.words()
            );
            Err(line.fault(file, text, what).into())
        }
        None => Err(Fault::of(file, "the table has a head and no lines under it").into()),
    }
}
