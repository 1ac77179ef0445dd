//! Traces made by hand, so that a finding can be tested against what anyone can work out on paper.

use coldsoak::trace::{
    BearingNote, CellInfo, Column, ColumnKind, GasNote, HeaterNote, LossPath, OilNote, PocketNote,
    ReadingNote, SwitchCause, Switching, Trace, WallNote,
};

/// A trace in the making: its times are set, columns are added one by one.
pub struct Handmade {
    trace: Trace,
    columns: Vec<Vec<f64>>,
}

impl Handmade {
    /// A trace sampled at these hours, that leaves at the last of them.
    pub fn hours(hours: &[f64]) -> Self {
        let times_s: Vec<f64> = hours.iter().map(|h| h * 3600.0).collect();
        let trace = Trace {
            departure_s: times_s.last().copied().unwrap_or(0.0),
            times_s,
            ..Trace::default()
        };
        Self {
            trace,
            columns: Vec::new(),
        }
    }
    /// Leaves at another hour than the last.
    pub fn leaving(mut self, hour: f64) -> Self {
        self.trace.departure_s = hour * 3600.0;
        self
    }
    /// A column, one value a sample (or one value for all of them).
    pub fn column(&mut self, kind: ColumnKind, values: &[f64]) -> usize {
        let index = self.columns.len();
        let key = format!("column{index}");
        self.trace.legend.columns.push(Column {
            label: key.clone(),
            key,
            kind,
        });
        let samples = self.trace.times_s.len();
        let values = match values {
            [one] => vec![*one; samples],
            many => many.to_vec(),
        };
        assert_eq!(values.len(), samples);
        self.columns.push(values);
        index
    }
    /// An engine part of one cell with a heat capacity of 1000 J/K, to be altered at will.
    pub fn cell(&mut self, part: &str, temps_c: &[f64]) -> &mut CellInfo {
        let column = self.column(ColumnKind::CellTemperature, temps_c);
        let cells = &mut self.trace.legend.cells;
        cells.push(CellInfo {
            column,
            part: part.to_owned(),
            label: format!("the {part}"),
            engine: true,
            carburettor: false,
            skin: false,
            heat_capacity_j_per_k: 1000.0,
            pockets: Vec::new(),
        });
        let last = cells.len() - 1;
        &mut cells[last]
    }
    /// A group over columns with equal weights.
    pub fn reading(&mut self, key: &str, columns: &[usize]) {
        let note = reading(key, columns);
        self.trace.legend.readings.push(note);
    }
    /// A cylinder of its own temperature.
    pub fn cylinder(&mut self, key: &str, temps_c: &[f64]) {
        let column = self.column(ColumnKind::CellTemperature, temps_c);
        self.trace.legend.cylinders.push(reading(key, &[column]));
    }
    /// A pocket of air.
    pub fn pocket(&mut self, name: &str, temps_c: &[f64], g_per_m3: &[f64]) -> usize {
        let temperature = self.column(ColumnKind::PocketTemperature, temps_c);
        let vapour = self.column(ColumnKind::PocketVapour, g_per_m3);
        let pockets = &mut self.trace.legend.pockets;
        pockets.push(PocketNote {
            name: name.to_owned(),
            label: format!("the {name} air"),
            temperature,
            vapour,
            heat_capacity_j_per_k: 100.0,
        });
        pockets.len() - 1
    }
    /// The air inside the engine and the water in the oil, its breather in the first pocket.
    pub fn gas(&mut self, temps_c: &[f64], g_per_m3: &[f64], oil_water_g: &[f64]) {
        let temperature = self.column(ColumnKind::GasTemperature, temps_c);
        let vapour = self.column(ColumnKind::GasVapour, g_per_m3);
        let oil_water = Some(self.column(ColumnKind::OilWater, oil_water_g));
        self.trace.legend.gas = Some(GasNote {
            temperature,
            vapour,
            oil_water,
            breather_pocket: 0,
            volume_m3: 0.009,
            heat_capacity_j_per_k: 10.0,
        });
    }
    /// An inner wall of 1 m2, so that grams are grams per square metre.
    pub fn wall(&mut self, name: &str, group: &str, temps_c: &[f64], films_g: &[f64]) {
        let temperature = self.column(ColumnKind::CellTemperature, temps_c);
        let film = self.column(ColumnKind::Film, films_g);
        self.trace.legend.walls.push(WallNote {
            name: name.to_owned(),
            label: format!("the {name}"),
            group: group.to_owned(),
            area_m2: 1.0,
            temperature,
            film,
        });
    }
    /// A heater and the energy it has drawn.
    pub fn heater(&mut self, name: &str, rated_w: f64, drawn_j: &[f64]) {
        let energy = self.column(ColumnKind::HeaterEnergy, drawn_j);
        self.trace.legend.heaters.push(HeaterNote {
            name: name.to_owned(),
            rated_w,
            energy,
        });
    }
    /// Switches a heater on or off.
    pub fn switch(&mut self, hour: f64, heater: usize, on: bool, cause: SwitchCause) {
        self.trace.switchings.push(Switching {
            time_s: hour * 3600.0,
            heater,
            on,
            cause,
        });
    }
    /// A heater that is on by its hours from one to another.
    pub fn plugged(&mut self, name: &str, rated_w: f64, from_h: f64, to_h: f64) {
        let heater = self.trace.legend.heaters.len();
        self.heater(name, rated_w, &[0.0]);
        self.switch(from_h, heater, true, SwitchCause::Hours);
        self.switch(to_h, heater, false, SwitchCause::Hours);
    }
    /// Layers of oil, lowest first.
    pub fn oil(&mut self, layers_c: &[&[f64]]) {
        let layer = |temps: &&[f64]| self.column(ColumnKind::CellTemperature, temps);
        let layers = layers_c.iter().map(layer).collect();
        self.trace.legend.oil = Some(OilNote { layers });
    }
    /// A main bearing of 50 mm.
    pub fn bearing(&mut self, case_c: &[f64], crank_c: &[f64]) {
        let case = self.column(ColumnKind::CellTemperature, case_c);
        let crank = self.column(ColumnKind::CellTemperature, crank_c);
        self.trace.legend.bearings.push(BearingNote {
            label: "the front main bearing".to_owned(),
            crank: vec![(crank, 1.0)],
            case: vec![(case, 1.0)],
            diameter_m: 0.05,
        });
    }
    /// Heat lost by a path so far.
    pub fn loss(&mut self, path: LossPath, lost_j: &[f64]) {
        let column = self.column(ColumnKind::LostHeat, lost_j);
        self.trace.legend.losses.push((path, column));
    }
    /// The trace.
    pub fn trace(mut self) -> Trace {
        self.trace
            .switchings
            .sort_by(|a, b| a.time_s.total_cmp(&b.time_s));
        let samples = 0..self.trace.times_s.len();
        self.trace.values = samples
            .flat_map(|k| self.columns.iter().map(move |column| column[k]))
            .collect();
        self.trace
    }
}

fn reading(key: &str, columns: &[usize]) -> ReadingNote {
    let weight = 1.0 / columns.len() as f64;
    ReadingNote {
        key: key.to_owned(),
        label: format!("the {key}"),
        columns: columns.iter().map(|&c| (c, weight)).collect(),
    }
}
