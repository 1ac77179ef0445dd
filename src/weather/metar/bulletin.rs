//! A text of many reports, cut into reports.
//!
//! A report ends at `=`, at a blank line, at a comment line (`#`), and before a line that begins like a report
//! (code name, station, time) or like a forecast (`TAF`). Any other line continues the report above it. Bulletin
//! headings (`SAUS70 KWBC 092200`, `METAR 092200Z`: Regulation 15.1.1) are passed over. Archives put a full date before
//! a report, on its line or on a line of its own (`2018-01-09 22:35`, `201801092235`); it gives the month and year that
//! the report leaves out. A line with punctuation that no report has is a segment of its own.

use super::groups::{self, Group};
use jiff::civil::Date;

/// A piece of the text that should be a report.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Piece<'a> {
    /// The date that stands before it.
    pub date: Option<Date>,
    /// Its groups with their lines; never empty.
    pub groups: Vec<Group<'a>>,
}

/// Whether any line of the text begins a report.
pub fn has_reports(text: &str) -> bool {
    reports(&text.to_ascii_uppercase()).iter().any(|piece| {
        let words: Vec<&str> = piece.groups.iter().map(|group| group.text).collect();
        begins(&words)
    })
}

/// The reports of the text.
pub fn reports(text: &str) -> Vec<Piece<'_>> {
    let mut cut = Cut::default();
    for (line, words) in (1..).zip(text.trim_start_matches('\u{feff}').lines()) {
        let words = words.trim();
        if words.is_empty() || words.starts_with('#') {
            cut.end();
            continue;
        }
        for (nth, part) in words.split('=').enumerate() {
            if nth > 0 {
                cut.end();
            }
            cut.add(line, part);
        }
    }
    cut.end();
    cut.done
}

#[derive(Default)]
struct Cut<'a> {
    done: Vec<Piece<'a>>,
    open: Piece<'a>,
    /// A date on a line of its own, for the report after it.
    date: Option<Date>,
}

impl<'a> Cut<'a> {
    fn end(&mut self) {
        if !self.open.groups.is_empty() {
            self.done.push(std::mem::take(&mut self.open));
        }
    }
    fn add(&mut self, line: usize, part: &'a str) {
        let apart = |c: char| c.is_whitespace() || matches!(c, ',' | '"' | ';' | '\t');
        let words: Vec<&str> = part.split(apart).filter(|word| !word.is_empty()).collect();
        let (date, words) = match dated(&words) {
            Some((date, rest)) => (Some(date), rest),
            None => (None, words.as_slice()),
        };
        if date.is_some() && words.is_empty() {
            self.end();
            self.date = date;
            return;
        }
        if is_heading(words) {
            self.end();
            return;
        }
        if date.is_some() || begins(words) {
            self.end();
            self.open.date = date.or(self.date.take());
        } else if part.contains(['<', '>', ':', ';', ',', '!', '?', '"']) {
            self.end();
        }
        let groups = words.iter().map(|&text| Group { line, text });
        self.open.groups.extend(groups);
    }
}

/// The date before a report, or alone on a line, and the words behind it; words before the report that are no part of
/// it, such as a station's name in an archive, go with the date.
fn dated<'w, 'a>(words: &'w [&'a str]) -> Option<(Date, &'w [&'a str])> {
    let date = (0..words.len().min(3)).find_map(|at| date_of(words.get(at)?));
    let date = date?;
    let at = (1..words.len()).find(|&at| words.get(at..).is_some_and(begins));
    match at {
        Some(at) => Some((date, words.get(at..)?)),
        None if words.len() <= 2 => Some((date, &[])),
        None => None,
    }
}

/// The date that a word begins with: `2018-01-09`, `2018/01/09`, `2018-01-09T22:35:00Z`, `201801092235`.
fn date_of(word: &str) -> Option<Date> {
    let digits = word.bytes().take_while(u8::is_ascii_digit).count();
    let day = word.split('T').next().unwrap_or("");
    match (digits, day.len(), day.contains('/')) {
        (10 | 12 | 14, ..) if digits == word.len() => Date::strptime("%Y%m%d", &word[..8]).ok(),
        (4, 10, false) => Date::strptime("%Y-%m-%d", day).ok(),
        (4, 10, true) => Date::strptime("%Y/%m/%d", day).ok(),
        _ => None,
    }
}

/// Whether these groups begin a report or a forecast.
fn begins(words: &[&str]) -> bool {
    match words {
        ["METAR" | "SPECI" | "TAF", ..] => true,
        [station, time, ..] => groups::is_station(station) && has_form(time, "000000Z"),
        _ => false,
    }
}

/// Whether these are the heading of a bulletin.
fn is_heading(words: &[&str]) -> bool {
    match words {
        ["METAR" | "SPECI", time] => has_form(time, "000000Z"),
        [kind, place, time] | [kind, place, time, _] => {
            has_form(kind, "AAAA00") && has_form(place, "AAAA") && has_form(time, "000000")
        }
        _ => false,
    }
}

/// Whether the word has a digit where the form has `0` and a capital where it has `A` or `Z`.
fn has_form(word: &str, form: &str) -> bool {
    word.len() == form.len()
        && word.bytes().zip(form.bytes()).all(|(b, f)| match f {
            b'0' => b.is_ascii_digit(),
            b'Z' => b == b'Z',
            _ => b.is_ascii_uppercase(),
        })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lines_and_words(text: &str) -> Vec<(usize, String)> {
        let words = |Piece { groups, .. }: Piece| {
            let texts: Vec<_> = groups.iter().map(|g| g.text).collect();
            (groups[0].line, texts.join(" "))
        };
        reports(text).into_iter().map(words).collect()
    }

    #[test]
    fn a_report_ends_where_another_begins() {
        let text = "# from a log\nKMMH 111435Z AUTO 33004KT\n  M05/M07 A3031\nKMMH 111455Z 00000KT=KBIH 111456Z\n\n\
                    SPECI KMMH 111500Z=\nCOR\n";
        let found = lines_and_words(text);
        let wanted = [
            (2, "KMMH 111435Z AUTO 33004KT M05/M07 A3031"),
            (4, "KMMH 111455Z 00000KT"),
            (4, "KBIH 111456Z"),
            (6, "SPECI KMMH 111500Z"),
            (7, "COR"),
        ];
        assert_eq!(found, wanted.map(|(line, words)| (line, words.to_owned())));
    }

    #[test]
    fn the_headings_of_a_bulletin_are_no_report() {
        let text = "\u{feff}SAUS70 KWBC 092200 RRA\r\nMETAR 092200Z\r\nKMMH 092235Z 00000KT=\r\nTAF KMMH 091720Z";
        let found = lines_and_words(text);
        let wanted = [(3, "KMMH 092235Z 00000KT"), (4, "TAF KMMH 091720Z")];
        assert_eq!(found, wanted.map(|(line, words)| (line, words.to_owned())));
    }

    #[test]
    fn a_date_before_a_report_or_above_it_is_its_own() {
        let text = "2018-01-09T22:35:00Z  K2D5 092235Z AUTO\n201801092235 METAR KACB 092235Z=\n2018/01/09 22:35\nKBAX 092235Z\n\
                    KCDA,2018-01-09 22:35,KCDA 092235Z AUTO\nKMMH 092235Z\n<p>a page</p>\n";
        let found: Vec<_> = reports(text)
            .into_iter()
            .map(|piece| (piece.date.map(|d| d.to_string()), piece.groups[0].text))
            .collect();
        let date = Some("2018-01-09".to_owned());
        let wanted = [
            (date.clone(), "K2D5"),
            (date.clone(), "METAR"),
            (date.clone(), "KBAX"),
            (date, "KCDA"),
            (None, "KMMH"),
            (None, "<p>a"),
        ];
        assert_eq!(found, wanted);
        assert!(has_reports(text) && !has_reports("time_utc,temp_c\n"));
    }

    #[test]
    fn nothing_gives_no_report() {
        assert!(reports(" \n# a comment\n===\n").is_empty());
    }

    #[test]
    fn dates_are_found_and_groups_are_none() {
        for word in [
            "2018-01-09",
            "2018/01/09",
            "2018-01-09T22:35:00Z",
            "201801092235",
            "20180109223500",
        ] {
            assert_eq!(date_of(word).unwrap().to_string(), "2018-01-09", "{word}");
        }
        for word in [
            "092235Z",
            "KMMH",
            "10SM",
            "2018-13-09",
            "201816",
            "T10791112",
            "2018-01-091",
            "\u{661}\u{661}",
        ] {
            assert_eq!(date_of(word), None, "{word}");
        }
    }
}
