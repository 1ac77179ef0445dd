//! The unit in which the number at a path is kept, so that a problem can tell it.

/// The last key of a path, without its index: `view` of `enclosures[0].view[1]`.
pub(super) fn key(path: &str) -> &str {
    let last = path.rsplit('.').next().unwrap_or(path);
    last.split('[').next().unwrap_or(last)
}

/// The unit of the number at a path, with a space before it; nothing for plain numbers.
pub(super) fn unit_of(path: &str) -> &'static str {
    match key(path) {
        "power" | "other_load" => " W",
        "mass" | "water_in_oil" | "water_limit" => " kg",
        "flow" | "stable_mix" => " kg/s",
        "strike" | "contact" | "g_sump_case" | "acc_joint" | "bearing" => " W/K",
        "specific_heat" => " J/(kg K)",
        "conductivity" | "k_case" | "k_blade" => " W/(m K)",
        "u_cabin" | "coefficient" => " W/(m2 K)",
        "at_40" | "at_100" => " mm2/s",
        "volume" | "oil_litres" | "gas_litres" => " m3",
        "lag" | "delay" | "hours" | "horizon" => " s",
        "draught" => " m/s",
        "volts" => " V",
        "breaker" => " A",
        "propeller" => " m2K/W",
        "area" | "section" | "flow_section" | "free_area" | "footprint" | "fin_free"
        | "shaft_gap" | "gap_side" => " m2",
        "length" | "outer" | "inner" | "tall" | "diameter" | "depth" | "size" | "fin_gap"
        | "case_half_h" | "case_wall" | "bore" | "barrel_wall" | "d_crank" | "sump_depth"
        | "cowl_thick" | "filler_diameter" | "filler_diameter_m" => " m",
        _ if path.starts_with("covers.blankets.") => " m2K/W",
        key if key.starts_with("m_") => " kg",
        key if key.starts_with("a_") || key.starts_with("open_") || key.ends_with("_area") => " m2",
        key if key.ends_with("_len") || key.starts_with("blade_") => " m",
        key if key.ends_with("_l_s") => " L/s",
        _ => "",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_path_ends_in_its_key_and_a_key_has_its_unit() {
        assert_eq!(key("enclosures[0].view[1]"), "view");
        assert_eq!(key("power"), "power");
        assert_eq!(unit_of("heaters[0].power"), " W");
        assert_eq!(unit_of("engine.m_case"), " kg");
        assert_eq!(unit_of("covers.blankets.UL"), " m2K/W");
        assert_eq!(unit_of("engine.rows"), "");
    }
}
