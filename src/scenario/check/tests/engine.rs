//! Names, joints and enclosures of a spoilt engine.

use super::{engine, only, shows, spoilt};
use crate::document::{Source, read};
use crate::quantity::{Area, Resistance, Temperature};
use crate::scenario::body::{Body, Surrounding, SurroundingTemperature};
use crate::scenario::engine::Engine;
use crate::scenario::heater::Place;
use crate::scenario::initial::InitialTemperature;
use crate::scenario::joint::{Contact, Enclosure};
use crate::scenario::part::Spot;

#[test]
fn names_must_lead_somewhere() {
    let p = engine(|b| b.joints[0].to.0 = "summp".into());
    shows(&p, "engine.joints[0].to", "no part named `summp`", "sump");
    assert_eq!(p.word.as_deref(), Some("summp"));
    let p = engine(|b| b.surfaces[0].meets = "uper".into());
    shows(
        &p,
        "engine.surfaces[0].meets",
        "no air volume or surrounding named `uper`",
        "upper",
    );
    let p = engine(|b| b.radiation_pairs[0].to = "upper".into());
    shows(
        &p,
        "engine.radiation_pairs[0].to",
        "`upper` is an air volume",
        "there are",
    );
    let p = engine(|b| b.part_groups[0].parts = vec!["cas".into()]);
    shows(
        &p,
        "engine.part_groups[0].parts",
        "no part named `cas`",
        "case",
    );
    let p = engine(|b| b.cowl_leaks[0].pocket = "case".into());
    shows(
        &p,
        "engine.cowl_leaks[0].pocket",
        "`case` is a part; an air volume is needed",
        "there are",
    );
    let p = engine(|b| b.oil = Some("petrol".into()));
    shows(&p, "engine.oil", "no part named `petrol`", "there are");
    let p = only(spoilt(|s| s.heaters[0].place = Place::at("toop".into())));
    shows(&p, "heaters[0].place", "no place named `toop`", "top");
    let p = only(spoilt(|s| {
        s.heaters[1].thermostat.as_mut().unwrap().sensor = "smp".into()
    }));
    shows(
        &p,
        "heaters[1].thermostat.sensor",
        "no part or air volume",
        "sump",
    );
    let p = only(spoilt(|s| {
        s.covers
            .blankets
            .insert("lower".into(), Resistance::m2K_W(0.3));
    }));
    shows(&p, "covers.blankets.lower", "has no skin", "role: skin");
    let p = only(spoilt(|s| {
        let parts = [("crank".to_owned(), Temperature::degC(1.0))].into();
        s.initial.temperature = InitialTemperature::values {
            all: Temperature::degC(0.0),
            parts,
        };
    }));
    shows(
        &p,
        "initial.temperature.parts.crank",
        "no part or air volume named `crank`",
        "there are",
    );
}

#[test]
fn a_name_is_one_word_of_its_own() {
    let p = engine(|b| {
        let mut twin = b.parts[1].clone();
        twin.label = "another".into();
        b.parts.push(twin);
    });
    shows(
        &p,
        "engine.parts[4].name",
        "`sump` is already taken by engine.parts[1].name",
        "of their own",
    );
    let p = engine(|b| {
        b.surroundings.push(Surrounding {
            name: "hangar".into(),
            temperature: SurroundingTemperature::steady(Temperature::degC(0.0)),
        });
    });
    shows(
        &p,
        "engine.surroundings[0].name",
        "reserved",
        "choose another",
    );
    let p = spoilt(|s| {
        if let Engine::body(b) = &mut s.engine {
            b.air_volumes[1].name = "low er".into();
        }
    });
    assert!(
        p.iter().any(|p| p.what == "`low er` is not a name"),
        "{p:?}"
    );
    let p = only(spoilt(|s| s.heaters[2].name = "fan".into()));
    shows(
        &p,
        "heaters[2]",
        "two heaters named `fan`",
        "another name, as in",
    );
}

#[test]
fn spots_and_joints_must_suit_the_shape() {
    let p = engine(|b| b.joints[0].to.1 = Spot::start);
    shows(
        &p,
        "engine.joints[0].to",
        "`sump` is a lump and has no `start`",
        "it has `whole`",
    );
    let p = engine(|b| b.joints[1].to.1 = Spot::whole);
    shows(&p, "engine.joints[1].contact", "`oil_floor`", "");
    let p = engine(|b| {
        b.joints[0].contact = Contact::perfect;
        b.joints[0].from.1 = Spot::whole;
    });
    shows(
        &p,
        "engine.joints[0].contact",
        "without any resistance",
        "`total`",
    );
    let p = engine(|b| b.joints[0].footprint = Some(Area::m2(0.07)));
    shows(
        &p,
        "engine.joints[0].footprint",
        "larger than the `bottom` of `case`",
        "leave `footprint` out",
    );
    let p = engine(|b| b.surfaces[2].meets = "upper".into());
    shows(
        &p,
        "engine.surfaces[2].meets",
        "`outdoors` is for the `hangar`",
        "",
    );
    let p =
        engine(|b| b.crankcase_gas.as_mut().unwrap().oil.as_mut().unwrap().part = "sump".into());
    shows(
        &p,
        "engine.crankcase_gas.oil.part",
        "`sump` is no oil stack",
        "stack(",
    );
    let p = engine(|b| {
        let mut spare = b.parts[1].clone();
        spare.name = "spare".into();
        b.parts.push(spare);
    });
    shows(
        &p,
        "engine.parts[4].name",
        "nothing is joined to the part `spare`",
        "leave it out",
    );
}

#[test]
fn view_factors_must_add_up_both_ways() {
    let enclosed = |view: Vec<Vec<f64>>| {
        engine(move |b| {
            let surfaces = vec![
                ("case".to_owned(), Area::m2(0.1), 0.5),
                ("hangar".to_owned(), Area::m2(0.2), 0.9),
            ];
            b.enclosures.push(Enclosure { surfaces, view });
        })
    };
    let p = enclosed(vec![vec![0.0, 0.9], vec![0.45, 0.55]]);
    shows(
        &p,
        "engine.enclosures[0].view[0]",
        "must sum to 1, they sum to 0.9000",
        "",
    );
    let p = enclosed(vec![vec![0.0, 1.0], vec![0.4, 0.6]]);
    shows(
        &p,
        "engine.enclosures[0].view[0]",
        "0.10000 m2, but is seen by it with 0.08000 m2",
        "both ways",
    );
    let p = enclosed(vec![vec![0.0, 1.0]]);
    shows(&p, "engine.enclosures[0].view", "2 rows of 2", "");
}

#[test]
fn a_key_of_before_0_2_is_refused_with_its_new_name() {
    for (old, new) in [
        ("pockets: []", "air_volumes: []"),
        ("sights: []", "radiation_pairs: []"),
        ("gas_room: None", "crankcase_gas: None"),
    ] {
        let source = Source::new("old.ron", &format!("(parts: [], {old})"));
        let errors = read::<Body>(&source).errors.into_kept();
        assert_eq!(errors.len(), 1, "{errors:?}");
        assert_eq!(errors[0].suggestion.as_deref(), Some(new));
    }
}
