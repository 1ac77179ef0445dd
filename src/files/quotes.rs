//! Quotes that a word processor or another notation makes, told as what they are.

use super::fault::Fault;
use std::ops::Range;

/// Quotes that are none here.
const FOREIGN: [char; 12] = ['\'', '“', '”', '„', '‟', '‘', '’', '‚', '«', '»', '‹', '›'];

/// The first text in quotes that are none here, outside of comments and of texts in straight quotes; none if there is
/// none.
pub fn foreign(file: &str, text: &str) -> Option<Fault> {
    let found = all(text);
    let first = found.first()?.clone();
    let there = &text[first.clone()];
    let inner = there.trim_matches(|c| FOREIGN.contains(&c) || c == '"');
    let kind = match there.chars().next() {
        Some('\'') => "single quotes",
        _ => "curly quotes",
    };
    let more = match found.len() - 1 {
        0 => String::new(),
        1 => "; one more stands below".to_owned(),
        n => format!("; {n} more stand below"),
    };
    let fault = Fault::of(
        file,
        format!("`{there}` is in {kind}; straight double ones are wanted"),
    );
    let help =
        format!("write \"{inner}\"{more} (a plain text editor leaves quotes as they are typed)");
    Some(fault.at(text, first).help(help))
}

/// The places of such texts: from quote to quote, or to the end of the line.
fn all(text: &str) -> Vec<Range<usize>> {
    let mut found = Vec::new();
    let mut at = 0;
    while let Some(c) = text[at..].chars().next() {
        let rest = &text[at..];
        let length = if rest.starts_with("//") {
            rest.find('\n').unwrap_or(rest.len())
        } else if rest.starts_with("/*") {
            rest.find("*/").map_or(rest.len(), |end| end + 2)
        } else if c == '"' {
            straight(rest)
        } else if FOREIGN.contains(&c) {
            let length = to_its_end(rest, c);
            found.push(at..at + length);
            length
        } else {
            c.len_utf8()
        };
        at += length;
    }
    found
}

/// The length of a text in straight quotes, or of what is left of its line.
fn straight(rest: &str) -> usize {
    let mut escaped = false;
    for (i, c) in rest.char_indices().skip(1) {
        match c {
            '\n' => return i,
            '"' if !escaped => return i + 1,
            '\\' => escaped = !escaped,
            _ => escaped = false,
        }
    }
    rest.len()
}

/// The length of what a foreign quote opens; no more than its line.
fn to_its_end(rest: &str, opened: char) -> usize {
    let line = rest.lines().next().unwrap_or(rest);
    let mut within = line.char_indices().skip(1);
    match within.find(|(_, c)| FOREIGN.contains(c) || *c == '"') {
        Some((i, c)) => i + c.len_utf8(),
        None => line
            .trim_end_matches([' ', ',', ')', ']', '}', '\t', '\r'])
            .len()
            .max(opened.len_utf8()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quotes_of_a_word_processor_are_found_and_counted() {
        for (text, there, inner, more) in [
            ("(a: “one two”, b: 3)", "“one two”", "\"one two\" (", false),
            ("(a: 'it', b: 'two')", "'it'", "\"it\"; one more", true),
            ("(a: „wie“)", "„wie“", "\"wie\"", false),
            ("(a: ‘one\", b: 1)", "‘one\"", "\"one\"", false),
            ("(a: “open\n)", "“open", "\"open\"", false),
        ] {
            let fault = foreign("f", text).unwrap();
            let (_, place) = fault.place.clone().unwrap();
            assert_eq!(&text[place], there);
            let help = fault.help.unwrap();
            assert!(help.contains(inner) || more, "{help}");
        }
        assert!(
            foreign("f", "(a: 'it', b: 'two')")
                .unwrap()
                .help
                .unwrap()
                .contains("one more stands below")
        );
    }

    #[test]
    fn quotes_in_titles_and_comments_are_the_users_own() {
        for text in [
            "(a: \"it's “so”\") // don't\n/* ‘x’ */",
            "(a: \"a \\\" 'b'\")",
            "(",
        ] {
            assert_eq!(foreign("f", text), None, "{text}");
        }
    }
}
