//! The heater of each law, the choice it makes, and that each is met once.

use super::all_laws_network::all_laws_network;
use crate::laws::{Element, HangarVapour, Law, Laws, Vent, Visitor, WallFilm, visit_all};
use crate::physics::convection::Facing;

#[test]
fn laws_of_a_heater_name_it() {
    let l = all_laws_network(1.0).laws;
    for n in 0..9 {
        let heater = Some(n % 2);
        assert_eq!(l.heater_terms[n].law.heater(), heater);
        assert_eq!(l.heater_constants[n].law.heater(), heater);
        assert_eq!(l.heater_vapours[n].law.heater(), heater);
        assert_eq!(l.bonded[n].law.heater(), heater);
        // The watts of a fan are its own whether it is on or not.
        assert_eq!(l.fan_watts[n].law.heater(), None);
    }
}

/// A plain law makes choice 0; each other choice has a number of its own.
#[test]
fn laws_that_take_another_way_make_another_choice() {
    let l = all_laws_network(1.0).laws;
    assert_eq!(l.links[3].law.choice(), 0);
    let facings = [Facing::Up, Facing::Down, Facing::Upright];
    let mut surface = l.surfaces[0].law.clone();
    let mut outdoors = l.outdoors[0].law.clone();
    for (number, facing) in facings.into_iter().enumerate() {
        (surface.facing, outdoors.facing) = (facing, facing);
        assert_eq!(usize::from(surface.choice()), number);
        assert_eq!(usize::from(outdoors.choice()), number);
    }
    let film = |facing, drips| {
        let film = WallFilm {
            facing,
            drips,
            ..l.wall_films[0].law.clone()
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
            ..l.vents[0].law.clone()
        };
        vent.choice()
    };
    assert_eq!([0.0, 0.03, 0.05].map(vent), [0, 1, 1]);
    let air = |dew_point| HangarVapour { dew_point }.choice();
    assert_eq!([false, true].map(air), [0, 1]);
    for n in 0..9 {
        let limited = u8::from(n >= 5);
        assert_eq!(
            (l.fan_watts[n].law.choice(), l.bonded[n].law.choice()),
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
        pick: impl Fn(&Laws) -> &[Element<L, K, R>],
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
