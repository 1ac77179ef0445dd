//! What is said around the answer, run as nights: the least changes, the what-ifs, the checkpoint.

use super::{asked, heater, night, on_before, planned};
use coldsoak::night::{NightError, run};
use coldsoak::quantity::{Duration, Power, Temperature};
use coldsoak::report::provenance::Provenance;
use coldsoak::report::when::report;
use coldsoak::scenario::document::Scenario;
use coldsoak::scenario::hours::Hours;
use coldsoak::scenario::weather::Weather;
use coldsoak::solver::SolveError;
use coldsoak::study::change::Change;
use coldsoak::study::when::{Switches, Unsolved, Verdict, When, when};

/// The small engine on a colder night, with a fan that is too weak for it.
fn too_weak() -> Scenario {
    let mut scenario = night("small-engine-top");
    scenario.weather = Weather::steady {
        outdoors: Temperature::degC(-16.0),
        humidity: 0.8,
        wind: None,
    };
    scenario
}

fn ready(scenario: &Scenario) -> bool {
    run(scenario).unwrap().findings.ready.ready_at_departure
}

/// A night that cannot be ready: each change that is advised makes it so when it is run, one step less does not,
/// and they stand in the order that is told.
#[test]
fn every_advised_change_makes_it_ready_and_one_step_less_does_not() {
    let base = too_weak();
    let spare = [
        heater("sump-pad-150w", "sump-pad"),
        heater("bay-fan-350w", "bottom"),
    ];
    let answer = when(&base, &spare, &|_| ()).unwrap();
    let Verdict::Never(never) = &answer.verdict else {
        panic!("250 W are too few");
    };
    assert!(!answer.whole_time.findings.ready.ready_at_departure);
    assert!(never.remedies.len() >= 3, "{:?}", never.in_vain);
    let whole = |scenario: &Scenario| {
        let most = Switches::of(scenario).unwrap().most;
        on_before(scenario, &vec![most; scenario.heaters.len()])
    };
    for remedy in &never.remedies {
        println!("{:?}: {:.2} kWh", remedy.change, remedy.probe.kwh);
        assert!(remedy.probe.ready.ready_at_departure);
        assert!(ready(&remedy.scenario));
        let less = match &remedy.change {
            Change::Watts { heater, watts } => Change::Watts {
                heater: *heater,
                watts: watts - 10.0,
            },
            Change::Plugged { share } => Change::Plugged {
                share: share - 0.01,
            },
            Change::Blanket {
                pockets,
                resistance_m2k_w,
            } => Change::Blanket {
                pockets: pockets.clone(),
                resistance_m2k_w: resistance_m2k_w - 0.01,
            },
            Change::BegunEarlier { minutes } => Change::BegunEarlier {
                minutes: minutes - 1,
            },
            Change::Added(added) => {
                let mut weaker = (**added).clone();
                weaker.power = Power::W(weaker.power.si() - 10.0);
                Change::Added(Box::new(weaker))
            }
            other => panic!("not a candidate: {other:?}"),
        };
        // The advised change by itself, the heaters on for the whole night, written without the study's switches.
        // An added heater begins with its own hours, which are always; the switched one is set to the whole night.
        let by_hand = |change: &Change| {
            let changed = change.of(&base);
            match change {
                Change::Added(_) => changed,
                _ => whole(&changed),
            }
        };
        assert!(ready(&by_hand(&remedy.change)), "{:?}", remedy.change);
        assert!(!ready(&by_hand(&less)), "{less:?} would do");
    }
    let rank: Vec<(bool, f64)> = never
        .remedies
        .iter()
        .map(|r| (r.overloads, (r.probe.kwh * 1000.0).round()))
        .collect();
    assert!(rank.windows(2).all(|two| two[0] <= two[1]), "{rank:?}");
    for tried in &never.in_vain {
        if let Some(probe) = &tried.probe {
            assert!(!probe.ready.ready_at_departure, "{:?}", tried.change);
        }
    }
}

/// Each what-if, run by hand: the plan comes to what is told, the needed start is ready and a minute later is not.
#[test]
fn what_ifs_are_real_nights() {
    let base = night("small-engine-top");
    let answer = asked(&base);
    let plan = planned(&answer);
    assert_eq!(plan.what_if.len(), 3);
    let mut moved = 0;
    for what in &plan.what_if {
        let changed = what.change.of(&base);
        let findings = run(&on_before(&changed, &plan.starts)).unwrap().findings;
        assert_eq!(findings.ready, what.probe.ready, "{:?}", what.change);
        let Some(needed) = &what.needed else { continue };
        assert!(ready(&on_before(&changed, needed)), "{:?}", what.change);
        if *needed != plan.starts {
            moved += 1;
            assert!(
                !ready(&on_before(&changed, &[needed[0] - 1])),
                "{:?}",
                what.change
            );
        }
    }
    assert!(moved >= 1);
    let colder = plan.what_if[0].needed.as_ref().expect("earlier would do");
    assert!(
        colder[0] > plan.starts[0],
        "a colder night needs an earlier start"
    );
}

/// The checkpoint is one part of the planned night, an hour before departure: it can be reached, and no other that can
/// be is colder at departure.
#[test]
fn the_checkpoint_is_read_from_the_planned_night() {
    let base = night("small-engine-top");
    let answer = asked(&base);
    let plan = planned(&answer);
    let check = plan.checkpoint.as_ref().expect("it is heated");
    let night = run(&on_before(&base, &plan.starts)).unwrap();
    assert_eq!(check.time_s, night.trace.departure_s - 3600.0);
    let cells = &night.trace.legend.cells;
    let spot = cells.iter().find(|cell| cell.part == check.spot).unwrap();
    assert!(spot.engine && !spot.pockets.is_empty(), "{spot:?}");
    assert_eq!(
        night.trace.at(check.time_s)[spot.column].to_bits(),
        check.temp_c.to_bits()
    );
    let leaves = night.trace.at(night.trace.departure_s);
    for cell in cells.iter().filter(|c| c.engine && !c.pockets.is_empty()) {
        assert!(leaves[cell.column] >= leaves[spot.column], "{}", cell.label);
    }
    let told = text(&answer, &base);
    assert!(
        told.contains(&format!("put a thermometer on the {}", check.label)),
        "{told}"
    );
    assert!(told.contains(" ± 5 °F, rising"), "{told}");
}

/// The report of an answer on one line.
fn text(answer: &When, base: &Scenario) -> String {
    let from = Provenance::new(Vec::new(), Vec::new());
    report(answer, base, &from).text(80).replace('\n', " ")
}

/// A changed night that cannot be computed is named, and the answer stands.
#[test]
fn an_unsolvable_what_if_is_named_in_a_note() {
    let base = night("small-engine-top");
    let mut answer = asked(&base);
    assert!(answer.unsolved.is_empty());
    answer.unsolved.push(Unsolved {
        change: Change::Draught { times: 4.0 },
        why: NightError::Solve(SolveError::NotANumber {
            time_h: 1.5,
            column: "the sump".to_owned(),
        }),
    });
    let told = text(&answer, &base);
    let note = "Not known: 4 times the air movement in the hangar. That night could not be computed: at 1.500 h the \
                value of the sump is no longer a number.";
    assert!(told.contains(note), "{told}");
    assert!(told.starts_with("Switch on"), "{told}");
}

/// What decides is what fails a minute later: warmth by default, the oil if it is asked to be warmer than all else.
#[test]
fn what_decides_is_what_fails_a_minute_later() {
    let mut oil = night("small-engine-top");
    oil.criteria.min_oil_temperature = Some(Temperature::degC(9.0));
    for (scenario, decides) in [(night("small-engine-top"), "Cold {"), (oil, "ColdOil")] {
        let answer = asked(&scenario);
        let binding = format!("{:?}", planned(&answer).binding);
        assert!(binding.contains(decides), "{binding}");
    }
}

/// A warm night needs no heat, and says so; nothing is searched beyond it.
#[test]
fn a_mild_night_needs_no_heat() {
    let mut mild = night("small-engine-top");
    mild.weather = Weather::steady {
        outdoors: Temperature::degC(8.0),
        humidity: 0.6,
        wind: None,
    };
    let answer = asked(&mild);
    assert!(planned(&answer).needs_no_heat());
    assert_eq!(planned(&answer).night.findings.energy.kwh, 0.0);
    assert!(planned(&answer).checkpoint.is_none());
}

/// A heater on a timer of its own stays as it is, and alone it is a problem told at its hours.
#[test]
fn a_timer_of_its_own_is_left_alone() {
    let mut scenario = night("small-engine-top");
    let at = |text: &str| text.to_owned().try_into().unwrap();
    scenario.heaters[0].hours = Hours::between(vec![(at("20:00"), at("22:00"))]);
    let told = when(&scenario, &[], &|_| ()).unwrap_err().to_string();
    assert!(
        told.contains("heaters[0].hours") && told.contains("timer"),
        "{told}"
    );
    scenario.heaters.clear();
    let told = when(&scenario, &[], &|_| ()).unwrap_err().to_string();
    assert!(told.contains("no heater"), "{told}");
    let mut both = night("small-engine-top");
    both.heaters[0].hours = Hours::between(vec![(at("20:00"), at("22:00"))]);
    both.heaters.push(heater("bay-fan-350w", "bottom"));
    both.heaters[1].hours = Hours::before_departure(Duration::h(1.0));
    assert_eq!(Switches::of(&both).unwrap().heaters, [1]);
}
