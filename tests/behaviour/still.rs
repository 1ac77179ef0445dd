//! Without a heater.

use super::{computed, mean};
use crate::kit::{ENGINES, night};
use coldsoak::quantity::{Mass, Temperature};
use coldsoak::scenario::engine::Engine;
use coldsoak::scenario::initial::InitialTemperature;
use coldsoak::scenario::opposed::expand;
use coldsoak::scenario::weather::Weather;
use coldsoak::trace::ColumnKind;

const HANGAR: Temperature = Temperature::degC(-9.0);

/// All three engines, parked, all at the hangar's temperature, no water, and no vapour inside that the oil could
/// take up: nothing moves.
#[test]
fn a_dry_engine_as_cold_as_its_hangar_stays_as_it_is() {
    for engine in ENGINES {
        let mut scenario = night(engine, HANGAR, 12);
        let Engine::opposed(layout) = &scenario.engine else {
            panic!("a layout");
        };
        let mut body = expand(layout);
        body.crankcase_gas = None;
        scenario.engine = Engine::body(body);
        let night = computed(&scenario);
        for cell in &night.trace.legend.cells {
            for c in night.trace.column(cell.column) {
                assert!((c + 9.0).abs() < 1e-9, "{engine}: {} at {c}", cell.label);
            }
        }
    }
}

/// All three engines, parked, warm parts and cold ones between 35 and -9 °C, no water: no cell or pocket ever
/// leaves the range of its start and surroundings, and the mean falls all the time.
#[test]
fn a_dry_unheated_engine_stays_within_its_extremes_and_cools_steadily() {
    for engine in ENGINES {
        let mut scenario = night(engine, HANGAR, 12);
        scenario.initial.water_in_oil = Mass::g(0.0);
        scenario.initial.temperature = InitialTemperature::values {
            all: Temperature::degC(20.0),
            parts: [("oil", 35.0), ("hub", -9.0), ("cylL1head", 30.0)]
                .map(|(name, c)| (name.to_owned(), Temperature::degC(c)))
                .into(),
        };
        let night = computed(&scenario);
        let kinds = [ColumnKind::CellTemperature, ColumnKind::PocketTemperature];
        for (i, column) in night.trace.legend.columns.iter().enumerate() {
            if kinds.contains(&column.kind) {
                for c in night.trace.column(i) {
                    assert!(
                        (-9.001..=35.001).contains(&c),
                        "{engine}: {} at {c}",
                        column.key
                    );
                }
            }
        }
        let total = |k: usize| -> f64 {
            let row = night.trace.sample(k);
            let cells = night.trace.legend.cells.iter();
            cells.map(|c| c.heat_capacity_j_per_k * row[c.column]).sum()
        };
        let means: Vec<f64> = (0..night.trace.len()).map(total).collect();
        assert!(means.windows(2).all(|w| w[1] < w[0] + 1.0), "{engine}");
    }
}

/// Flat-four 3.1 L, plugged with no leaks left, started warm at 20 °C, 15 g: the stronger the wind, the colder.
#[test]
fn with_every_gap_sealed_more_wind_is_always_colder() {
    let mut last = f64::INFINITY;
    for wind in [0.0, 0.5, 1.0, 2.0, 4.0, 8.0] {
        let mut scenario = night("flat-four-3l1", HANGAR, 6);
        let Engine::opposed(layout) = &mut scenario.engine else {
            panic!("a layout");
        };
        layout.bay.seam_area = coldsoak::quantity::Area::m2(1e-7);
        layout.bay.shaft_gap = coldsoak::quantity::Area::m2(1e-7);
        scenario.covers.inlet_plug = 1.0;
        scenario.covers.outlet_plug = 1.0;
        scenario.initial.temperature = InitialTemperature::values {
            all: Temperature::degC(20.0),
            parts: Default::default(),
        };
        scenario.hangar.wind_fraction = 1.0;
        scenario.weather = Weather::steady {
            outdoors: HANGAR,
            humidity: 0.8,
            wind: Some(coldsoak::quantity::Speed::m_s(wind)),
        };
        let reached = mean(&computed(&scenario));
        assert!(reached < last, "{wind} m/s: {reached} after {last}");
        last = reached;
    }
}
