//! The words of a night to begin with about plugs, blankets and what is left open.

use std::fmt::Write;

/// Letters of a line of comment.
const WIDTH: usize = 104;
/// What closes a cowl.
const CLOSES: &str = "What closes the cowl. Plugs: the share that is closed, 0 open to 1 sealed; 0.84 and 0.48 are those of a parked \
aeroplane whose openings are obstructed but leaky, 0.97 a plug that fits well (all of them estimates). How well the \
cowl is closed is the largest unknown of all.";

/// Writes them: how much of the inlets is plugged, the pockets whose skin can be covered (name and label), and whether
/// there is a propeller.
pub(super) fn covers(
    text: &mut String,
    inlet_plug: f64,
    skins: &[(String, String)],
    propeller: bool,
) -> std::fmt::Result {
    for line in textwrap::wrap(CLOSES, WIDTH) {
        writeln!(text, "    // {line}")?;
    }
    writeln!(text, "    covers: (")?;
    if inlet_plug == 0.0 {
        writeln!(
            text,
            "        // Open: the air this heater blows in must find a way out."
        )?;
    }
    writeln!(
        text,
        "        inlet_plug: {:?},\n        outlet_plug: 0.48,",
        inlet_plug
    )?;
    if !skins.is_empty() {
        let labels = skins.iter();
        let labels: Vec<String> = labels
            .map(|(skin, label)| format!("{skin} ({label})"))
            .collect();
        let words = format!(
            "Blankets. The air under the cowl is counted in pockets, and a blanket lies on the skin round one of them: {}. \
             An insulated cowl cover is about 0.3 m2K/W (estimate).",
            labels.join(", ")
        );
        for line in textwrap::wrap(&words, WIDTH) {
            writeln!(text, "        // {line}")?;
        }
        let some: Vec<String> = skins
            .iter()
            .take(2)
            .map(|(skin, _)| format!("\"{skin}\": m2K_W(0.3)"))
            .collect();
        writeln!(text, "        //blankets: {{ {} }},", some.join(", "))?;
    }
    if propeller {
        writeln!(
            text,
            "        // A cover on the propeller and its hub: 0.45 m2K/W is usual (estimate).\n        //propeller: m2K_W(0.45),"
        )?;
    }
    if let Some((pocket, _)) = skins.first() {
        writeln!(
            text,
            "        // A side of the cowl left open: into which pocket, and the area of the gap.\n        \
             //open_side: (pocket: \"{pocket}\", area: m2(0.02)),"
        )?;
        writeln!(
            text,
            "        // Whether the oil filler cap is off, so that moist air can leave.\n        //filler_open: true,"
        )?;
    }
    writeln!(text, "    ),\n")
}
