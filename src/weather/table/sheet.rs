//! The lines and cells of a table.

use crate::weather::error::WeatherError;
use csv::StringRecord;

/// A line with its number, from 1, and where it begins.
#[derive(Debug, Clone, Copy)]
pub struct Line<'a> {
    pub number: usize,
    pub start: usize,
    pub text: &'a str,
}

impl Line<'_> {
    /// An error of this line.
    pub fn error(&self, message: impl Into<String>) -> WeatherError {
        let end = self.start + self.text.trim_end().len();
        WeatherError::new(message).at(self.start..end)
    }
}

/// A table cut into cells.
pub struct Sheet<'a> {
    /// The first line.
    pub head: Line<'a>,
    /// Its cells.
    pub names: StringRecord,
    /// The other lines, with their cells.
    pub rows: Vec<(Line<'a>, StringRecord)>,
    /// Commas do not separate the cells, so that one may stand for the decimal point.
    pub decimal_comma: bool,
}

impl<'a> Sheet<'a> {
    /// The first line, its cells, and what separates them: of tab, semicolon and comma the most frequent.
    pub fn head(text: &'a str) -> Option<(Line<'a>, StringRecord, u8)> {
        let head = lines(text).next()?;
        let count = |separator: &u8| head.text.bytes().filter(|b| b == separator).count();
        let separator = b",;\t".iter().copied().max_by_key(count)?;
        Some((head, cells(head.text, separator), separator))
    }

    /// The table of a text; none if it has no lines. Comments (`#`) and blank lines are passed over.
    pub fn of(text: &'a str) -> Option<Self> {
        let (head, names, separator) = Self::head(text)?;
        let rows = lines(text).skip(1);
        Some(Self {
            head,
            names,
            rows: rows
                .map(|line| (line, cells(line.text, separator)))
                .collect(),
            decimal_comma: separator != b',',
        })
    }
}

fn lines(text: &str) -> impl Iterator<Item = Line<'_>> {
    let numbered = text
        .split_inclusive('\n')
        .scan((0, 0), |(number, start), content| {
            let line = Line {
                number: *number + 1,
                start: *start,
                text: content.trim_end_matches(['\n', '\r']),
            };
            *number += 1;
            *start += content.len();
            Some(line)
        });
    numbered.filter(|line| !line.text.trim().is_empty() && !line.text.trim().starts_with('#'))
}

fn cells(line: &str, separator: u8) -> StringRecord {
    let mut reader = csv::ReaderBuilder::new()
        .delimiter(separator)
        .has_headers(false)
        .flexible(true)
        .trim(csv::Trim::All)
        .buffer_capacity(line.len().max(16))
        .from_reader(line.as_bytes());
    let mut record = StringRecord::new();
    // A line of text always is a record; the reader only fails on what is not UTF-8.
    let _ = reader.read_record(&mut record);
    record
}
