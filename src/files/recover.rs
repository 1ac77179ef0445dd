//! Every fault of a text, not the first alone: what is faulty is cut out, byte for byte, and the rest is read again.
//!
//! The text keeps its length, so that each fault is found where it stands. Where a value had to be cut out another
//! stands in; a file with faults is never computed with.

use super::brackets::unpaired;
use super::commas;
use super::fault::Fault;
use super::lenient::{Failed, Notes, Watched};
use super::outline::Outline;
use super::place::bytes_between;
use super::quotes::foreign;
use super::wording;
use ron::Options;
use ron::error::{Error, SpannedError};
use serde::de::DeserializeOwned;
use std::ops::Range;

/// The most faults of one file that are told.
const MOST: usize = 50;
/// The most of a long text: each fault costs another reading.
const MOST_OF_LONG: usize = 5;
/// What counts as long, in bytes.
const LONG: usize = 1 << 20;

/// What was made of a text.
#[derive(Debug)]
pub struct Reading<T> {
    /// The value; a stand-in in places, if there are faults.
    pub value: Option<T>,
    /// What is wrong, in the order of the text.
    pub faults: Vec<Fault>,
    /// Paths at which a value stands in for one that could not be read.
    pub guessed: Vec<String>,
    /// Paths of keys that nothing was made of.
    pub ignored: Vec<String>,
}

/// Reads a text that has at least one fault.
pub fn read<T: DeserializeOwned>(file: &str, text: &str, options: &Options) -> Reading<T> {
    let mut reading = Reading {
        value: None,
        faults: Vec::new(),
        guessed: Vec::new(),
        ignored: Vec::new(),
    };
    let broken = wording::nothing(file, text)
        .or_else(|| foreign(file, text))
        .or_else(|| unpaired(file, text));
    if let Some(fault) = broken {
        reading.faults.push(fault);
        return reading;
    }
    let outline = Outline::of(text);
    for (key, place) in &outline.twice {
        reading
            .faults
            .push(wording::twice(file, text, key, place.clone()));
    }
    let mut mending = Mending {
        file,
        text,
        mended: text.as_bytes().to_vec(),
        outline,
        notes: Notes::default(),
    };
    let most = if text.len() > LONG {
        MOST_OF_LONG
    } else {
        MOST
    };
    for _ in 0..most {
        let Ok(mended) = String::from_utf8(mending.mended.clone()) else {
            break;
        };
        match look(&mended, &mending.notes, options) {
            Ok(value) => {
                reading.value = Some(value);
                break;
            }
            Err(error) => {
                if !mending.step(&mended, &error, &mut reading) {
                    break;
                }
            }
        }
    }
    let start = |fault: &Fault| fault.place.as_ref().map_or(0, |(_, bytes)| bytes.start);
    reading.faults.sort_by_key(start);
    reading
}

fn look<T: DeserializeOwned>(
    text: &str,
    notes: &Notes,
    options: &Options,
) -> Result<T, SpannedError> {
    let mut reader = ron::Deserializer::from_str_with_options(text, options)?;
    let value = T::deserialize(Watched::whole(&mut reader, notes));
    let value = value.map_err(|e| reader.span_error(e))?;
    reader.end().map_err(|e| reader.span_error(e))?;
    Ok(value)
}

struct Mending<'t> {
    file: &'t str,
    text: &'t str,
    mended: Vec<u8>,
    outline: Outline,
    notes: Notes,
}

/// A place, or the beginning of the character it lies in.
fn whole_character(text: &str, at: usize) -> usize {
    (0..=at.min(text.len()))
        .rev()
        .find(|at| text.is_char_boundary(*at))
        .unwrap_or(0)
}

impl Mending<'_> {
    /// Tells one fault and cuts it out; whether it is worth looking again.
    fn step<T>(&mut self, mended: &str, error: &SpannedError, reading: &mut Reading<T>) -> bool {
        let failed = self.notes.take_failed().unwrap_or(Failed {
            path: String::new(),
            expected: None,
        });
        let at = bytes_between(mended, error.span.start, error.span.end);
        let (file, text) = (self.file, self.text);
        // What was cut out is as long in bytes, but not in characters.
        let at = whole_character(text, at.start)..whole_character(text, at.end);
        match &error.code {
            Error::NoSuchStructField {
                expected, found, ..
            } => {
                let path = joined(&failed.path, found);
                let there = self.entries(&path).into_iter().next();
                let key = there.clone().map_or(at, |(key, _)| key);
                let fault = wording::unknown_key(file, text, key, found, expected, &failed.path);
                if let Some(near) = wording::meant(found, expected) {
                    // The key that was meant is not missing as well.
                    self.notes.supplied.insert(joined(&failed.path, near));
                    reading.guessed.push(joined(&failed.path, near));
                }
                reading.faults.push(fault);
                reading.ignored.push(path);
                there.is_some_and(|(key, value)| self.cut(key.start..value.end, true))
            }
            Error::DuplicateStructField { field, .. } => {
                let path = joined(&failed.path, field);
                let second = self.entries(&path).into_iter().nth(1);
                // What the reader calls twice may be the stand-in for a key that is misspelt elsewhere.
                if second.is_none() && self.notes.supplied.remove(&path) {
                    reading.guessed.retain(|guessed| *guessed != path);
                    return true;
                }
                let key = second.clone().map_or(at, |(key, _)| key);
                reading.faults.push(wording::twice(file, text, field, key));
                second.is_some_and(|(key, value)| self.cut(key.start..value.end, true))
            }
            Error::MissingStructField { field, .. } => {
                let path = joined(&failed.path, field);
                let holder = self.outline.find(&failed.path).filter(|f| f.missing == 0);
                let place = holder.map_or(wording::first_bracket(text), |found| found.key);
                let fault = wording::missing_key(file, text, place, field, &failed.path);
                reading.faults.push(fault);
                reading.guessed.push(path.clone());
                self.notes.supplied.insert(path)
            }
            Error::TrailingCharacters => {
                reading.faults.push(wording::trailing(file, text, at.start));
                false
            }
            Error::ExceededRecursionLimit => {
                reading
                    .faults
                    .push(wording::value(file, text, &failed, &error.code, at, None));
                false
            }
            _ => self.value(&failed, &error.code, at, reading),
        }
    }

    /// A value that cannot be read, or brackets and commas that do not fit.
    fn value<T>(
        &mut self,
        failed: &Failed,
        code: &Error,
        at: Range<usize>,
        reading: &mut Reading<T>,
    ) -> bool {
        let (file, text) = (self.file, self.text);
        if let Some(comma) = commas::decimal_comma(text, at.start)
            && self.mended[comma] == b','
        {
            reading
                .faults
                .push(commas::comma_in_number(file, text, comma, &failed.path));
            self.mended[comma] = b'.';
            return true;
        }
        if let Some(gap) = commas::comma_missing(text, at.start, code)
            && self.mended[gap] != b','
        {
            reading.faults.push(commas::no_comma(file, text, gap));
            self.mended[gap] = b',';
            return true;
        }
        // What cannot be followed by more, such as `80%`: the value before it is at fault, not what holds it.
        let inner = self.outline.around(at.start.saturating_sub(1));
        let inner = inner.filter(|(path, _, value)| {
            commas::wants_end(code) && value.end >= at.start && path.len() > failed.path.len()
        });
        let failed = &match inner {
            Some((path, ..)) => self.notes.last_at(path),
            None => failed.clone(),
        };
        let exact = self.outline.find(&failed.path).filter(|f| f.missing == 0);
        let found = match exact {
            Some(found) => Some((failed.path.clone(), found.value)),
            None => self
                .outline
                .around(at.start)
                .map(|(path, _, value)| (path.to_owned(), value)),
        };
        let found = found.map(|(path, value)| (path, commas::whole_token(text, value)));
        let Some((path, value)) = found else {
            reading
                .faults
                .push(wording::value(file, text, failed, code, at, None));
            return false;
        };
        let fault = wording::value(file, text, failed, code, at, Some(value.clone()));
        // A stand-in that is refused as well says nothing new.
        if !self.notes.excused.insert(path.clone()) {
            return false;
        }
        reading.faults.push(fault);
        reading.guessed.push(path);
        let start = value.start;
        let cut = self.cut(value, false);
        if cut {
            self.mended[start] = b'0';
        }
        cut
    }

    /// Keys and values at a path that still stand in the text, one a key.
    fn entries(&self, path: &str) -> Vec<(Range<usize>, Range<usize>)> {
        let mut all = self.outline.all_at(path);
        all.dedup_by_key(|(key, _)| key.start);
        all.retain(|(key, _)| self.text[key.clone()].as_bytes() == &self.mended[key.clone()]);
        all
    }

    /// Blanks bytes, and a comma behind them if asked; whether there was anything.
    fn cut(&mut self, bytes: Range<usize>, and_comma: bool) -> bool {
        let mut end = bytes.end;
        if and_comma {
            let rest = &self.mended[end..];
            let blank = rest.iter().take_while(|b| b.is_ascii_whitespace()).count();
            if rest.get(blank) == Some(&b',') {
                end += blank + 1;
            }
        }
        for byte in &mut self.mended[bytes.start..end] {
            if !matches!(byte, b'\n' | b'\r') {
                *byte = b' ';
            }
        }
        !bytes.is_empty()
    }
}

fn joined(path: &str, key: &str) -> String {
    if path.is_empty() {
        key.to_owned()
    } else {
        format!("{path}.{key}")
    }
}
