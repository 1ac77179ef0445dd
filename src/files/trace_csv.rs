//! A trace as CSV: `time_s`, then one column a state with its unit in the name. Shortest round-trip numbers.

use crate::trace::Trace;

/// The text of the file.
///
/// *Errors*: whatever the CSV writer says; it writes to memory.
pub fn written(trace: &Trace) -> Result<Vec<u8>, csv::Error> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    let keys = trace.legend.columns.iter().map(|c| c.key.as_str());
    writer.write_record(std::iter::once("time_s").chain(keys))?;
    for (k, time) in trace.times_s.iter().enumerate() {
        writer.write_field(time.to_string())?;
        for value in trace.sample(k) {
            writer.write_field(value.to_string())?;
        }
        writer.write_record(None::<&[u8]>)?;
    }
    writer.into_inner().map_err(|e| e.into_error().into())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trace::{Column, ColumnInfo, ColumnKind};

    #[test]
    fn every_number_comes_back_as_it_was() {
        let column = |key: &str| Column {
            key: key.to_owned(),
            label: String::new(),
            kind: ColumnKind::CellTemperature,
        };
        let trace = Trace {
            legend: ColumnInfo {
                columns: vec![column("case_c"), column("odd, \"name\"_c")],
                ..ColumnInfo::default()
            },
            times_s: vec![0.0, 59.999_999_999_9],
            values: vec![-9.444_444_444_444_445, 0.1 + 0.2, 1e-300, -0.0],
            ..Trace::default()
        };
        let bytes = written(&trace).unwrap();
        let mut reader = csv::Reader::from_reader(bytes.as_slice());
        let heads: Vec<_> = reader.headers().unwrap().iter().map(String::from).collect();
        assert_eq!(heads, ["time_s", "case_c", "odd, \"name\"_c"]);
        let rows: Vec<Vec<f64>> = reader
            .records()
            .map(|row| {
                row.unwrap()
                    .iter()
                    .map(|cell| cell.parse().unwrap())
                    .collect()
            })
            .collect();
        for (k, row) in rows.iter().enumerate() {
            assert_eq!(row[0].to_bits(), trace.times_s[k].to_bits());
            for (cell, value) in row[1..].iter().zip(trace.sample(k)) {
                assert_eq!(cell.to_bits(), value.to_bits());
            }
        }
        assert_eq!(rows.len(), 2);
    }
}
