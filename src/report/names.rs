//! Names beside the ends of lines: pushed apart where they would touch.

/// Heights as near to the wished ones as they can be with this much room for each, inside the bounds where
/// there is room. The wishes rise.
pub fn spread(wished: &[f64], room: f64, top: f64, foot: f64) -> Vec<f64> {
    let mut groups: Vec<(f64, usize)> = Vec::new();
    let limits = |centre: f64, count: usize| {
        let half = room * (count as f64 - 1.0) / 2.0;
        centre.min(foot - half).max(top + half)
    };
    for wish in wished {
        groups.push((limits(*wish, 1), 1));
        while let [.., above, below] = groups[..] {
            let needed = room * (above.1 + below.1) as f64 / 2.0;
            if below.0 - above.0 >= needed {
                break;
            }
            let count = above.1 + below.1;
            let centre = (above.0 * above.1 as f64 + below.0 * below.1 as f64) / count as f64;
            groups.truncate(groups.len() - 2);
            groups.push((limits(centre, count), count));
        }
    }
    groups
        .iter()
        .flat_map(|(centre, count)| {
            let first = centre - room * (*count as f64 - 1.0) / 2.0;
            (0..*count).map(move |k| first + room * k as f64)
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::spread;

    #[test]
    fn names_that_would_touch_are_pushed_apart_and_stay_on_the_sheet() {
        assert_eq!(spread(&[100.0, 200.0], 16.0, 0.0, 400.0), [100.0, 200.0]);
        assert_eq!(spread(&[100.0, 104.0], 16.0, 0.0, 400.0), [94.0, 110.0]);
        assert_eq!(
            spread(&[396.0, 399.0, 400.0], 16.0, 0.0, 400.0),
            [368.0, 384.0, 400.0]
        );
    }
}
