//! What must hold of every page: small, whole, escaped, its heat adding up. `.ci/report` reads it in a browser.

use super::{budget, choices_html, html, steps};
use crate::files::night::load_named_from;
use crate::files::sources::Outside;
use crate::night::{Night, run};
use crate::picture::map::Map;
use crate::report::provenance::Provenance;
use crate::study::case::Case;
use crate::study::compare::compare;

/// The largest page, bytes.
const LARGEST: usize = 600_000;

fn night(name: &str, title: &str) -> Night {
    let mut scenario = load_named_from(name, Outside::Refused).unwrap().scenario;
    scenario.title = title.to_owned();
    run(&scenario).unwrap()
}

fn page(night: &Night) -> String {
    let typed = ["night", "</script><b>"].map(str::to_owned);
    html(
        night,
        "an <engine>",
        &Provenance::new(typed.to_vec(), Vec::new()),
    )
    .unwrap()
}

#[test]
fn a_page_is_small_asks_nothing_of_a_network_and_runs_no_script_of_a_file() {
    for name in ["demo", "radial-underneath", "block-cooling"] {
        let page = page(&night(name, "<script>alert(1)</script>"));
        assert!(page.len() <= LARGEST, "{name}: {} bytes", page.len());
        for address in ["http://", "https://", "//cdn"] {
            // Names of XML are no addresses that anything is fetched from.
            let told = page.replace("http://www.w3.org/2000/svg", "");
            assert!(!told.contains(address), "{name}: {address}");
        }
        assert_eq!(page.matches("<script>").count(), 1, "{name}");
        assert!(page.contains("&lt;script&gt;alert(1)"), "{name}");
        assert!(page.contains("an &lt;engine&gt;"), "{name}");
    }
}

/// Names of choices and a title of a file are escaped too; a chart for a sheet and one for a telephone.
#[test]
fn a_page_of_choices_is_small_escaped_and_has_the_card_of_what_is_advised() {
    let scenario = |name: &str| load_named_from(name, Outside::Refused).unwrap().scenario;
    let choices = ["small-engine-top", "block-cooling"]
        .map(|name| Case::whole(format!("<i>{name}</i>"), &scenario(name)));
    let compared = compare(&scenario("demo"), &choices, &|| {}).unwrap();
    let from = Provenance::new(vec!["compare".to_owned()], Vec::new());
    let page = choices_html("<title>", &compared, "an <engine>", &from).unwrap();
    assert!(page.len() <= LARGEST, "{} bytes", page.len());
    assert!(!page.contains("<i>") && !page.contains("<script"));
    let (advised, _) = compared.recommended().unwrap();
    assert_eq!(advised, "<i>small-engine-top</i>");
    let card = "Card for the hangar wall: &lt;i&gt;small-engine-top&lt;&#x2f;i&gt;";
    assert!(page.contains(card), "no {card}");
    assert_eq!(page.matches("<svg").count(), 2);
}

#[test]
fn the_steps_go_forward_and_the_departure_is_one_of_them() {
    for name in ["demo", "thermostat-pad", "block-cooling"] {
        let night = night(name, "a night");
        let (_, steps) = steps::steps(&night, &Map::of(&night));
        assert!((3..=9).contains(&steps.len()), "{name}: {}", steps.len());
        assert_eq!(steps.iter().filter(|s| s.departure).count(), 1, "{name}");
        assert!(
            steps.last().unwrap().departure && steps[0].name.starts_with("start"),
            "{name}"
        );
    }
}

/// What is drawn is what is kept and lost, but for the little that the air holds.
#[test]
fn the_heat_adds_up() {
    for name in ["demo", "radial-underneath", "thermostat-pad"] {
        let rows = budget::rows(&night(name, "a night"));
        let left = rows.last().unwrap();
        let kwh: f64 = left.cells[0].replace('\u{2212}', "-").parse().unwrap();
        assert!(
            left.name.starts_with("what is left") && kwh.abs() <= 0.02,
            "{name}: {kwh}"
        );
    }
}
