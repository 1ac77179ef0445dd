//! Pockets, the openings between and out of them, and the air inside the engine.

use super::super::body::{Body, FinPassage};
use super::super::moisture::GasRoom;
use super::super::part::Shape;
use super::body::after_flight;
use super::names::{Names, spot_fits};
use super::problem::Problems;

/// The most slices a gap is cut into.
const MOST_SLICES: f64 = 50.0;
/// Wind pressure coefficients that are believed.
const WIND_COEFFICIENT: (f64, f64) = (-3.0, 1.5);

/// Checks the bay's air and the engine's.
pub(super) fn check(body: &Body, names: &Names, problems: &mut Problems) {
    for (i, pocket) in body.pockets.iter().enumerate() {
        let path = format!("engine.pockets[{i}]");
        problems.positive(format!("{path}.volume"), pocket.volume.si());
        problems.positive(format!("{path}.flow_section"), pocket.flow_section.si());
        let mid = pocket.mid_height.si();
        problems.within(format!("{path}.mid_height"), mid, -20.0, 20.0, "m");
        let path = format!("{path}.after_flight");
        after_flight(&pocket.after_flight, &path, problems);
    }
    for (i, passage) in body.passages.iter().enumerate() {
        let path = format!("engine.passages[{i}]");
        let (a, b) = &passage.between;
        pair(a, b, &format!("{path}.between"), names, problems);
        problems.not_negative(format!("{path}.area"), passage.area.si());
        let centre = passage.centre.si();
        problems.within(format!("{path}.centre"), centre, -20.0, 20.0, "m");
        if let Some(tall) = passage.tall {
            problems.positive(format!("{path}.tall"), tall.si());
        }
    }
    for (i, exchange) in body.exchanges.iter().enumerate() {
        let path = format!("engine.exchanges[{i}]");
        pair(&exchange.below, &exchange.above, &path, names, problems);
        problems.not_negative(format!("{path}.area"), exchange.area.si());
    }
    for (i, gap) in body.gaps.iter().enumerate() {
        let path = format!("engine.gaps[{i}]");
        names.pocket(&gap.pocket, &format!("{path}.pocket"), problems);
        problems.not_negative(format!("{path}.area"), gap.area.si());
        let centre = gap.centre.si();
        problems.within(format!("{path}.centre"), centre, -20.0, 20.0, "m");
        problems.not_negative(format!("{path}.tall"), gap.tall.si());
        let slices = gap.slices as f64;
        problems.within(format!("{path}.slices"), slices, 1.0, MOST_SLICES, "");
        let (low, high) = WIND_COEFFICIENT;
        let path = format!("{path}.wind_coefficient");
        problems.within(path, gap.wind_coefficient, low, high, "");
    }
    for (i, passage) in body.fin_passages.iter().enumerate() {
        let path = format!("engine.fin_passages[{i}]");
        fin_passage(passage, &path, names, problems);
    }
    let air = &body.air;
    problems.not_negative("engine.air.stable_mix", air.stable_mix.si());
    problems.not_negative("engine.air.epstein", air.epstein);
    problems.not_negative("engine.air.gust", air.gust);
    if let Some(room) = &body.gas_room {
        gas_room(room, names, problems);
    }
}

fn pair(a: &str, b: &str, path: &str, names: &Names, problems: &mut Problems) {
    let both = names.pocket(a, path, problems) & names.pocket(b, path, problems);
    if both && a == b {
        problems
            .tell(path, format!("the pocket `{a}` opens into itself"))
            .word(a);
    }
}

fn fin_passage(passage: &FinPassage, path: &str, names: &Names, problems: &mut Problems) {
    pair(&passage.below, &passage.above, path, names, problems);
    problems.positive(format!("{path}.free_area"), passage.free_area.si());
    problems.positive(format!("{path}.fin_gap"), passage.fin_gap.si());
    problems.positive(format!("{path}.length"), passage.length.si());
    if passage.fins.is_empty() {
        problems.tell(
            format!("{path}.fins"),
            "a fin passage needs at least one finned part",
        );
    }
    for (name, area) in &passage.fins {
        names.part(name, &format!("{path}.fins"), problems);
        problems.positive(format!("{path}.fins"), area.si());
    }
}

fn gas_room(room: &GasRoom, names: &Names, problems: &mut Problems) {
    let path = "engine.gas_room";
    problems.positive(format!("{path}.volume"), room.volume.si());
    names.pocket(&room.breather, &format!("{path}.breather"), problems);
    problems.not_negative(format!("{path}.breather_l_s"), room.breather_l_s);
    problems.not_negative(
        format!("{path}.filler_draught_l_s"),
        room.filler_draught_l_s,
    );
    problems.positive(format!("{path}.filler_diameter"), room.filler_diameter.si());
    after_flight(
        &room.after_flight,
        &format!("{path}.after_flight"),
        problems,
    );
    for (i, wall) in room.walls.iter().enumerate() {
        let path = format!("{path}.walls[{i}]");
        if let Some(part) = names.part(&wall.part, &format!("{path}.part"), problems) {
            spot_fits(part, wall.at, &format!("{path}.at"), problems);
        }
        problems.positive(format!("{path}.area"), wall.area.si());
        problems.share_above_zero(format!("{path}.mass_factor"), wall.mass_factor);
    }
    if let Some(oil) = &room.oil {
        let path = format!("{path}.oil");
        if let Some(part) = names.part(&oil.part, &format!("{path}.part"), problems)
            && !matches!(part.shape, Shape::stack { .. })
        {
            problems
                .tell(
                    format!("{path}.part"),
                    format!("`{}` is no oil stack, so it has no oil surface", oil.part),
                )
                .word(&oil.part)
                .help("give that part the shape `stack(area: .., depth: .., layers: 4)`");
        }
        problems.positive(format!("{path}.area"), oil.area.si());
        problems.share_above_zero(format!("{path}.oil_film"), oil.oil_film);
    }
}
