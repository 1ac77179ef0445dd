//! The simulated nights of a spread as a table for CSV: a row a night, its inputs first, then what it came to. Units are in
//! the names of the columns. An empty field is a "never", or a number the night does not have.

use super::columns::Table;
use crate::study::sample_result::SampleResult;
use crate::study::simulate::Outcome;
use crate::study::spread::Task;
use crate::study::uncertain_inputs::UncertainInput;
use serde_json::Value;

/// A night with what became of it.
type Night<'a> = (&'a Task, &'a Outcome);

/// The table; `groups` are the keys of the groups in their order.
pub fn table(
    inputs: &[UncertainInput],
    groups: &[String],
    tasks: &[Task],
    outcomes: &[Outcome],
) -> Table {
    let nights: Vec<Night> = tasks.iter().zip(outcomes).collect();
    let mut table = Table::of("", &nights).json("sample", |n| n.0.number);
    for (k, input) in inputs.iter().enumerate() {
        let column = match &input.unit {
            Some(unit) => format!("{}_{unit}", input.path),
            None => input.path.clone(),
        };
        table = table.json(column, |n| n.0.settings.get(k).map(|(_, value)| *value));
    }
    table = table
        .json("ready", |n| found(n, |r| Some(r.ready)))
        .json("time_to_threshold_h", |n| found(n, |r| r.warm_h))
        .json("margin_k", |n| found(n, |r| r.margin_k))
        .json("coldest", |n| found(n, |r| r.coldest.clone()))
        .json("coldest_c", |n| found(n, |r| r.coldest_c))
        .json("upper_g", |n| found(n, |r| r.upper_g))
        .json("oil_c", |n| found(n, |r| r.oil_c))
        .json("oil_mm2_s", |n| found(n, |r| r.oil_mm2_s))
        .json("energy_kwh", |n| found(n, |r| Some(r.kwh)));
    for (g, group) in groups.iter().enumerate() {
        table = table.json(format!("{group}_at_departure_c"), |n| {
            found(n, |r| r.groups_c.get(g).copied())
        });
    }
    table
        .json("problem", |n| n.1.as_ref().err().cloned())
        .table()
}

fn found<V: Into<Value>>(night: &Night, of: impl Fn(&SampleResult) -> Option<V>) -> Value {
    let result = night.1.as_ref().ok();
    result.and_then(of).map_or(Value::Null, Into::into)
}
