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
