//! A made-up record for the tests of the charts: lines of the shapes a night has, computed from no physics.

use coldsoak::picture::chart::ChartView;
use coldsoak::picture::draw::Look;
use coldsoak::quantity::{Temperature, Units};
use coldsoak::scenario::clock::{Clock, Moment, NightClock};
use coldsoak::trace::{
    CellInfo, Column, ColumnInfo, ColumnKind, HeaterNote, OilNote, ReadingNote, SwitchCause,
    Switching, Trace,
};

/// Names, end temperature and time scale in hours of the made-up groups.
const GROUPS: [(&str, &str, f64, f64); 8] = [
    ("side_left", "left cylinders", 14.0, 2.2),
    ("side_right", "right cylinders", 25.0, 1.6),
    ("case_upper", "upper crankcase", 13.0, 2.6),
    ("case_lower", "lower crankcase", 11.5, 3.0),
    ("rear", "accessory case and magnetos", 9.0, 3.4),
    ("carburettor", "carburettor and intake", 3.0, 2.0),
    ("sump", "oil sump", 2.4, 3.8),
    ("oil", "oil", 2.0, 5.0),
];

/// A night from 19:00 to 07:30 in UTC.
pub fn clock() -> NightClock {
    let moment = |t: &str| Moment::try_from(t.to_owned()).expect("a time of day");
    let clock = Clock {
        begin: moment("19:00"),
        departure: moment("07:30"),
        zone: Some("UTC".to_owned()),
    };
    clock.resolve().expect("a night")
}

/// A reader of °F.
pub fn view(clock: &NightClock) -> ChartView<'_> {
    ChartView {
        headline: "",
        title: "Top heater, blowing right",
        subtitle: "made-up lines for a test of the drawing",
        clock,
        units: Units::Fahrenheit,
        threshold: Temperature::degF(40.0),
        look: Look::default(),
    }
}

/// Twelve and a half hours, one heater on from 23:00 with two pauses.
pub fn trace() -> Trace {
    let column = |key: &str, kind| Column {
        key: format!("{key}_c"),
        label: key.to_owned(),
        kind,
    };
    let mut legend = ColumnInfo::default();
    for (k, (key, label, ..)) in GROUPS.iter().enumerate() {
        legend
            .columns
            .push(column(key, ColumnKind::CellTemperature));
        legend.readings.push(ReadingNote {
            key: (*key).to_owned(),
            label: (*label).to_owned(),
            columns: vec![(k, 1.0)],
        });
        legend.cells.push(CellInfo {
            column: k,
            part: (*key).to_owned(),
            label: (*label).to_owned(),
            engine: true,
            carburettor: false,
            skin: false,
            heat_capacity_j_per_k: 1000.0,
            pockets: vec![],
        });
    }
    legend.hangar = GROUPS.len();
    legend.outdoors = GROUPS.len() + 1;
    legend
        .columns
        .push(column("hangar", ColumnKind::HangarTemperature));
    legend
        .columns
        .push(column("outdoors", ColumnKind::OutdoorTemperature));
    legend.heaters.push(HeaterNote {
        name: "top heater".to_owned(),
        rated_w: 250.0,
        energy: GROUPS.len() + 2,
    });
    legend.columns.push(column("top", ColumnKind::HeaterEnergy));
    legend.oil = Some(OilNote {
        layers: vec![GROUPS.len() - 1],
    });
    let times_s: Vec<f64> = (0..=750).map(|k| f64::from(k) * 60.0).collect();
    let mut values = Vec::new();
    for t in &times_s {
        let hours = t / 3600.0;
        let warming = (hours - 4.0).max(0.0);
        let hangar = -9.4 - 2.0 * (1.0 - (-hours / 3.0).exp());
        for (_, _, end, scale) in GROUPS {
            values.push(hangar + (end + 11.4) * (1.0 - (-warming / scale).exp()));
        }
        values.push(hangar);
        values.push(-10.0 - 3.0 * (hours / 12.5 * std::f64::consts::PI).sin());
        let on_hours = warming - (hours - 8.0).clamp(0.0, 0.5);
        values.push(250.0 * 3600.0 * on_hours);
    }
    let switch = |hours: f64, on, cause| Switching {
        time_s: hours * 3600.0,
        heater: 0,
        on,
        cause,
    };
    Trace {
        legend,
        times_s,
        values,
        switchings: vec![
            switch(4.0, true, SwitchCause::Hours),
            switch(8.0, false, SwitchCause::Thermostat),
            switch(8.5, true, SwitchCause::Thermostat),
            switch(12.5, false, SwitchCause::Hours),
        ],
        departure_s: 12.5 * 3600.0,
    }
}
