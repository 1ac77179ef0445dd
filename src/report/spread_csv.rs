//! A spread of nights as CSV: one row a plausible night, its unknowns first, then what it came to. Units stand in the
//! names of the columns. An empty field is a "never", or a number the night does not have.

use crate::study::spread::{Outcome, Task};
use crate::study::uncertain_inputs::UncertainInput;

/// What a night came to: a column each, before the groups.
const FINDINGS: [&str; 9] = [
    "ready",
    "time_to_threshold_h",
    "margin_k",
    "coldest",
    "coldest_c",
    "upper_g",
    "oil_c",
    "oil_mm2_s",
    "energy_kwh",
];

/// The text of the file; `groups` are the keys of the groups in their order.
///
/// *Errors*: whatever the CSV writer says; it writes to memory.
pub fn nights(
    doubts: &[UncertainInput],
    groups: &[String],
    tasks: &[Task],
    outcomes: &[Outcome],
) -> Result<Vec<u8>, csv::Error> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    let unknowns = doubts.iter().map(|d| match &d.unit {
        Some(unit) => format!("{}_{unit}", d.path),
        None => d.path.clone(),
    });
    let head = std::iter::once("night".to_owned())
        .chain(unknowns)
        .chain(FINDINGS.map(str::to_owned))
        .chain(groups.iter().map(|g| format!("{g}_at_departure_c")))
        .chain(["problem".to_owned()]);
    writer.write_record(head)?;
    for (task, outcome) in tasks.iter().zip(outcomes) {
        writer.write_field(task.number.to_string())?;
        for (_, value) in &task.settings {
            writer.write_field(value.to_string())?;
        }
        for field in found(outcome, groups.len()) {
            writer.write_field(field)?;
        }
        writer.write_record(None::<&[u8]>)?;
    }
    writer.into_inner().map_err(|e| e.into_error().into())
}

fn found(outcome: &Outcome, groups: usize) -> Vec<String> {
    let number = |x: Option<f64>| x.map_or(String::new(), |x| x.to_string());
    match outcome {
        Ok(h) => {
            let mut fields = vec![
                h.ready.to_string(),
                number(h.warm_h),
                number(h.margin_k),
                h.coldest.clone().unwrap_or_default(),
                number(h.coldest_c),
                number(h.upper_g),
                number(h.oil_c),
                number(h.oil_mm2_s),
                number(Some(h.kwh)),
            ];
            fields.extend(h.groups_c.iter().map(|c| number(Some(*c))));
            fields.push(String::new());
            fields
        }
        Err(why) => {
            let mut fields = vec![String::new(); FINDINGS.len() + groups];
            fields.push(why.clone());
            fields
        }
    }
}
