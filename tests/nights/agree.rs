//! One set of simulated nights: compare, when, spread and night report the same numbers of the same night.

use coldsoak::files::night::load_builtin;
use coldsoak::night::run;
use coldsoak::report::night::Chance;
use coldsoak::report::provenance::Provenance;
use coldsoak::report::spread::Spread as SpreadResult;
use coldsoak::report::{
    Report, compare as compare_report, night as night_report, when as when_report,
};
use coldsoak::scenario::document::Scenario;
use coldsoak::study::case::Case;
use coldsoak::study::compare::{CompareOptions, compare};
use coldsoak::study::simulate::{SampleCount, simulate};
use coldsoak::study::spread::Spread;
use coldsoak::study::summary::Summary;
use coldsoak::study::when::{WhenOptions, when};
use serde_json::Value;

/// The nights of each command.
const COUNT: SampleCount = SampleCount {
    nights: 16,
    seed: 3,
};

/// What all commands report of the simulated nights: the chance with its interval; margin, coldest temperature, time to the
/// minimum, condensation hours, grams, oil and energy at 10, 50 and 90 percent; the coldest parts.
const SHARED: [&str; 10] = [
    "nights",
    "ready",
    "margin_k",
    "coldest_c",
    "time_to_threshold_h",
    "condensation_h",
    "upper_g",
    "oil_c",
    "energy_kwh",
    "coldest",
];

fn json(report: &Report) -> Value {
    serde_json::from_str(&report.json()).unwrap()
}

/// A night with plugs that fit, so that its start is in the middle of the night.
fn closed() -> Scenario {
    let mut scenario = load_builtin("small-engine-top").unwrap().scenario;
    scenario.covers.inlet_plug = 0.99;
    scenario.covers.outlet_plug = 0.95;
    scenario.uncertain.clear();
    scenario
}

fn nights() -> Vec<(&'static str, Scenario)> {
    let built_in = |name| (name, load_builtin(name).unwrap().scenario);
    let names = [
        "demo",
        "small-engine-top",
        "six-after-flight",
        "radial-underneath",
        "thermostat-pad",
    ];
    let mut all: Vec<_> = names.into_iter().map(built_in).collect();
    all.push(("closed", closed()));
    all
}

#[test]
fn all_commands_report_the_same_chance_and_figures_of_a_night() {
    let from = Provenance::new(Vec::new(), Vec::new());
    for (name, scenario) in nights() {
        let nominal = run(&scenario).unwrap();
        let target = 0.95;

        let study = Spread::of(&scenario, COUNT.seed).unwrap();
        let outcomes = study.nights(&study.samples(COUNT.nights));
        let title = scenario.title.as_str();
        let summary = Summary::of(title, &scenario.criteria, &outcomes, &[], None, COUNT.seed);
        let spread = SpreadResult {
            nominal: &nominal,
            inputs: study.inputs(),
            summary: &summary,
            seed: COUNT.seed,
            target,
            finished: true,
        };
        let spread = spread.report(&from);

        let bands = simulate(&scenario, COUNT, &|_| ()).unwrap();
        let chance = Chance {
            bands: &bands,
            count: COUNT,
            target,
        };
        let night = night_report::report(&nominal, Some(chance), "", &from);

        let options = CompareOptions {
            count: Some(COUNT),
            target,
            all_starts: true,
        };
        let choices = [Case::named(title)];
        let compared = compare(&scenario, &choices, options, &[], &|_| ()).unwrap();
        let compared = compare_report::report(title, &compared, &from);

        let [of_spread, of_night, of_compare] = [json(&spread), json(&night), json(&compared)];
        let spread_summary = &of_spread["summary"];
        for key in SHARED {
            let expected = &spread_summary[key];
            assert!(!expected.is_null(), "{name}: spread has no {key}");
            assert_eq!(
                &of_night["uncertainty"]["summary"][key], expected,
                "{name}: {key}"
            );
            let choice = &of_compare["uncertainty"]["choices"][0];
            assert_eq!(&choice[key], expected, "{name}: {key} of compare");
        }
        // The first sentence of spread and night is the same, and compare has its numbers where it keeps the hours.
        let first = |report: &Report| report.text(200).split(").").next().unwrap().to_owned();
        assert_eq!(first(&spread), first(&night), "{name}");

        let options = WhenOptions {
            count: COUNT,
            target,
            ..WhenOptions::default()
        };
        let answer = when(&scenario, options, &[], &|_| ()).unwrap();
        let of_when = json(&when_report::report(&answer, &scenario, &from));
        let best = &of_compare["choices"][0]["best_start"];
        if !best.is_null() && scenario.heaters.len() == 1 {
            let start = &of_when["starts"][0];
            let minutes = "minutes_before_departure";
            assert_eq!(start[minutes], best[minutes], "{name}: best start");
            assert_eq!(
                of_when["summary"]["ready"], best["ready"],
                "{name}: its chance"
            );
            assert_eq!(of_when["reached"], best["reached"], "{name}");
            assert_eq!(of_compare["reached"], of_when["reached"], "{name}");
            println!(
                "{name}: {} min, {}",
                start[minutes], best["ready"]["fraction"]
            );
        }
    }
}
