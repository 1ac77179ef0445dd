//! The thermal network at one time: nodes, heat paths, heat inputs, time constants.

use super::columns::{Cell, Table};
use super::model::{Fact, Report, Section};
use super::provenance::Provenance;
use crate::inspect::{Mode, NetworkSnapshot, PathKind};
use crate::quantity::Units;
use serde::Serialize;
use serde_json::json;

/// The report of a network. Temperatures are in the reader's degrees, conductances in W/K.
pub fn report(network: &NetworkSnapshot, units: Units, from: &Provenance) -> Report {
    let title = format!("{}, {}", network.title, network.clock);
    Report::new("network", &title, Some(from))
        .with(Section::new("").say([title.clone()]))
        .with(Section::json([
            Fact::json("title", network.title.as_str()),
            Fact::json("clock", network.clock.as_str()),
            Fact::json("time_s", network.time_s),
        ]))
        .with(Section::new("Nodes").block(nodes(network, units)))
        .with(Section::new("Heat paths").block(paths(network)))
        .with(Section::new("Heat inputs").block(inputs(network)))
        .with(Section::new("Slowest time constants").block(modes(network)))
        .with(Section::json([
            Fact::json("heaters", json!(network.heaters)),
            Fact::json("heat_sources", json!(network.heat_sources)),
        ]))
}

fn nodes(network: &NetworkSnapshot, units: Units) -> Table {
    Table::of("nodes", &network.nodes)
        .words("name", "Node", |n| n.name.as_str())
        .words("label", "", |n| n.label.as_str())
        .json("kind", |n| json!(n.kind))
        .number("temp_c", units.symbol(), |n| {
            Cell::new(n.temp_c, format!("{:.2}", units.temperature(n.temp_c)))
        })
        .number("heat_capacity_j_per_k", "J/K", |n| {
            let text = n.heat_capacity_j_per_k.map(|c| format!("{c:.0}"));
            Cell::new(n.heat_capacity_j_per_k, text.unwrap_or("given".to_owned()))
        })
        .table()
}

/// A choice as its key, and in words.
fn word(choice: impl Serialize) -> Cell {
    let key = json!(choice);
    let text = key.as_str().unwrap_or_default().replace('_', " ");
    Cell::new(key, text)
}

/// Differences in kelvin, as the conductances are.
fn paths(network: &NetworkSnapshot) -> Table {
    Table::of("paths", &network.paths)
        .words("from", "From", |p| p.from.as_str())
        .words("directed", "", |p| {
            (p.directed, if p.directed { "→" } else { "–" })
        })
        .words("to", "To", |p| p.to.as_str())
        .words("kind", "How", |p| word(p.kind))
        .number("conductance_w_per_k", "W/K", |p| {
            (p.conductance_w_per_k, figures(p.conductance_w_per_k))
        })
        .number("difference_k", "K", |p| {
            Cell::new(p.difference_k, driven(p.kind, p.difference_k))
        })
        .number("heat_w", "W", |p| (p.heat_w, format!("{:.3}", p.heat_w)))
        .table()
}

/// A difference that drives a path; vapour, not a difference of temperatures, drives latent heat.
fn driven(kind: PathKind, difference_k: f64) -> String {
    match kind {
        PathKind::Latent => "-".to_owned(),
        _ => format!("{difference_k:.2}"),
    }
}

/// A conductance, small ones with their leading figures.
fn figures(w_per_k: f64) -> String {
    match w_per_k != 0.0 && w_per_k.abs() < 1e-3 {
        true => format!("{w_per_k:.1e}"),
        false => format!("{w_per_k:.3}"),
    }
}

fn inputs(network: &NetworkSnapshot) -> Table {
    let heaters = network.heaters.iter().flat_map(|h| {
        let state = if h.on { "on" } else { "off: would give" };
        let each = h.heat_inputs.iter();
        each.map(move |i| {
            (
                h.heater.as_str(),
                state,
                i.into.as_str(),
                word(i.mode).text,
                i.heat_w,
            )
        })
    });
    let sources = network.heat_sources.iter();
    let sources = sources.map(|s| ("source", "always", s.into.as_str(), String::new(), s.heat_w));
    let rows: Vec<_> = heaters.chain(sources).collect();
    Table::of("", &rows)
        .words("", "Heater", |r| r.0)
        .words("", "", |r| r.1)
        .words("", "Into", |r| r.2)
        .words("", "By", |r| r.3.as_str())
        .number("", "W", |r| format!("{:.2}", r.4))
        .table()
}

fn modes(network: &NetworkSnapshot) -> Table {
    Table::of("modes", &network.modes)
        .number("time_constant_h", "h", |m| (m.time_constant_h, lasts(m)))
        .json("period_h", |m| m.period_h)
        .words("shares", "Held by (− swings the other way)", |m| {
            let held = m.shares.iter().map(|s| {
                let sign = if s.oscillation < 0.0 { "−" } else { "" };
                format!("{sign}{} {:.0} %", s.node, s.heat_share * 100.0)
            });
            (json!(m.shares), held.collect::<Vec<_>>().join(", "))
        })
        .table()
}

fn lasts(mode: &Mode) -> String {
    let fades = mode.time_constant_h.map(|h| format!("{h:.3}"));
    let fades = fades.unwrap_or("does not decay".to_owned());
    match mode.period_h {
        Some(period) => format!("{fades}, oscillates in {period:.2}"),
        None => fades,
    }
}
