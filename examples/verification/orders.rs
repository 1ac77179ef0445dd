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
    for case in cases {
        let Some(&(first, error)) = case.errors.first().filter(|(_, e)| *e > 0.0) else {
            continue;
        };
        // A case may promise a little less than the order of its method, where kinks are near.
        let of = (case.promised.round() as usize).clamp(2, 4);
        let named = !curves.iter().any(|c: &Curve| c.ink == of - 2);
        let above = case.errors.iter().filter(|(_, e)| *e > 0.0);
        curves.push(Curve {
            name: match named {
                true => format!("promised: about {of}"),
                false => String::new(),
            },
            ink: of - 2,
            points: above.map(|(n, e)| (n / first, e / error)).collect(),
            guide: false,
        });
    }
    for of in 2..=4 {
        let exactly = [1.0_f64, 2.0, 4.0, 8.0].map(|n| (n, n.powi(-of)));
        curves.push(Curve {
            name: String::new(),
            ink: of as usize - 2,
            points: exactly.to_vec(),
            guide: true,
        });
    }
    curves.sort_by_key(|c| c.ink);
    let words = Words {
        title: "Errors against exact and manufactured solutions (dashed: orders 2, 3 and 4)",
        across: "times finer (cells or steps)",
        up: "error over the coarsest",
    };
    draw(&folder.join("orders.svg"), &words, &curves)
}
