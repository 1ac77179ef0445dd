//! Paragraphs broken into lines.

/// A text after `lead`, in lines of at most so many characters; those after the first begin with `indent`. Lines are
/// broken at blanks, but not between a number and its degree or percent sign, nor at a no-break space.
pub fn wrapped(lead: &str, text: &str, width: usize, indent: &str) -> String {
    let held = text.replace(" °", "\u{a0}°").replace(" %", "\u{a0}%");
    let mut lines = lead.to_owned();
    let mut used = lead.chars().count();
    let mut begun = false;
    for word in held.split(' ').filter(|word| !word.is_empty()) {
        let long = word.chars().count();
        if begun && used + 1 + long > width {
            lines.push('\n');
            lines.push_str(indent);
            used = indent.chars().count();
        } else if begun {
            lines.push(' ');
            used += 1;
        }
        lines.push_str(word);
        used += long;
        begun = true;
    }
    lines.replace('\u{a0}', " ")
}

#[cfg(test)]
mod tests {
    use super::wrapped;

    #[test]
    fn lines_are_broken_at_blanks_and_not_before_a_degree() {
        let text = "one two three at 5 °C";
        assert_eq!(wrapped("", text, 12, "  "), "one two\n  three at\n  5 °C");
        assert_eq!(wrapped("a  ", text, 40, "  "), format!("a  {text}"));
        let long = wrapped("", "incomprehensibly long", 8, "");
        assert_eq!(long, "incomprehensibly\nlong");
    }
}
