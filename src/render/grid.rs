//! A table in aligned columns: words to the left, broken where there is no room for them, numbers to the right.

use super::wrap::wrapped;
use crate::report::Table;

/// Blanks between columns.
const GAP: usize = 2;
/// A space at which a head is broken only where there is no other room.
const FIRM: char = '\u{a0}';

/// The columns of these numbers, in lines of at most so many characters if words can be broken so far.
pub fn grid(table: &Table, shown: &[usize], width: usize) -> String {
    if table.rows.is_empty() {
        return String::new();
    }
    let head: Vec<&str> = shown
        .iter()
        .map(|k| table.heads[*k].text.as_str())
        .collect();
    let rows = table.rows.iter();
    let rows = rows.map(|row| shown.iter().map(|k| row[*k].text.as_str()).collect());
    let lines: Vec<Vec<&str>> = std::iter::once(head).chain(rows).collect();
    let words: Vec<bool> = shown.iter().map(|k| table.heads[*k].words).collect();
    let widths = widths(&lines, &words, width);
    let begun = usize::from(lines[0].iter().all(|head| head.is_empty()));
    let row = |cells: &Vec<&str>| line(cells, &words, &widths);
    lines[begun..].iter().map(row).collect()
}

/// The widths of the columns: as wide as their widest cell or, where that is too much, of the widest column less, down to
/// its longest word. Heads are always broken as far as their column asks.
fn widths(lines: &[Vec<&str>], words: &[bool], width: usize) -> Vec<usize> {
    let long = |text: &str| text.chars().count();
    let longest_word = |text: &&str| text.split(' ').map(long).max().unwrap_or(0);
    let column = |k: usize| lines.iter().map(move |cells| cells[k]);
    let least = |k: usize| match words[k] {
        true => column(k).map(|c| longest_word(&c)).max(),
        false => {
            let head = lines[0][k].split([' ', FIRM]).map(long);
            column(k).skip(1).map(long).chain(head).max()
        }
    };
    let columns = 0..words.len();
    let least: Vec<usize> = columns.clone().map(|k| least(k).unwrap_or(0)).collect();
    let natural = |k: usize| {
        let cells = column(k).skip(1).map(long);
        cells.max().unwrap_or(0).max(longest_word(&lines[0][k]))
    };
    let mut widths: Vec<usize> = columns.clone().map(natural).collect();
    let room = width.saturating_sub(GAP * words.len().saturating_sub(1));
    let mut total: usize = widths.iter().sum();
    while total > room {
        let spare = columns.clone().filter(|k| widths[*k] > least[*k]);
        let Some(widest) = spare.max_by_key(|k| widths[*k]) else {
            break;
        };
        widths[widest] -= 1;
        total -= 1;
    }
    widths
}

/// One row, its cells broken into as many lines as they need.
fn line(cells: &[&str], words: &[bool], widths: &[usize]) -> String {
    let broken: Vec<Vec<String>> = cells
        .iter()
        .zip(widths)
        .map(|(cell, width)| {
            let narrow = cell.split(' ').any(|word| word.chars().count() > *width);
            let cell = match narrow {
                true => cell.replace(FIRM, " "),
                false => (*cell).to_owned(),
            };
            wrapped("", &cell, *width, "")
                .split('\n')
                .map(str::to_owned)
                .collect()
        })
        .collect();
    let high = broken.iter().map(Vec::len).max().unwrap_or(0);
    let one = |at: usize| {
        let mut text = String::new();
        for ((lines, width), words) in broken.iter().zip(widths).zip(words) {
            let cell = lines.get(at).map_or("", String::as_str);
            text += &match words {
                true => format!("{cell:width$}"),
                false => format!("{cell:>width$}"),
            };
            text += &" ".repeat(GAP);
        }
        text.trim_end().to_owned() + "\n"
    };
    (0..high).map(one).collect()
}

#[cfg(test)]
mod tests {
    use crate::report::{Report, Section, Table};

    fn drawn(width: u16) -> String {
        let rows = [("350 W fan underneath", "78 %"), ("no heater", "< 2 %")];
        let table = Table::of("choices", &rows)
            .number("", "#", |_| "1")
            .words("name", "Choice", |r| r.0)
            .number("ready", "Ready at departure", |r| r.1);
        Report::new("", "", None)
            .with(Section::new("").block(table))
            .text(width)
    }

    #[test]
    fn words_stand_left_and_numbers_right_under_heads_that_are_broken() {
        let expected = "
#  Choice                 Ready at
                         departure
1  350 W fan underneath       78 %
1  no heater                 < 2 %
";
        assert_eq!(drawn(80), expected[1..], "\n{}", drawn(80));
    }

    #[test]
    fn a_firm_space_in_a_head_is_broken_only_where_there_is_no_other_room() {
        let table = Table::of("", &[()]).words("", "Part", |()| "oil").number(
            "",
            "40\u{a0}°F\u{a0}at",
            |()| "22:02",
        );
        let report = Report::new("", "", None).with(Section::new("").block(table));
        assert_eq!(report.text(20), "Part  40 °F at\noil      22:02\n");
        assert_eq!(
            report.text(12),
            "Part   40 °F\n          at\noil    22:02\n"
        );
    }

    #[test]
    fn a_table_is_no_wider_than_requested_as_far_as_words_can_be_broken() {
        let expected = "
#  Choice       Ready at
               departure
1  350 W fan        78 %
   underneath
1  no heater       < 2 %
";
        assert_eq!(drawn(24), expected[1..], "\n{}", drawn(24));
    }
}
