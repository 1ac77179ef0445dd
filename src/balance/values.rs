//! What the laws give to their rows, added up: one law at a time, or four laws of a kind side by side.

use super::law::{Law, Visitor};
use crate::network::graph::Laws;
use crate::physics::number::{Register, Work};

/// Adds what each law gives to its rows.
pub struct Values<'a, 'n, G: Register> {
    /// The laws, one list a night.
    pub laws: G::Each<'n, Laws>,
    /// All columns.
    pub x: &'a [G],
    /// Which heaters are on.
    pub on: &'a [G],
    /// All rows.
    pub out: &'a mut [G],
}

impl<G: Register> Visitor for Values<'_, '_, G> {
    fn visit<const K: usize, const R: usize, L: Law<K, R> + 'static>(
        &mut self,
        pick: impl Fn(&Laws) -> &[L],
    ) {
        G::work(Adding::<G, L, K, R> {
            each: G::part(self.laws, |laws| pick(laws)),
            x: self.x,
            on: self.on,
            out: self.out,
        });
    }
}

/// Adding up the laws of one kind, four at a time where there is a register for it. A kind is a piece of machine code of its
/// own: all in one would need a deep stack where code is not optimised.
struct Adding<'a, 'n, G: Register, L: 'static, const K: usize, const R: usize> {
    each: G::Each<'n, [L]>,
    x: &'a [G],
    on: &'a [G],
    out: &'a mut [G],
}

impl<G: Register, L: Law<K, R>, const K: usize, const R: usize> Work
    for Adding<'_, '_, G, L, K, R>
{
    type Done = ();
    #[inline(always)]
    fn done<const WIDE: bool>(self) {
        let count = G::first(self.each).len();
        let mut number = 0;
        while number < count {
            if WIDE && let Some(four) = Four::<G, L, K>::at(self.each, number, self.x, self.on) {
                let values = L::apply(four.it, four.x, four.on);
                for (lane, law) in four.laws.into_iter().enumerate() {
                    let rows = law.rows();
                    for r in 0..R {
                        self.out[rows[r]] = self.out[rows[r]] + G::narrow(values[r])[lane];
                    }
                }
                number += 4;
                continue;
            }
            let it = G::part(self.each, |laws| &laws[number]);
            let law = G::first(it);
            let columns = law.columns();
            let mut x = [G::ZERO; K];
            for k in 0..K {
                x[k] = self.x[columns[k]];
            }
            let rows = law.rows();
            let values = L::apply(it, x, is_on(law, self.on));
            for r in 0..R {
                self.out[rows[r]] = self.out[rows[r]] + values[r];
            }
            number += 1;
        }
    }
}

/// One if a law's heater is on, zero if it is off.
#[inline(always)]
pub fn is_on<const K: usize, const R: usize, G: Register, L: Law<K, R>>(law: &L, on: &[G]) -> G {
    law.heater().map_or(G::all(0.0), |heater| on[heater])
}

/// Four laws of a kind side by side.
pub struct Four<'a, G: Register, L: 'a, const K: usize> {
    /// The laws of the first night.
    pub laws: [&'a L; 4],
    /// What they give.
    pub it: <G::Wide as Register>::Each<'a, L>,
    /// What they read.
    pub x: [G::Wide; K],
    /// Whether their heaters are on.
    pub on: G::Wide,
}

impl<'a, G: Register, L: 'static, const K: usize> Four<'a, G, L, K> {
    /// The four that begin at this number, if there are as many and they make the same choice.
    #[inline(always)]
    pub fn at<const R: usize>(
        each: G::Each<'a, [L]>,
        number: usize,
        x: &[G],
        on: &[G],
    ) -> Option<Self>
    where
        L: Law<K, R>,
    {
        let laws = G::first(each).get(number..number + 4)?;
        let laws = [&laws[0], &laws[1], &laws[2], &laws[3]];
        let choice = laws[0].choice();
        if laws[1..].iter().any(|law| law.choice() != choice) {
            return None;
        }
        let columns = [
            laws[0].columns(),
            laws[1].columns(),
            laws[2].columns(),
            laws[3].columns(),
        ];
        let mut wide = [G::Wide::all(0.0); K];
        for k in 0..K {
            wide[k] = G::widen([
                x[columns[0][k]],
                x[columns[1][k]],
                x[columns[2][k]],
                x[columns[3][k]],
            ]);
        }
        Some(Self {
            it: G::wide_each([
                G::part(each, |laws| &laws[number]),
                G::part(each, |laws| &laws[number + 1]),
                G::part(each, |laws| &laws[number + 2]),
                G::part(each, |laws| &laws[number + 3]),
            ]),
            x: wide,
            on: G::widen([
                is_on(laws[0], on),
                is_on(laws[1], on),
                is_on(laws[2], on),
                is_on(laws[3], on),
            ]),
            laws,
        })
    }
}
