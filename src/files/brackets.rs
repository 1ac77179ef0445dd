//! Brackets and quotes that do not pair up, told where they were opened.

use super::fault::Fault;
use super::place::line_of;
use std::ops::Range;

/// An opening bracket: where it stands, and how far its line is indented.
struct Opened {
    at: usize,
    bracket: char,
    indent: usize,
}

/// The first bracket or quote of a text that has no partner; none if all have.
pub fn unpaired(file: &str, text: &str) -> Option<Fault> {
    let mut open: Vec<Opened> = Vec::new();
    let starts: Vec<usize> = std::iter::once(0)
        .chain(text.match_indices('\n').map(|(i, _)| i + 1))
        .collect();
    // An opener whose partner seems to have closed something inside it, by the indentation.
    let mut suspect: Option<usize> = None;
    let mut at = 0;
    while let Some(c) = text[at..].chars().next() {
        let rest = &text[at..];
        if rest.starts_with("//") {
            at += rest.find('\n').unwrap_or(rest.len());
            continue;
        }
        if rest.starts_with("/*") {
            match comment(rest) {
                Some(length) => at += length,
                None => return Some(never_closed(file, text, at..at + 2, "comment", "*/")),
            }
            continue;
        }
        if c == '"' {
            match quoted(text, at) {
                Some(end) => at = end,
                None => {
                    let line = text[at..].lines().next().unwrap_or("").trim_end();
                    let place = at..at + line.len();
                    return Some(never_closed(file, text, place, "quote", "\""));
                }
            }
            continue;
        }
        if matches!(c, '(' | '[' | '{') {
            open.push(Opened {
                at,
                bracket: c,
                indent: indent(text, &starts, at).0,
            });
        } else if matches!(c, ')' | ']' | '}') {
            let Some(opened) = open.pop() else {
                let what = format!("this `{c}` closes nothing: no bracket is open here");
                return Some(
                    Fault::of(file, what)
                        .at(text, at..at + 1)
                        .help("take it out, or look for one that closes too early above"),
                );
            };
            if partner(opened.bracket) != c {
                return Some(crossed(file, text, &opened, at, c));
            }
            let (indent, first) = indent(text, &starts, at);
            if first && indent < opened.indent && suspect.is_none() {
                suspect = Some(opened.at);
            }
        }
        at += c.len_utf8();
    }
    let last = open.last()?;
    let at = suspect.unwrap_or(last.at);
    let bracket = text[at..].chars().next().unwrap_or('(');
    let place = at..at + 1;
    Some(never_closed(
        file,
        text,
        place,
        "bracket",
        &partner(bracket).to_string(),
    ))
}

fn never_closed(file: &str, text: &str, place: Range<usize>, thing: &str, closing: &str) -> Fault {
    let line = line_of(text, place.start);
    Fault::of(
        file,
        format!("the {thing} opened in line {line} is never closed"),
    )
    .at(text, place)
    .help(format!(
        "write the missing `{closing}` where what it holds ends"
    ))
}

fn crossed(file: &str, text: &str, opened: &Opened, at: usize, c: char) -> Fault {
    let (was, line) = (opened.bracket, line_of(text, opened.at));
    let wanted = partner(was);
    let what = format!("`{c}` stands where the `{was}` opened in line {line} should be closed");
    Fault::of(file, what).at(text, at..at + 1).help(format!(
        "a `{wanted}` is missing before it, or it should be one"
    ))
}

fn partner(bracket: char) -> char {
    match bracket {
        '(' => ')',
        '[' => ']',
        _ => '}',
    }
}

/// The length of a comment, which may hold others.
fn comment(rest: &str) -> Option<usize> {
    let (mut depth, mut at) = (0, 0);
    let bytes = rest.as_bytes();
    while at + 1 < bytes.len() {
        match &bytes[at..at + 2] {
            b"/*" => (depth, at) = (depth + 1, at + 2),
            b"*/" => (depth, at) = (depth - 1, at + 2),
            _ => at += 1,
        }
        if depth == 0 {
            return Some(at);
        }
    }
    None
}

/// The end of a text in quotes; none if it is not closed on its line, which no name or title needs to be.
fn quoted(text: &str, at: usize) -> Option<usize> {
    let before = text[..at].trim_end_matches('#');
    let hashes = at - before.len();
    if before.ends_with('r') {
        let end = format!("\"{}", "#".repeat(hashes));
        return text[at + 1..].find(&end).map(|i| at + 1 + i + end.len());
    }
    let mut escaped = false;
    for (i, c) in text[at + 1..].char_indices() {
        match c {
            '\n' => return None,
            '"' if !escaped => return Some(at + 1 + i + 1),
            '\\' => escaped = !escaped,
            _ => escaped = false,
        }
    }
    None
}

/// How far the line of a place is indented, and whether the place is the first thing on it.
/// `starts` are the places where lines start, in order.
fn indent(text: &str, starts: &[usize], at: usize) -> (usize, bool) {
    let start = starts[starts.partition_point(|s| *s <= at) - 1];
    let line = &text[start..];
    let blank = line.len() - line.trim_start_matches([' ', '\t']).len();
    (blank, start + blank == at)
}
