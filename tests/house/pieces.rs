//! A Rust source cut into code, comments and strings.

/// What a piece of a source is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Kind {
    /// Anything but comments, strings and characters.
    Code,
    /// A comment, with its strokes.
    Comment,
    /// A string or a character, with its quotes.
    Literal,
}

/// The pieces of a source, in order.
pub fn pieces(text: &str) -> Vec<(Kind, &str)> {
    let mut found = Vec::new();
    let (mut start, mut at) = (0, 0);
    // Within a word no string begins: the `r` of `for` opens none.
    let mut in_word = false;
    while let Some(c) = text[at..].chars().next() {
        let rest = &text[at..];
        let piece = if rest.starts_with("//") {
            Some((Kind::Comment, rest.find('\n').unwrap_or(rest.len())))
        } else if rest.starts_with("/*") {
            let end = rest.find("*/").map_or(rest.len(), |end| end + 2);
            Some((Kind::Comment, end))
        } else if in_word {
            None
        } else {
            literal(rest).map(|length| (Kind::Literal, length))
        };
        match piece {
            Some((kind, length)) => {
                found.push((Kind::Code, &text[start..at]));
                found.push((kind, &rest[..length]));
                at += length;
                start = at;
                in_word = false;
            }
            None => {
                at += c.len_utf8();
                in_word = c.is_alphanumeric() || c == '_';
            }
        }
    }
    found.push((Kind::Code, &text[start..]));
    found
}

/// The length of the string or the character that begins here.
fn literal(text: &str) -> Option<usize> {
    let raw = text.trim_start_matches(['b', 'c']);
    let raw = raw
        .strip_prefix('r')
        .map(|rest| rest.trim_start_matches('#'));
    if let Some(inner) = raw.and_then(|rest| rest.strip_prefix('"')) {
        let opening = text.len() - inner.len();
        let strokes = text[..opening].matches('#').count();
        let end = format!("\"{}", "#".repeat(strokes));
        let inside = inner.find(&end).map_or(inner.len(), |at| at + end.len());
        return Some(opening + inside);
    }
    let quoted = text.strip_prefix(['b', 'c']).unwrap_or(text);
    let opening = text.len() - quoted.len();
    let quote = quoted.chars().next().filter(|c| "\"'".contains(*c))?;
    let mut escaped = false;
    for (at, c) in quoted.char_indices().skip(1) {
        if escaped {
            escaped = false;
        } else if c == '\\' {
            escaped = true;
        } else if c == quote {
            return Some(opening + at + 1);
        }
        let one = quoted[1..].chars().next().map_or(0, char::len_utf8);
        if quote == '\'' && !quoted[1..].starts_with('\\') && at > one {
            return None; // A lifetime.
        }
    }
    None
}
