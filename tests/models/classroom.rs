//! What the instructor's page says the class should find.

use coldsoak::files::comparison::load_builtin_comparison;
use coldsoak::findings::Findings;
use coldsoak::night::run;

fn of(comparison: &str) -> Vec<(String, Findings)> {
    let loaded = load_builtin_comparison(comparison).expect("it is built in");
    loaded
        .choices
        .iter()
        .map(|choice| {
            let night = run(&choice.night).expect("it runs");
            (choice.name.clone(), night.findings)
        })
        .collect()
}

fn named<'a>(all: &'a [(String, Findings)], name: &str) -> &'a Findings {
    &all.iter().find(|(n, _)| n == name).expect("a choice").1
}

fn coldest_c(found: &Findings) -> f64 {
    found.coldest.as_ref().expect("an engine").temp_c
}

fn upper_g(found: &Findings) -> f64 {
    found.condensation.as_ref().expect("a gas room").upper_g
}

#[test]
fn the_same_watts_leave_another_part_the_last_in_another_place() {
    let all = of("class-places");
    let parts: Vec<&str> = all
        .iter()
        .map(|(_, f)| f.coldest.as_ref().expect("an engine").part.as_str())
        .collect();
    assert!(parts.iter().any(|p| *p != parts[0]), "{parts:?}");
    let temps: Vec<f64> = all.iter().map(|(_, f)| coldest_c(f)).collect();
    let spread = temps.iter().fold(f64::MIN, |a, b| a.max(*b))
        - temps.iter().fold(f64::MAX, |a, b| a.min(*b));
    assert!(spread > 1.5, "{temps:?}");
}

#[test]
fn a_pad_gives_warm_oil_and_wet_walls_unless_it_comes_late_on_a_warm_engine() {
    let all = of("class-oil");
    let oil_c = |f: &Findings| f.oil.as_ref().expect("oil").temp_c;
    let (pad, fan) = (named(&all, "sump pad alone"), named(&all, "fan alone"));
    let late = named(&all, "fan, pad the last 30 min");
    let both = named(&all, "fan and pad all night");
    assert!(oil_c(pad) > oil_c(fan));
    assert!(coldest_c(pad) < 0.0 && coldest_c(fan) > 0.0);
    assert!(upper_g(pad) > 5.0, "{}", upper_g(pad));
    // The fan alone leaves the walls dry, so does a pad that comes late; a pad all night wets them all the same.
    assert!(upper_g(fan) < 1.0 && upper_g(late) < 1.0);
    assert!(coldest_c(both) > coldest_c(fan) && upper_g(both) > 5.0);
}

#[test]
fn closing_the_cowl_is_worth_many_watts() {
    let all = of("class-covers");
    let plain = coldest_c(named(&all, "250 W, as parked"));
    let watts = coldest_c(named(&all, "500 W, as parked")) - plain;
    let plugs = coldest_c(named(&all, "250 W, good plugs")) - plain;
    let wool = coldest_c(named(&all, "250 W, good plugs, blanket")) - plain;
    assert!(
        watts > 0.0 && plugs > 0.0 && wool > plugs,
        "{watts} {plugs} {wool}"
    );
    assert!(wool > 0.5 * watts, "{watts} {plugs} {wool}");
}
