//! The legend of the trace: what each column is, and what findings must know of it.

use super::frame::{Frame, Meets, PATHS};
use super::graph::Network;
use crate::scenario::body::PartGroup;
use crate::scenario::moisture::WallGroup;
use crate::scenario::part::Role;
use crate::trace::{
    BearingNote, CellInfo, Column, ColumnInfo, ColumnKind, GasNote, HeaterNote, OilNote,
    PocketNote, ReadingNote, WallNote,
};

/// Builds the legend: a column for each state, then the outdoors, then the books. Capacities are those laid down.
pub fn build(frame: &Frame, net: &Network) -> ColumnInfo {
    let ix = &frame.index;
    let mut legend = ColumnInfo {
        hangar: ix.hangar(),
        outdoors: ix.states(),
        fed_w: net.fed_w,
        ..ColumnInfo::default()
    };
    cells(frame, &mut legend);
    walls(frame, &mut legend);
    pockets(frame, net, &mut legend);
    gas(frame, net, &mut legend);
    column(
        &mut legend,
        "hangar_c",
        "hangar air",
        ColumnKind::HangarTemperature,
    );
    column(
        &mut legend,
        "outdoors_c",
        "outdoor air",
        ColumnKind::OutdoorTemperature,
    );
    books(frame, &mut legend);
    legend.readings = readings(frame, &frame.body.part_groups);
    legend.cylinders = readings(frame, &frame.body.cylinders);
    legend.bearings = frame
        .body
        .bearings
        .iter()
        .map(|b| BearingNote {
            label: b.label.clone(),
            crank: mean_of(frame, std::slice::from_ref(&b.crank)),
            case: mean_of(frame, &b.case),
            diameter_m: b.diameter.si(),
        })
        .collect();
    legend.oil = frame.body.oil.as_ref().map(|oil| OilNote {
        layers: frame.cut(oil).cells().collect(),
    });
    legend
}

fn column(legend: &mut ColumnInfo, key: &str, label: &str, kind: ColumnKind) {
    legend.columns.push(Column {
        key: key.to_owned(),
        label: label.to_owned(),
        kind,
    });
}

fn cells(frame: &Frame, legend: &mut ColumnInfo) {
    for (part, cut) in frame.body.parts.iter().zip(&frame.cuts) {
        let pockets: Vec<usize> = frame
            .body
            .surfaces
            .iter()
            .filter(|f| f.part == part.name)
            .filter_map(|f| match frame.meets(&f.meets) {
                Meets::Pocket(p) => Some(p),
                _ => None,
            })
            .collect();
        for (i, cell) in cut.cells().enumerate() {
            let (name, label) = if cut.len() == 1 {
                (part.name.clone(), part.label.clone())
            } else if cut.stack().is_some() {
                (
                    format!("{}{i}", part.name),
                    format!(
                        "{}, layer {} of {} from below",
                        part.label,
                        i + 1,
                        cut.len()
                    ),
                )
            } else {
                (
                    format!("{}.{i}", part.name),
                    format!("{}, piece {} of {}", part.label, i + 1, cut.len()),
                )
            };
            column(
                legend,
                &format!("{name}_c"),
                &label,
                ColumnKind::CellTemperature,
            );
            legend.cells.push(CellInfo {
                column: cell,
                part: name,
                label,
                engine: part.role.is_engine(),
                carburettor: part.role == Role::carburettor,
                skin: matches!(part.role, Role::skin(_)),
                heat_capacity_j_per_k: part.mass.si() * part.specific_heat.si() * cut.shares[i],
                pockets: pockets.clone(),
            });
        }
    }
}

fn walls(frame: &Frame, legend: &mut ColumnInfo) {
    let Some(room) = &frame.body.crankcase_gas else {
        return;
    };
    for wall in &room.walls {
        for touched in frame.cut(&wall.part).touched(wall.at, None) {
            let film = legend.columns.len();
            let note = &legend.cells[touched.cell];
            let (name, label) = (note.part.clone(), note.label.clone());
            column(
                legend,
                &format!("film_{name}_g"),
                &format!("water on the {label}"),
                ColumnKind::Film,
            );
            legend.walls.push(WallNote {
                name,
                label,
                group: match wall.group {
                    WallGroup::upper => "upper",
                    WallGroup::crank => "crank",
                    WallGroup::accessory => "accessory",
                    WallGroup::lower => "lower",
                }
                .to_owned(),
                area_m2: wall.area.si() * touched.share,
                temperature: touched.cell,
                film,
            });
        }
    }
}

fn pockets(frame: &Frame, net: &Network, legend: &mut ColumnInfo) {
    let ix = &frame.index;
    for pocket in &frame.body.air_volumes {
        let (key, label) = (format!("air_{}_c", pocket.name), &pocket.label);
        column(legend, &key, label, ColumnKind::PocketTemperature);
    }
    for (number, pocket) in frame.body.air_volumes.iter().enumerate() {
        column(
            legend,
            &format!("vapour_{}_g_m3", pocket.name),
            &format!("vapour in the {}", pocket.label),
            ColumnKind::PocketVapour,
        );
        legend.pockets.push(PocketNote {
            name: pocket.name.clone(),
            label: pocket.label.clone(),
            temperature: ix.pocket(number),
            vapour: ix.vapour(number),
            heat_capacity_j_per_k: net.capacities[ix.pocket(number)],
        });
    }
}

fn gas(frame: &Frame, net: &Network, legend: &mut ColumnInfo) {
    let ix = &frame.index;
    let Some(room) = &frame.body.crankcase_gas else {
        return;
    };
    column(
        legend,
        "gas_c",
        "air inside the engine",
        ColumnKind::GasTemperature,
    );
    column(
        legend,
        "vapour_gas_g_m3",
        "vapour inside the engine",
        ColumnKind::GasVapour,
    );
    if ix.oil_water {
        column(
            legend,
            "water_in_oil_g",
            "water in the oil",
            ColumnKind::OilWater,
        );
    }
    legend.gas = Some(GasNote {
        temperature: ix.gas_temperature(),
        vapour: ix.gas_vapour(),
        oil_water: ix.oil_water.then(|| ix.oil_water()),
        breather_pocket: frame.pocket(&room.breather),
        volume_m3: room.volume.si(),
        heat_capacity_j_per_k: net.capacities[ix.gas_temperature()],
    });
}

fn books(frame: &Frame, legend: &mut ColumnInfo) {
    for (number, heater) in frame.checked.scenario().heaters.iter().enumerate() {
        legend.heaters.push(HeaterNote {
            name: heater.name.clone(),
            rated_w: heater.power.si(),
            energy: legend.columns.len(),
        });
        column(
            legend,
            &format!("drawn_{number}_j"),
            &format!("energy drawn by {}", heater.name),
            ColumnKind::HeaterEnergy,
        );
    }
    for path in PATHS {
        legend.losses.push((path, legend.columns.len()));
        let name = format!("{path:?}").to_lowercase();
        column(
            legend,
            &format!("lost_{name}_j"),
            &format!("heat lost: {name}"),
            ColumnKind::LostHeat,
        );
    }
    legend.lost_vapour = legend.columns.len();
    column(
        legend,
        "lost_vapour_g",
        "vapour lost to the hangar",
        ColumnKind::LostVapour,
    );
}

fn readings(frame: &Frame, readings: &[PartGroup]) -> Vec<ReadingNote> {
    readings
        .iter()
        .map(|r| ReadingNote {
            key: r.key.clone(),
            label: r.label.clone(),
            columns: mean_of(frame, &r.parts),
        })
        .collect()
}

/// Columns and weights of the mean over these parts, each part weighing the same.
fn mean_of(frame: &Frame, parts: &[String]) -> Vec<(usize, f64)> {
    let weight = 1.0 / parts.len().max(1) as f64;
    parts
        .iter()
        .flat_map(|part| frame.temperature_columns(part))
        .map(|(column, share)| (column, share * weight))
        .collect()
}
