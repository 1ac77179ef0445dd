//! Texts whose notation is wrong: every error is reported in one pass, and nothing is a panic.

use super::super::*;

/// The errors of a text, each as `line:column message > suggestion`.
fn errors(text: &str) -> Vec<String> {
    let parsed = parse(&Source::new("f", text));
    let line = |error: &InputError| {
        let (line, column) = error.line_and_column().unwrap_or_default();
        let suggestion = error.suggestion.clone().unwrap_or_default();
        format!("{line}:{column} {} > {suggestion}", error.message)
    };
    parsed.errors.kept().iter().map(line).collect()
}

#[test]
fn a_broken_text_ends_in_errors() {
    for text in [
        "",
        "(",
        "((((",
        "{\"a",
        "r#\"",
        "(a: , b: )))",
        ")]}",
        "/*",
        "(\"",
        "(a: \"\\",
        "(a: \"\\u{",
        "(a b c",
        "(a: [1 2",
        "(:",
        "(,)(",
        "(a: {1: 2, \"b\" 3})x",
        "(r",
        "(a: '",
        "(a: r#b)(",
        "(a: -)=",
        "\u{feff}",
        &"(".repeat(999),
        &"[(".repeat(70),
        &"a(".repeat(200),
    ] {
        assert!(!errors(text).is_empty(), "{text}");
        // Cut anywhere, it is still no panic.
        for (cut, _) in text.char_indices() {
            errors(&text[..cut]);
            errors(&text[cut..]);
        }
    }
}

#[test]
fn all_errors_of_notation_are_found_in_one_pass() {
    let text = "(\n a: 1,5,\n b \"x\",\n c: degC(−9)\n d: 'y',\n d: “z”,\n e = 3,\n f: \"\\q\",\n g: \"open,\n)";
    assert_eq!(
        errors(text),
        [
            "2:5 the number `1,5` has a comma > a: 1.5 (a decimal point)",
            "3:2 a colon is missing after `b` > b: \"x\"",
            "4:10 `−9` begins with a dash, not with a minus sign > c: -9",
            "4:12 a comma is missing after this > write `,` here",
            "5:5 `'y'` is in single quotes; write straight double quotes > \"y\"; one more stands below \
             (a plain text editor leaves quotes as they are typed)",
            "6:2 the key `d` stands there twice > take one of the two out",
            "7:2 a colon is missing after `e` > e: 3",
            "8:6 `\\q` is no character that can be written so > write \\\\ for a backslash, or / in the name of a file",
            "9:5 the quote opened in line 9 is never closed > g: \"open\"",
        ]
    );
}

#[test]
fn brackets_are_blamed_where_they_were_opened() {
    let open = "(\n    a: (b: 1,\n    c: [1, 2],\n)\n";
    assert_eq!(
        errors(open),
        [
            "2:8 the bracket opened in line 2 is never closed > write the missing `)` where what it holds ends"
        ]
    );
    let crossed = "(a: [1, 2), b: 3)";
    assert_eq!(
        errors(crossed)[0],
        "1:10 `)` stands where the `[` opened in line 1 should be closed > write `]` before it, or in its place"
    );
    assert!(errors("(a: 1))")[0].starts_with("1:7 this `)` closes nothing"));
    assert!(errors("(a: 1) b")[0].starts_with("1:8 more text follows"));
    assert!(errors("(a: /* 1)")[0].starts_with("1:5 the comment opened in line 1"));
    let deep = errors(&"(".repeat(999));
    assert_eq!(deep.len(), 1);
    assert!(deep[0].starts_with("1:129 brackets are nested more than 128 deep"));
}

#[test]
fn a_text_of_another_kind_is_told_from_a_model() {
    assert!(errors("{ \"a\": 1 }")[0].contains("that is JSON"));
    assert!(errors("title: \"a\"")[0].contains("does not begin with a round bracket"));
    assert!(errors("// nothing\n")[0].contains("the file is empty"));
    for text in [
        "#![enable(implicit_some)]\n(a: 1)",
        "(\u{a0}a:\u{a0}1)",
        "night(a: 1)",
    ] {
        assert_eq!(errors(text), Vec::<String>::new());
    }
}

#[test]
fn lines_of_every_system_are_counted() {
    for text in ["(\n\n a 1)", "(\r\n\r\n a 1)", "(\r\r a 1)"] {
        assert!(
            errors(text)[0].starts_with("3:2 a colon"),
            "{:?}",
            errors(text)
        );
    }
}

#[test]
fn a_hopeless_text_is_cut_short() {
    let parsed = parse(&Source::new("f", &format!("({})", "a: 1, ".repeat(50_000))));
    assert_eq!(parsed.errors.count(), 49_999);
    assert_eq!(parsed.errors.to_string().lines().count(), 2 * 20 + 1);
    assert!(parsed.errors.to_string().ends_with("\n49979 more errors"));
}
