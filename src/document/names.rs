//! Names: the nearest to a misspelt one, and those of before version 0.2.

/// Keys and words that have another name since 0.2.0; used only in the suggestions of errors, gone in 0.3.0.
const RENAMED: &[(&str, &str)] = &[
    ("adjusted_to_practice_readings", "calibrated"),
    ("crank_fact", "crank_conduction_factor"),
    ("draught", "air_speed"),
    ("draught_share", "wind_fraction"),
    ("entrain", "entrainment"),
    ("entrain_from_intake", "entrainment_from_intake"),
    ("exchanges", "mixing_openings"),
    ("faces", "surfaces"),
    ("fin_pen", "fin_air_fraction"),
    ("filler_draught_l_s", "filler_flow_l_s"),
    ("full_below", "full_power_below"),
    ("gaps", "cowl_leaks"),
    ("gas_room", "crankcase_gas"),
    ("given", "values"),
    ("hi", "off_at"),
    ("horizon", "simulated_time"),
    ("lag", "time_constant"),
    ("lo", "on_at"),
    ("none_above", "zero_power_above"),
    ("oil_threshold", "min_oil_temperature"),
    ("passages", "openings"),
    ("pockets", "air_volumes"),
    ("question", "criteria"),
    ("readings", "part_groups"),
    ("sights", "radiation_pairs"),
    ("start", "initial"),
    ("strike", "impingement"),
    ("tall", "height"),
    ("threshold", "min_temperature"),
    ("throw", "discharge"),
    ("unknowns", "uncertain"),
    ("warmth", "temperature"),
];

/// The name that something is called since 0.2.0, if it had another before.
pub fn renamed(old: &str) -> Option<&'static str> {
    let found = RENAMED.iter().find(|(before, _)| *before == old)?;
    Some(found.1)
}

/// The name that something had before 0.2.0.
pub fn before(new: &str) -> &str {
    let found = RENAMED.iter().find(|(_, now)| *now == new);
    found.map_or(new, |(before, _)| before)
}

/// The name most like this one, if any is like enough: at most a third of its letters differ.
///
/// Likeness is the number of letters to insert, delete, replace or exchange with their neighbour (the restricted
/// distance of Damerau 1964), case not counted.
pub fn nearest<'a>(name: &str, among: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let name: Vec<char> = name.to_lowercase().chars().collect();
    let allowed = (name.len() / 3).max(1);
    among
        .into_iter()
        .filter(|candidate| candidate.len() <= 4 * (name.len() + allowed))
        .map(|candidate| {
            let letters: Vec<char> = candidate.to_lowercase().chars().collect();
            (edits(&name, &letters), candidate)
        })
        .filter(|(edits, _)| *edits <= allowed)
        .min_by_key(|(edits, _)| *edits)
        .map(|(_, candidate)| candidate)
}

fn edits(a: &[char], b: &[char]) -> usize {
    let mut before = Vec::new();
    let mut above: Vec<usize> = (0..=b.len()).collect();
    for (i, x) in a.iter().enumerate() {
        let mut row = vec![i + 1];
        for (j, y) in b.iter().enumerate() {
            let replaced = above[j] + usize::from(x != y);
            let mut fewest = replaced.min(row[j] + 1).min(above[j + 1] + 1);
            if i > 0 && j > 0 && *x == b[j - 1] && a[i - 1] == *y {
                let exchanged: &Vec<usize> = &before;
                fewest = fewest.min(exchanged[j - 1] + 1);
            }
            row.push(fewest);
        }
        before = std::mem::replace(&mut above, row);
    }
    above[b.len()]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_nearest_name_is_found_and_a_far_one_is_not() {
        let names = ["sump", "sump_side", "carb"];
        assert_eq!(nearest("smup", names), Some("sump"));
        assert_eq!(nearest("pusm", names), None);
        assert_eq!(nearest("sumo", names), Some("sump"));
        assert_eq!(nearest("SUMP_SIDE", names), Some("sump_side"));
        assert_eq!(nearest("propeller", names), None);
        // "kitten" to "sitting" takes three, the textbook example.
        let letters = |s: &str| s.chars().collect::<Vec<_>>();
        assert_eq!(edits(&letters("kitten"), &letters("sitting")), 3);
    }
}
