//! Long lines made short without losing what a reader would see: of all points in a column of the picture the first,
//! the lowest, the highest and the last are kept.
//!
//! *Source*: U. Jugel, Z. Jerzak, G. Hackenbroich, V. Markl, "M4: a visualization-oriented time series data
//! aggregation", *Proceedings of the VLDB Endowment* 7(10), 2014, pp. 797-808: a line through these points covers the
//! same pixels as one through all of them.

/// A line in pixels whose x rises, thinned to at most four points for each column this wide.
pub fn thinned(line: &[(f64, f64)], column: f64) -> Vec<(f64, f64)> {
    let mut kept = Vec::with_capacity(line.len().min(4096));
    let mut from = 0;
    while from < line.len() {
        let number = (line[from].0 / column).floor();
        let mut to = from + 1;
        while to < line.len() && (line[to].0 / column).floor() == number {
            to += 1;
        }
        let group = &line[from..to];
        if group.len() <= 4 {
            kept.extend_from_slice(group);
        } else {
            let by = |a: &usize, b: &usize| group[*a].1.total_cmp(&group[*b].1);
            let (low, high) = ((0..group.len()).min_by(by), (0..group.len()).max_by(by));
            let mut marks = vec![0, low.unwrap_or(0), high.unwrap_or(0), group.len() - 1];
            marks.sort_unstable();
            marks.dedup();
            kept.extend(marks.into_iter().map(|k| group[k]));
        }
        from = to;
    }
    kept
}

#[cfg(test)]
mod tests {
    use super::thinned;

    #[test]
    fn a_hundred_thousand_points_become_few_and_a_lone_peak_stays() {
        let mut line: Vec<(f64, f64)> = (0..100_000)
            .map(|k| f64::from(k) / 100_000.0 * 600.0)
            .map(|x| (x, 200.0 + 50.0 * (x / 40.0).sin()))
            .collect();
        line[54_321].1 = -400.0;
        let kept = thinned(&line, 1.0);
        assert!(kept.len() <= 4 * 600, "{}", kept.len());
        assert!(kept.contains(&line[54_321]));
        assert_eq!((kept.first(), kept.last()), (line.first(), line.last()));
        assert!(kept.windows(2).all(|w| w[0].0 < w[1].0));
    }

    #[test]
    fn a_short_line_is_left_as_it_is() {
        let line = [(0.0, 1.0), (0.1, 5.0), (0.2, 3.0), (7.0, 1.0)];
        assert_eq!(thinned(&line, 1.0), line);
    }
}
