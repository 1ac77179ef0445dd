//! What people call an uncertain number, in place of where it stands in a file.

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
    ("crank_fact", "way along the crankshaft"),
    ("d_crank", "diameter of the crankshaft"),
    ("draught", "air felt in the hangar"),
    ("draught_share", "share of the wind felt inside"),
    ("duct_loss", "share lost in the duct"),
    ("emis_cowl_in", "emissivity of the cowl inside"),
    ("emis_cowl_out", "emissivity of the cowl outside"),
    ("emis_part", "emissivity of engine parts"),
    ("entrain", "air its jet drags along"),
    ("entrain_from_intake", "share of that from where it draws"),
    ("epstein", "exchange through a level gap"),
    ("fin_eff", "fin efficiency"),
    ("fin_free", "flow section between fins"),
    ("fin_gap", "gap between fins"),
    ("fin_pen", "draught between fins"),
    ("filler_diameter_m", "diameter of the oil filler"),
    ("filler_draught_l_s", "draught through the open filler"),
    ("flow", "its flow of air"),
    ("g_sump_case", "joint of sump and crankcase"),
    ("gap_side", "gaps round the side baffles"),
    ("gas_litres", "air inside the crankcase"),
    ("gust", "pumping by gusts"),
    ("hi", "its thermostat, off at"),
    ("inlet_area", "area of the inlets"),
    ("inlet_plug", "share of the inlets plugged"),
    ("jet_spill", "throw that stays on its side"),
    ("k_blade", "conductivity of a blade"),
    ("k_case", "conductivity of the crankcase"),
    ("lag", "lag behind the outdoors"),
    ("lo", "its thermostat, on at"),
    ("oil_film", "water passing the oil's surface"),
    ("oil_litres", "oil in the sump"),
    ("outlet_area", "area of the outlet"),
    ("outlet_plug", "share of the outlet plugged"),
    ("power", "watts"),
    ("radiant_share", "share it radiates"),
    ("seam_area", "leak of each seam of the cowl"),
    ("shaft_gap", "gap round the propeller shaft"),
    ("stable_mix", "mixing of layered air"),
    ("strike", "heat where its jet strikes"),
    ("u_cabin", "lining of the firewall"),
    ("water_in_oil", "water left in the oil"),
];
/// Words for beginnings of names that many share.
const BEGINNINGS: [(&str, &str); 4] = [
    ("m_", "mass of the "),
    ("a_", "area of the "),
    ("open_", "passage "),
    ("k_", "conductivity of the "),
];

/// The words for a path such as `heaters[0].power`: "heater 1, watts". Names that nobody wrote words for are told as they
/// are, without the signs between.
pub fn told(path: &str) -> String {
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
    fn a_path_is_told_in_words() {
        assert_eq!(told("heaters[0].power"), "heater 1, watts");
        assert_eq!(
            told("heaters[1].kind.bay_fan.flow"),
            "heater 2, its flow of air"
        );
        assert_eq!(
            told("engine.bay.seam_area"),
            "leak of each seam of the cowl"
        );
        assert_eq!(told("engine.m_acc_case"), "mass of the acc case");
        assert_eq!(told("engine.parts[3].some_thing"), "some thing");
    }

    /// Two numbers of one night are never called the same.
    #[test]
    fn every_number_of_a_built_in_night_has_words_of_its_own() {
        for name in [
            "demo",
            "small-engine-top",
            "six-after-flight",
            "thermostat-pad",
        ] {
            let scenario = load_named_from(name, Outside::Refused).unwrap().scenario;
            let mut seen = BTreeSet::new();
            for doubt in uncertain_inputs(&scenario).unwrap() {
                let words = told(&doubt.path);
                assert!(
                    !words.contains('_') && seen.insert(words.clone()),
                    "{name}: {words}"
                );
            }
        }
    }
}
