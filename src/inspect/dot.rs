//! The anatomy as a graph in the DOT language, for any program that draws it.
//!
//! *Source*: Graphviz documentation, "DOT Language": names between double quotes, in which a quote is
//! escaped by a backslash.

use super::nodes::NodeKind;
use super::snapshot::NetworkSnapshot;
use std::fmt::Write;

/// The graph: cells as boxes, air as ellipses, surroundings as plain text, heaters as houses. Edges tell
/// W/K and how; those of one-way paths have an arrow, those of heaters tell watts and are dashed while the
/// heater is off.
pub fn dot(anatomy: &NetworkSnapshot) -> String {
    let mut text = String::new();
    // Writing to a string cannot fail.
    let _ = graph(anatomy, &mut text);
    text
}

fn graph(anatomy: &NetworkSnapshot, text: &mut String) -> std::fmt::Result {
    let title = format!("{}, {}", anatomy.title, anatomy.clock);
    writeln!(text, "digraph {} {{", quoted("night"))?;
    writeln!(text, "  graph [label={}, rankdir=LR];", quoted(&title))?;
    for node in &anatomy.nodes {
        let shape = match node.kind {
            NodeKind::Cell => "box",
            NodeKind::Pocket | NodeKind::AirInside => "ellipse",
            NodeKind::Surrounding => "plaintext",
        };
        let label = format!("{}\n{:.1} °C", node.label, node.temp_c);
        writeln!(
            text,
            "  {} [shape={shape}, label={}];",
            quoted(&node.name),
            quoted(&label)
        )?;
    }
    let mut heaters = Vec::new();
    for (number, heater) in anatomy.heaters.iter().enumerate() {
        // With its number and a blank: no other node is called so.
        let name = format!("heater {}", number + 1);
        let label = format!("{}\n{:.0} W", heater.heater, heater.drawn_w);
        writeln!(
            text,
            "  {} [shape=house, label={}];",
            quoted(&name),
            quoted(&label)
        )?;
        heaters.push((name, heater));
    }
    for path in &anatomy.paths {
        let label = format!("{:.3} W/K\n{}", path.conductance_w_per_k, path.kind.told());
        let way = if path.directed { "forward" } else { "none" };
        writeln!(
            text,
            "  {} -> {} [dir={way}, label={}];",
            quoted(&path.from),
            quoted(&path.to),
            quoted(&label)
        )?;
    }
    for (name, heater) in heaters {
        let style = if heater.on { "bold" } else { "dashed" };
        for entry in &heater.entries {
            let label = format!("{:.1} W\n{}", entry.heat_w, entry.way.told());
            writeln!(
                text,
                "  {} -> {} [style={style}, label={}];",
                quoted(&name),
                quoted(&entry.into),
                quoted(&label)
            )?;
        }
    }
    writeln!(text, "}}")
}

/// A string between double quotes; a line break is told as `\n`.
fn quoted(text: &str) -> String {
    let escaped = text
        .replace('\\', "\\\\")
        .replace('"', "\\\"")
        .replace('\n', "\\n");
    format!("\"{escaped}\"")
}
