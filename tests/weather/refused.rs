//! Files that give no weather, and what is said of them: where, what, and what to do.

use super::{TempProject, refused};

#[test]
fn empty_and_foreign_files_are_refused() {
    assert!(refused("", &[]).contains("no weather in the file"));
    assert!(refused("time_utc,temp_c,dewpoint_c,wind_kt\n", &[]).contains("no lines under it"));
    assert!(refused("a,b,c\n1,2,3\n", &[]).contains("no column holds the time"));
    assert!(refused("a letter to a friend\n", &[]).contains("own.csv"));
    let said = refused(
        "time_utc,temp,dewpoint_c,wind_kt\n2018-01-09T22:00Z,1,0,1\n",
        &[],
    );
    assert!(
        said.contains("own.csv, line 1, column 10") && said.contains("does not name its unit"),
        "{said}"
    );
}

#[test]
fn names_that_lead_nowhere_and_spans_that_are_not_covered_are_refused() {
    let desk = TempProject::with(&[]);
    let ran = desk.run(&["weather", "nowhere"]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("greensboro_nc_1996-02-04"), "{}", ran.err);
    let ran = desk.run(&[
        "weather",
        "newark_nj_2013-01-22",
        "--to",
        "2013-02-22 07:00",
    ]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("ends before --to"), "{}", ran.err);
    assert_eq!(
        desk.run(&["weather", "newark_nj_2013-01-22", "--month", "2013-13"])
            .code,
        2
    );
}
