//! What a Layout expands into.

use crate::kit::{ENGINES, night};
use coldsoak::files::ron::{parse, written};
use coldsoak::network::assemble;
use coldsoak::quantity::Temperature;
use coldsoak::scenario::check::check;
use coldsoak::scenario::document::Scenario;
use coldsoak::scenario::engine::Engine;
use coldsoak::scenario::opposed::expand;

fn plain(engine: &str) -> Scenario {
    night(engine, Temperature::degC(-9.0), 12)
}

/// The flat-fours have 106 states, the flat-six 132 (with three running integrals, which are books here,
/// 109 and 135).
#[test]
fn the_states_are_as_many_as_the_model_says() {
    for (engine, states) in ENGINES.into_iter().zip([106, 106, 132]) {
        let net = assemble(&check(&plain(engine)).unwrap());
        assert_eq!(net.index.states(), states, "{engine}");
    }
}

/// An expanded Layout, written as a model file and read again, is the identical network.
#[test]
fn an_expanded_layout_reloads_to_the_identical_network() {
    for engine in ENGINES {
        let scenario = plain(engine);
        let Engine::opposed(layout) = &scenario.engine else {
            panic!("a layout");
        };
        let text = written(&Engine::body(expand(layout))).unwrap();
        let reloaded = Scenario {
            engine: parse("expanded.ron", &text).unwrap(),
            ..scenario.clone()
        };
        let networks = [&scenario, &reloaded].map(|s| assemble(&check(s).unwrap()));
        assert!(networks[0] == networks[1], "{engine}");
    }
}
