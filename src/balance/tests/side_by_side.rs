//! Laws side by side in a wide register, and nights side by side in its lanes, against one law after another.

use super::all_laws_network::all_laws_network;
use crate::balance::jacobian::{Pattern, Slopes};
use crate::balance::law_lanes::LawLanes;
use crate::balance::values::Values;
use crate::balance::{Balance, same_structure};
use crate::laws::{Element, Law, Laws, Visitor, visit_all};
use crate::network::Network;
use crate::physics::dual::Dual;

/// The all_laws_network's columns: its states, auxiliaries and inputs as they might be.
fn columns(net: &Network) -> Vec<f64> {
    let auxiliaries = [
        0.4, -0.2, 0.1, 0.3, 0.5, 0.2, 12.0, 25.0, 33.0, 1.2e-3, 8.0, 1.4,
    ];
    let inputs = [-12.0, 0.7, 0.4];
    [&net.initial[..], &auxiliaries, &inputs].concat()
}

/// Every law worked out by itself and added up, written again: nothing here stands in a wide register.
struct Anew<'a> {
    laws: &'a Laws,
    x: &'a [f64],
    on: &'a [f64],
    values: Vec<f64>,
    slopes: Vec<f64>,
}

impl Visitor for Anew<'_> {
    fn visit<const K: usize, const R: usize, L: Law<K, R> + 'static>(
        &mut self,
        pick: impl Fn(&Laws) -> &[Element<L, K, R>],
    ) {
        for Element { columns, rows, law } in pick(self.laws) {
            let x = columns.map(|column| self.x[column]);
            let on = law.heater().map_or(0.0, |heater| self.on[heater]);
            for (row, value) in rows.iter().zip(L::apply(law, x, on)) {
                self.values[*row] += value;
            }
            let variables = std::array::from_fn(|k| Dual::<K>::variable(x[k], k));
            for row in L::apply(law, variables, on) {
                self.slopes.extend(row.slopes);
            }
        }
    }
}

/// What the balance does where the processor has no registers of four.
struct OneByOne<V>(V);

impl Visitor for OneByOne<Values<'_, f64>> {
    fn visit<const K: usize, const R: usize, L: Law<K, R> + 'static>(
        &mut self,
        pick: impl Fn(&Laws) -> &[Element<L, K, R>],
    ) {
        let elements = pick(self.0.laws[0]);
        self.0.one_by_one(elements);
    }
}

impl Visitor for OneByOne<Slopes<'_, f64>> {
    fn visit<const K: usize, const R: usize, L: Law<K, R> + 'static>(
        &mut self,
        pick: impl Fn(&Laws) -> &[Element<L, K, R>],
    ) {
        let elements = pick(self.0.laws[0]);
        self.0.one_by_one(elements);
    }
}

/// The last bits, so that a difference is seen whatever its size.
#[track_caller]
fn same(found: &[f64], expected: &[f64]) {
    assert_eq!(found.len(), expected.len());
    for (place, (found, expected)) in found.iter().zip(expected).enumerate() {
        assert!(expected.is_finite());
        assert_eq!(
            found.to_bits(),
            expected.to_bits(),
            "place {place}: {found}, not {expected}"
        );
    }
}

#[test]
fn laws_of_a_kind_give_the_same_side_by_side_and_one_by_one() {
    let net = all_laws_network(1.0);
    let x = columns(&net);
    for on in [[0.0, 0.0], [1.0, 0.0], [0.0, 1.0]] {
        let mut balance = Balance::new(&net);
        for (heater, on) in on.into_iter().enumerate() {
            balance.switch(heater, on > 0.0);
        }
        let mut anew = Anew {
            laws: &net.laws,
            x: &x,
            on: &on,
            values: vec![0.0; net.index.rows()],
            slopes: Vec::new(),
        };
        visit_all(&mut anew);
        let mut pattern = Pattern {
            laws: &net.laws,
            pairs: Vec::new(),
        };
        visit_all(&mut pattern);
        let entries: Vec<(usize, usize)> = balance
            .entries()
            .iter()
            .map(|entry| (entry.row, entry.column))
            .collect();
        let mut slopes = vec![0.0; entries.len()];
        let mut slots = Vec::new();
        for (pair, slope) in pattern.pairs.iter().zip(&anew.slopes) {
            let slot = entries.iter().position(|entry| entry == pair).unwrap();
            slopes[slot] += slope;
            slots.push(slot as u32);
        }

        same(balance.rates_at(&x), &anew.values);
        same(balance.jacobian_at(&x), &slopes);

        let mut out = vec![0.0; net.index.rows()];
        visit_all(&mut OneByOne(Values {
            laws: [&net.laws; 4],
            x: &x,
            on: &on,
            out: &mut out,
        }));
        same(&out, &anew.values);
        let mut values = vec![0.0; entries.len()];
        visit_all(&mut OneByOne(Slopes {
            laws: [&net.laws; 4],
            x: &x,
            on: &on,
            slots: &slots,
            values: &mut values,
        }));
        same(&values, &slopes);
    }
}

/// Values, slopes and drift of one night's laws, with auxiliaries found on the way.
fn alone(net: &Network, time_s: f64, on: bool) -> [Vec<f64>; 3] {
    let mut balance = Balance::new(net);
    balance.switch(1, on);
    let rates = balance.rates_under(time_s, &net.initial, &[0.4, -0.2, 0.1]);
    let rates = rates.to_vec();
    let slopes = balance.slopes().to_vec();
    let mut drift = vec![0.0; net.index.rows()];
    balance.time_derivative(&mut drift);
    [rates, slopes, drift]
}

/// How fast each row changes by itself is what it changes by as the inputs go on at their rates, all else standing still.
#[test]
fn drift_is_what_the_rows_change_by_with_the_inputs() {
    const BY_S: f64 = 1.0;
    let net = all_laws_network(1.0);
    let ix = &net.index;
    let mut balance = Balance::new(&net);
    balance.switch(0, true);
    balance.rates_under(1800.0, &net.initial, &[0.4, -0.2, 0.1]);
    balance.slopes();
    let mut drift = vec![7.0; ix.rows()];
    balance.time_derivative(&mut drift);
    let x = balance.columns().to_vec();
    let mut after = |by_s: f64| {
        let mut x = x.clone();
        for (which, curve) in net.inputs.iter().enumerate() {
            x[ix.input(which)] += by_s * curve.at(1800.0).1;
        }
        balance.rates_at(&x).to_vec()
    };
    let (up, down) = (after(BY_S), after(-BY_S));
    for (row, drift) in drift.iter().enumerate() {
        let expected = (up[row] - down[row]) / (2.0 * BY_S);
        let size = 1e-6 * drift.abs() + 1e-13 * up[row].abs() + 1e-15;
        assert!(
            (drift - expected).abs() <= size,
            "row {row}: {drift}, not {expected}"
        );
    }
    // Of the three inputs the books of heat and of vapour and the hangar's vapour feel at least one.
    for row in [ix.book(0), ix.book(1), ix.book(3), ix.auxiliary(11)] {
        assert!(drift[row].abs() > 1e-9, "row {row}");
    }
    assert_eq!(drift[ix.oil_water()], 0.0);
}

/// Of one night, four laws of a kind are evaluated together where they make the same choice; fewer are full up with the first.
#[test]
fn laws_that_make_the_same_choice_are_evaluated_together() {
    let net = all_laws_network(1.0);
    let links = |at| LawLanes::at::<f64>([&net.laws.links[..]; 4], at);
    assert_eq!([0, 3, 5, 6, 8].map(|at| links(at).count), [4, 4, 4, 3, 1]);
    let surfaces = |at| LawLanes::at::<f64>([&net.laws.surfaces[..]; 4], at);
    assert_eq!(
        [0, 1, 4, 6, 7, 8].map(|at| surfaces(at).count),
        [4, 3, 2, 1, 1, 1]
    );
    let full = [7, 8, 7, 7].map(|law| &raw const net.laws.links[law]);
    assert_eq!(links(7).elements.map(|law| &raw const *law), full);
}

mod lanes {
    use super::*;
    use crate::physics::four::{Four, available};
    use crate::physics::number::Register;

    fn each(numbers: [f64; 4]) -> Four {
        let mut four = Four::ZERO;
        for (lane, number) in numbers.into_iter().enumerate() {
            four.set_lane(lane, number);
        }
        four
    }

    fn vectors(nets: [&Network; 4], of: impl Fn(&Network) -> &[f64]) -> Vec<Four> {
        let vectors = nets.map(of);
        let wide = |i: usize| each(vectors.map(|v| v[i]));
        (0..vectors[0].len()).map(wide).collect()
    }

    #[test]
    fn each_night_has_its_own_sizes_weather_and_switches() {
        if !available() {
            return;
        }
        let own = [1.0, 1.07, 0.93, 1.21].map(all_laws_network);
        let other = all_laws_network(0.88);
        assert!(own.iter().all(|net| same_structure(net, &other)));
        let mut nets = own.each_ref();
        let mut balance = Balance::<Four>::of(nets);
        let mut on = [true, false, true, true];
        let times_s = [1800.0, 600.0, 5400.0, 9000.0];
        // The second time another night has come into a lane, all of whose heaters are off.
        for round in 0..2 {
            for (lane, on) in on.into_iter().enumerate() {
                balance.switch_lane(lane, 1, on);
            }
            if round == 1 {
                (nets[2], on[2]) = (&other, false);
                balance.load(2, &other);
            }
            let states = vectors(nets, |net| &net.initial);
            let pressures = [0.4, -0.2, 0.1].map(|p| each([p; 4]));
            let rates = balance.rates_under(each(times_s), &states, &pressures);
            let rates = rates.to_vec();
            let slopes = balance.slopes().to_vec();
            let mut drift = vec![Four::ZERO; nets[0].index.rows()];
            balance.time_derivative(&mut drift);
            for lane in 0..4 {
                let expected = alone(nets[lane], times_s[lane], on[lane]);
                for (found, expected) in [&rates, &slopes, &drift].into_iter().zip(expected) {
                    let found: Vec<f64> = found.iter().map(|v| v.lane(lane)).collect();
                    same(&found, &expected);
                }
            }
        }
    }

    /// The air of one night does not balance: its temperature is no number.
    #[test]
    fn air_that_does_not_balance_spoils_all_pressures_of_its_own_night_only() {
        if !available() {
            return;
        }
        let net = all_laws_network(1.0);
        let mut balance = Balance::<Four>::of([&net; 4]);
        let mut states = vectors([&net; 4], |net| &net.initial);
        states[net.index.pocket(2)].set_lane(1, f64::NAN);
        balance.rates(each([0.0; 4]), &states).unwrap();
        for pressure in balance.pressures() {
            for lane in 0..4 {
                assert_eq!(pressure.lane(lane).is_nan(), lane == 1);
            }
        }
        let mut alone = Balance::new(&net);
        alone.rates(0.0, &net.initial).unwrap();
        let found: Vec<f64> = balance.pressures().map(|p| p.lane(3)).collect();
        same(&found, &alone.pressures().collect::<Vec<_>>());
    }
}
