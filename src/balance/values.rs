//! What the laws give to their rows, added up: one law at a time, or several of a kind side by side.

use super::law::{Law, Visitor};
use crate::network::graph::Laws;
use crate::physics::number::{Register, Widen, Work};

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

impl<G: Widen> Visitor for Values<'_, '_, G> {
    fn visit<const K: usize, const R: usize, L: Law<K, R> + 'static>(
        &mut self,
        pick: impl Fn(&Laws) -> &[L],
    ) {
        G::work(AddingValues::<G, L, K, R> {
            each: G::part(self.laws, |laws| pick(laws)),
            x: self.x,
            on: self.on,
            out: self.out,
        });
    }
}

/// Adding up the laws of one kind, several at a time where there is a register for it. A kind is a piece of machine code of
/// its own: all in one would need a deep stack where code is not optimised.
pub struct AddingValues<'a, 'n, G: Register, L: 'static, const K: usize, const R: usize> {
    pub(super) each: G::Each<'n, [L]>,
    pub(super) x: &'a [G],
    pub(super) on: &'a [G],
    pub(super) out: &'a mut [G],
}

impl<G: Widen, L: Law<K, R>, const K: usize, const R: usize> Work
    for AddingValues<'_, '_, G, L, K, R>
{
    type Done = ();
    #[inline(always)]
    fn done<const WIDE: bool>(self) {
        let count = G::first(self.each).len();
        let mut number = 0;
        while number < count {
            if WIDE && let Some(some) = LawLanes::<G, L, K>::at(self.each, number, self.x, self.on)
            {
                let values = L::apply(some.it, some.x, some.on);
                for (which, law) in some.laws.iter().enumerate() {
                    let rows = law.rows();
                    for r in 0..R {
                        self.out[rows[r]] = self.out[rows[r]] + G::narrow(values[r], which);
                    }
                }
                number += G::ABREAST;
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
    law.heater().map_or(G::ZERO, |heater| on[heater])
}

/// Several laws of a kind side by side.
pub struct LawLanes<'a, G: Widen, L: 'a, const K: usize> {
    /// The laws of the first night.
    pub laws: &'a [L],
    /// What they give.
    pub it: <G::Wide as Register>::Each<'a, L>,
    /// What they read.
    pub x: [G::Wide; K],
    /// Whether their heaters are on.
    pub on: G::Wide,
}

impl<'a, G: Widen, L: 'static, const K: usize> LawLanes<'a, G, L, K> {
    /// Those that begin at this number, if there are as many and they make the same choice.
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
        let laws = G::first(each).get(number..number + G::ABREAST)?;
        let choice = laws[0].choice();
        if laws.iter().any(|law| law.choice() != choice) {
            return None;
        }
        let mut wide = [G::Wide::ZERO; K];
        for k in 0..K {
            wide[k] = G::widen(|which| x[laws[which].columns()[k]]);
        }
        Some(Self {
            it: G::wide_each(|which| G::part(each, |all| &all[number + which])),
            x: wide,
            on: G::widen(|which| is_on(&laws[which], on)),
            laws,
        })
    }
}
