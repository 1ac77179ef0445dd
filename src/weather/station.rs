//! The choice of one station among those of a file.

use super::error::WeatherError;
use std::collections::BTreeSet;

/// The station of these names that is to be read: the one the user named, or the only one; none if the file names none
/// and none is wanted. Names are in capitals.
///
/// *Errors*: several stations and no choice, or a choice that the file does not have.
pub fn choose<'a>(
    names: impl Iterator<Item = &'a str>,
    wanted: Option<&str>,
) -> Result<Option<String>, WeatherError> {
    let found: Vec<&str> = names.collect::<BTreeSet<_>>().into_iter().collect();
    let wanted = wanted.map(|name| name.trim().to_ascii_uppercase());
    let message = match (wanted, found.as_slice()) {
        (None, []) => return Ok(None),
        (None, [only]) => return Ok(Some((*only).to_owned())),
        (None, several) => format!(
            "the file holds {} stations; choose one station: {}",
            several.len(),
            several.join(", ")
        ),
        (Some(wanted), found) if found.contains(&wanted.as_str()) => return Ok(Some(wanted)),
        (Some(wanted), found) => format!(
            "no report is from `{wanted}`; the file holds {}",
            found.join(", ")
        ),
    };
    let first = found.first().copied().unwrap_or("");
    Err(WeatherError::new(message).key("station").suggest(format!(
        "choose one: station: \"{first}\" in the night, --station {first} on the command line"
    )))
}
