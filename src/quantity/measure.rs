//! The plain quantities: one number in SI, several spellings.
//!
//! A model file spells a quantity as `unit(number)`; the unit is a variant of an enum, so a wrong
//! unit is refused with the list of the right ones. Inside, the number is kept in the SI unit.

/// Makes a quantity type from its name, the SI unit it is kept in, and the spellings it accepts.
macro_rules! quantity {
    ($(#[$doc:meta])* $name:ident, $base:ident { $($unit:ident = $factor:expr),+ $(,)? }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default, serde::Serialize, serde::Deserialize)]
        #[serde(try_from = "spelling::In", into = "spelling::Out")]
        #[serde(bound = "")]
        pub struct $name(f64);

        impl $name {
            $(
                #[doc = concat!("The quantity of `number` ", stringify!($unit), ".")]
                #[allow(non_snake_case)]
                pub const fn $unit(number: f64) -> Self {
                    Self(number * $factor)
                }
            )+
            /// The number in the SI unit this quantity is kept in.
            pub const fn si(self) -> f64 {
                self.0
            }
        }
    };
}

/// One module a quantity, holding the enum that serde reads and writes.
macro_rules! spelled {
    ($module:ident, $called:literal, $example:literal, $(#[$doc:meta])* $name:ident, $base:ident { $($unit:ident = $factor:expr),+ $(,)? }) => {
        mod $module {
            use crate::document::reference::Types;
            use crate::document::{Node, Read, Reader, RuleCheck};

            impl Read for $name {
                const WANTED: &'static str = $called;
                const EXAMPLE: &'static str = concat!(stringify!($base), "(", $example, ")");
                fn read(node: &Node, reader: &mut Reader) -> Option<Self> {
                    let units = [$(stringify!($unit)),+];
                    let (unit, number) = reader.measured(node, &units, $called, $example)?;
                    Some(Self(number * [$($factor),+][unit]))
                }
                fn walk(&self, walk: &mut RuleCheck) {
                    walk.number(self.0, stringify!($base));
                }
                fn types(types: &mut Types) {
                    types.units.insert(stringify!($name), &[$(stringify!($unit)),+]);
                }
            }

            #[allow(non_camel_case_types)]
            #[derive(serde::Deserialize)]
            #[serde(rename = "quantity")]
            pub enum In { $($unit(f64)),+ }
            #[allow(non_camel_case_types)]
            #[derive(serde::Serialize)]
            pub enum Out { $base(f64) }

            mod spelling { pub use super::{In, Out}; }
            quantity!($(#[$doc])* $name, $base { $($unit = $factor),+ });

            impl TryFrom<In> for $name {
                type Error = String;
                fn try_from(spelt: In) -> Result<Self, String> {
                    match spelt {
                        $(In::$unit(number) if number.is_finite() => Ok(Self::$unit(number)),)+
                        _ => Err("the number must be finite".to_owned()),
                    }
                }
            }
            impl From<$name> for Out {
                fn from(value: $name) -> Self {
                    Out::$base(value.si())
                }
            }
        }
        pub use $module::$name;
    };
}

spelled!(length, "a length", "0.12", /** A length, kept in metres. */ Length, m { m = 1.0, cm = 0.01, mm = 0.001, inch = 0.0254, ft = 0.3048 });
spelled!(area, "an area", "0.03", /** An area, kept in square metres. */ Area, m2 { m2 = 1.0, cm2 = 1e-4, mm2 = 1e-6, in2 = 6.4516e-4, ft2 = 0.09290304 });
spelled!(volume, "a volume", "0.05", /** A volume, kept in cubic metres. */ Volume, m3 { m3 = 1.0, L = 1e-3, qt = 9.46352946e-4, gal = 3.785411784e-3 });
spelled!(mass, "a mass", "15", /** A mass, kept in kilograms. */ Mass, kg { kg = 1.0, g = 1e-3, lb = 0.45359237, oz = 0.028349523125 });
spelled!(density, "a density", "880", /** A density, kept in kilograms per cubic metre. */ Density, kg_m3 { kg_m3 = 1.0 });
spelled!(duration, "a length of time", "90", /** A length of time, kept in seconds. */ Duration, s { s = 1.0, min = 60.0, h = 3600.0 });
spelled!(speed, "a speed", "0.5", /** A speed, kept in metres per second. */ Speed, m_s { m_s = 1.0, km_h = 0.2777777777777778, kt = 0.5144444444444445, mph = 0.44704 });
spelled!(mass_flow, "a mass flow", "0.008", /** A mass flow, kept in kilograms per second. */ MassFlow, kg_s { kg_s = 1.0, g_s = 1e-3 });
spelled!(power, "a power", "350", /** A power, kept in watts. */ Power, W { W = 1.0, kW = 1e3 });
spelled!(energy, "an energy", "1000", /** An energy, kept in joules. */ Energy, J { J = 1.0, kJ = 1e3, kWh = 3.6e6 });
spelled!(flux, "a heat flux", "100", /** A heat flux, kept in watts per square metre. */ Flux, W_m2 { W_m2 = 1.0 });
spelled!(conductance, "a conductance", "12", /** A thermal conductance, kept in watts per kelvin. */ Conductance, W_K { W_K = 1.0 });
spelled!(conductivity, "a conductivity", "135", /** A thermal conductivity, kept in watts per metre and kelvin. */ Conductivity, W_mK { W_mK = 1.0 });
spelled!(resistance, "the resistance of a layer", "0.3", /** A thermal resistance of a layer, kept in square metres and kelvins per watt. */ Resistance, m2K_W { m2K_W = 1.0 });
spelled!(film, "a film coefficient", "5", /** A film coefficient, kept in watts per square metre and kelvin. */ FilmCoefficient, W_m2K { W_m2K = 1.0 });
spelled!(specific_heat, "a specific heat", "900", /** A specific heat, kept in joules per kilogram and kelvin. */ SpecificHeat, J_kgK { J_kgK = 1.0 });
spelled!(potential, "a voltage", "120", /** An electric potential, kept in volts. */ Potential, V { V = 1.0 });
spelled!(current, "a current", "15", /** An electric current, kept in amperes. */ Current, A { A = 1.0 });
spelled!(viscosity, "a viscosity", "141", /** A kinematic viscosity, kept in square millimetres per second. */ Viscosity, mm2_s { mm2_s = 1.0, cSt = 1.0 });

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_quantity_reads_every_spelling_and_writes_its_si_one() {
        let m: Mass = ron::from_str("lb(10)").unwrap();
        assert_eq!(m, Mass::lb(10.0));
        assert_eq!(ron::to_string(&Mass::g(250.0)).unwrap(), "kg(0.25)");
        let again: Length = ron::from_str(&ron::to_string(&Length::m(0.1)).unwrap()).unwrap();
        assert_eq!(again, Length::m(0.1));
    }

    #[test]
    fn a_number_that_is_not_finite_is_refused() {
        assert!(ron::from_str::<Mass>("kg(NaN)").is_err());
        assert!(ron::from_str::<Power>("W(inf)").is_err());
    }

    #[test]
    fn a_wrong_unit_is_refused_with_the_right_ones() {
        let refusal = ron::from_str::<Power>("kg(3)").unwrap_err().to_string();
        assert!(refusal.contains("kW"), "{refusal}");
    }
}
