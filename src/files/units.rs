//! What is said of numbers without a unit, or with a wrong one.

use ron::error::Error;

/// The name of a quantity by the unit it is kept in, with a number to show how it is spelt.
const QUANTITIES: &[(&str, &str, &str)] = &[
    ("m", "a length", "0.12"),
    ("m2", "an area", "0.03"),
    ("m3", "a volume", "0.05"),
    ("kg", "a mass", "15"),
    ("kg_m3", "a density", "880"),
    ("s", "a length of time", "90"),
    ("m_s", "a speed", "0.5"),
    ("kg_s", "a mass flow", "0.008"),
    ("W", "a power", "350"),
    ("J", "an energy", "1000"),
    ("W_m2", "a heat flux", "100"),
    ("W_K", "a conductance", "12"),
    ("W_mK", "a conductivity", "135"),
    ("m2K_W", "the resistance of a layer", "0.3"),
    ("W_m2K", "a film coefficient", "5"),
    ("J_kgK", "a specific heat", "900"),
    ("V", "a voltage", "120"),
    ("A", "a current", "15"),
    ("mm2_s", "a viscosity", "141"),
    ("degC", "a temperature", "-9"),
    ("K", "a difference of temperatures", "3"),
];

/// Whether this is a plain number.
pub(super) fn is_number(text: &str) -> bool {
    text.parse::<f64>().is_ok()
}

/// What is wrong and how it is mended where a quantity is options; none where the choices are no units.
pub(super) fn wanted(
    name: &str,
    units: &[&str],
    there: &str,
    whole: &str,
    code: &Error,
) -> Option<(String, Option<String>)> {
    if !matches!(name, "quantity" | "temperature" | "temperature step") {
        return None;
    }
    let (_, called, example) = QUANTITIES
        .iter()
        .find(|(unit, ..)| Some(unit) == units.first())?;
    // A number that the user wrote serves as its own example.
    let bare = there.trim_matches('"').trim();
    let inside = whole.split_once('(').map_or(bare, |(_, inside)| inside);
    let number = Some(numeric_start(bare))
        .filter(|n| !n.is_empty())
        .unwrap_or(numeric_start(inside));
    let shown = if number.is_empty() { example } else { number };
    let spelt: Vec<String> = units
        .iter()
        .map(|unit| format!("{unit}({shown})"))
        .collect();
    let help = format!("{called} needs its unit: {}", or(&spelt));
    let what = match code {
        Error::NoSuchEnumVariant { found, .. } => format!("`{found}` is no unit of {called}"),
        _ if is_number(bare) => format!("the number {bare} has no unit"),
        _ if there.is_empty() => format!("{called} is missing"),
        _ => format!("`{there}` stands where {called} is expected"),
    };
    Some((what, Some(help)))
}

/// The number a text such as `-9 C` begins with.
fn numeric_start(text: &str) -> &str {
    let end = text
        .char_indices()
        .find(|(_, c)| !(c.is_ascii_digit() || matches!(c, '-' | '.' | '+')))
        .map_or(text.len(), |(i, _)| i);
    if is_number(&text[..end]) {
        &text[..end]
    } else {
        ""
    }
}

/// What mends a value that was read and is refused.
pub(super) fn of_message(said: &str) -> Option<String> {
    if said.contains("finite") {
        Some("neither NaN nor inf can be computed with; write the number itself".to_owned())
    } else if said.contains("absolute zero") {
        Some("nothing is colder than degC(-273.15), which is degF(-459.67)".to_owned())
    } else {
        None
    }
}

/// `a`, `b` or `c`.
fn or(words: &[String]) -> String {
    match words {
        [] => String::new(),
        [one] => one.clone(),
        [all @ .., last] => format!("{} or {last}", all.join(", ")),
    }
}
