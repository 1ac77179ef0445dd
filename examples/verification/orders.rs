//! Measured orders: errors that fall as cells or steps get smaller.

use super::plot::{Curve, Words, draw};
use super::{cell, lines};
use std::error::Error;
use std::fmt::Write;
use std::path::Path;

/// One case, refined several times.
pub struct Case {
    /// Which test.
    pub test: String,
    /// Which of its cases.
    pub name: String,
    /// How many times finer, and the error found.
    pub errors: Vec<(f64, f64)>,
    /// The order of the method.
    pub promised: f64,
    /// The order found.
    pub found: f64,
}

/// Reads the cases.
pub fn read(path: &Path) -> Result<Vec<Case>, Box<dyn Error>> {
    let mut cases: Vec<Case> = Vec::new();
    for line in lines(path)? {
        let (test, name) = (cell(&line, 0)?, cell(&line, 1)?);
        let number = |column| -> Result<f64, Box<dyn Error>> { Ok(cell(&line, column)?.parse()?) };
        let point = (number(2)?, number(3)?);
        match cases.iter_mut().find(|c| c.test == test && c.name == name) {
            Some(case) => case.errors.push(point),
            None => cases.push(Case {
                test: test.to_owned(),
                name: name.to_owned(),
                errors: vec![point],
                promised: number(4)?,
                found: number(5)?,
            }),
        }
    }
    // Tests run side by side, so their lines come in any order.
    cases.sort_by(|a, b| (&a.test, &a.name).cmp(&(&b.test, &b.name)));
    Ok(cases)
}

/// Writes them as a table, and draws them, each error over that of its first refinement.
pub fn write(cases: &[Case], folder: &Path) -> Result<(), Box<dyn Error>> {
    let mut table = "test,case,times_finer,error,order_promised,order_found\n".to_owned();
    for case in cases {
        for (finer, error) in &case.errors {
            let name = case.name.replace(',', ";");
            writeln!(
                table,
                "{},{name},{finer},{error:e},{},{:.3}",
                case.test, case.promised, case.found
            )?;
        }
    }
    std::fs::write(folder.join("orders.csv"), table)?;
    let mut curves = Vec::new();
    let mut promised: Vec<f64> = cases.iter().map(|c| c.promised).collect();
    promised.sort_by(f64::total_cmp);
    promised.dedup();
    for case in cases {
        let Some(&(first, error)) = case.errors.first().filter(|(_, e)| *e > 0.0) else {
            continue;
        };
        let of = promised
            .iter()
            .position(|p| *p == case.promised)
            .unwrap_or(0);
        let named = !curves.iter().any(|c: &Curve| c.ink == of);
        curves.push(Curve {
            name: if named {
                format!("method of order {}", case.promised)
            } else {
                String::new()
            },
            ink: of,
            points: case
                .errors
                .iter()
                .filter(|(_, e)| *e > 0.0)
                .map(|(n, e)| (n / first, e / error))
                .collect(),
            guide: false,
        });
    }
    let words = Words {
        title: "Errors against exact and manufactured solutions",
        across: "times finer (cells or steps)",
        up: "error over the coarsest",
    };
    draw(&folder.join("orders.svg"), &words, &curves)
}
