//! What is being solved, as tables for the terminal.

use super::table::drawn;
use crate::inspect::{Mode, NetworkSnapshot, PathKind};
use crate::quantity::Units;

/// Nodes, heat paths, heaters and time constants, one table after the other, `width` characters wide at most.
/// Temperatures are in the reader's degrees, conductances in W/K.
pub fn table(anatomy: &NetworkSnapshot, units: Units, width: u16) -> String {
    let mut told = format!("{}, {}\n", anatomy.title, anatomy.clock);
    for (title, body) in [
        ("Nodes", nodes(anatomy, units, width)),
        ("Heat paths", paths(anatomy, width)),
        ("Where the watts enter", heaters(anatomy, width)),
        ("Slowest time constants", modes(anatomy, width)),
    ] {
        if let Some(body) = body {
            told.push_str(&format!("\n{title}\n\n{body}\n"));
        }
    }
    told
}

fn nodes(anatomy: &NetworkSnapshot, units: Units, width: u16) -> Option<String> {
    let rows = anatomy.nodes.iter().map(|n| {
        vec![
            n.name.clone(),
            n.label.clone(),
            format!("{:.2}", units.temperature(n.temp_c)),
            n.heat_capacity_j_per_k
                .map_or("given".to_owned(), |c| format!("{c:.0}")),
        ]
    });
    let head = ["node", "", units.symbol(), "J/K"];
    filled(&head, rows, &[0, 1], width)
}

/// Differences in kelvin, as the conductances are.
fn paths(anatomy: &NetworkSnapshot, width: u16) -> Option<String> {
    let rows = anatomy.paths.iter().map(|p| {
        vec![
            p.from.clone(),
            if p.directed { "→" } else { "–" }.to_owned(),
            p.to.clone(),
            p.kind.told().to_owned(),
            figures(p.conductance_w_per_k),
            driven(p.kind, p.difference_k),
            format!("{:.3}", p.heat_w),
        ]
    });
    let head = ["from", "", "to", "how", "W/K", "K", "W"];
    filled(&head, rows, &[0, 1, 2, 3], width)
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
    if w_per_k != 0.0 && w_per_k.abs() < 1e-3 {
        format!("{w_per_k:.1e}")
    } else {
        format!("{w_per_k:.3}")
    }
}

fn heaters(anatomy: &NetworkSnapshot, width: u16) -> Option<String> {
    let heaters = anatomy.heaters.iter().flat_map(|h| {
        let state = if h.on { "on" } else { "off: would give" };
        h.entries.iter().map(move |e| {
            vec![
                h.heater.clone(),
                state.to_owned(),
                e.into.clone(),
                e.way.told().to_owned(),
                format!("{:.2}", e.heat_w),
            ]
        })
    });
    let feeds = anatomy.feeds.iter().map(|f| {
        vec![
            "fed".to_owned(),
            "always".to_owned(),
            f.into.clone(),
            String::new(),
            format!("{:.2}", f.heat_w),
        ]
    });
    let head = ["heater", "", "into", "by", "W"];
    filled(&head, heaters.chain(feeds), &[0, 1, 2, 3], width)
}

fn modes(anatomy: &NetworkSnapshot, width: u16) -> Option<String> {
    let rows = anatomy.modes.iter().map(|m| {
        let held = m.shares.iter().map(|s| {
            let sign = if s.swing < 0.0 { "−" } else { "" };
            format!("{sign}{} {:.0} %", s.node, s.heat_share * 100.0)
        });
        vec![lasts(m), held.collect::<Vec<_>>().join(", ")]
    });
    filled(
        &["h", "held by (− swings the other way)"],
        rows,
        &[1],
        width,
    )
}

fn lasts(mode: &Mode) -> String {
    let fades = mode
        .time_constant_h
        .map_or("does not fade".to_owned(), |h| format!("{h:.3}"));
    match mode.period_h {
        Some(period) => format!("{fades}, swings in {period:.2}"),
        None => fades,
    }
}

/// A table in our style; none if it has no rows.
fn filled(
    head: &[&str],
    rows: impl Iterator<Item = Vec<String>>,
    names: &[usize],
    width: u16,
) -> Option<String> {
    let mut rows = rows.peekable();
    rows.peek()?;
    let head = head.iter().map(|h| (*h).to_owned()).collect();
    Some(drawn(head, rows, names, width))
}
