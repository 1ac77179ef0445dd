//! Paragraphs broken into lines.

/// Units that stay on the line of their number.
const UNITS: [&str; 16] = [
    "°C", "°F", "%", "K", "h", "min", "s", "g", "kg", "W", "kWh", "A", "V", "m/s", "g/m²", "mm²/s",
];

/// A text after `lead`, in lines of at most so many characters; those after the first begin with `indent`. Lines are
/// broken at blanks, but not between a number and its unit, nor at a no-break space.
pub fn wrapped(lead: &str, text: &str, width: usize, indent: &str) -> String {
    let mut lines = lead.to_owned();
    let mut used = lead.chars().count();
    for (begun, piece) in pieces(text).into_iter().enumerate() {
        let long = piece.chars().count();
        if begun > 0 && used + 1 + long > width {
            lines.push('\n');
            lines.push_str(indent);
            used = indent.chars().count();
        } else if begun > 0 {
            lines.push(' ');
            used += 1;
        }
        lines.push_str(&piece);
        used += long;
    }
    lines.replace('\u{a0}', " ")
}

/// The words of a text, a number and its unit as one.
fn pieces(text: &str) -> Vec<String> {
    let mut pieces: Vec<String> = Vec::new();
    for word in text.split(' ').filter(|word| !word.is_empty()) {
        let unit = word.trim_end_matches([',', ';', '.', ':', ')']);
        match pieces.last_mut() {
            Some(number)
                if UNITS.contains(&unit) && number.ends_with(|c: char| c.is_ascii_digit()) =>
            {
                number.push(' ');
                number.push_str(word);
            }
            _ => pieces.push(word.to_owned()),
        }
    }
    pieces
}

#[cfg(test)]
mod tests {
    use super::wrapped;

    #[test]
    fn lines_are_broken_at_blanks_and_not_before_a_unit() {
        let text = "one two three at 5 °C";
        assert_eq!(wrapped("", text, 12, "  "), "one two\n  three at\n  5 °C");
        assert_eq!(wrapped("a  ", text, 40, "  "), format!("a  {text}"));
        assert_eq!(
            wrapped("", "over 1 g/m², 2 parts", 8, ""),
            "over\n1 g/m²,\n2 parts"
        );
        let long = wrapped("", "incomprehensibly long", 8, "");
        assert_eq!(long, "incomprehensibly\nlong");
    }
}
