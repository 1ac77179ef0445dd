//! The full date that archives put before a report.

use jiff::civil::Date;

/// The date that a word begins with: `2018-01-09`, `2018/01/09`, `2018-01-09T22:35:00Z`, `201801092235`.
pub fn date_of(word: &str) -> Option<Date> {
    let digits = |range: std::ops::Range<usize>| -> Option<i16> {
        let part = word.get(range)?;
        part.bytes()
            .all(|b| b.is_ascii_digit())
            .then(|| part.parse().ok())?
    };
    let parts = match word.as_bytes().get(4)? {
        b'-' | b'/' if word.as_bytes().get(7) == word.as_bytes().get(4) => {
            let whole = word.len() == 10 || word.get(10..)?.starts_with('T');
            whole.then_some((0..4, 5..7, 8..10))
        }
        _ => {
            let whole = [10, 12, 14].contains(&word.len());
            let all = word.bytes().all(|b| b.is_ascii_digit());
            (whole && all).then_some((0..4, 4..6, 6..8))
        }
    };
    let (year, month, day) = parts?;
    let small = |range| digits(range).and_then(|n| i8::try_from(n).ok());
    Date::new(digits(year)?, small(month)?, small(day)?).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

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
