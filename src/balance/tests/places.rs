//! Where each law stands: the columns it reads, the rows it adds to, the heater it is of, and the choice it makes.

use super::all_laws_network::all_laws_network;
use crate::balance::law::{Law, Visitor};
use crate::balance::order::visit_all;
use crate::network::elements::{HangarVapour, Vent, WallFilm};
use crate::network::graph::Laws;
use crate::physics::convection::Facing;

#[track_caller]
fn stands<const K: usize, const R: usize>(
    law: &impl Law<K, R>,
    columns: [usize; K],
    rows: [usize; R],
    heater: Option<usize>,
) {
    assert_eq!(law.columns(), columns);
    assert_eq!(law.rows(), rows);
    assert_eq!(law.heater(), heater);
}

#[test]
fn every_law_stands_where_its_element_says() {
    let l = all_laws_network(1.0).laws;
    for n in 0..9 {
        let term = &l.draughts[n];
        stands(term, [term.column], [term.row], None);
        let law = &l.hangar_vapour[n];
        stands(law, law.columns, [law.row], None);
        let law = &l.fan_watts[n];
        stands(law, law.columns, [law.row], None);
        let law = &l.fin_streams[n];
        stands(law, law.columns, [law.row], None);
        stands(
            &l.passages[n],
            l.passages[n].columns,
            l.passages[n].rows,
            None,
        );
        stands(&l.gaps[n], l.gaps[n].columns, l.gaps[n].rows, None);
        let law = &l.exchanges[n];
        stands(law, law.columns, law.rows, None);
        let law = &l.fin_carries[n];
        stands(law, law.columns, law.rows, None);
        let law = &l.fin_cells[n];
        stands(law, law.columns, [law.row], None);
        let law = &l.wall_films[n];
        stands(law, law.columns, law.rows, None);
        let law = &l.oil_surfaces[n];
        stands(law, law.columns, law.rows, None);
        stands(&l.vents[n], l.vents[n].columns, l.vents[n].rows, None);
        let law = &l.breathings[n];
        stands(law, law.columns, law.rows, None);
        stands(&l.links[n], l.links[n].temps, l.links[n].rows, None);
        stands(
            &l.oil_links[n],
            l.oil_links[n].temps,
            l.oil_links[n].rows,
            None,
        );
        let law = &l.radiations[n];
        stands(law, law.temps, law.rows, None);
        stands(
            &l.surfaces[n],
            l.surfaces[n].columns,
            l.surfaces[n].rows,
            None,
        );
        stands(&l.fins[n], l.fins[n].columns, l.fins[n].rows, None);
        stands(
            &l.outdoors[n],
            l.outdoors[n].columns,
            l.outdoors[n].rows,
            None,
        );
        let law = &l.power_faces[n];
        stands(law, law.temps, law.rows, None);
        stands(&l.feeds[n], [], [l.feeds[n].0], None);
        let law = &l.heater_terms[n];
        let heater = Some(law.heater);
        stands(law, [law.term.column], [law.term.row], heater);
        stands(
            &l.heater_constants[n],
            [],
            [l.heater_constants[n].row],
            heater,
        );
        let law = &l.heater_vapours[n];
        stands(law, law.columns, law.rows, heater);
        stands(&l.bonded[n], [l.bonded[n].column], l.bonded[n].rows, heater);
    }
    // The watts of a fan are its own whether it is on or not.
    assert_eq!(l.fan_watts[1].heater(), None);
}

/// A plain law makes choice 0; each other choice has a number of its own.
#[test]
fn laws_that_take_another_way_make_another_choice() {
    let l = all_laws_network(1.0).laws;
    assert_eq!(l.links[3].choice(), 0);
    let facings = [Facing::Up, Facing::Down, Facing::Upright];
    let mut surface = l.surfaces[0].clone();
    let mut outdoors = l.outdoors[0].clone();
    for (number, facing) in facings.into_iter().enumerate() {
        (surface.facing, outdoors.facing) = (facing, facing);
        assert_eq!(usize::from(surface.choice()), number);
        assert_eq!(usize::from(outdoors.choice()), number);
    }
    let film = |facing, drips| {
        let film = WallFilm {
            facing,
            drips,
            ..l.wall_films[0].clone()
        };
        film.choice()
    };
    let mut choices: Vec<u8> = facings
        .into_iter()
        .flat_map(|facing| [film(facing, false), film(facing, true)])
        .collect();
    choices.sort_unstable();
    assert_eq!(choices, [0, 1, 2, 3, 4, 5]);
    let vent = |filler_m| {
        let vent = Vent {
            filler_m,
            ..l.vents[0].clone()
        };
        vent.choice()
    };
    assert_eq!([0.0, 0.03, 0.05].map(vent), [0, 1, 1]);
    let air = |dew_point| {
        let air = HangarVapour {
            dew_point,
            ..l.hangar_vapour[0].clone()
        };
        air.choice()
    };
    assert_eq!([false, true].map(air), [0, 1]);
    for n in 0..9 {
        let limited = u8::from(n >= 5);
        assert_eq!(
            (l.fan_watts[n].choice(), l.bonded[n].choice()),
            (limited, limited)
        );
    }
}

/// Each list of laws that is met: where it lies, and how long it is.
struct Met<'a> {
    laws: &'a Laws,
    lists: Vec<(usize, usize)>,
}

impl Visitor for Met<'_> {
    fn visit<const K: usize, const R: usize, L: Law<K, R> + 'static>(
        &mut self,
        pick: impl Fn(&Laws) -> &[L],
    ) {
        let list = pick(self.laws);
        self.lists.push((list.as_ptr().addr(), list.len()));
    }
}

/// 28 kinds: nine of each, one more of the two that take an auxiliary away from its own row, and one that only does that.
#[test]
fn every_kind_of_law_is_met_once() {
    let net = all_laws_network(1.0);
    let mut met = Met {
        laws: &net.laws,
        lists: Vec::new(),
    };
    visit_all(&mut met);
    let laws: usize = met.lists.iter().map(|(_, count)| count).sum();
    assert_eq!(laws, 25 * 9 + 2 * 10 + 1);
    met.lists.sort_unstable();
    met.lists.dedup();
    assert_eq!(met.lists.len(), 28);
}
