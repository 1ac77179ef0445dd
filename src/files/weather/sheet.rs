//! The lines and cells of a table.

use super::super::fault::Fault;

/// A line with its number and where it begins.
#[derive(Clone, Copy)]
pub struct Line<'a> {
    pub number: usize,
    pub start: usize,
    pub text: &'a str,
}

impl Line<'_> {
    pub fn fault(&self, file: &str, text: &str, what: impl Into<String>) -> Fault {
        let span = self.start..self.start + self.text.trim_end().len();
        Fault::of(file, what).at(text, span)
    }
}

/// The lines that hold something: no comment, not blank.
pub fn lines(text: &str) -> Vec<Line<'_>> {
    let mut start = 0;
    let mut lines = Vec::new();
    for (number, content) in (1..).zip(text.split_inclusive('\n')) {
        let plain = content.trim();
        if !plain.is_empty() && !plain.starts_with('#') {
            let text = content.trim_end_matches(['\n', '\r']);
            lines.push(Line {
                number,
                start,
                text,
            });
        }
        start += content.len();
    }
    lines
}

/// The separator of a head: that of tab, semicolon and comma that stands there most often.
pub fn separator(head: &str) -> u8 {
    let often = |separator: &u8| head.bytes().filter(|b| b == separator).count();
    b",;\t".iter().copied().max_by_key(often).unwrap_or(b',')
}

/// The cells of a line.
pub fn cells(line: &str, separator: u8) -> csv::StringRecord {
    let mut reader = csv::ReaderBuilder::new()
        .delimiter(separator)
        .has_headers(false)
        .flexible(true)
        .trim(csv::Trim::All)
        .buffer_capacity(line.len().max(16))
        .from_reader(line.as_bytes());
    let mut record = csv::StringRecord::new();
    // A line of text always is a record; the reader only fails on what is not UTF-8.
    let _ = reader.read_record(&mut record);
    record
}

/// Rows of a table, each with its line.
pub type Read<'a> = Vec<(Line<'a>, csv::StringRecord)>;
