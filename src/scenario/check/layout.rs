//! The numbers of a Layout, before it is expanded.

use super::super::bay::Bay;
use super::super::engine::Layout;
use super::problem::Problems;
use super::surroundings::unknowns;

/// The most rows of cylinders a side that are believed.
const MOST_ROWS: f64 = 6.0;
/// The most blades that are believed.
const MOST_BLADES: f64 = 6.0;

/// Checks every number of a Layout.
pub(super) fn check(layout: &Layout, problems: &mut Problems) {
    let l = layout;
    problems.within("engine.rows", l.rows as f64, 1.0, MOST_ROWS, "");
    problems.within("engine.n_blades", l.n_blades as f64, 1.0, MOST_BLADES, "");
    problems.share_above_zero("engine.fin_eff", l.fin_eff);
    for (key, number) in [
        ("m_case", l.m_case.si()),
        ("m_barrel", l.m_barrel.si()),
        ("m_head", l.m_head.si()),
        ("m_piston", l.m_piston.si()),
        ("m_crank", l.m_crank.si()),
        ("m_acc_case", l.m_acc_case.si()),
        ("m_mags", l.m_mags.si()),
        ("m_gen", l.m_gen.si()),
        ("m_sump", l.m_sump.si()),
        ("m_carb", l.m_carb.si()),
        ("m_intake", l.m_intake.si()),
        ("m_filter", l.m_filter.si()),
        ("m_exhaust", l.m_exhaust.si()),
        ("m_mount", l.m_mount.si()),
        ("m_baffle", l.m_baffle.si()),
        ("m_hub", l.m_hub.si()),
        ("m_blades", l.m_blades.si()),
        ("row_len", l.row_len.si()),
        ("case_half_h", l.case_half_h.si()),
        ("case_wall", l.case_wall.si()),
        ("k_case", l.k_case.si()),
        ("bore", l.bore.si()),
        ("barrel_wall", l.barrel_wall.si()),
        ("barrel_len", l.barrel_len.si()),
        ("a_fin_head", l.a_fin_head.si()),
        ("a_fin_barrel", l.a_fin_barrel.si()),
        ("fin_gap", l.fin_gap.si()),
        ("fin_free", l.fin_free.si()),
        ("a_env_head", l.a_env_head.si()),
        ("a_env_barrel", l.a_env_barrel.si()),
        ("d_crank", l.d_crank.si()),
        ("sump_area", l.sump_area.si()),
        ("sump_depth", l.sump_depth.si()),
        ("g_sump_case", l.g_sump_case.si()),
        ("oil_litres", l.oil_litres.si()),
        ("blade_len", l.blade_len.si()),
        ("blade_chord", l.blade_chord.si()),
        ("blade_thick", l.blade_thick.si()),
        ("k_blade", l.k_blade.si()),
        ("gas_litres", l.gas_litres.si()),
        ("cowl_thick", l.cowl_thick.si()),
        ("a_firewall", l.a_firewall.si()),
    ] {
        problems.positive(format!("engine.{key}"), number);
    }
    if l.case_wall.si() >= l.case_half_h.si() {
        problems.tell(
            "engine.case_wall",
            "`case_wall` must be less than `case_half_h`: a crankcase is hollow",
        );
    }
    bay(&l.bay, problems);
    unknowns(&l.unknowns, "engine.unknowns", problems);
}

fn bay(b: &Bay, problems: &mut Problems) {
    for (key, number) in [
        ("area_scale", b.area_scale),
        ("volume_scale", b.volume_scale),
        ("u_cabin", b.u_cabin.si()),
        ("acc_joint", b.acc_joint.si()),
        ("bearing", b.bearing.si()),
        ("crank_fact", b.crank_fact),
        ("filler_diameter_m", b.filler_diameter_m),
    ] {
        problems.positive(format!("engine.bay.{key}"), number);
    }
    for (key, number) in [
        ("inlet_area", b.inlet_area.si()),
        ("outlet_area", b.outlet_area.si()),
        ("shaft_gap", b.shaft_gap.si()),
        ("seam_area", b.seam_area.si()),
        ("open_top", b.open_top.si()),
        ("open_front_up", b.open_front_up.si()),
        ("open_front_lo", b.open_front_lo.si()),
        ("gap_side", b.gap_side.si()),
        ("open_up_re", b.open_up_re.si()),
        ("open_fr_fl", b.open_fr_fl.si()),
        ("open_lo_re", b.open_lo_re.si()),
        ("open_lo_fl", b.open_lo_fl.si()),
        ("stable_mix", b.stable_mix.si()),
        ("epstein", b.epstein),
        ("gust", b.gust),
        ("breather_l_s", b.breather_l_s),
        ("filler_draught_l_s", b.filler_draught_l_s),
    ] {
        problems.not_negative(format!("engine.bay.{key}"), number);
    }
    for (key, number) in [
        ("emis_part", b.emis_part),
        ("emis_cowl_in", b.emis_cowl_in),
        ("emis_cowl_out", b.emis_cowl_out),
        ("bore_cut", b.bore_cut),
        ("oil_film", b.oil_film),
    ] {
        problems.share_above_zero(format!("engine.bay.{key}"), number);
    }
    problems.within("engine.bay.fin_pen", b.fin_pen, 0.0, 1.0, "");
    problems.within("engine.bay.jet_spill", b.jet_spill, 0.0, 0.5, "");
}
