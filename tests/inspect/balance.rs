//! The heat paths of a whole engine against the balance they were taken from.

use super::busy::{busy, evaluated};
use coldsoak::inspect::{HeatPath, PathKind, anatomy, entries, feeds, heat_paths};
use coldsoak::network::Network;
use std::collections::{BTreeMap, BTreeSet};

/// Rounding of sums of some hundred terms of at most a kilowatt, W.
const ROUNDING_W: f64 = 1e-9;

/// Kinds of path there are.
const KINDS: usize = 16;

/// Columns of the nodes that store heat, by name.
fn columns(net: &Network) -> BTreeMap<String, usize> {
    let cells = net.legend.cells.iter().map(|c| (c.part.clone(), c.column));
    let pockets = net
        .legend
        .pockets
        .iter()
        .map(|p| (p.name.clone(), p.temperature));
    let gas = net
        .legend
        .gas
        .iter()
        .map(|g| ("(air inside)".to_owned(), g.temperature));
    cells.chain(pockets).chain(gas).collect()
}

/// No path is forgotten, none counted twice: what all of them bring a node is what the balance says. Every
/// kind of path takes part.
#[test]
fn the_paths_into_a_node_add_up_to_its_rate() {
    for engine in ["flat-four-3l1", "flat-six-8l5"] {
        for resolution in [1, 2] {
            let mut scenario = busy(engine);
            scenario.accuracy.resolution = resolution;
            evaluated(&scenario, |balance, nodes| {
                let mut sums: BTreeMap<String, f64> = BTreeMap::new();
                let mut kinds = BTreeSet::new();
                for path in heat_paths(balance, nodes) {
                    kinds.insert(path.kind);
                    // The jets are listed among the entries; latent heat stays in the vapour till it condenses.
                    if path.kind == PathKind::Jet {
                        continue;
                    }
                    if path.kind != PathKind::Latent {
                        *sums.entry(path.from).or_default() -= path.heat_w;
                    }
                    *sums.entry(path.to).or_default() += path.heat_w;
                }
                assert_eq!(kinds.len(), KINDS, "{kinds:?}");
                for entry in entries(balance, nodes)
                    .into_iter()
                    .flat_map(|h| h.heat_inputs)
                {
                    *sums.entry(entry.into).or_default() += entry.heat_w;
                }
                for feed in feeds(balance, nodes) {
                    *sums.entry(feed.into).or_default() += feed.heat_w;
                }
                let net = balance.network();
                let states = balance.columns()[..net.index.states()].to_vec();
                let rates = balance.rates_given_inputs(&states).unwrap();
                for (name, column) in columns(net) {
                    let found = sums.get(&name).copied().unwrap_or(0.0);
                    assert!(
                        (found - rates[column]).abs() < ROUNDING_W,
                        "{engine} {name}: {found} W by its paths, {} W by the balance",
                        rates[column]
                    );
                }
            });
        }
    }
}

/// Between cells all laws are met by the matrix directly: the conductances are its entries.
#[test]
fn conductances_between_cells_are_the_entries_of_the_matrix() {
    evaluated(&busy("flat-four-3l1"), |balance, nodes| {
        let paths = heat_paths(balance, nodes);
        let net = balance.network();
        let names: Vec<String> = net.legend.cells.iter().map(|c| c.part.clone()).collect();
        let mut expected: BTreeMap<(String, String), f64> = BTreeMap::new();
        let places = balance.entries().to_vec();
        for (entry, slope) in places.iter().zip(balance.slopes()) {
            let (i, j) = (entry.row, entry.column);
            if i != j && i < names.len() && j < names.len() {
                let key = (names[i.min(j)].clone(), names[i.max(j)].clone());
                *expected.entry(key).or_default() += 0.5 * slope;
            }
        }
        let mut found: BTreeMap<(String, String), f64> = BTreeMap::new();
        let cell = |name: &String| names.contains(name);
        for HeatPath {
            from,
            to,
            conductance_w_per_k,
            ..
        } in paths
        {
            if cell(&from) && cell(&to) {
                *found.entry((from, to)).or_default() += conductance_w_per_k;
            }
        }
        assert!(found.len() > 100, "{} pairs", found.len());
        for (pair, slope) in &expected {
            let stated = found.get(pair).copied().unwrap_or(0.0);
            assert!(
                (stated - slope).abs() < 1e-10 * (1.0 + slope),
                "{pair:?}: {stated} W/K is not {slope}"
            );
        }
        assert_eq!(found.len(), expected.len());
    });
}

/// The bearings: 4 W/K a station in total, as the model file has it, a quarter to each case quarter.
#[test]
fn a_bearing_leads_four_watts_a_kelvin() {
    let scenario = busy("flat-four-3l1");
    let found = anatomy(&scenario, 0.0).unwrap();
    let crank = |n: usize| format!("crank{n}");
    let case = |name: &str| name.starts_with("case");
    for station in 0..3 {
        let leads: Vec<f64> = found
            .paths
            .iter()
            .filter(|p| p.kind == PathKind::Conduction)
            .filter(|p| {
                let ends = [&p.from, &p.to];
                ends.contains(&&crank(station)) && ends.iter().any(|e| case(e))
            })
            .map(|p| p.conductance_w_per_k)
            .collect();
        assert_eq!(leads.len(), 4, "station {station}");
        assert!((leads.iter().sum::<f64>() - 4.0).abs() < 1e-12);
    }
}

#[test]
fn the_same_moment_is_laid_open_the_same() {
    let scenario = busy("flat-four-3l1");
    let once = anatomy(&scenario, 3600.0).unwrap();
    assert_eq!(once, anatomy(&scenario, 3600.0).unwrap());
}
