//! A text of many reports, cut into reports.
//!
//! A report ends at `=`, at a blank line, at a comment line (`#`), and before a line that begins like a report
//! (code name, station, time) or like a forecast (`TAF`). Any other line continues the report above it. Bulletin
//! headings (`SAUS70 KWBC 092200`, `METAR 092200Z`: Regulation 15.1.1) are passed over.

use super::groups::{self, Group};

/// The reports of the text, each as its groups with their lines; none is empty.
pub fn reports(text: &str) -> Vec<Vec<Group<'_>>> {
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
    done: Vec<Vec<Group<'a>>>,
    open: Vec<Group<'a>>,
}

impl<'a> Cut<'a> {
    fn end(&mut self) {
        if !self.open.is_empty() {
            self.done.push(std::mem::take(&mut self.open));
        }
    }
    fn add(&mut self, line: usize, part: &'a str) {
        let words: Vec<&str> = part.split_whitespace().collect();
        if is_heading(&words) {
            self.end();
            return;
        }
        if begins(&words) {
            self.end();
        }
        let groups = words.into_iter().map(|text| Group { line, text });
        self.open.extend(groups);
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
        let told = |groups: Vec<Group>| {
            let words: Vec<_> = groups.iter().map(|g| g.text).collect();
            (groups[0].line, words.join(" "))
        };
        reports(text).into_iter().map(told).collect()
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
    fn nothing_gives_no_report() {
        assert!(reports(" \n# a comment\n===\n").is_empty());
    }
}
