//! Names of uncertain inputs for people, in place of their paths in a file.

/// Words for the last names of paths; those of masses, fins and the like are made of their beginnings.
const WORDS: [(&str, &str); 57] = [
    ("acc_joint", "joint of the accessory case"),
    ("area_scale", "size of the cowl"),
    ("at_100", "oil viscosity at 100 °C"),
    ("at_40", "oil viscosity at 40 °C"),
    ("barrel_len", "length of a barrel"),
    ("barrel_wall", "wall of a barrel"),
    ("bearing", "heat through a bearing"),
    ("blade_chord", "chord of a blade"),
    ("blade_len", "length of a blade"),
    ("blade_thick", "thickness of a blade"),
    ("bore_cut", "case wall left between the bores"),
    ("breather_l_s", "air through the breather"),
    ("case_half_h", "half height of the crankcase"),
    ("case_wall", "wall of the crankcase"),
    ("cowl_thick", "thickness of the cowl skin"),
    ("crank_conduction_factor", "conduction along the crankshaft"),
    ("d_crank", "diameter of the crankshaft"),
    ("air_speed", "air speed in the hangar"),
    ("wind_fraction", "fraction of the wind inside"),
    ("duct_loss", "share lost in the duct"),
    ("emis_cowl_in", "emissivity of the cowl inside"),
    ("emis_cowl_out", "emissivity of the cowl outside"),
    ("emis_part", "emissivity of engine parts"),
    ("entrainment", "entrained air"),
    ("entrainment_from_intake", "share of that from its intake"),
    ("epstein", "exchange through a level gap"),
    ("fin_eff", "fin efficiency"),
    ("fin_free", "flow section between fins"),
    ("fin_gap", "gap between fins"),
    ("fin_air_fraction", "air between fins"),
    ("filler_diameter_m", "diameter of the oil filler"),
    ("filler_flow_l_s", "air through the open filler"),
    ("flow", "air flow"),
    ("g_sump_case", "joint of sump and crankcase"),
    ("gap_side", "gaps round the side baffles"),
    ("gas_litres", "air inside the crankcase"),
    ("gust", "exchange by gusts"),
    ("off_at", "thermostat, off at"),
    ("inlet_area", "area of the inlets"),
    ("inlet_plug", "inlets closed"),
    ("jet_spill", "jet that stays on its side"),
    ("k_blade", "conductivity of a blade"),
    ("k_case", "conductivity of the crankcase"),
    ("time_constant", "time constant of the hangar"),
    ("on_at", "thermostat, on at"),
    ("oil_film", "water passing the oil's surface"),
    ("oil_litres", "oil in the sump"),
    ("outlet_area", "area of the outlet"),
    ("outlet_plug", "outlet closed"),
    ("power", "watts"),
    ("radiant_share", "radiated share"),
    ("seam_area", "leak of each seam of the cowl"),
    ("shaft_gap", "gap round the propeller shaft"),
    ("stable_mix", "mixing of layered air"),
    ("impingement", "jet heat transfer"),
    ("u_cabin", "lining of the firewall"),
    ("water_in_oil", "water left in the oil"),
];
/// Words for beginnings of names that many share.
const BEGINNINGS: [(&str, &str); 4] = [
    ("m_", "mass of the "),
    ("a_", "area of the "),
    ("open_", "opening "),
    ("k_", "conductivity of the "),
];

/// The words for a path such as `heaters[0].power`: "heater 1, watts". Names that nobody wrote words for are left as they
/// are, without the signs between.
pub fn words(path: &str) -> String {
    let last = path.rsplit('.').next().unwrap_or(path);
    let known = WORDS.iter().find(|(name, _)| *name == last);
    let words = match known {
        Some((_, words)) => (*words).to_owned(),
        None => {
            let mut begins = BEGINNINGS.iter();
            let begun = begins.find_map(|(begin, words)| Some((*words, last.strip_prefix(begin)?)));
            let (before, rest) = begun.unwrap_or(("", last));
            format!("{before}{}", rest.replace('_', " "))
        }
    };
    match heater(path) {
        Some(number) => format!("heater {number}, {words}"),
        None => words,
    }
}

/// The number of the heater, as people count, that a path leads to.
fn heater(path: &str) -> Option<usize> {
    let (number, _) = path.strip_prefix("heaters[")?.split_once(']')?;
    Some(number.parse::<usize>().ok()? + 1)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::files::night::load_named_from;
    use crate::files::sources::Outside;
    use crate::study::uncertain_inputs::uncertain_inputs;
    use std::collections::BTreeSet;

    #[test]
    fn a_path_has_words() {
        assert_eq!(words("heaters[0].power"), "heater 1, watts");
        assert_eq!(words("heaters[1].kind.bay_fan.flow"), "heater 2, air flow");
        assert_eq!(
            words("engine.bay.seam_area"),
            "leak of each seam of the cowl"
        );
        assert_eq!(words("engine.m_acc_case"), "mass of the acc case");
        assert_eq!(words("engine.parts[3].some_thing"), "some thing");
    }

    /// Two numbers of one night are never called the same.
    #[test]
    fn every_number_of_a_built_in_night_has_words_of_its_own() {
        for night in [
            "demo",
            "small-engine-top",
            "six-after-flight",
            "thermostat-pad",
        ] {
            let scenario = load_named_from(night, Outside::Refused).unwrap().scenario;
            let mut seen = BTreeSet::new();
            for doubt in uncertain_inputs(&scenario).unwrap() {
                let name = words(&doubt.path);
                assert!(
                    !name.contains('_') && seen.insert(name.clone()),
                    "{night}: {name}"
                );
            }
        }
    }
}
