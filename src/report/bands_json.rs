//! Bands, shares and verdicts for other programs.

use crate::study::paired::{Bands, By, Paired, Standing, Verdict};
use crate::study::quantile::{Band, Share};
use serde::Serialize;

/// A comparison over plausible nights.
#[derive(Debug, Clone, Serialize)]
pub struct PairedJson {
    nights: u32,
    seed: u32,
    choices: Vec<BandsJson>,
    verdicts: Vec<VerdictJson>,
}

/// The headlines of one choice.
#[derive(Debug, Clone, Serialize)]
pub struct BandsJson {
    name: String,
    nights: usize,
    ready: Option<Share>,
    time_to_threshold_h: Option<BandJson>,
    margin_k: Option<BandJson>,
    coldest_c: Option<BandJson>,
    upper_g: Option<BandJson>,
    oil_c: Option<BandJson>,
    energy_kwh: Option<BandJson>,
    coldest: Vec<ColdestJson>,
}

/// A band; a null within it is a "never".
#[derive(Debug, Clone, Copy, Serialize)]
pub struct BandJson {
    p10: Option<f64>,
    p50: Option<f64>,
    p90: Option<f64>,
}

#[derive(Debug, Clone, Serialize)]
struct ColdestJson {
    label: String,
    nights: usize,
}

#[derive(Debug, Clone, Serialize)]
struct VerdictJson {
    first: String,
    second: String,
    by: &'static str,
    ahead: usize,
    behind: usize,
    nights: usize,
    typically_h: Option<f64>,
    typically_k: Option<f64>,
    standing: &'static str,
}

impl From<Band> for BandJson {
    fn from(band: Band) -> Self {
        let finite = |x: f64| x.is_finite().then_some(x);
        Self {
            p10: finite(band.p10),
            p50: finite(band.p50),
            p90: finite(band.p90),
        }
    }
}

impl From<&Bands> for BandsJson {
    fn from(b: &Bands) -> Self {
        Self {
            name: b.name.clone(),
            nights: b.nights,
            ready: b.ready,
            time_to_threshold_h: b.warm_h.map(Into::into),
            margin_k: b.margin_k.map(Into::into),
            coldest_c: b.coldest_c.map(Into::into),
            upper_g: b.upper_g.map(Into::into),
            oil_c: b.oil_c.map(Into::into),
            energy_kwh: b.kwh.map(Into::into),
            coldest: b
                .coldest
                .iter()
                .map(|(label, nights)| ColdestJson {
                    label: label.clone(),
                    nights: *nights,
                })
                .collect(),
        }
    }
}

impl From<&Verdict> for VerdictJson {
    fn from(v: &Verdict) -> Self {
        let typically = |by| v.typically.filter(|_| v.by == by);
        Self {
            first: v.first.clone(),
            second: v.second.clone(),
            by: match v.by {
                By::Hours => "time_to_threshold",
                By::Margin => "margin",
            },
            ahead: v.ahead,
            behind: v.behind,
            nights: v.nights,
            typically_h: typically(By::Hours),
            typically_k: typically(By::Margin),
            standing: match v.standing() {
                Standing::First => "first",
                Standing::Second => "second",
                Standing::Tied => "tied",
            },
        }
    }
}

impl From<&Paired> for PairedJson {
    fn from(paired: &Paired) -> Self {
        Self {
            nights: paired.nights,
            seed: paired.seed,
            choices: paired.bands.iter().map(Into::into).collect(),
            verdicts: paired.verdicts.iter().map(Into::into).collect(),
        }
    }
}
