//! What is said of a heater's hours in brackets that do not fit: two times in one `from`, pairs without their list.

/// What is wrong and how it is written, if the value is one of `from` or `between` with times in it that its brackets
/// do not fit.
pub(super) fn wanted(path: &str, whole: &str) -> Option<(String, Option<String>)> {
    let (word, inside) = whole.split_once('(').filter(|_| path.ends_with("hours"))?;
    let times: Vec<&str> = inside.split('"').skip(1).step_by(2).collect();
    let what = match (word.trim(), times.len()) {
        ("from", 2..) => "`from` takes one time, that of plugging in, and here are more",
        ("between", 2..) if !inside.trim_start().starts_with('[') => {
            "`between` takes a list of pairs, on and off, in square brackets"
        }
        _ => return None,
    };
    let pairs: Vec<String> = times
        .chunks_exact(2)
        .map(|pair| format!("(\"{}\", \"{}\")", pair[0], pair[1]))
        .collect();
    let help = format!(
        "for a heater that is on from one time to another write between([{}])",
        pairs.join(", ")
    );
    Some((what.to_owned(), Some(help)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_are_put_into_the_brackets_they_need() {
        let help = |whole| wanted("heaters[0].hours", whole).and_then(|(_, help)| help);
        for whole in [
            "from(\"02:00\", \"06:00\")",
            "between((\"02:00\", \"06:00\"))",
            "between(\"02:00\", \"06:00\")",
        ] {
            assert!(
                help(whole)
                    .unwrap()
                    .ends_with("between([(\"02:00\", \"06:00\")])"),
                "{whole}"
            );
        }
        assert_eq!(help("from(\"02:00\")"), None);
        assert_eq!(help("between([(\"02:00\", 6)])"), None);
        assert_eq!(wanted("title", "from(\"02:00\", \"06:00\")"), None);
    }
}
