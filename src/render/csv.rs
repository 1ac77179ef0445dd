//! A table as CSV: the keys of its columns, then its values; what is not there is an empty field.

use crate::report::Table;
use serde_json::Value;

impl Table {
    /// The text of a CSV file, the columns that have a key.
    ///
    /// *Errors*: what the writer says; it writes to memory.
    pub fn csv(&self) -> Result<Vec<u8>, csv::Error> {
        let mut writer = csv::Writer::from_writer(Vec::new());
        let keyed: Vec<usize> = (0..self.heads.len())
            .filter(|k| !self.heads[*k].key.is_empty())
            .collect();
        writer.write_record(keyed.iter().map(|k| &self.heads[*k].key))?;
        for row in &self.rows {
            writer.write_record(keyed.iter().map(|k| field(&row[*k].value)))?;
        }
        writer.into_inner().map_err(|e| e.into_error().into())
    }
}

fn field(value: &Value) -> String {
    match value {
        Value::Null => String::new(),
        Value::String(text) => text.clone(),
        // Without an exponent, as the other files of a result have them.
        Value::Number(number) if number.is_f64() => {
            number.as_f64().map_or(String::new(), |x| x.to_string())
        }
        other => other.to_string(),
    }
}

#[cfg(test)]
mod tests {
    use crate::report::Table;

    #[test]
    fn a_table_is_written_with_its_keys_and_nothing_for_what_is_missing() {
        let rows = [(1, Some(0.00001)), (2, None)];
        let table = Table::of("nights", &rows)
            .number("sample", "#", |row| (row.0, row.0.to_string()))
            .words("", "only for people", |_| "words")
            .json("margin_k", |row| row.1)
            .table();
        let csv = String::from_utf8(table.csv().unwrap()).unwrap();
        assert_eq!(csv, "sample,margin_k\n1,0.00001\n2,\n");
    }
}
