//! Cells of a weather table as numbers.

/// Words and numbers that say that nothing was measured.
const MISSING: [&str; 13] = [
    "", "m", "na", "n/a", "nan", "null", "none", "-", "--", "/", "//", "///", "missing",
];
/// Numbers that archives write for what was not measured, with either sign.
const SENTINELS: [f64; 6] = [999.0, 999.9, 9999.0, 9999.9, 99_999.0, 999_999.0];
/// Such numbers below zero only.
const NEGATIVE_SENTINELS: [f64; 2] = [-99.0, -99.9];

/// What a cell says.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Cell {
    /// Nothing was measured.
    Missing,
    /// A number.
    Number(f64),
    /// No number.
    Garbage,
}

/// Reads a cell; where commas do not part the cells, one may stand for the decimal point.
pub fn parse_cell(text: &str, decimal_comma: bool) -> Cell {
    let text = text.trim().replace('\u{2212}', "-");
    if MISSING.contains(&text.to_lowercase().as_str()) {
        return Cell::Missing;
    }
    if text.eq_ignore_ascii_case("calm") {
        return Cell::Number(0.0);
    }
    let single = text.matches(',').count() == 1 && !text.contains('.');
    let plain = if decimal_comma && single {
        text.replace(',', ".")
    } else {
        text
    };
    // The parser of numbers knows words such as `inf`, which no station means.
    let digits = plain
        .bytes()
        .all(|b| b.is_ascii_digit() || b"+-.eE".contains(&b));
    match plain.parse::<f64>() {
        Ok(number) if digits && number.is_finite() => {
            let sentinel =
                SENTINELS.contains(&number.abs()) || NEGATIVE_SENTINELS.contains(&number);
            if sentinel {
                Cell::Missing
            } else {
                Cell::Number(number)
            }
        }
        _ => Cell::Garbage,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_missing_marks_and_garbage_are_distinguished() {
        for text in [
            "", "M", "NaN", "-9999", "9999.0", "-999.9", "-99.9", " -- ", "999",
        ] {
            assert_eq!(parse_cell(text, false), Cell::Missing, "{text}");
        }
        for (text, number) in [
            ("-8.9", -8.9),
            ("+3", 3.0),
            ("\u{2212}4", -4.0),
            ("calm", 0.0),
            ("1048", 1048.0),
            ("1000", 1000.0),
            ("1013.2", 1013.2),
        ] {
            assert_eq!(parse_cell(text, false), Cell::Number(number), "{text}");
        }
        for text in ["cold", "inf", "1,5", "12:30"] {
            assert_eq!(parse_cell(text, false), Cell::Garbage, "{text}");
        }
        assert_eq!(parse_cell("-8,9", true), Cell::Number(-8.9));
        assert_eq!(parse_cell("1,048.5", true), Cell::Garbage);
    }
}
