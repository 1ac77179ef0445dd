//! A night to begin with: the text of a commented file that runs as it stands.
//!
//! Where a heater can go depends on the engine, so the places are tried at the gate itself, the heater's own
//! first; what is handed out has passed it.

use super::fault::{Fault, FileError};
use super::library::{Kind, builtin, model, unknown};
use super::night::{NightFile, resolve};
use super::ron::parse;
use super::sources::Sources;
use super::starter_text::{HeaterLine, Page, written};
use super::weather::read_plain;
use crate::scenario::body::Body;
use crate::scenario::check::check;
use crate::scenario::engine::Engine;
use crate::scenario::heater::{Heater, Place};
use crate::scenario::opposed::expand;
use crate::scenario::part::Role;

/// Who asks for the names, in faults.
const ASKED_BY: &str = "the command line";
/// Shares of the inlets that are plugged, tried in this order: the default, then open, which a duct may need.
const INLET_PLUGS: [f64; 2] = [0.84, 0.0];

/// The built-in models a night is to refer to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Wanted {
    /// The engine.
    pub engine: String,
    /// The heaters, none or several.
    pub heaters: Vec<String>,
    /// The hangar.
    pub hangar: String,
    /// The oil.
    pub oil: String,
    /// A weather record; steady weather if none is named.
    pub weather: Option<String>,
}

/// Local clocks of the built-in records: name, beginning, departure, zone.
const CLOCKS: [(&str, &str, &str, &str); 4] = [
    (
        "greensboro_nc_1996-02-04",
        "1996-02-04 18:00",
        "1996-02-05 07:30",
        "America/New_York",
    ),
    (
        "chicago_il_1986-01-06",
        "1986-01-06 18:00",
        "1986-01-07 07:30",
        "America/Chicago",
    ),
    (
        "newark_nj_2013-01-22",
        "2013-01-22 18:00",
        "2013-01-23 07:30",
        "America/New_York",
    ),
    (
        "alamosa_co_2016-01-01",
        "2015-12-31 18:00",
        "2016-01-01 08:00",
        "America/Denver",
    ),
];

/// The text of a night that refers to these models.
///
/// *Errors*: a name that is not built in, with the nearest; or a heater for which this engine has no place.
pub fn starter(wanted: &Wanted) -> Result<String, FileError> {
    for (kind, name) in [
        (Kind::Engine, &wanted.engine),
        (Kind::Hangar, &wanted.hangar),
        (Kind::Oil, &wanted.oil),
    ]
    .into_iter()
    .chain(wanted.heaters.iter().map(|name| (Kind::Heater, name)))
    .chain(wanted.weather.iter().map(|name| (Kind::Weather, name)))
    {
        known(kind, name)?;
    }
    let body = match model(Kind::Engine, &wanted.engine)? {
        Engine::opposed(layout) => expand(&layout),
        Engine::body(body) => body,
    };
    let mut said = None;
    for inlet_plug in INLET_PLUGS {
        match placed(wanted, &body, inlet_plug) {
            Ok(page) => return Ok(written(&page)),
            Err(fault) => said = said.or(Some(fault)),
        }
    }
    Err(said.unwrap_or_else(|| Fault::of(ASKED_BY, "no such night passes the gate").into()))
}

/// The page with a place for every heater, if all have one with this much of the inlets plugged.
fn placed(wanted: &Wanted, body: &Body, inlet_plug: f64) -> Result<Page, FileError> {
    let mut page = page(wanted, body, inlet_plug)?;
    for name in &wanted.heaters {
        let heater: Heater = model(Kind::Heater, name)?;
        let twice = page.heaters.iter().filter(|h| h.heater == *name).count();
        let called = (twice > 0).then(|| format!("{} {}", heater.name, twice + 1));
        let own = match &heater.place {
            Place::at(place) => Some(place.clone()),
            Place::aimed(_) => None,
        };
        let others = body.places.keys().filter(|p| Some(*p) != own.as_ref());
        let mut refusal = None;
        let mut found = false;
        for place in own.iter().chain(others) {
            let Some(aim) = body.places.get(place) else {
                continue;
            };
            page.heaters.push(HeaterLine {
                heater: name.clone(),
                name: called.clone(),
                place: place.clone(),
                moved_from: moved_from(&heater.place, place),
                power_w: heater.power.si(),
                thermostat: heater.thermostat.as_ref().and_then(|t| {
                    // A thermostat that feels a part this engine does not have feels what the heater heats.
                    let there = body.parts.iter().any(|p| p.name == t.sensor);
                    let sensor = aim.strike.first().filter(|_| !there)?.0.clone();
                    Some((sensor, t.lo.celsius(), t.hi.celsius()))
                }),
            });
            match passes(&written(&page)) {
                Ok(()) => {
                    found = true;
                    break;
                }
                Err(e) => {
                    refusal = refusal.or(Some(e));
                    page.heaters.pop();
                }
            }
        }
        if !found {
            let what = format!(
                "the engine `{}` has no place where the heater `{name}` could go",
                wanted.engine
            );
            let fault = Fault::of(ASKED_BY, what);
            let fault = match refusal {
                Some(why) => fault.help(format!("at the first that was tried: {why}")),
                None => fault.help("it names no places at all"),
            };
            return Err(fault.into());
        }
    }
    passes(&written(&page)).map_err(|why| Fault::of(ASKED_BY, why))?;
    Ok(page)
}

/// Where a model puts its heater, if the draft puts it elsewhere.
fn moved_from(own: &Place, place: &str) -> Option<String> {
    match own {
        Place::at(own) if own == place => None,
        Place::at(own) => Some(format!("at \"{own}\"")),
        Place::aimed(_) => Some("where it is aimed by hand".to_owned()),
    }
}

fn page(wanted: &Wanted, body: &Body, inlet_plug: f64) -> Result<Page, FileError> {
    let clock = match &wanted.weather {
        None => ("19:00".to_owned(), "07:30".to_owned(), None),
        Some(name) => recorded_clock(name)?,
    };
    let label = |pocket: &String| {
        let found = body.pockets.iter().find(|p| p.name == *pocket);
        found.map_or(String::new(), |p| p.label.clone())
    };
    let pockets = body.parts.iter().filter_map(|part| match &part.role {
        Role::skin(pocket) => Some((pocket.clone(), label(pocket))),
        _ => None,
    });
    let mut skins: Vec<(String, String)> = pockets.collect();
    skins.sort();
    skins.dedup();
    Ok(Page {
        engine: wanted.engine.clone(),
        oil: wanted.oil.clone(),
        hangar: wanted.hangar.clone(),
        weather: wanted.weather.clone(),
        clock,
        inlet_plug,
        skins,
        propeller: body.parts.iter().any(|p| p.role == Role::propeller),
        part: body.parts.first().map(|p| p.name.clone()),
        places: body.places.keys().cloned().collect(),
        heaters: Vec::new(),
    })
}

/// Beginning, departure and zone for a record; in UTC from its first full hour if its zone is not known.
fn recorded_clock(name: &str) -> Result<(String, String, Option<String>), FileError> {
    if let Some((_, begin, departure, zone)) = CLOCKS.iter().find(|(n, ..)| *n == name) {
        return Ok((
            (*begin).to_owned(),
            (*departure).to_owned(),
            Some((*zone).to_owned()),
        ));
    }
    let text = builtin(Kind::Weather, name).unwrap_or("");
    let record = read_plain(name, text)?;
    let first = record.readings.first().map_or(0.0, |r| r.unix_s);
    let hour = (first / 3600.0).ceil() as i64;
    let told = |hour: i64| {
        jiff::Timestamp::from_second(hour * 3600).map_or(String::new(), |at| {
            at.to_string().replace('T', " ").chars().take(16).collect()
        })
    };
    Ok((told(hour), told(hour + 12), Some("UTC".to_owned())))
}

/// Whether a text is a night that passes the validate; the first thing that is wrong otherwise.
fn passes(text: &str) -> Result<(), String> {
    let file = "the new night";
    let night: NightFile = parse(file, text).map_err(|e| e.to_string())?;
    let mut sources = Sources::builtin();
    let scenario = resolve(&night, file, &mut sources).map_err(|e| e.to_string())?;
    check(&scenario)
        .map(|_| ())
        .map_err(|problems| problems.first().map_or(String::new(), |p| p.what.clone()))
}

/// Refuses a name that is not built in, with the nearest.
///
/// *Errors*: no such built-in model.
pub fn known(kind: Kind, name: &str) -> Result<(), FileError> {
    if builtin(kind, name).is_some() {
        return Ok(());
    }
    let (what, help) = unknown(kind, name);
    Err(Fault::of(ASKED_BY, what).help(help).into())
}

#[cfg(test)]
mod tests {
    use super::super::library::names;
    use super::*;

    fn wanted(engine: &str, heaters: &[&str]) -> Wanted {
        Wanted {
            engine: engine.to_owned(),
            heaters: heaters.iter().map(|h| (*h).to_owned()).collect(),
            hangar: "shut".to_owned(),
            oil: "15w-50".to_owned(),
            weather: None,
        }
    }

    /// Optional keys stand behind `//` without a blank; words behind `// `.
    fn with_every_optional_key(text: &str) -> String {
        let live = |line: &str| {
            let inner = line.trim_start();
            match inner.strip_prefix("//") {
                Some(key) if !key.starts_with(' ') && !key.is_empty() => key.to_owned(),
                _ => line.to_owned(),
            }
        };
        text.lines().map(live).collect::<Vec<_>>().join("\n")
    }

    #[test]
    fn every_engine_takes_every_heater_it_has_a_place_for() {
        for engine in names(Kind::Engine) {
            for heater in names(Kind::Heater) {
                let told = starter(&wanted(engine, &[heater]));
                // The block stands in the open: what blows or shines into a bay has no place there.
                let bonded = heater.contains("pad") || heater.contains("rings");
                if engine == "aluminium-block" && !bonded {
                    let e = told.unwrap_err().to_string();
                    assert!(e.contains("no place"), "{e}");
                } else {
                    told.unwrap_or_else(|e| panic!("{engine} {heater}: {e}"));
                }
            }
        }
    }

    #[test]
    fn every_record_and_several_heaters_make_a_night() {
        for weather in names(Kind::Weather) {
            let mut asked = wanted(
                "flat-six-8l5",
                &["sump-pad-250w", "sump-pad-250w", "lamp-100w"],
            );
            asked.weather = Some(weather.to_owned());
            starter(&asked).unwrap_or_else(|e| panic!("{weather}: {e}"));
        }
        starter(&wanted("flat-four-3l1", &[])).unwrap();
    }

    #[test]
    fn the_optional_keys_are_keys() {
        for engine in ["flat-four-5l9", "radial-nine"] {
            let text = starter(&wanted(engine, &["bay-fan-350w"])).unwrap();
            let all = with_every_optional_key(&text);
            assert!(
                all.lines()
                    .filter(|l| text.lines().all(|t| t != *l))
                    .count()
                    > 15
            );
            passes(&all).unwrap_or_else(|e| panic!("{engine}: {e}\n{all}"));
        }
    }

    /// Every heater that does not stand at the place of its model says so in the draft, and no other does.
    #[test]
    fn a_heater_that_is_moved_says_so() {
        let mut moved = 0;
        for engine in names(Kind::Engine) {
            for heater in names(Kind::Heater) {
                let Ok(text) = starter(&wanted(engine, &[heater])) else {
                    continue;
                };
                let model: Heater = model(Kind::Heater, heater).unwrap();
                let own = match &model.place {
                    Place::at(own) => {
                        text.contains(&format!("place: at(\"{own}\"),\n            hours"))
                    }
                    Place::aimed(_) => false,
                };
                assert_eq!(
                    !own,
                    text.contains("// Its model goes "),
                    "{engine} {heater}"
                );
                moved += usize::from(!own);
            }
        }
        assert!(moved > 0);
    }

    #[test]
    fn a_name_that_is_not_built_in_is_told_with_the_nearest() {
        let e = starter(&wanted("flat-four-5l8", &[]))
            .unwrap_err()
            .to_string();
        assert!(e.contains("did you mean `flat-four-5l9`?"), "{e}");
    }
}
