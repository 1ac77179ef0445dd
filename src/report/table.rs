//! The comparison as a table: one row a choice, the best first.

use super::format::{difference, finely, reach, temperature};
use crate::findings::{Findings, Unmet, hazards};
use crate::night::Night;
use crate::quantity::Units;
use comfy_table::{
    CellAlignment, ContentArrangement, ContentLineStyle, LineStyle, Table, TableStyle,
};

/// Our tables: a rule under the head and at the foot, nothing else.
const STYLE: TableStyle = TableStyle::new()
    .header_lines(ContentLineStyle::new(' ', ' ', ' '))
    .header_separator(LineStyle::new('─', '─', '─', '─'))
    .content_lines(ContentLineStyle::new(' ', ' ', ' '))
    .bottom_border(LineStyle::new('─', '─', '─', '─'));

/// Columns of a ranking set to the left: names.
const NAMES: [usize; 2] = [1, 4];
/// Columns of a ranking that stay together where the terminal is narrow: warmth.
const WARMTH: usize = 6;
/// The narrowest terminal that holds a whole ranking.
const WHOLE: u16 = 104;

/// The head of the column that holds names.
pub const COLDEST: &str = "coldest part";

/// Cells of a table: its heads, with line breaks where they may be broken, and its rows.
pub struct Cells {
    /// Its heads.
    pub head: Vec<String>,
    /// Its rows; the first two cells are the rank and the name.
    pub rows: Vec<Vec<String>>,
}

/// The table of ranked nights, `width` characters wide at most.
pub fn comparison(nights: &[(String, Night)], units: Units, width: u16) -> String {
    ranking(nights, units).folded(&NAMES, WARMTH, WHOLE, width)
}

/// The cells of ranked nights.
pub fn ranking(nights: &[(String, Night)], units: Units) -> Cells {
    let ranked: Vec<_> = nights
        .iter()
        .map(|(name, night)| (name.as_str(), &night.findings))
        .collect();
    cells(&ranked, units)
}

fn cells(ranked: &[(&str, &Findings)], units: Units) -> Cells {
    let currency = ranked
        .iter()
        .find(|(_, f)| f.energy.cost.is_some())
        .map(|(_, f)| f.energy.currency.clone());
    let mut head = vec![
        String::new(),
        "choice".to_owned(),
        "warm\nafter".to_owned(),
        "ready,\nmargin".to_owned(),
        COLDEST.to_owned(),
        String::new(),
        "water,\nupper".to_owned(),
        "con-\ndenses".to_owned(),
        "oil".to_owned(),
        "oil,\nmm²/s".to_owned(),
        "kWh".to_owned(),
    ];
    head.extend(currency.clone());
    head.push("peak\nA".to_owned());
    let rows = ranked.iter().enumerate().map(|(rank, (name, findings))| {
        let mut row = row(rank + 1, name, findings, units);
        if currency.is_some() {
            let cost = findings.energy.cost;
            row.push(cost.map_or("-".to_owned(), |c| format!("{c:.2}")));
        }
        row.push(format!("{:.1}", findings.circuit.peak_current_a));
        row
    });
    Cells {
        rows: rows.collect(),
        head,
    }
}

impl Cells {
    /// The table, or where the terminal is narrower than `whole` two of them, the second with what stands after the
    /// first so many columns; the ranks stand in both.
    pub fn folded(&self, names: &[usize], first: usize, whole: u16, width: u16) -> String {
        if width >= whole {
            return drawn(self.head.clone(), self.rows.iter().cloned(), names, width);
        }
        let columns = 0..self.head.len();
        let (here, there): (Vec<usize>, Vec<usize>) = columns.partition(|c| *c < first);
        let there = [vec![0], there].concat();
        let part = |kept: &[usize]| {
            let of = |cells: &Vec<String>| kept.iter().map(|c| cells[*c].clone()).collect();
            let left: Vec<usize> = (0..kept.len())
                .filter(|k| names.contains(&kept[*k]))
                .collect();
            drawn(of(&self.head), self.rows.iter().map(of), &left, width)
        };
        format!("{}\n{}", part(&here), part(&there))
    }
}

/// Whether water is all that keeps an engine from being ready.
pub(super) fn only_wet(f: &Findings) -> bool {
    let wet = |u: &Unmet| matches!(u, Unmet::Wet { .. });
    !f.ready.unmet.is_empty() && f.ready.unmet.iter().all(wet)
}

fn row(rank: usize, name: &str, f: &Findings, units: Units) -> Vec<String> {
    let ready = match f.ready.ready_at_departure {
        true if hazards(&f.warnings).is_empty() => "yes",
        true => "yes!",
        false if only_wet(f) => "wet",
        false => "NO",
    };
    let margin = f
        .ready
        .margin_k
        .map_or("-".to_owned(), |m| difference(m, units));
    let (coldest, coldest_at) = f
        .coldest
        .as_ref()
        .map_or(("-".to_owned(), String::new()), |c| {
            let near = f.ready.margin_k.is_some_and(|m| units.step(m).abs() < 0.95);
            let told = if near {
                finely(c.temp_c, units)
            } else {
                temperature(c.temp_c, units)
            };
            (c.label.clone(), told)
        });
    let water = f.condensation.as_ref();
    let oil = f.oil.as_ref();
    vec![
        rank.to_string(),
        name.to_owned(),
        reach(&f.threshold.all_parts),
        format!("{ready} {margin}"),
        coldest,
        coldest_at,
        water.map_or("-".to_owned(), |c| format!("{:.1} g", c.upper_g)),
        water.map_or("-".to_owned(), |c| format!("{:.1} h", c.hours)),
        oil.map_or("-".to_owned(), |o| temperature(o.temp_c, units)),
        oil.map_or("-".to_owned(), |o| {
            let flag = if o.flagged { "*" } else { "" };
            format!("{:.0}{flag}", o.viscosity_mm2_s)
        }),
        format!("{:.1}", f.energy.kwh),
    ]
}

/// A table in our style; all columns but `names` are set to the right.
pub fn drawn(
    head: Vec<String>,
    rows: impl Iterator<Item = Vec<String>>,
    names: &[usize],
    width: u16,
) -> String {
    let columns = head.len();
    let mut table = Table::new();
    table
        .load_style(STYLE)
        .set_content_arrangement(ContentArrangement::Dynamic)
        .set_width(width)
        .set_header(head);
    for row in rows {
        table.add_row(row);
    }
    for number in (0..columns).filter(|n| !names.contains(n)) {
        if let Some(column) = table.column_mut(number) {
            column.set_cell_alignment(CellAlignment::Right);
        }
    }
    for column in table.column_iter_mut() {
        column.set_padding((0, 1));
    }
    table
        .lines()
        .map(|line| line.trim_end().to_owned())
        .collect::<Vec<_>>()
        .join("\n")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawn_night;
    use crate::quantity::Temperature;

    #[test]
    fn a_ranking_is_told_row_by_row_and_a_never_as_never() {
        // Worked by hand from the made-up lines: the oil ends at -0.42 °C; it passes -5 °C 3.12 h after the heater
        // came on, when the hangar is at -11.2 °C; 250 W for 8 h at 120 V.
        let cool = drawn_night::findings(Temperature::degC(-5.0));
        let warm = drawn_night::findings(Temperature::degF(40.0));
        let ranked = [
            ("top, blowing right", &cool),
            ("the same, asked for more", &warm),
        ];
        let told = cells(&ranked, Units::Fahrenheit).folded(&NAMES, WARMTH, WHOLE, 110);
        let expected = "
    choice               warm     ready,  coldest part         water,    con-    oil   oil,  kWh   EUR  peak
                        after     margin                        upper  denses         mm²/s                A
──────────────────────────────────────────────────────────────────────────────────────────────────────────────
 1  top, blowing right  3.1 h  yes +8 °F  oil           31 °F       -       -  31 °F   5384  2.0  0.40   2.1
 2  the same, asked     never   NO -9 °F  oil           31 °F       -       -  31 °F   5384  2.0  0.40   2.1
    for more
──────────────────────────────────────────────────────────────────────────────────────────────────────────────";
        assert_eq!(told, expected.trim_start_matches('\n'), "\n{told}");
    }

    #[test]
    fn a_table_never_is_wider_than_asked() {
        let findings = drawn_night::findings(Temperature::degC(-5.0));
        let name = "a choice with a name that goes on for longer than anybody would care to read in a table";
        for width in [60, 80, 100, 120] {
            let told =
                cells(&[(name, &findings)], Units::Celsius).folded(&NAMES, WARMTH, WHOLE, width);
            let widest = told.lines().map(|l| l.chars().count()).max();
            assert!(widest <= Some(usize::from(width)), "{width}: {told}");
            // Numbers stay whole, and no column is lost.
            for whole in ["3.1 h", "5384", "2.0", "0.40", "2.1", "oil,"] {
                assert!(told.contains(whole), "{width}: {whole} in\n{told}");
            }
        }
    }
}
