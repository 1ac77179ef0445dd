//! Two ways to say an engine: a Layout, or its explicit body.

use super::bay::Bay;
use super::body::Body;
use super::unknowns::Unknowns;
use crate::document::{Node, Read, Reader};
use crate::quantity::{Area, Conductance, Conductivity, Length, Mass, Volume};
use serde::{Deserialize, Serialize};

/// An engine with the air around it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[allow(non_camel_case_types, clippy::large_enum_variant)]
pub enum Engine {
    /// An engine with opposed cylinders, said by its masses and dimensions.
    opposed(Layout),
    /// Anything else, said part by part.
    body(Body),
}

/// An opposed engine: what a handbook and a tape measure give. It expands into a [`Body`]
/// (see [`crate::scenario::opposed`]).
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Layout {
    /// Cylinders on each side.
    pub rows: usize,
    /// Mass of the crankcase halves.
    pub m_case: Mass,
    /// Mass of one barrel.
    pub m_barrel: Mass,
    /// Mass of one head with valve gear and cover.
    pub m_head: Mass,
    /// Mass of one piston with its rod.
    pub m_piston: Mass,
    /// Mass of the crankshaft with camshaft and gears.
    pub m_crank: Mass,
    /// Mass of the accessory case.
    pub m_acc_case: Mass,
    /// Mass of the magnetos.
    pub m_mags: Mass,
    /// Mass of generator and starter.
    pub m_gen: Mass,
    /// Mass of the sump.
    pub m_sump: Mass,
    /// Mass of the carburettor.
    pub m_carb: Mass,
    /// Mass of the intake pipes.
    pub m_intake: Mass,
    /// Mass of the oil screen, filter or cooler.
    pub m_filter: Mass,
    /// Mass of the exhaust.
    pub m_exhaust: Mass,
    /// Mass of the engine mount.
    pub m_mount: Mass,
    /// Mass of the baffles.
    pub m_baffle: Mass,
    /// Mass of the propeller hub.
    pub m_hub: Mass,
    /// Mass of all blades.
    pub m_blades: Mass,
    /// Length of one crankcase station, L.
    pub row_len: Length,
    /// Half height of the crankcase, H.
    pub case_half_h: Length,
    /// Wall thickness of the crankcase, t.
    pub case_wall: Length,
    /// Conductivity of the crankcase, k.
    pub k_case: Conductivity,
    /// Cylinder bore.
    pub bore: Length,
    /// Wall thickness of a barrel.
    pub barrel_wall: Length,
    /// Length of a barrel.
    pub barrel_len: Length,
    /// Fin area of one head.
    pub a_fin_head: Area,
    /// Fin area of one barrel.
    pub a_fin_barrel: Area,
    /// Width of the space between fins.
    pub fin_gap: Length,
    /// Flow section between the fins of one cylinder.
    pub fin_free: Area,
    /// Fin efficiency.
    pub fin_eff: f64,
    /// Envelope area of one head.
    pub a_env_head: Area,
    /// Envelope area of one barrel.
    pub a_env_barrel: Area,
    /// Diameter of the crankshaft journals.
    pub d_crank: Length,
    /// Plan area of the sump.
    pub sump_area: Area,
    /// Depth of the sump.
    pub sump_depth: Length,
    /// Conductance between sump and crankcase.
    pub g_sump_case: Conductance,
    /// Oil in the sump.
    pub oil_litres: Volume,
    /// Length of a blade.
    pub blade_len: Length,
    /// Chord of a blade.
    pub blade_chord: Length,
    /// Thickness of a blade.
    pub blade_thick: Length,
    /// Conductivity of a blade.
    pub k_blade: Conductivity,
    /// Number of blades.
    pub n_blades: usize,
    /// Volume of the air inside the crankcase.
    pub gas_litres: Volume,
    /// Thickness of the cowl skin.
    pub cowl_thick: Length,
    /// Area of the firewall.
    pub a_firewall: Area,
    /// The space around the engine, and what happens in it.
    #[serde(default)]
    pub bay: Bay,
    /// Which of its numbers are uncertain.
    #[serde(default)]
    pub unknowns: Unknowns,
}

/// Until the types of engines are read from the tree themselves.
impl Read for Engine {
    const WANTED: &'static str = "an engine";
    const EXAMPLE: &'static str = "opposed(key: value)";
    fn read(node: &Node, reader: &mut Reader) -> Option<Self> {
        match serde_path_to_error::deserialize(node.json()) {
            Ok(engine) => Some(engine),
            Err(e) => {
                let path = e.path().to_string();
                let place = node.furthest(&path).0.span;
                reader.report(place, format!("{}, at `{path}`", e.inner()), None);
                None
            }
        }
    }
}
