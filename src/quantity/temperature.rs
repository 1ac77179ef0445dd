//! A temperature and a difference of two, which are different things.

use crate::document::reference::Types;
use crate::document::{Node, Read, Reader, RuleCheck};
use serde::{Deserialize, Serialize};
use std::ops::{Add, Sub};

/// Digits after the point of the smallest difference that is printed.
const FINEST: usize = 3;

/// The kelvin value of 0 °C.
const ZERO_C_IN_K: f64 = 273.15;

/// A temperature, kept in degrees Celsius.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Serialize, Deserialize)]
#[serde(try_from = "Spelt", into = "Kept")]
pub struct Temperature(f64);

impl Temperature {
    /// The temperature of `number` degrees Celsius.
    #[allow(non_snake_case)]
    pub const fn degC(number: f64) -> Self {
        Self(number)
    }
    /// The temperature of `number` degrees Fahrenheit.
    #[allow(non_snake_case)]
    pub const fn degF(number: f64) -> Self {
        Self((number - 32.0) / 1.8)
    }
    /// The temperature of `number` kelvin.
    #[allow(non_snake_case)]
    pub const fn K(number: f64) -> Self {
        Self(number - ZERO_C_IN_K)
    }
    /// In degrees Celsius.
    pub const fn celsius(self) -> f64 {
        self.0
    }
    /// In degrees Fahrenheit.
    pub const fn fahrenheit(self) -> f64 {
        self.0 * 1.8 + 32.0
    }
    /// In kelvin.
    pub const fn kelvin(self) -> f64 {
        self.0 + ZERO_C_IN_K
    }
    /// As text in these units, to a tenth: `-9.4 °C`.
    pub fn to_text(self, units: Units) -> String {
        format!("{:.1} {}", units.temperature(self.0), units.symbol())
    }
}

#[allow(non_camel_case_types)]
#[derive(Deserialize)]
#[serde(rename = "temperature")]
enum Spelt {
    degC(f64),
    degF(f64),
    K(f64),
}

#[allow(non_camel_case_types)]
#[derive(Serialize)]
enum Kept {
    degC(f64),
}

impl TryFrom<Spelt> for Temperature {
    type Error = String;
    fn try_from(spelt: Spelt) -> Result<Self, String> {
        let kept = match spelt {
            Spelt::degC(n) => Self::degC(n),
            Spelt::degF(n) => Self::degF(n),
            Spelt::K(n) => Self::K(n),
        };
        if !kept.0.is_finite() {
            return Err("the number must be finite".to_owned());
        }
        if kept.0 < -ZERO_C_IN_K {
            return Err("a temperature below absolute zero".to_owned());
        }
        Ok(kept)
    }
}
impl Read for Temperature {
    const WANTED: &'static str = "a temperature";
    const EXAMPLE: &'static str = "degC(-9)";
    fn read(node: &Node, reader: &mut Reader) -> Option<Self> {
        let units = ["degC", "degF", "K"];
        let (unit, number) = reader.measured(node, &units, Self::WANTED, "-9")?;
        let kept = [Self::degC, Self::degF, Self::K][unit](number);
        if kept.0 < -ZERO_C_IN_K {
            let message = "the temperature is below absolute zero".to_owned();
            let help = "degC(-273.15) or more, which is degF(-459.67)".to_owned();
            reader.report(node.span, message, Some(help));
            return None;
        }
        Some(kept)
    }
    fn walk(&self, walk: &mut RuleCheck) {
        walk.number(self.0, "°C");
    }
    fn types(types: &mut Types) {
        types.units.insert("Temperature", &["degC", "degF", "K"]);
    }
}
impl From<Temperature> for Kept {
    fn from(value: Temperature) -> Self {
        Self::degC(value.0)
    }
}

/// A difference of temperatures, kept in kelvin. Spelt `K(3)`, or `Fdeg(5)` for Fahrenheit degrees.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default, Serialize, Deserialize)]
#[serde(try_from = "StepSpelt", into = "StepKept")]
pub struct TemperatureStep(f64);

impl TemperatureStep {
    /// The difference of `number` kelvin.
    #[allow(non_snake_case)]
    pub const fn K(number: f64) -> Self {
        Self(number)
    }
    /// The difference of `number` Fahrenheit degrees.
    #[allow(non_snake_case)]
    pub const fn Fdeg(number: f64) -> Self {
        Self(number / 1.8)
    }
    /// In kelvin.
    pub const fn kelvin(self) -> f64 {
        self.0
    }
}

#[allow(non_camel_case_types)]
#[derive(Deserialize)]
#[serde(rename = "temperature step")]
enum StepSpelt {
    K(f64),
    Fdeg(f64),
}
#[derive(Serialize)]
enum StepKept {
    K(f64),
}
impl TryFrom<StepSpelt> for TemperatureStep {
    type Error = String;
    fn try_from(spelt: StepSpelt) -> Result<Self, String> {
        let kept = match spelt {
            StepSpelt::K(n) => Self::K(n),
            StepSpelt::Fdeg(n) => Self::Fdeg(n),
        };
        if kept.0.is_finite() {
            Ok(kept)
        } else {
            Err("the number must be finite".to_owned())
        }
    }
}
impl Read for TemperatureStep {
    const WANTED: &'static str = "a difference of temperatures";
    const EXAMPLE: &'static str = "K(3)";
    fn read(node: &Node, reader: &mut Reader) -> Option<Self> {
        let (unit, number) = reader.measured(node, &["K", "Fdeg"], Self::WANTED, "3")?;
        Some([Self::K, Self::Fdeg][unit](number))
    }
    fn walk(&self, walk: &mut RuleCheck) {
        walk.number(self.0, "K");
    }
    fn types(types: &mut Types) {
        types.units.insert("TemperatureStep", &["K", "Fdeg"]);
    }
}
impl From<TemperatureStep> for StepKept {
    fn from(value: TemperatureStep) -> Self {
        Self::K(value.0)
    }
}

impl Sub for Temperature {
    type Output = TemperatureStep;
    fn sub(self, other: Self) -> TemperatureStep {
        TemperatureStep(self.0 - other.0)
    }
}
impl Add<TemperatureStep> for Temperature {
    type Output = Self;
    fn add(self, step: TemperatureStep) -> Self {
        Self(self.0 + step.0)
    }
}

/// The degrees a reader thinks in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum Units {
    /// Degrees Celsius.
    #[default]
    #[serde(rename = "degC")]
    Celsius,
    /// Degrees Fahrenheit.
    #[serde(rename = "degF")]
    Fahrenheit,
}

impl Read for Units {
    const WANTED: &'static str = "`degC` or `degF`";
    const EXAMPLE: &'static str = "degC";
    fn read(node: &Node, reader: &mut Reader) -> Option<Self> {
        let (word, _) = reader.word(node, &["degC", "degF"], &[])?;
        Some([Self::Celsius, Self::Fahrenheit][word])
    }
    fn types(types: &mut Types) {
        let words = [("degC", "Celsius."), ("degF", "Fahrenheit.")];
        types.add_words("Units", "Temperature unit of the results.", &words);
    }
}

impl Units {
    /// A temperature of so many degrees Celsius, in these degrees.
    pub fn temperature(self, celsius: f64) -> f64 {
        match self {
            Self::Celsius => celsius,
            Self::Fahrenheit => celsius * 1.8 + 32.0,
        }
    }
    /// A temperature of so many degrees Celsius as text, rounded as people read it: `15 °F`, `-9.4 °C`.
    pub fn temperature_text(self, celsius: f64) -> String {
        let digits = match self {
            Self::Celsius => 1,
            Self::Fahrenheit => 0,
        };
        let text = format!("{:.digits$}", self.temperature(celsius));
        // Minus nothing is nothing.
        let text = if text == "-0" || text == "-0.0" {
            &text[1..]
        } else {
            &text
        };
        format!("{text} {}", self.symbol())
    }
    /// A difference of so many kelvin, in these degrees.
    pub fn step(self, kelvin: f64) -> f64 {
        match self {
            Self::Celsius => kelvin,
            Self::Fahrenheit => kelvin * 1.8,
        }
    }
    /// A difference of so many kelvin as text with its sign, `+22 °F` or `-1.3 K`: whole Fahrenheit degrees and tenths of
    /// a kelvin, finer where it would otherwise round to nothing, so that a miss by little is no `-0`.
    pub fn difference(self, kelvin: f64) -> String {
        let step = self.step(kelvin);
        let (usual, symbol) = match self {
            Self::Fahrenheit if step.abs() >= 0.95 => (0, "°F"),
            Self::Fahrenheit => (1, "°F"),
            Self::Celsius => (1, "K"),
        };
        let shows = |digits: &usize| (step * 10_f64.powi(*digits as i32)).round() != 0.0;
        match (usual..=FINEST).find(shows) {
            Some(digits) => format!("{step:+.digits$} {symbol}"),
            None => format!("{:.usual$} {symbol}", 0.0),
        }
    }
    /// The size of a difference of so many kelvin as text, without its sign: `22 °F`, `1.3 K`.
    pub fn size(self, kelvin: f64) -> String {
        self.difference(kelvin.abs()).replacen('+', "", 1)
    }
    /// The size of a difference that was chosen, not computed, so that its tenths mean something: 3 K are `5.4 °F`.
    pub fn chosen_size(self, kelvin: f64) -> String {
        format!("{:.1} {}", self.step(kelvin).abs(), self.step_symbol())
    }
    /// The unit of differences, `K` or `°F`.
    pub fn step_symbol(self) -> &'static str {
        match self {
            Self::Celsius => "K",
            Self::Fahrenheit => "°F",
        }
    }
    /// `°C` or `°F`.
    pub fn symbol(self) -> &'static str {
        match self {
            Self::Celsius => "°C",
            Self::Fahrenheit => "°F",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fifteen_fahrenheit_is_minus_nine_point_four_four() {
        let t: Temperature = ron::from_str("degF(15)").unwrap();
        assert!((t.celsius() + 9.444_444).abs() < 1e-5);
        assert_eq!(
            ron::to_string(&Temperature::degC(-9.25)).unwrap(),
            "degC(-9.25)"
        );
        assert_eq!(t.to_text(Units::Fahrenheit), "15.0 °F");
    }

    #[test]
    fn a_miss_by_little_is_no_minus_nothing() {
        assert_eq!(Units::Celsius.difference(-0.04), "-0.04 K");
        assert_eq!(Units::Celsius.difference(-0.004), "-0.004 K");
        assert_eq!(Units::Celsius.difference(-1e-9), "0.0 K");
        assert_eq!(Units::Celsius.difference(-0.0), "0.0 K");
        assert_eq!(Units::Fahrenheit.difference(-0.02), "-0.04 °F");
        assert_eq!(Units::Fahrenheit.difference(0.0), "0.0 °F");
    }

    #[test]
    fn a_size_has_no_sign_and_a_chosen_one_keeps_its_tenths() {
        assert_eq!(Units::Fahrenheit.size(-12.5), "22 °F");
        assert_eq!(Units::Celsius.size(-0.04), "0.04 K");
        assert_eq!(Units::Fahrenheit.chosen_size(3.0), "5.4 °F");
        assert_eq!(Units::Celsius.chosen_size(-3.0), "3.0 K");
    }

    #[test]
    fn a_difference_is_no_temperature() {
        let rise = Temperature::degF(40.0) - Temperature::degF(15.0);
        assert!((rise.kelvin() - TemperatureStep::Fdeg(25.0).kelvin()).abs() < 1e-12);
        assert!(ron::from_str::<Temperature>("degC(-300)").is_err());
        assert!(ron::from_str::<Temperature>("degC(NaN)").is_err());
    }
}
